//! What the tolerances of a line leave, in words.

use super::limits::{Capacitances, signed, title};
use super::line::Line;
use crate::budget::Verdict;
use crate::model::{Distribution, Owner};
use crate::study::{Place, Tolerated, Worst, WorstHeadroom, Yielded};
use crate::units::Dimension;
use crate::units::decimal::{Decimal, Round, engineering, significant};

/// Significant digits of a share of settings, and of a bare number.
const DIGITS: usize = 4;
/// Significant digits of a share at most.
const MOST_DIGITS: usize = 16;

/// The worst case of a line and its yield as cells of a table, without the unit.
pub(crate) fn cells(line: &Line<'_>, c: &Capacitances) -> [String; 2] {
    let Some(tolerance) = &line.head.tolerance else { return ["-".to_owned(), "-".to_owned()] };
    [worst_cell(&tolerance.worst, c), yield_cell(&tolerance.yielded)]
}

/// The yield: where every setting drawn holds, or none does, what is known of the share of all.
fn yield_cell(yielded: &Yielded) -> String {
    let (Some(share), Some((low, high))) = (yielded.share(), yielded.interval()) else { return "-".to_owned() };
    if share >= 1.0 {
        format!("> {}", shown_share(low, Round::Down))
    } else if share <= 0.0 {
        format!("< {}", shown_share(high, Round::Up))
    } else {
        shown_share(share, Round::Down)
    }
}

fn worst_cell(worst: &Worst, c: &Capacitances) -> String {
    c.left(worst.verdict, worst.capacitance, worst.lowest)
}

/// A share of settings, in as many digits as it takes to differ from all of them.
fn shown_share(share: f64, round: Round) -> String {
    let apart = |digits: &usize| share >= 1.0 || Decimal::new(share, *digits, Round::Up).value() < 1.0;
    let digits = (DIGITS..MOST_DIGITS).find(apart).unwrap_or(MOST_DIGITS);
    format!("{} %", Decimal::new(share, digits, round).times_ten_to(2))
}

/// What is said of a line with nothing fitted.
pub(crate) fn unfitted(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Bounded => "free up to the budget",
        Verdict::NoRoom => "no room for a protector",
        Verdict::Window => "breaks without a protector",
        Verdict::Unbounded => "any capacitance will do",
        Verdict::Impossible => "no capacitance will do",
    }
}

/// How much is said of what breaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Detail {
    /// Which limits.
    Named,
    /// Which limits, and by how much.
    Measured,
}

/// What breaks within the tolerances with what is fitted; `None` where nothing does.
pub(crate) fn broken(worst: &Worst, detail: Detail) -> Option<String> {
    let broken = || worst.fitted.iter().flat_map(|fitted| &fitted.limits).filter(|limit| !limit.holds);
    let said = match detail {
        Detail::Named => {
            let names: Vec<String> = broken().map(|limit| title(limit.figure)).collect();
            format!("breaks {}", names.join(", "))
        }
        Detail::Measured => broken().map(breaks_by).collect::<Vec<_>>().join(", "),
    };
    broken().next().map(|_| said)
}

/// That a limit breaks, and by how much where that is known.
fn breaks_by(limit: &WorstHeadroom) -> String {
    let by = limit.margin.filter(|margin| *margin < 0.0).map_or(String::new(), |margin| {
        let by = signed(limit.figure, -margin);
        format!(" by {}", by.trim_start_matches('+'))
    });
    format!("{} breaks{by}", title(limit.figure))
}

/// What is said of a line with nothing fitted, as stated and at worst.
pub(crate) fn both_unfitted(stated: Verdict, worst: &Worst) -> String {
    let word = |verdict| if verdict == Verdict::Window { "needs a protector" } else { unfitted(verdict) };
    match worst.verdict {
        _ if worst.passes() => unfitted(stated).to_owned(),
        at_worst if at_worst == stated => format!("{}, as stated and at worst", word(stated)),
        at_worst => format!("{} as stated, {} at worst", word(stated), word(at_worst)),
    }
}

/// The least distance of what is fitted to a limit, and whether it holds.
pub(crate) fn margin_cell(limit: &WorstHeadroom) -> String {
    let margin = limit.margin.map_or(String::new(), |margin| signed(limit.figure, margin));
    format!("{margin} {}", if limit.holds { "holds" } else { "breaks" }).trim_start().to_owned()
}

