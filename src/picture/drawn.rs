//! A picture drawn.

use super::canvas::Drawing;
use super::frame::Frame;
use super::{discharge, eye, font, impedance, loss, map, matching, penalty, reflection, sensitivity, swept, yielded};
use super::{png as image, svg as document};
use crate::curve::{ChartData, Picture};

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
    Plot { svg: document::render(&drawing), frames: drawing.frames }
}

/// The chart as an SVG document, ended by a line end.
///
/// It carries no identifiers, so that several fit into one page; text and frames take the page's `color`, and the ground
/// has the class `paper`.
pub fn svg(data: &ChartData) -> String {
    document::render(&drawing(data))
}

/// The chart as a PNG image, two pixels to a point.
///
/// # Errors
/// Where the image cannot be drawn or encoded.
pub fn png(data: &ChartData) -> Result<Vec<u8>, String> {
    image::render(&drawing(data))
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
        Picture::Discharge(curves) => discharge::draw(data, curves),
        Picture::Yield(curve) => yielded::draw(data, curve),
        Picture::Sensitivity(bars) => sensitivity::draw(data, bars),
        Picture::Swept(curve) => swept::draw(data, curve),
        Picture::Map(map) => map::draw(data, map),
    }
}
