//! Return loss against frequency.

use super::canvas::Drawing;
use super::data::{ChartData, Spectrum};
use super::spectrum::{self, Scheme};

pub(super) fn draw(data: &ChartData, spectrum: &Spectrum) -> Drawing {
    let scheme = Scheme {
        what: "return loss",
        figure: "return_loss_db",
        beyond: "no reflection",
        least: 10.0,
        // The depth of a null says little.
        room: |nyquist, bound| (1.4 * nyquist).max(1.6 * bound).clamp(30.0, 100.0),
    };
    spectrum::draw(data, spectrum, &scheme)
}
