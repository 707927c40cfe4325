//! What a curve is of.

use crate::response::Case;

/// What stands at the protector's place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum State {
    /// Nothing, not even the footprint.
    Absent,
    /// The fitted capacitance in farad.
    Fitted(f64),
    /// The budget in farad.
    AtBudget(f64),
}

impl State {
    pub(crate) fn case(self) -> Case {
        match self {
            State::Absent => Case::Absent,
            State::Fitted(c) | State::AtBudget(c) => Case::With(c),
        }
    }
}
