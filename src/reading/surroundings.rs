//! What an element of a path needs to know of its lane or feed.

use super::Context;
use crate::model::Voltages;
use crate::resolve;
use crate::units::Hertz;

/// What an element needs to know of its lane or feed.
pub(crate) struct Surroundings<'c, 's, 'a> {
    pub(crate) context: &'c Context<'s, 'a>,
    /// `lane` or `feed`.
    pub(crate) block: &'static str,
    /// The Nyquist frequency of a lane; the middle of a feed's band.
    pub(crate) nyquist: f64,
    pub(crate) differential: bool,
    pub(crate) voltages: Voltages,
}

impl Surroundings<'_, '_, '_> {
    /// What the values of an element depend on.
    pub(crate) fn electrical(&self) -> resolve::Surroundings {
        let Self { nyquist, differential, voltages, .. } = *self;
        resolve::Surroundings { frequency: Hertz(nyquist), differential, voltages }
    }
}
