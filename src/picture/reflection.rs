//! Return loss against frequency, at the port plane and seen from the inner end.

use super::canvas::Drawing;
use super::spectrum;
use super::spectrum::Scheme;
use crate::curve::{ChartData, Spectrum};
use crate::figures::{RETURN_LOSS, RETURN_LOSS_INNER};

pub(crate) fn draw(data: &ChartData, outer: &Spectrum, inner: &Spectrum) -> Drawing {
    let scheme = Scheme {
        what: "return loss",
        figure: &RETURN_LOSS,
        least: 10.0,
        // The depth of a null says little.
        room: |nyquist, bound| (1.4 * nyquist).max(1.6 * bound).clamp(30.0, 100.0),
    };
    let from_within = Scheme { what: "return loss, inner end", figure: &RETURN_LOSS_INNER, ..scheme };
    spectrum::draw_both(data, scheme.what, [(outer, &scheme), (inner, &from_within)])
}
