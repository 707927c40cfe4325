//! The numbers of pictures: what a chart shows of a line, as plain data in SI units.
//!
//! [`chart_data`] takes them from a lane and its outcome, [`feed_chart_data`] from those of a feed, [`discharge_chart_data`]
//! from any line and its discharge, [`yield_chart_data`] from any line and its tolerances. Nothing about pixels or words.

mod band;
mod bounded;
mod charted;
mod data;
mod discharge;
mod discharged;
mod frequencies;
mod gather;
#[cfg(feature = "cli")]
mod live;
mod sensitive;
mod share;
mod state;
mod sweep;
mod swept;
mod yielded;

pub use band::feed_chart_data;
pub use bounded::Bounded;
pub use charted::{charted, charted_feed};
pub use data::{
    BandMatch, Carries, ChartData, Curve, EyeOutline, LimitLine, Margin, Minimum, Phase, Picture, Place, Profile, Show,
    Spectrum, Sweep,
};
pub use discharge::{AtPin, ChipLimits, DischargeCurves, LevelCurve, Spot, Trail};
pub use discharged::{NotDrawn, charted_discharge, discharge_chart_data};
pub use gather::chart_data;
#[cfg(feature = "cli")]
pub(crate) use live::{OverR, Slider};
pub use sensitive::{carried, charted_sensitivity};
pub use share::{Ends, ShareCurve};
pub use state::State;
pub use swept::{Bars, SweptAt, SweptAxis, SweptCurve, SweptMap};
pub use yielded::{charted_yield, yield_chart_data};
