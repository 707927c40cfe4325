//! Insertion loss against frequency.

use super::canvas::Drawing;
use super::spectrum;
use super::spectrum::Scheme;
use crate::curve::{ChartData, Spectrum};
use crate::figures::INSERTION_LOSS;

pub(crate) fn draw(data: &ChartData, spectrum: &Spectrum) -> Drawing {
    let scheme = Scheme {
        what: "insertion loss",
        figure: &INSERTION_LOSS,
        least: 1.0,
        // A deep notch far above Nyquist would flatten all else.
        room: |nyquist, bound| (3.0 * nyquist).max(1.6 * bound),
    };
    spectrum::draw(data, spectrum, &scheme)
}
