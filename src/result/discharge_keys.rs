//! Discharges on many lines as JSON and CSV.

use super::discharges::{DischargeReport, DischargedLine, settled};
use super::keys::{Keyed, Keys};
use super::report::top;
use super::{csv, json};
use crate::transient::LineDischarge;

/// Every number as indented JSON.
pub(crate) fn discharge_json(report: &DischargeReport) -> String {
    json::text(report)
}

/// A row for each line.
pub(crate) fn discharge_csv(report: &DischargeReport) -> String {
    csv::rows(&report.lines)
}

impl Keyed for DischargeReport {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        top(this.map(|report| (report.title.as_deref(), report.set.as_slice())), to);
        to.list("lines", this.map(|report| &report.lines));
        to.texts("cautions", this.map(|report| &report.cautions));
    }
}

impl Keyed for DischargedLine {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("name", this.map(|line| line.name.as_str()));
        LineDischarge::keys(this.and_then(|line| line.found.as_ref().ok()), to);
        let both = this.and_then(DischargedLine::struck).map(|contact| [&contact.positive, &contact.negative]);
        to.flag("settled", both.map(|both| both.into_iter().all(settled)));
        to.text("not_stated", this.and_then(DischargedLine::not_struck).as_deref());
        to.text("surge_not_stated", this.and_then(DischargedLine::not_surged).as_deref());
    }
}
