//! Charts: one picture of one line, as SVG or PNG.
//!
//! [`svg`] and [`png`] see nothing but the numbers of [`crate::curve`] and draw the same shapes. Lines are told apart by
//! pattern and lightness as well as by colour. Names are text and never markup.

mod axis;
mod canvas;
mod discharge;
mod drawn;
mod eye;
mod font;
mod frame;
mod impedance;
mod loss;
mod map;
mod marks;
mod matching;
mod page;
mod panel;
mod penalty;
mod place;
mod png;
mod reflection;
mod sensitivity;
mod spectrum;
mod style;
mod svg;
mod swept;
mod thin;
mod yielded;

pub use drawn::{Plot, plot, png, svg, without_glyph};
pub use frame::Frame;
