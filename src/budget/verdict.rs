//! What the limits leave, in one of five ways.

use super::IntervalSet;

/// What the limits leave.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// 0 is allowed, up to the budget.
    Bounded,
    /// 0 is allowed, and nothing just above it: the budget is 0.
    NoRoom,
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
            Verdict::NoRoom => "no_room",
            Verdict::Window => "window",
            Verdict::Unbounded => "unbounded",
            Verdict::Impossible => "impossible",
        }
    }

    pub(super) fn of(set: &IntervalSet) -> Self {
        match set.lowest() {
            None => Verdict::Impossible,
            Some(_) if set.is_all() => Verdict::Unbounded,
            Some(lowest) if lowest.high == 0.0 => Verdict::NoRoom,
            Some(lowest) if lowest.low == 0.0 => Verdict::Bounded,
            Some(_) => Verdict::Window,
        }
    }
}
