//! Charts: one picture of one line, as SVG or PNG.
//!
//! First the numbers: [`chart_data`] takes them from a lane and its outcome, [`feed_chart_data`] from those of a feed, as
//! plain data in SI units. Then the picture: [`svg`] and [`png`] see nothing but that data and draw the same shapes. Lines
//! are told apart by pattern and lightness as well as by colour. Names are text and never markup.

mod axis;
mod band;
mod canvas;
mod data;
mod eye;
mod font;
mod frequencies;
mod gather;
mod impedance;
mod loss;
mod marks;
mod matching;
mod page;
mod panel;
mod penalty;
mod png;
mod reflection;
mod spectrum;
mod style;
mod svg;
mod sweep;
mod thin;

pub use band::feed_chart_data;
pub use data::{
    BandMatch, Carries, ChartData, Curve, EyeOutline, LimitLine, Margin, Minimum, Phase, Picture, Place, Profile,
    Spectrum, State, Sweep,
};
pub use gather::chart_data;

use serde::Serialize;

use canvas::Drawing;

/// Which picture of a lane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Show {
    /// Insertion loss against frequency.
    Loss,
    /// Return loss against frequency, at the port plane and seen from the inner end.
    Reflection,
    /// The distance to every limit, and the eye penalty, against the capacitance.
    Penalty,
    /// The worst-pattern eye, absent beside fitted.
    Eye,
    /// The impedance along the path as a reflected step shows it.
    Impedance,
}

impl Show {
    /// All pictures.
    pub const ALL: [Show; 5] = [Show::Loss, Show::Reflection, Show::Penalty, Show::Eye, Show::Impedance];
}

/// Where a further curve belongs in a drawn chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Frame {
    /// Key of the figure over the ordinate, as in [`super::Metrics`]; `capacitance_f` for a panel over the capacitance.
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

/// A chart as SVG, with the places of its panels.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// The document, see [`svg`].
    pub svg: String,
    /// Panels that a further curve can be put in.
    pub frames: Vec<Frame>,
}

/// The chart as an SVG document that a page can add curves to.
pub fn plot(data: &ChartData) -> Plot {
    let drawing = drawing(data);
    Plot { svg: svg::render(&drawing), frames: drawing.frames }
}

/// The chart as an SVG document, ended by a line end.
///
/// It carries no identifiers, so that several fit into one page; text and frames take the page's `color`, and the ground
/// has the class `paper`.
pub fn svg(data: &ChartData) -> String {
    svg::render(&drawing(data))
}

/// The chart as a PNG image, two pixels to a point.
///
/// # Errors
/// Where the image cannot be drawn or encoded.
pub fn png(data: &ChartData) -> Result<Vec<u8>, String> {
    png::render(&drawing(data))
}

/// The characters on the chart that the font built in lacks, each once: an image shows boxes in their place, an SVG leaves
/// them to the fonts of whoever opens it.
pub fn without_glyph(data: &ChartData) -> Vec<char> {
    let texts = drawing(data).texts;
    let mut lacking = Vec::new();
    for c in texts.iter().flat_map(|text| text.text.chars()) {
        if !font::has(c) && !lacking.contains(&c) {
            lacking.push(c);
        }
    }
    lacking
}

fn drawing(data: &ChartData) -> Drawing {
    match &data.picture {
        Picture::Loss(spectrum) => loss::draw(data, spectrum),
        Picture::Reflection(outer, inner) => reflection::draw(data, outer, inner),
        Picture::Penalty(sweep) => penalty::draw(data, sweep),
        Picture::Eye(eyes) => eye::draw(data, eyes),
        Picture::Impedance(profile) => impedance::draw(data, profile),
        Picture::Match(found) => matching::draw(data, found),
    }
}
