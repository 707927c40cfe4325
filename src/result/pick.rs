//! The result of `pick`.

use std::sync::Arc;

use super::cautions::CAUTIONS;
use super::line::Note;
use super::many::{LineDone, each_line};
use crate::budget::not_computable;
use crate::diag::{Diagnostic, shorten};
use crate::model;
use crate::model::{Design, Line, Part, SetValue};
use crate::parts::{
    Bill, Check, Discharges, LinePick, Packages, PartPick, apart, bill_of_recommended, closest, passes, pick_line_with,
    port_bill,
};
use crate::units::significant;

/// The result of `pick`.
#[derive(Debug, Clone)]
pub struct PickReport {
    /// Title of the sheet.
    pub title: Option<String>,
    /// The values that are others than the sheet's.
    pub set: Vec<SetValue>,
    /// The lines, each with every part.
    pub lines: Vec<LinePickReport>,
    /// What each port needs, in the order of the lines.
    pub bills: Vec<BillReport>,
    /// What the reader must keep in mind.
    pub cautions: Vec<String>,
}

impl PickReport {
    /// Whether every line has a part that passes.
    pub fn passes(&self) -> bool {
        self.lines.iter().all(|line| line.recommended.is_some())
    }
}

/// One line with every part of the sheet.
#[derive(Debug, Clone)]
pub struct LinePickReport {
    /// Name of the line.
    pub name: String,
    /// `lane`, `feed`, `bus` or `rail`.
    pub kind: &'static str,
    /// Connector it belongs to.
    pub port: Option<String>,
    /// Identical lines.
    pub count: u32,
    /// Largest capacitance, one line to ground, as the sheet states the line; `None` where nothing bounds it, where
    /// nothing is allowed, and for a rail.
    pub budget_f: Option<f64>,
    /// The parts, in sheet order.
    pub parts: Vec<PartPickReport>,
    /// The recommended part.
    pub recommended: Option<String>,
    /// Why that one, or what stops each.
    pub why: String,
    /// Whether the line breaks a limit whatever is fitted.
    pub breaks: bool,
    /// Whether its values have tolerances, within which no part is judged.
    pub varies: bool,
}

/// One part on one line.
#[derive(Debug, Clone)]
pub struct PartPickReport {
    /// Name of the part.
    pub part: String,
    /// Its worst-case capacitance on this line, one line to ground; `None` for a rail.
    pub capacitance_f: Option<f64>,
    /// Largest capacitance of a part with its inductance, resistance and mismatch; `None` where there is none.
    pub budget_f: Option<f64>,
    /// Its checks.
    pub checks: Vec<Check>,
    /// Whether all of them pass; `not stated` does not.
    pub passes: bool,
    /// The smallest margin of its checks.
    pub smallest_margin: Option<f64>,
    /// The check that has it.
    pub smallest_margin_check: Option<&'static str>,
    /// What was taken where the part or the line does not state it.
    pub warnings: Vec<Note>,
    /// A lane's share of the cost of a package.
    pub cost_per_line: Option<f64>,
}

/// The packages of one port.
#[derive(Debug, Clone)]
pub struct BillReport {
    /// The port; `None` for the lines that name none.
    pub port: Option<String>,
    /// Packages, part by part.
    pub parts: Vec<PackagesReport>,
    /// Cost in all; `None` where a part used states none.
    pub cost: Option<f64>,
    /// Lines that no part passes on.
    pub unserved: Vec<String>,
    /// Why it takes another part for a line than the recommended one, where it does.
    pub why: Option<String>,
}

/// The packages of one part.
#[derive(Debug, Clone)]
pub struct PackagesReport {
    /// Name of the part.
    pub part: String,
    /// How many packages.
    pub packages: u32,
    /// The lines they serve.
    pub lines: Vec<ShareReport>,
    /// Channels left over.
    pub spare_channels: u32,
    /// Cost of the packages.
    pub cost: Option<f64>,
}

/// What a line takes of the packages of a part.
#[derive(Debug, Clone)]
pub struct ShareReport {
    /// Name of the line.
    pub name: String,
    /// Channels.
    pub channels: u32,
}

