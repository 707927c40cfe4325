//! What a chart shows, as plain numbers: SI units, nothing about pixels.

use super::bounded::Bounded;
use super::discharge::DischargeCurves;
use super::share::ShareCurve;
use super::state::State;
use super::swept::{Bars, SweptCurve, SweptMap};
use crate::model::Lane;

/// One picture of one line.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartData {
    /// Name of the line.
    pub line: String,
    /// What it is used for.
    pub carries: Carries,
    /// The largest capacitance the limits allow, one line to ground.
    pub budget_f: Option<f64>,
    /// The limit that sets it.
    pub set_by: Option<&'static str>,
    /// The fitted capacitance.
    pub fitted_f: Option<f64>,
    /// The picture's own numbers.
    pub picture: Picture,
}

/// What a line carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Carries {
    /// The symbols of a lane.
    Symbols {
        /// Line code.
        modulation: &'static str,
        /// Symbol rate.
        rate_bd: f64,
        /// Nyquist frequency.
        nyquist_hz: f64,
    },
    /// The band of a feed: lowest and highest frequency in hertz.
    Band([f64; 2]),
    /// The slow signal of a bus.
    Slow,
    /// A contact discharge of this level in volt; nothing is shown of its signal.
    Contact(f64),
}

impl Carries {
    /// What a lane carries.
    pub(super) fn of_lane(lane: &Lane) -> Carries {
        Carries::Symbols {
            modulation: lane.modulation.word(),
            rate_bd: lane.symbol_rate.0,
            nyquist_hz: lane.nyquist().0,
        }
    }
}

/// The numbers of each kind of picture.
#[derive(Debug, Clone, PartialEq)]
pub enum Picture {
    /// Insertion loss against frequency.
    Loss(Spectrum),
    /// Return loss against frequency: at the reference plane, and seen from the inner end.
    Reflection(Spectrum, Spectrum),
    /// Headroom and penalty against capacitance.
    Penalty(Sweep),
    /// The worst-pattern eye.
    Eye(Vec<EyeOutline>),
    /// The reflection profile along the path.
    Impedance(Profile),
    /// The match of a feed over its band.
    Match(BandMatch),
    /// What a contact discharge leaves at the chip.
    Discharge(Box<DischargeCurves>),
    /// The share of settings within the tolerances that allow a capacitance.
    Yield(ShareCurve),
    /// What buys more.
    Sensitivity(Bars),
    /// The budget and the tightest headroom over one value.
    Swept(SweptCurve),
    /// The budget over two values.
    Map(SweptMap),
}

/// One curve of a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// What it is of.
    pub state: State,
    /// Abscissa and value, in the units the picture says.
    pub points: Vec<(f64, f64)>,
}

/// A loss over frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct Spectrum {
    /// Loss in dB against hertz; a frequency without a finite loss is left out.
    pub curves: Vec<Curve>,
    /// The limits on it.
    pub limits: Vec<LimitLine>,
    /// Nyquist frequency.
    pub nyquist_hz: f64,
    /// Lowest and highest frequency.
    pub shown_hz: [f64; 2],
    /// Whether frequency is better shown on a logarithmic axis: where a mask is stated.
    pub logarithmic: bool,
}

/// A limit over frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitLine {
    /// The limit.
    pub limit: Bounded,
    /// Bound in dB against hertz; a single point for a limit at one frequency.
    pub points: Vec<(f64, f64)>,
    /// Whether values below the bound break it.
    pub is_floor: bool,
}

/// Figures over the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// Each limit's margin.
    pub margins: Vec<Margin>,
    /// Loss of the fundamental at Nyquist, a ratio against farad.
    pub eye_penalty: Vec<(f64, f64)>,
    /// Loss of the worst-pattern eye height, a ratio against farad; empty where there is none.
    pub worst_eye_penalty: Vec<(f64, f64)>,
    /// The allowed capacitances; an upper end of `None` is open.
    pub allowed: Vec<(f64, Option<f64>)>,
    /// The largest capacitance shown.
    pub last_f: f64,
}

