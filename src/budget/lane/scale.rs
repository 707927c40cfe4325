//! The scale of the capacitances of a lane.

use std::f64::consts::PI;

use crate::model::Lane;
use crate::network::Chain;
use crate::units::Farad;

/// The capacitance whose reactance at Nyquist is half the reference: budgets lie around it.
pub fn usual_capacitance(lane: &Lane, chain: &Chain) -> Farad {
    Farad(1.0 / (PI * lane.nyquist().0 * chain.reference().0))
}
