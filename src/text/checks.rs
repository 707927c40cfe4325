//! The survival checks of a part as a table.

use super::grid::Grid;
use super::scale::power;
use crate::parts::Check;
use crate::units::decimal::{Decimal, Scale, pair, short, signed_percent};

/// Required, available, their unit and the margin of a check.
fn cells(check: &Check) -> [String; 4] {
    let (power, prefix) = match check.unit {
        "" | "degC" => (0, ""),
        _ => {
            let scale = Scale::of(check.required.or(check.available).unwrap_or(1.0));
            (power(&scale), scale.prefix)
        }
    };
    let (required, available) = match (check.required, check.available) {
        (Some(required), Some(available)) => {
            let (required, available) = pair(required, available);
            (Some(required), Some(available))
        }
        (required, available) => (required.map(short), available.map(short)),
    };
    let text = |n: Option<Decimal>| n.map_or("-".to_owned(), |n| n.times_ten_to(power).to_string());
    [
        text(required),
        text(available),
        format!("{prefix}{}", check.unit),
        check.margin.map_or("-".to_owned(), signed_percent),
    ]
}

/// The survival checks of a part.
pub(crate) fn check_grid(title: &'static str, checks: &[Check]) -> Grid {
    let row = |check: &Check| {
        let [required, available, unit, margin] = cells(check);
        vec![check.check.to_owned(), required, available, unit, margin, check.verdict.word().to_owned()]
    };
    Grid {
        title,
        header: ["check", "required", "available", "unit", "margin", "verdict"].map(str::to_owned).to_vec(),
        rows: checks.iter().map(row).collect(),
    }
}
