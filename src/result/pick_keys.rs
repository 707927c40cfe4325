//! The result of `pick` as JSON and CSV.

use super::keys::{Keyed, Keys};
use super::pick::{BillReport, LinePickReport, PackagesReport, PartPickReport, PickReport, ShareReport};
use super::report::top;
use super::{csv, json};
use crate::parts::{Check, Verdict};

/// Every number as indented JSON.
pub(crate) fn pick_json(report: &PickReport) -> String {
    json::text(report)
}

/// A row for each line with each part.
pub(crate) fn pick_csv(report: &PickReport) -> String {
    let on = |line| move |part| Tried(line, part);
    let tried: Vec<Tried<'_>> = report.lines.iter().flat_map(|line| line.parts.iter().map(on(line))).collect();
    csv::rows(&tried)
}

impl Keyed for PickReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        top(this.map(|report| (report.title.as_deref(), report.set.as_slice())), to);
        to.list("lines", this.map(|report| &report.lines));
        to.list("bills", this.map(|report| &report.bills));
        to.texts("cautions", this.map(|report| &report.cautions));
    }
}

impl Keyed for LinePickReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        line("name", this, to);
        to.list("parts", this.map(|line| &line.parts));
        to.text("recommended", this.and_then(|line| line.recommended.as_deref()));
        to.text("why", this.map(|line| line.why.as_str()));
    }
}

fn line<K: Keys>(name: &str, line: Option<&LinePickReport>, to: &mut K) {
    to.text(name, line.map(|line| line.name.as_str()));
    to.text("kind", line.map(|line| line.kind));
    to.text("port", line.and_then(|line| line.port.as_deref()));
    to.count("count", line.map(|line| line.count));
    to.number("budget_f", line.and_then(|line| line.budget_f));
}

impl Keyed for PartPickReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("part", this.map(|part| part.part.as_str()));
        to.number("capacitance_f", this.and_then(|part| part.capacitance_f));
        to.number("budget_f", this.and_then(|part| part.budget_f));
        to.list("checks", this.map(|part| &part.checks));
        to.flag("passes", this.map(|part| part.passes));
        to.number("smallest_margin", this.and_then(|part| part.smallest_margin));
        to.text("smallest_margin_check", this.and_then(|part| part.smallest_margin_check));
        to.list("warnings", this.map(|part| &part.warnings));
        to.number("cost_per_line", this.and_then(|part| part.cost_per_line));
    }
}

impl Keyed for BillReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("port", this.and_then(|bill| bill.port.as_deref()));
        to.list("parts", this.map(|bill| &bill.parts));
        to.number("cost", this.and_then(|bill| bill.cost));
        to.texts("unserved", this.map(|bill| &bill.unserved));
        to.text("why", this.and_then(|bill| bill.why.as_deref()));
    }
}

impl Keyed for PackagesReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("part", this.map(|used| used.part.as_str()));
        to.count("packages", this.map(|used| used.packages));
        to.list("lines", this.map(|used| &used.lines));
        to.count("spare_channels", this.map(|used| used.spare_channels));
        to.number("cost", this.and_then(|used| used.cost));
    }
}

impl Keyed for ShareReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("name", this.map(|share| share.name.as_str()));
        to.count("channels", this.map(|share| share.channels));
    }
}

/// A part on a line, as a row.
struct Tried<'a>(&'a LinePickReport, &'a PartPickReport);

impl Tried<'_> {
    /// The names of the checks that end in this way.
    fn checks(&self, verdict: Verdict) -> String {
        let checks = self.1.checks.iter().filter(|check| check.verdict == verdict);
        checks.map(Check::name).collect::<Vec<_>>().join("; ")
    }
}

impl Keyed for Tried<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let part = this.map(|tried| tried.1);
        let checks = |verdict| this.map(|tried| tried.checks(verdict));
        line("line", this.map(|tried| tried.0), to);
        to.text("part", part.map(|part| part.part.as_str()));
        to.number("capacitance_f", part.and_then(|part| part.capacitance_f));
        to.number("part_budget_f", part.and_then(|part| part.budget_f));
        to.flag("passes", part.map(|part| part.passes));
        to.text("failed", checks(Verdict::Fails).as_deref());
        to.text("not_stated", checks(Verdict::NotStated).as_deref());
        to.number("smallest_margin", part.and_then(|part| part.smallest_margin));
        to.text("smallest_margin_check", part.and_then(|part| part.smallest_margin_check));
        to.number("cost_per_line", part.and_then(|part| part.cost_per_line));
        to.flag("recommended", this.map(|Tried(line, part)| line.recommended.as_ref() == Some(&part.part)));
        let warnings = part.map(|part| part.warnings.iter().map(|note| note.text.as_str()).collect::<Vec<_>>());
        to.text("warnings", warnings.map(|texts| texts.join("; ")).as_deref());
        let whys = part.map(|part| part.checks.iter().filter_map(Check::reason).collect::<Vec<_>>());
        to.text("why", whys.map(|whys| whys.join("; ")).as_deref());
    }
}
