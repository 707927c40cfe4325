//! Which limits are searched for in time.

use crate::figures::{
    ADDED_RISE, EYE_HEIGHT, EYE_OPENING, Figure, IMPEDANCE_DIP, IMPEDANCE_EXCURSION, WORST_EYE_PENALTY,
};

/// Whether a limit on this figure takes the time domain, so that what it allows is searched for and not solved.
pub(super) fn is_in_time(figure: &Figure) -> bool {
    let timed = [&EYE_HEIGHT, &EYE_OPENING, &WORST_EYE_PENALTY, &ADDED_RISE, &IMPEDANCE_DIP, &IMPEDANCE_EXCURSION];
    timed.contains(&figure)
}
