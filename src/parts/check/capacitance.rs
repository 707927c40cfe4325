//! The part's capacitance against the line's budget.

use super::{Check, Verdict};

/// The part's worst-case capacitance against what the line allows.
///
/// `allowed` are the intervals of the budget in farad, lowest first, an upper end of `None` being open. Only the
/// lowest interval counts: an island above it is never recommended. The end that is missed, else the upper end, is
/// shown as `required`; an open end has none and passes without a margin. With no interval at all nothing passes.
pub fn capacitance_check(allowed: &[(f64, Option<f64>)], part: Option<f64>) -> Check {
    const NAME: &str = "capacitance";
    let unlimited = Check { available: part, unit: "F", ..Check::words(NAME, part.map(|_| true)) };
    match allowed.first() {
        None => Check { verdict: part.map_or(Verdict::NotStated, |_| Verdict::Fails), ..unlimited },
        Some((lowest, _)) if part.is_some_and(|c| c < *lowest) => Check::at_least(NAME, *lowest, part, "F"),
        Some((_, Some(highest))) => Check::at_most(NAME, *highest, part, "F"),
        Some((_, None)) => unlimited,
    }
}
