//! The survival checks of a part as a table.

use super::grid::Grid;
use super::scale::power;
use crate::figures::Sense;
use crate::parts::Check;
use crate::units::decimal::{Decimal, Round, Scale, apart_from, estimated_pair, pair, short, signed_percent};

/// Required, available, their unit and the margin of a check.
fn cells(check: &Check) -> [String; 4] {
    let (power, prefix) = match check.unit {
        "" | "degC" => (0, ""),
        _ => {
            let scale = Scale::of(check.required.or(check.available).unwrap_or(1.0));
            (power(&scale), scale.prefix)
        }
    };
    let text = |n: Option<Decimal>| n.map_or("-".to_owned(), |n| n.times_ten_to(power).to_string());
    let both = |required, available| both(check, required, available).map(text);
    let low_and_high = |low: String, high: String| if low == high { low } else { format!("{low} to {high}") };
    let [required, available] = match check.ends {
        [Some((low, high)), range] => {
            let [lowest, highest] = [both(Some(low), range.map(|r| r.0)), both(Some(high), range.map(|r| r.1))];
            let [[a, b], [c, d]] = [lowest, highest];
            [low_and_high(a, c), low_and_high(b, d)]
        }
        _ => match check.required.zip(check.available).filter(|_| check.unit == "F" && check.sense == Sense::AtMost) {
            Some(both) => rounded_down(both).map(|n| text(Some(n))),
            None => both(check.required, check.available),
        },
    };
    let unit = format!("{prefix}{}", check.unit);
    let bound = check.required.is_some() && check.ends[0].is_none();
    let required = if bound { format!("{} {required}", check.sense.sign()) } else { required };
    [required, available, unit, check.margin.map_or("-".to_owned(), signed_percent)]
}

/// The largest capacitance, never rounded up, and that of the part.
fn rounded_down((largest, part): (f64, f64)) -> [Decimal; 2] {
    let shown = [apart_from(largest, Round::Down, &[]), short(part)];
    let kept = shown[0].value().partial_cmp(&shown[1].value()) == largest.partial_cmp(&part);
    if kept { shown } else { pair(largest, part).into() }
}

/// Two numbers in digits that keep them apart; what is estimated in three where they do.
fn both(check: &Check, required: Option<f64>, available: Option<f64>) -> [Option<Decimal>; 2] {
    match required.zip(available) {
        Some((required, available)) if check.is_estimate() => {
            let (available, required) = estimated_pair(available, required);
            [Some(required), Some(available)]
        }
        Some((required, available)) => <[Decimal; 2]>::from(pair(required, available)).map(Some),
        None if check.is_estimate() => [required.map(short), available.map(|n| Decimal::new(n, 3, Round::Nearest))],
        None => [required, available].map(|n| n.map(short)),
    }
}

/// The survival checks of a part.
pub(crate) fn check_grid(title: &'static str, checks: &[Check]) -> Grid {
    let row = |check: &Check| {
        let [required, available, unit, margin] = cells(check);
        vec![check.name(), required, available, unit, margin, check.verdict.word().to_owned()]
    };
    Grid {
        title,
        header: ["check", "required", "the part has", "unit", "margin", "verdict"].map(str::to_owned).to_vec(),
        rows: checks.iter().map(row).collect(),
    }
}