/// Judges every part of the sheet on the lines at these places of [`Design::lines`]; `done` is called once a line.
///
/// # Errors
/// The lanes whose numbers go beyond what can be computed.
pub fn pick(design: &Design, indices: &[usize], done: LineDone<'_>) -> Result<PickReport, Vec<Diagnostic>> {
    pick_with(design, indices, &Discharges::default(), done)
}

/// The same with what is known of discharges already.
pub(crate) fn pick_with(
    design: &Design,
    indices: &[usize],
    discharges: &Discharges,
    done: LineDone<'_>,
) -> Result<PickReport, Vec<Diagnostic>> {
    let lines: Vec<&Line> = indices.iter().filter_map(|index| design.lines.get(*index)).collect();
    let picks = each_line(&lines, |line| {
        let judged = pick_line_with(line, &design.parts, discharges).map_err(|fault| not_computable(line, fault));
        done();
        judged
    })?;
    let reports: Vec<LinePickReport> = lines.iter().zip(&picks).map(|(l, p)| line(l, p, &design.parts)).collect();
    let mut cautions: Vec<String> = CAUTIONS.map(str::to_owned).to_vec();
    for (report, pick) in reports.iter().zip(&picks) {
        let chosen = pick.choice.recommended.and_then(|index| pick.parts.get(index));
        for caution in chosen.iter().flat_map(|part| &part.cautions) {
            let (line, part) = (shorten(&report.name, 60), report.recommended.as_deref().unwrap_or_default());
            cautions.push(format!("\"{line}\" with \"{}\": {}.", shorten(part, 60), caution.text));
        }
    }
    let bills = bills(&reports, &picks, &design.parts, &mut cautions);
    Ok(PickReport { title: design.title.clone(), set: design.set.clone(), lines: reports, bills, cautions })
}

fn line(line: &Line, pick: &LinePick, parts: &[Arc<Part>]) -> LinePickReport {
    let head = &line.head;
    let recommended = pick.choice.recommended.and_then(|index| parts.get(index));
    LinePickReport {
        name: head.name.clone(),
        kind: line.word(),
        port: head.port.clone(),
        count: head.count,
        budget_f: pick.budget.map(|c| c.0),
        parts: parts.iter().zip(&pick.parts).map(|(p, judged)| part(p, judged)).collect(),
        recommended: recommended.map(|part| part.name.clone()),
        why: pick.choice.why.clone(),
        breaks: pick.breaks,
        varies: head.has_tolerance(),
    }
}

fn part(part: &Part, judged: &PartPick) -> PartPickReport {
    let closest = closest(&judged.checks);
    PartPickReport {
        part: part.name.clone(),
        capacitance_f: judged.capacitance.map(|c| c.0),
        budget_f: judged.budget.map(|c| c.0),
        checks: judged.checks.clone(),
        passes: passes(&judged.checks),
        smallest_margin: closest.and_then(|check| check.margin),
        smallest_margin_check: closest.map(|check| check.check),
        warnings: judged.guesses.iter().map(guess).collect(),
        cost_per_line: judged.cost_per_line,
    }
}

fn guess(note: &model::Note) -> Note {
    Note { code: note.code, text: note.text.clone(), line: None }
}

/// A bill for each port, in the order in which the ports are first named.
fn bills(
    lines: &[LinePickReport],
    picks: &[LinePick],
    parts: &[Arc<Part>],
    cautions: &mut Vec<String>,
) -> Vec<BillReport> {
    let mut ports: Vec<&Option<String>> = Vec::new();
    for line in lines {
        if !ports.contains(&&line.port) {
            ports.push(&line.port);
        }
    }
    let mut bills = Vec::with_capacity(ports.len());
    for port in ports {
        let own: Vec<usize> = (0..lines.len()).filter(|i| lines[*i].port == *port).collect();
        let members = || own.iter().map(|i| (lines[*i].count, &picks[*i]));
        let found = port_bill(members(), parts);
        let recommended = |line: usize| picks[own[line]].choice.recommended;
        let named = |line: usize| lines[own[line]].name.clone();
        let of = port.as_ref().map_or("of no name".to_owned(), |port| quoted(port));
        cautions.extend(found.parts.iter().filter_map(|used| split(used, &of, &recommended, &parts[used.part])));
        if !found.proven {
            cautions.push(format!(
                "The bill of the port {of} is the cheapest found; it is too large to prove that none is cheaper."
            ));
        }
        let others = taken_instead(&found, own.len(), &recommended, &named, parts);
        let why = (!others.is_empty()).then(|| {
            format!("{}: {}", others.join("; "), why_together(&found, &bill_of_recommended(members(), parts)))
        });
        bills.push(BillReport { why, ..bill_report(port.clone(), &found, named, parts) });
    }
    bills
}