/// The worst case of a line, in a few words.
pub(crate) fn worst_case(worst: &Worst, c: &Capacitances) -> String {
    match (worst.verdict, worst.capacitance) {
        (Verdict::Impossible, _) => "no capacitance keeps every limit".to_owned(),
        (Verdict::Unbounded, _) => "no limit bounds the capacitance".to_owned(),
        (Verdict::Window, Some(_)) => format!("{} {}", worst_cell(worst, c), c.unit()),
        (_, Some(_)) => format!("up to {} {}", worst_cell(worst, c), c.unit()),
        (_, None) => worst.verdict.word().to_owned(),
    }
}

/// What the worst case and the yield of a line are, in sentences.
pub(crate) fn facts(tolerance: &Tolerated, c: &Capacitances) -> Vec<String> {
    let Tolerated { settings, worst, yielded, .. } = tolerance;
    let unit = c.unit();
    let set_by = worst.set_by.map_or(String::new(), |by| format!(", set by {}", title(by)));
    let found = format!("the least found in {settings} settings within the tolerances");
    let set_by = if worst.capacitance.is_some() { set_by } else { String::new() };
    let mut said = vec![format!("Worst case, {found}: {}{set_by}.", worst_case(worst, c))];
    let drawn = format!("{} settings drawn at random (seed {})", yielded.samples, yielded.seed);
    if let (Some(share), Some((low, high))) = (yielded.share(), yielded.interval()) {
        let share = shown_share(share, Round::Down);
        let (low, high) = (shown_share(low, Round::Down), shown_share(high, Round::Up));
        said.push(format!("Yield: {share} of {drawn} hold; 95 % interval {low} to {high}."));
    }
    let lowest = yielded.lowest.map_or(0.0, |lowest| lowest.0);
    said.push(match yielded.budget {
        Some(budget) if lowest > 0.0 => {
            let (low, high) = c.range(lowest, budget.0);
            format!("99.7 % of {drawn} allow {low} to {high} {unit}.")
        }
        Some(budget) => format!("99.7 % of {drawn} allow up to {} {unit}.", c.largest(budget.0)),
        None if lowest > 0.0 => format!("99.7 % of {drawn} allow {} {unit} and above.", c.least(lowest)),
        None if yielded.lowest.is_some() => format!("99.7 % of {drawn} allow any capacitance."),
        None => format!("No capacitance is allowed by 99.7 % of {drawn}."),
    });
    said
}

/// How values lie between their bounds.
pub(crate) fn spread(tolerance: &Tolerated) -> &'static str {
    match tolerance.varying.distribution {
        Distribution::Uniform => "alike everywhere",
        Distribution::Normal => "normally with the bounds at three standard deviations",
    }
}

/// The worst that values are shown at: a setting with the worst-case budget.
pub(crate) fn which_worst(worst: &Worst, c: &Capacitances) -> Option<String> {
    worst.setting.as_ref()?;
    Some(match (worst.verdict, worst.capacitance) {
        (Verdict::Window, Some(high)) => format!("upper end {} {}", c.largest(high.0), c.unit()),
        (_, Some(high)) => format!("budget {} {}", c.largest(high.0), c.unit()),
        (_, None) => "nothing is allowed".to_owned(),
    })
}

/// Each value that varies: its address, what is stated, its bounds, and what it is at the worst, where that depends on it.
pub(crate) fn values(tolerance: &Tolerated) -> Vec<Vec<String>> {
    let worst = tolerance.worst.setting.as_ref();
    let row = |(index, place): (usize, &Place)| {
        let [stated, low, high] = [place.nominal, place.low, place.high].map(|value| quantity(place, value));
        let most = matches!(place.of.address.owner, Owner::Part(_)) && place.nominal == place.high;
        let stated = if most { format!("{stated} (its maximum)") } else { stated };
        let mut row = vec![place.of.address.to_string(), stated, low, high];
        let at_worst = worst.and_then(|worst| worst.get(index)).filter(|_| !place.fitted);
        row.push(at_worst.map_or("-".to_owned(), |value| quantity(place, *value)));
        row
    };
    tolerance.varying.places.iter().enumerate().map(row).collect()
}

/// A value with its unit.
fn quantity(place: &Place, value: f64) -> String {
    match place.of.range.dimension {
        Dimension::Number => significant(value, DIGITS),
        Dimension::Decibel | Dimension::DecibelPerLength => {
            format!("{} {}", significant(value, DIGITS), place.of.range.dimension.symbol())
        }
        dimension => engineering(value, dimension.symbol()),
    }
}
