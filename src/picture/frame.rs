//! Where further curves go.

use crate::figures::Figure;

/// Where a further curve belongs in a drawn chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    /// The figure over frequency that the ordinate shows; `None` for a panel over the capacitance.
    pub figure: Option<&'static Figure>,
    /// Left, top, right and bottom edge, in points of the drawing.
    pub area: [f64; 4],
    /// Abscissa at the left and right edge, SI units.
    pub x: (f64, f64),
    /// Least and largest ordinate.
    pub y: (f64, f64),
    /// Whether the abscissa is logarithmic.
    pub logarithmic: bool,
    /// Whether the ordinate grows downward.
    pub down: bool,
}