/// A limit's distance to its bound over the capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct Margin {
    /// The limit.
    pub limit: Bounded,
    /// Distance relative to the bound (a bound of 0 counts as 1), positive where it holds, against farad.
    pub points: Vec<(f64, f64)>,
}

/// The worst-pattern eye of one state.
#[derive(Debug, Clone, PartialEq)]
pub struct EyeOutline {
    /// What it is of.
    pub state: State,
    /// Levels M of a symbol.
    pub levels: u32,
    /// Worst-pattern height, of the ideal eye; negative when closed.
    pub height: f64,
    /// Width in unit intervals.
    pub width_ui: f64,
    /// The phases, one unit interval to either side of the best one.
    pub phases: Vec<Phase>,
}

/// The bounds of all patterns at one sampling phase, the outermost levels of an ideal lane at ±1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Phase {
    /// Unit intervals from the best phase.
    pub at_ui: f64,
    /// Main cursor h_0.
    pub main: f64,
    /// Σ|h_k| over the other cursors: how far any level is moved, up or down.
    pub interference: f64,
}

impl Phase {
    /// The highest value of any pattern; the lowest is its negative.
    pub fn outer(&self) -> f64 {
        self.main.abs() + self.interference
    }

    /// Lower and upper bound of the `index`-th opening of `levels` levels, counted from the lowest; crossed where closed.
    ///
    /// Level l_i = 2i/(M−1) − 1 lies within l_i h_0 ± Σ|h_k|.
    pub fn opening(&self, levels: u32, index: u32) -> (f64, f64) {
        let steps = f64::from(levels.saturating_sub(1).max(1));
        let level = |i: u32| 2.0 * f64::from(i) / steps - 1.0;
        (level(index) * self.main + self.interference, level(index + 1) * self.main - self.interference)
    }
}

/// The impedance that a reflected step shows over time.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Impedance in the sheet's own ohms against seconds after the middle of the edge.
    pub curves: Vec<Curve>,
    /// Reference impedance as stated.
    pub reference_ohm: f64,
    /// The least impedance a limit allows, with the limit as stated.
    pub limit: Option<(f64, Bounded)>,
    /// The elements inward of the reference plane, outer first.
    pub elements: Vec<Place>,
}

/// Where an element is seen in a reflection profile.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Word and number, e.g. `trace 4`.
    pub name: String,
    /// Whether it is the protector.
    pub is_protector: bool,
    /// From when, twice the delay of the lines before it.
    pub from_s: f64,
    /// Until when; the same for what is lumped.
    pub to_s: f64,
}

/// The match of a feed, as its radio sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct BandMatch {
    /// Return loss in dB against hertz; a perfect match is left out.
    pub curves: Vec<Curve>,
    /// The limits on the reflection, as the return loss they ask for.
    pub limits: Vec<LimitLine>,
    /// Lowest and highest frequency in use.
    pub band_hz: [f64; 2],
    /// Lowest and highest frequency shown.
    pub shown_hz: [f64; 2],
    /// Where the reflection is least, of each state in which that is known.
    pub minima: Vec<Minimum>,
    /// The largest shift of the minimum in hertz that a limit allows, with the limit as stated.
    pub detuning: Option<(f64, Bounded)>,
    /// The return loss in dB that no lossless match can exceed all over the band, where it is known.
    pub bode_fano_db: Option<f64>,
}

/// Where a feed reflects least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Minimum {
    /// With what.
    pub state: State,
    /// Its frequency.
    pub at_hz: f64,
    /// Its shift against absent, down is negative.
    pub shift_hz: Option<f64>,
}

/// Which picture of a lane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Show {
    /// Insertion loss against frequency.
    Loss,
    /// Return loss against frequency, at the reference plane and seen from the inner end.
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
