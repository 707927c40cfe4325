//! What a reader is shown of a line over the values of its addresses.

use super::grid::Grid;
use super::render::{Format, written};
use super::scale::capacitances;
use super::section::Section;
use super::view::View;
use crate::result::{SweepReport, SweptLine, SweptPoint, sweep_csv, sweep_json};
use crate::study::Over;
use crate::words::limits::{self, Capacitances, title};
use crate::words::line::Line;
use crate::words::sentences::{budget_cell, set_by_cell};
use crate::words::set;
use crate::words::value::{AS_STATED, value};

/// A line over the values of its addresses, in one of the formats, ended by a line end.
pub fn render_sweep(report: &SweepReport, format: Format) -> String {
    written(format, || view(report), || sweep_json(report), || sweep_csv(report))
}

fn view(report: &SweepReport) -> View {
    let over = |over: &Over| {
        let of = over.of.range.dimension;
        format!("{} from {} to {}", over.of.address, value(over.from, of), value(over.to, of))
    };
    let section = Section {
        name: report.line.clone(),
        verdict: report.over.iter().map(over).collect::<Vec<_>>().join(", "),
        facts: report.toleranced.then(|| AS_STATED.to_owned()).into_iter().collect(),
        grids: vec![grid(report)],
        ..Section::default()
    };
    View {
        title: Some(report.title.clone().unwrap_or_else(|| "The budget over a value".to_owned())),
        set: report.set.iter().map(set::sentence).collect(),
        grids: Vec::new(),
        footnotes: Vec::new(),
        sections: vec![section],
        cautions: report.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn grid(report: &SweepReport) -> Grid {
    let lines: Vec<Line<'_>> = report
        .points
        .iter()
        .map(|point| match &point.line {
            SweptLine::Lane(line) => Line::of(line.as_ref()),
            SweptLine::Feed(line) => Line::of(line.as_ref()),
            SweptLine::Bus(line) => Line::of(line.as_ref()),
        })
        .collect();
    let (scale, shown) = capacitances(&lines);
    let mut header: Vec<String> = report.over.iter().map(|over| over.of.address.to_string()).collect();
    header.extend(
        [&format!("budget [{}F]", scale.prefix), "set by", "fitted", "tightest headroom"]
            .map(|title| title.to_string()),
    );
    let row = |(point, (line, c)): (&SweptPoint, (&Line<'_>, &Capacitances))| {
        let at = report.over.iter().zip(&point.at);
        let mut row: Vec<String> = at.map(|(over, at)| value(*at, over.of.range.dimension)).collect();
        let holds = line.fitted.map_or("-", |fitted| if fitted.holds { "holds" } else { "breaks" });
        row.extend([budget_cell(line, c), set_by_cell(line), holds.to_owned(), tightest(point)]);
        row
    };
    Grid {
        title: "The budget at each value",
        header,
        rows: report.points.iter().zip(lines.iter().zip(&shown)).map(row).collect(),
    }
}

fn tightest(point: &SweptPoint) -> String {
    let Some(headroom) = point.line.tightest() else { return "-".to_owned() };
    let [_, value, margin] = limits::headroom(headroom);
    format!("{} {}", title(headroom.figure), if margin.is_empty() { value } else { margin })
}
