//! What an element of a path needs to know of its line.

use super::Context;
use crate::figures::LineKind;
use crate::model::Voltages;
use crate::resolve;
use crate::units::Hertz;

/// What an element needs to know of its line.
pub(crate) struct Surroundings<'c, 's, 'a> {
    pub(crate) context: &'c Context<'s, 'a>,
    /// Of which line the path is.
    pub(crate) kind: LineKind,
    /// The Nyquist frequency of a lane; the middle of a feed's band; that of a discharge on any other line.
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
