//! What a reader is shown of a report, as text in tables and sentences; the table and Markdown lay it out.

use super::budgets::{Parts, budgets};
use super::grid::Grid;
use super::scale::capacitances;
use super::section::{Section, section};
use super::{rails, signal};
use crate::result::Report;
use crate::words::limits::PENALTY_NOTE;
use crate::words::line::Line;
use crate::words::set;

/// All that is shown.
pub(crate) struct View {
    pub(crate) title: Option<String>,
    /// What is other than the sheet states.
    pub(crate) set: Vec<String>,
    pub(crate) grids: Vec<Grid>,
    pub(crate) footnotes: Vec<String>,
    pub(crate) sections: Vec<Section>,
    pub(crate) cautions: Vec<String>,
}

impl View {
    pub(crate) fn of(report: &Report, parts: Parts) -> View {
        let lanes = report.lanes.iter().map(Line::of);
        let fast: Vec<Line> = lanes.chain(report.feeds.iter().map(Line::of)).collect();
        let slow: Vec<Line> = report.buses.iter().map(Line::of).collect();
        let (scale, fast_c) = capacitances(&fast);
        let (slow_scale, slow_c) = capacitances(&slow);
        let (of_lanes, of_feeds) = fast_c.split_at(report.lanes.len());
        let mut grids = Vec::new();
        if !fast.is_empty() || slow.is_empty() && report.rails.is_empty() {
            let title = "Largest capacitance of the protector, one line to ground";
            grids.push(budgets(title, &fast, (scale, &fast_c), parts));
            grids.extend(signal::lanes(&report.lanes, (scale, of_lanes)));
            grids.extend(signal::feeds(&report.feeds, (scale, of_feeds)));
        }
        if !slow.is_empty() {
            let title = "Buses: largest capacitance of one protector";
            grids.push(budgets(title, &slow, (slow_scale, &slow_c), parts));
        }
        grids.extend(signal::buses(&report.buses, (slow_scale, &slow_c)));
        grids.extend(rails::grid(&report.rails, parts));
        let lines = fast.iter().zip(&fast_c).chain(slow.iter().zip(&slow_c));
        let sections = lines.map(|(line, c)| section(line, c)).chain(report.rails.iter().map(rails::section));
        View {
            title: report.title.clone(),
            set: report.set.iter().map(set::sentence).collect(),
            grids,
            footnotes: if report.lanes.is_empty() { Vec::new() } else { vec![PENALTY_NOTE.to_owned()] },
            sections: sections.collect(),
            cautions: report.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
        }
    }
}
