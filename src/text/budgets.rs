//! The main table: what each line tolerates and whether it holds.

use super::grid::Grid;
use crate::units::decimal::Scale;
use crate::words::limits::Capacitances;
use crate::words::line::Line;
use crate::words::verdict::verdict;
use crate::words::{sentences, tolerances};

/// Whether the main tables name the part of each line, which takes room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Parts {
    Named,
    LeftToTheSections,
}

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
        row.extend([sentences::headroom_cell(line), verdict(line)]);
        row
    };
    let mut header = vec!["line".to_owned(), "count".to_owned(), format!("budget {unit}"), "set by".to_owned()];
    if varies {
        header.extend([format!("worst case {unit}"), "yield".to_owned()]);
    }
    header.push(format!("fitted {unit}"));
    header.extend(part("part"));
    header.extend(["tightest headroom".to_owned(), "verdict".to_owned()]);
    Grid { title, header, rows: lines.iter().zip(capacitances).map(row).collect() }
}
