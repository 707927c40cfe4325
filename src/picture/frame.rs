//! Where further curves go.

use serde::Serialize;

/// Where a further curve belongs in a drawn chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Frame {
    /// Key of the figure over the ordinate, as in the JSON output; `capacitance_f` for a panel over the capacitance.
    pub figure: &'static str,
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
