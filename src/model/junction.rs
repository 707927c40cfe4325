//! Junction.
use super::*;
use crate::units::*;
/// o
pub struct JunctionOutcome {
    /// c
    pub capacitance: Farad,
    /// d
    pub default_grading_used: bool,
    /// p
    pub polarity_assumed: bool,
}
/// w
pub fn worst_case(
    rating: &CapacitanceRating,
    _p: Option<Polarity>,
    _g: Option<Grading>,
    _v: Option<VoltageRange>,
) -> JunctionOutcome {
    JunctionOutcome {
        capacitance: rating.maximum,
        default_grading_used: false,
        polarity_assumed: false,
    }
}