fn quoted(name: &str) -> String {
    format!("\"{}\"", shorten(name, 60))
}

/// That pairs take two packages, where nothing said of a line tells.
fn split(used: &Packages, port: &str, recommended: &impl Fn(usize) -> Option<usize>, part: &Part) -> Option<String> {
    let told =
        part.strength.channels == Some(1) && used.lines.iter().all(|share| recommended(share.line) == Some(used.part));
    let pairs = if used.split == 1 { "1 pair takes".to_owned() } else { format!("{} pairs take", used.split) };
    (used.split > 0 && !told).then(|| {
        let name = quoted(&part.name);
        format!("In the bill of the port {port} {pairs} one channel each of two packages of {name}, {}.", apart(part))
    })
}

/// What the bill takes for a line in place of the part recommended for it.
fn taken_instead(
    bill: &Bill,
    lines: usize,
    recommended: &impl Fn(usize) -> Option<usize>,
    name: &impl Fn(usize) -> String,
    parts: &[Arc<Part>],
) -> Vec<String> {
    let quoted = |index: usize| quoted(&parts[index].name);
    let instead = |line: usize| {
        let serves = bill.parts.iter().filter(|used| used.lines.iter().any(|share| share.line == line));
        let taken: Vec<usize> = serves.map(|used| used.part).collect();
        let best = recommended(line).filter(|best| !taken.is_empty() && taken != [*best])?;
        let taken: Vec<String> = taken.into_iter().map(quoted).collect();
        Some(format!("\"{}\" takes {} and not {} alone", shorten(&name(line), 60), taken.join(" and "), quoted(best)))
    };
    (0..lines).filter_map(instead).collect()
}

/// Why the packages of all lines together are others than those of the lines one by one.
fn why_together(together: &Bill, alone: &Bill) -> String {
    let packages = |bill: &Bill| bill.parts.iter().map(|used| used.packages).sum::<u32>();
    let (few, many) = (packages(together), packages(alone));
    match together.cost.zip(alone.cost) {
        Some((less, more)) if less < more => format!(
            "whole packages for all lines of the port cost {} in all, with the recommended part of each line {}",
            significant(less, 6),
            significant(more, 6)
        ),
        Some((cost, same)) if cost == same && few < many => {
            format!("at the same cost in all that is {few} packages, and {many} with the recommended part of each line")
        }
        Some((cost, same)) if cost == same => {
            "cost and packages are the same, and the part that stands first in the sheet is taken".to_owned()
        }
        Some(_) => "the search for the cheapest bill was cut short".to_owned(),
        None => {
            "a package without a cost is bought only where no other part serves, then the cost in all counts".to_owned()
        }
    }
}

fn bill_report(port: Option<String>, bill: &Bill, name: impl Fn(usize) -> String, parts: &[Arc<Part>]) -> BillReport {
    let packages = bill.parts.iter().map(|used| PackagesReport {
        part: parts[used.part].name.clone(),
        packages: used.packages,
        lines: used
            .lines
            .iter()
            .map(|share| ShareReport { name: name(share.line), channels: share.channels })
            .collect(),
        spare_channels: used.spare_channels,
        cost: used.cost,
    });
    BillReport {
        port,
        parts: packages.collect(),
        cost: bill.cost,
        unserved: bill.unserved.iter().map(|line| name(*line)).collect(),
        why: None,
    }
}
