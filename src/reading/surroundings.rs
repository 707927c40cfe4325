//! What an element of a path needs to know of its lane or feed.

use super::Context;
use crate::model::VoltageRange;

/// Permittivity where none is stated.
pub(crate) const DEFAULT_PERMITTIVITY: f64 = 4.0;

/// What an element needs to know of its lane or feed.
pub(crate) struct Surroundings<'c, 's, 'a> {
    pub(crate) context: &'c Context<'s, 'a>,
    /// `lane` or `feed`.
    pub(crate) block: &'static str,
    /// The Nyquist frequency of a lane; the middle of a feed's band.
    pub(crate) nyquist: f64,
    pub(crate) differential: bool,
    pub(crate) line_voltage: Option<VoltageRange>,
}
