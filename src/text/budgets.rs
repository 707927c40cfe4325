//! The main table: what each line tolerates and whether it holds.

use super::grid::Grid;
use crate::parts::Check;
use crate::units::decimal::Scale;
use crate::words::limits::Capacitances;
use crate::words::line::Line;
use crate::words::tolerances::Detail;
use crate::words::verdict::{chip_cell, verdict};
use crate::words::{sentences, tolerances};

/// Whether the main tables name the part of each line, and what its chip survives, which takes room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Parts {
    Named,
    LeftToTheSections,
}

/// The title of the column of what the chip survives.
pub(crate) const CHIP: &str = "chip in a discharge (estimate)";

/// The main table of lines.
pub(crate) fn budgets(
    title: &'static str,
    lines: &[Line<'_>],
    (scale, capacitances): (Scale, &[Capacitances]),
    parts: Parts,
) -> Grid {
    let part = |said: &str| (parts == Parts::Named).then(|| said.to_owned());
    let unit = format!("[{}F]", scale.prefix);
    let varies = lines.iter().any(|line| line.head.tolerance.is_some());
    let struck = lines.iter().any(|line| line.checks().iter().any(Check::is_of_pin));
    let row = |(line, c): (&Line<'_>, &Capacitances)| {
        let mut row = vec![
            line.head.name.clone(),
            line.head.count.to_string(),
            sentences::budget_cell(line, c),
            sentences::set_by_cell(line),
        ];
        if varies {
            row.extend(tolerances::cells(line, c));
        }
        row.push(c.fitted().unwrap_or_else(|| "-".to_owned()));
        row.extend(part(line.fitted.and_then(|fitted| fitted.part).unwrap_or("-")));
        row.push(sentences::headroom_cell(line));
        row.extend(part(&chip_cell(line.checks())).filter(|_| struck));
        row.push(verdict(line, Detail::Named));
        row
    };
    let mut header = vec!["line".to_owned(), "count".to_owned(), format!("budget {unit}"), "set by".to_owned()];
    if varies {
        header.extend([format!("worst case {unit}"), "yield".to_owned()]);
    }
    header.push(format!("fitted {unit}"));
    header.extend(part("part"));
    header.push("tightest headroom".to_owned());
    header.extend(part(CHIP).filter(|_| struck));
    header.push("verdict".to_owned());
    Grid { title, header, rows: lines.iter().zip(capacitances).map(row).collect() }
}
