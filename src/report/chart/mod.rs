//! Charts: one picture of one line, as SVG or PNG.
//!
//! First the numbers: [`chart_data`] takes them from a lane and its outcome, [`feed_chart_data`] from those of a feed, as
//! plain data in SI units. Then the picture: [`svg`] and [`png`] see nothing but that data and draw the same shapes. Lines
//! are told apart by pattern and lightness as well as by colour. Names are text and never markup.

mod axis;
mod band;
mod canvas;
mod charted;
mod data;
mod drawn;
mod eye;
mod font;
mod frame;
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
pub use charted::{charted, charted_feed};
pub use data::{
    BandMatch, Bounded, Carries, ChartData, Curve, EyeOutline, LimitLine, Margin, Minimum, Phase, Picture, Place,
    Profile, Show, Spectrum, State, Sweep,
};
pub use drawn::{Plot, plot, png, svg, without_glyph};
pub use frame::Frame;
pub use gather::chart_data;
