//! What a reader is shown of the values for which a line holds.

use super::grid::Grid;
use super::render::{Format, written};
use super::scale::protector_scale;
use super::section::Section;
use super::view::View;
use crate::budget::Verdict;
use crate::result::{RangeReport, range_csv, range_json};
use crate::units::Dimension;
use crate::units::decimal::{Round, engineering};
use crate::words::limits::Capacitances;
use crate::words::set;
use crate::words::value::{AS_STATED, breaks, end, value};

/// The values for which a line holds, in one of the formats, ended by a line end.
pub fn render_range(report: &RangeReport, format: Format) -> String {
    written(format, || view(report), || range_json(report), || range_csv(report))
}

fn view(report: &RangeReport) -> View {
    let narrow = "401 values and the stated one are looked at, evenly: an interval narrower than 1/400 of what is searched may \
                  be missed. What a discharge leaves is looked at at every eighth. An end is known to 1e-6 of itself, in time \
                  to 1e-4.";
    let searched = report.found.searched.1.is_some();
    View {
        title: Some(report.title.clone().unwrap_or_else(|| "The values for which a line holds".to_owned())),
        set: report.set.iter().map(set::sentence).collect(),
        grids: Vec::new(),
        footnotes: if searched { vec![narrow.to_owned()] } else { Vec::new() },
        sections: vec![section(report)],
        cautions: report.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

fn section(report: &RangeReport) -> Section {
    let (found, of) = (&report.found, report.of.range.dimension);
    let address = &report.of.address;
    let verdict = match found.intervals.as_slice() {
        [] => format!("no {address} holds"),
        [ends] => format!("holds for {address} {}", interval(*ends, of)),
        intervals => format!("holds for {address} in {} intervals", intervals.len()),
    };
    Section {
        name: report.line.clone(),
        verdict,
        facts: facts(report),
        grids: vec![intervals(report), ends(report)],
        ..Section::default()
    }
}

fn interval((low, high): (f64, Option<f64>), of: Dimension) -> String {
    match high {
        Some(high) if low == 0.0 => format!("up to {}", end(high, of, Round::Down)),
        Some(high) => format!("from {} to {}", end(low, of, Round::Up), end(high, of, Round::Down)),
        None => format!("from {}", end(low, of, Round::Up)),
    }
}

/// Several intervals, each with its ends.
fn intervals(report: &RangeReport) -> Grid {
    let of = report.of.range.dimension;
    let several = &report.found.intervals;
    let row = |(low, high): &(f64, Option<f64>)| {
        let high = high.map_or("any value".to_owned(), |high| end(high, of, Round::Down));
        vec![end(*low, of, Round::Up), high]
    };
    Grid {
        title: "Where it holds",
        header: ["from", "to"].map(str::to_owned).to_vec(),
        rows: if several.len() > 1 { several.iter().map(row).collect() } else { Vec::new() },
    }
}

fn facts(report: &RangeReport) -> Vec<String> {
    let (found, of) = (&report.found, report.of.range.dimension);
    let (from, to) = found.searched;
    let to = to.map_or("any value".to_owned(), |to| value(to, of));
    let stated =
        report.of.nominal.map_or("not stated".to_owned(), |nominal| format!("{} as stated", value(nominal, of)));
    let fitted = found.fitted.map_or(String::new(), |c| format!("; fitted {}", engineering(c.0, "F")));
    let mut facts =
        vec![format!("{}: {stated}, searched from {} to {to}{fitted}.", report.of.address, value(from, of))];
    if !found.intervals.is_empty() {
        facts.push(
            match found.struck {
                Some(true) => "It holds where every limit does, and no check of what a discharge leaves at the chip fails.",
                Some(false) => {
                    "It holds where every limit does. What a discharge leaves at the chip is not computed, so that it is not \
                     looked at: `size` says why."
                }
                None => "It holds where every limit does.",
            }
            .to_owned(),
        );
    }
    facts.extend(found.breaks.as_ref().map(|what| format!("As stated it breaks {}.", breaks(what))));
    facts.extend(found.best.map(|best| {
        let unsafe_ = match best.verdict {
            Verdict::Bounded => "",
            _ => " (not from 0 on)",
        };
        let no_window = if best.window_beyond { " that is no window" } else { "" };
        let c = Capacitances::new(protector_scale(std::iter::once(best.budget.0)), None, std::iter::empty());
        let budget = format!("{} {}", c.largest(best.budget.0), c.unit());
        // Of the budget itself the value says no more.
        let is_itself = best.value == best.budget.0 && of == Dimension::Capacitance;
        let place = if is_itself { String::new() } else { format!(", at {}", value(best.value, of)) };
        format!("Largest budget{no_window}: {budget}{unsafe_}{place}.")
    }));
    facts.extend(report.toleranced.then(|| AS_STATED.to_owned()));
    facts
}

fn ends(report: &RangeReport) -> Grid {
    let of = report.of.range.dimension;
    let side = |low: bool| if low { Round::Up } else { Round::Down };
    let is_low = |at: f64| report.found.intervals.iter().any(|interval| interval.0 == at);
    let rows = report.found.ends.iter().map(|own| {
        let low = is_low(own.value);
        let place = if low { "below" } else { "above" };
        vec![end(own.value, of, side(low)), place.to_owned(), breaks(&own.breaks)]
    });
    Grid {
        title: "Where it ends",
        header: ["end", "beyond", "breaks"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
    }
}
