//! What a reader is shown of rails.

use super::budgets::{CHIP, Parts};
use super::checks::check_grid;
use super::grid::Grid;
use super::section::{Section, notes};
use crate::parts::{Check, Verdict};
use crate::result::RailResult;
use crate::units::decimal::engineering;
use crate::words::about::counted;
use crate::words::named::named;
use crate::words::verdict::{chip_cell, rail_verdict};

/// The table of rails; none without rails.
pub(crate) fn grid(rails: &[RailResult], parts: Parts) -> Option<Grid> {
    if rails.is_empty() {
        return None;
    }
    let struck = parts == Parts::Named && rails.iter().any(|rail| rail.head.checks.iter().any(Check::is_of_pin));
    let row = |rail: &RailResult| {
        let count = |verdict| rail.checks(verdict).to_string();
        let mut row = vec![
            rail.head.name.clone(),
            rail.head.count.to_string(),
            voltage(rail),
            rail.head.part.clone().unwrap_or_else(|| "-".to_owned()),
            count(Verdict::Passes),
            count(Verdict::Fails),
            count(Verdict::NotStated),
        ];
        row.extend(struck.then(|| chip_cell(&rail.head.checks)));
        row.push(rail_verdict(rail));
        row
    };
    let mut header = vec!["rail", "count", "voltage", "part", "passed", "failed", "not stated"];
    header.extend(struck.then_some(CHIP));
    header.push("verdict");
    let header = header.into_iter().map(str::to_owned).collect();
    Some(Grid { title: "Rails: the checks of their parts", header, rows: rails.iter().map(row).collect() })
}

fn voltage(rail: &RailResult) -> String {
    match rail.voltage {
        Some(range) if range.low == range.high => engineering(range.low.0, "V"),
        Some(range) => format!("{} to {}", engineering(range.low.0, "V"), engineering(range.high.0, "V")),
        None => "-".to_owned(),
    }
}

pub(crate) fn section(rail: &RailResult) -> Section {
    let current = rail.current.map_or(String::new(), |i| format!(", up to {}", engineering(i.0, "A")));
    let part = match &rail.head.part {
        Some(part) => format!("Fitted: the part {}.", named(part)),
        None => "No part is named: nothing is checked. `pick` tries each part of the sheet.".to_owned(),
    };
    let lines = counted(&rail.head, "line", "lines");
    Section {
        name: rail.head.name.clone(),
        verdict: rail_verdict(rail),
        passes: rail.passes(),
        worst: None,
        facts: vec![format!("{lines}, {}{current}; no limit on the capacitance.", voltage(rail)), part],
        tolerates: Vec::new(),
        grids: vec![check_grid("Checks of the part", &rail.head.checks)],
        reasons: rail.head.checks.iter().filter_map(Check::reason).collect(),
        defaults: notes(&rail.head.defaults),
        warnings: notes(&rail.head.warnings),
    }
}
