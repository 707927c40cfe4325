//! What the limits leave, in one of four ways.

use super::IntervalSet;

/// What the limits leave.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// 0 is allowed, up to the budget.
    Bounded,
    /// 0 is not allowed, but an interval above it is.
    Window,
    /// Every capacitance is allowed.
    Unbounded,
    /// No capacitance is allowed.
    Impossible,
}

impl Verdict {
    /// The word of the results.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Bounded => "bounded",
            Verdict::Window => "window",
            Verdict::Unbounded => "unbounded",
            Verdict::Impossible => "impossible",
        }
    }

    pub(super) fn of(set: &IntervalSet) -> Self {
        match set.lowest() {
            None => Verdict::Impossible,
            Some(_) if set.is_all() => Verdict::Unbounded,
            Some(lowest) if lowest.low == 0.0 => Verdict::Bounded,
            Some(_) => Verdict::Window,
        }
    }
}
