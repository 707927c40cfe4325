//! The result of `pick`.

use std::sync::Arc;

use super::cautions::CAUTIONS;
use super::many::{LineDone, each_line};
use crate::budget::not_computable;
use crate::diag::{Diagnostic, shorten};
use crate::model::{Design, Line, Part};
use crate::parts::{Bill, Check, LinePick, PartPick, passes, pick_line, port_bill, smallest_margin};

/// The result of `pick`.
#[derive(Debug, Clone)]
pub struct PickReport {
    /// Title of the sheet.
    pub title: Option<String>,
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
}

/// One part on one line.
#[derive(Debug, Clone)]
pub struct PartPickReport {
    /// Name of the part.
    pub part: String,
    /// Its worst-case capacitance on this line, one line to ground; `None` for a rail.
    pub capacitance_f: Option<f64>,
    /// Its checks.
    pub checks: Vec<Check>,
    /// Whether all of them pass; `not stated` does not.
    pub passes: bool,
    /// The smallest margin of its checks.
    pub smallest_margin: Option<f64>,
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
    let lines: Vec<&Line> = indices.iter().filter_map(|index| design.lines.get(*index)).collect();
    let picks = each_line(&lines, |line| {
        let judged = pick_line(line, &design.parts).map_err(|fault| not_computable(line, fault));
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
    Ok(PickReport { title: design.title.clone(), lines: reports, bills, cautions })
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
    }
}

fn part(part: &Part, judged: &PartPick) -> PartPickReport {
    PartPickReport {
        part: part.name.clone(),
        capacitance_f: judged.capacitance.map(|c| c.0),
        checks: judged.checks.clone(),
        passes: passes(&judged.checks),
        smallest_margin: smallest_margin(&judged.checks),
        cost_per_line: judged.cost_per_line,
    }
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
        let found = port_bill(own.iter().map(|i| (lines[*i].count, &picks[*i])), parts);
        if !found.proven {
            let name = port.as_ref().map_or("of no name".to_owned(), |p| format!("\"{}\"", shorten(p, 60)));
            cautions.push(format!(
                "The bill of the port {name} is the cheapest found; it is too large to prove that none is cheaper."
            ));
        }
        bills.push(bill_report(port.clone(), &found, |line| lines[own[line]].name.clone(), parts));
    }
    bills
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
    }
}
