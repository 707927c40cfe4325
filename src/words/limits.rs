//! Limits in words: their names, units and the capacitances they allow.

use std::cmp::Ordering;

use crate::budget::{Headroom, IntervalSet, Verdict};
use crate::curve::Bounded;
use crate::figures::{
    DETUNING, EYE_HEIGHT, EYE_PENALTY, Figure, IMPEDANCE_EXCURSION, MISMATCH_LOSS, VSWR, WORST_EYE_PENALTY,
};
use crate::model::ProfileRead;
use crate::result::Stated;
use crate::units::decimal::{Decimal, Round, Scale, apart_from, engineering, pair, percent, short};
use crate::units::{Farad, Hertz, Ohm};

/// What the mark on the eye penalty stands for.
pub(crate) const PENALTY_NOTE: &str = "* fundamental at Nyquist, no eye measurement";

/// The name of the limit on a figure, with a mark on the one that must not be taken for a measurement.
pub(crate) fn title(of: &Figure) -> String {
    format!("{}{}", of.word(), if of == &EYE_PENALTY { "*" } else { "" })
}

/// How a limit's numbers are shown: a power of ten and a unit.
#[derive(Debug, Clone, Copy)]
struct Shown {
    power: i32,
    prefix: &'static str,
    unit: &'static str,
}

impl Shown {
    /// Decibels and ohms as they are, ratios in percent, all else with a prefix that suits `size`.
    fn of(figure: &Figure, size: f64) -> Shown {
        match figure.unit() {
            "" => Shown { power: 2, prefix: "", unit: "%" },
            "1" => Shown { power: 0, prefix: "", unit: "" },
            unit @ ("dB" | "ohm") => Shown { power: 0, prefix: "", unit },
            unit => {
                let scale = Scale::of(size);
                Shown { power: -(scale.factor.log10().round() as i32), prefix: scale.prefix, unit }
            }
        }
    }

    /// A number with its unit.
    fn text(self, number: Decimal) -> String {
        format!("{} {}{}", number.times_ten_to(self.power), self.prefix, self.unit).trim_end().to_owned()
    }
}

/// A number in a limit's unit, with its sign.
pub(crate) fn signed(of: &Figure, number: f64) -> String {
    let shown = Shown::of(of, number);
    let text = format!("{} {}{}", short(number).times_ten_to(shown.power).signed(), shown.prefix, shown.unit);
    text.trim_end().to_owned()
}

/// Nothing, in a limit's unit: `0 dB`.
pub(crate) fn nothing_of(of: &Figure) -> String {
    let unit = if of.unit().is_empty() { "%" } else { of.unit().trim_start_matches('1') };
    format!("0 {unit}").trim_end().to_owned()
}

/// Where in frequency something holds, or nothing.
pub(crate) fn at(frequency: Option<Hertz>) -> String {
    frequency.map_or(String::new(), |f| format!(" at {}", engineering(f.0, "Hz")))
}

/// What is gained where a penalty is negative; one below 1e-12 is round-off, and nothing.
pub(crate) fn gain(of: &Figure, value: f64) -> Option<Decimal> {
    let negative = (of == &EYE_PENALTY || of == &WORST_EYE_PENALTY) && value <= -1e-12;
    negative.then(|| short(-value))
}

/// A value against its bound, both in enough digits to see which is larger.
pub(crate) fn against(of: &Figure, value: f64, bound: f64) -> (String, String) {
    let shown = Shown::of(of, bound);
    let gained = gain(of, value).map(|gain| format!("gain {}", shown.text(gain)));
    let (value, bound) = pair(value, bound);
    (gained.unwrap_or_else(|| shown.text(value)), format!("{} {}", of.sense().sign(), shown.text(bound)))
}

/// Bound, value and headroom of a fitted line.
pub(crate) fn headroom(headroom: &Headroom) -> [String; 3] {
    let Headroom { figure, bound, .. } = *headroom;
    let (value, bound) = match headroom.value {
        Some(value) => against(figure, value, bound),
        None => (nothing(headroom).to_owned(), stated(figure, bound)),
    };
    let margin = headroom.margin.map_or(String::new(), |margin| signed(figure, margin));
    [format!("{bound}{}", at(headroom.at)), value, margin]
}

/// What it is that has no value.
fn nothing(headroom: &Headroom) -> &'static str {
    match headroom.figure {
        figure if figure == &DETUNING => "resonance lost",
        figure if figure == &WORST_EYE_PENALTY => "eye closed",
        figure if figure == &IMPEDANCE_EXCURSION => "no end found",
        figure if figure == &VSWR || figure == &MISMATCH_LOSS => "total reflection",
        _ if headroom.holds => "no reflection",
        _ => "nothing passes",
    }
}

/// Why there is no loss of an eye: it has this height, where that is known, with nothing fitted.
pub(crate) fn closed_eye(height: Option<f64>) -> String {
    let height = height.map_or(String::new(), |height| format!(" ({})", signed(&EYE_HEIGHT, height)));
    format!("cannot be evaluated: the eye is already closed without the protector{height}")
}

/// A bound as the sheet states it.
pub(crate) fn stated(of: &Figure, bound: f64) -> String {
    against(of, bound, bound).1
}

/// What a limit on the reflection profile states beside its bound, or nothing.
pub(crate) fn profile_read(below: Option<Ohm>, read: &ProfileRead) -> String {
    let below = below.map(|z| format!(" below {z}"));
    let rise = read.rise.map(|t| format!(" rise {t}"));
    let until = read.until.map(|t| format!(" until {t}"));
    [below, rise, until].into_iter().flatten().collect()
}

/// The bound of a limit, or the points of its mask.
pub(crate) fn bound(of: &Figure, limit: &Stated) -> String {
    if let Some(bound) = limit.bound {
        // Levels of a rise that are not the usual ones.
        let between = limit.levels.map(|(low, high)| format!(" from {} to {}", percent(low), percent(high)));
        let read = profile_read(limit.below, &limit.read);
        return format!("{}{}{read}", stated(of, bound), between.unwrap_or_default());
    }
    let points = limit.mask.iter().flat_map(|mask| mask.points());
    let points: Vec<String> = points
        .map(|point| format!("{}{}", Shown::of(of, point.level).text(short(point.level)), at(Some(point.frequency))))
        .collect();
    format!("{} {}", of.sense().sign(), points.join(", "))
}

/// Capacitances of one line, all in one unit, so rounded that none shown as allowed is not.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Capacitances {
    scale: Scale,
    /// The fitted value, exact and as shown.
    fitted: Option<(f64, Decimal)>,
}

impl Capacitances {
    /// Capacitances in the unit of `scale`, to be told apart from a fitted one, which in turn is told apart from `ends`.
    pub(crate) fn new(scale: Scale, fitted: Option<f64>, ends: impl Iterator<Item = f64>) -> Capacitances {
        let fitted = fitted.map(|fitted| {
            let others: Vec<(f64, Ordering)> = ends.map(|end| (end, fitted.total_cmp(&end))).collect();
            (fitted, apart_from(fitted, Round::Nearest, &others))
        });
        Capacitances { scale, fitted }
    }

    fn number(&self, value: f64, round: Round, other: Option<(f64, Ordering)>) -> Decimal {
        let fitted = self.fitted.map(|(exact, shown)| (shown.value(), value.total_cmp(&exact)));
        let others: Vec<(f64, Ordering)> = fitted.into_iter().chain(other).collect();
        apart_from(value, round, &others)
    }

    fn scaled(&self, number: Decimal) -> String {
        number.times_ten_to(-self.scale.factor.log10().round() as i32).to_string()
    }

    /// The largest allowed capacitance, never rounded up.
    pub(crate) fn largest(&self, value: f64) -> String {
        self.scaled(self.number(value, Round::Down, None))
    }

    /// The least allowed capacitance, never rounded down.
    pub(crate) fn least(&self, value: f64) -> String {
        self.scaled(self.number(value, Round::Up, None))
    }

    /// The least and the largest allowed capacitance, the least never rounded down.
    pub(crate) fn range(&self, low: f64, high: f64) -> (String, String) {
        let least = self.number(low, Round::Up, Some((high, low.total_cmp(&high))));
        let largest = self.number(high, Round::Down, Some((least.value(), high.total_cmp(&low))));
        (self.scaled(least), self.scaled(largest))
    }

    /// The fitted capacitance.
    pub(crate) fn fitted(&self) -> Option<String> {
        self.fitted.map(|(_, shown)| self.scaled(shown))
    }

    /// What limits leave as the cell of a table, without its unit.
    pub(crate) fn left(&self, verdict: Verdict, largest: Option<Farad>, least: Option<Farad>) -> String {
        match (verdict, largest, least) {
            (Verdict::Window, Some(high), Some(low)) => {
                let (low, high) = self.range(low.0, high.0);
                format!("{low} to {high}")
            }
            (_, Some(high), _) => self.largest(high.0),
            (Verdict::Unbounded, ..) => "no bound".to_owned(),
            _ => "none".to_owned(),
        }
    }

    /// The unit, e.g. `pF`.
    pub(crate) fn unit(&self) -> String {
        format!("{}F", self.scale.prefix)
    }

    /// The allowed capacitances as text, with the unit.
    pub(crate) fn intervals(&self, allowed: &IntervalSet) -> String {
        if allowed.is_empty() {
            return "none".to_owned();
        }
        let unit = self.unit();
        let one = |(low, high): (f64, Option<f64>)| match high {
            None if low == 0.0 => "any".to_owned(),
            None => format!("{} {unit} and above", self.least(low)),
            Some(high) if low == 0.0 => format!("up to {} {unit}", self.largest(high)),
            Some(high) => {
                let (low, high) = self.range(low, high);
                format!("{low} to {high} {unit}")
            }
        };
        allowed.ends().into_iter().map(one).collect::<Vec<_>>().join(" or ")
    }
}

/// The limit as the sheet states it, without the points of a mask.
pub fn label(stated_as: &Bounded) -> String {
    let Bounded { figure, level } = *stated_as;
    let word = figure.word();
    match level {
        // Times and resistances read better with a prefix.
        Some(level) if matches!(figure.unit(), "s" | "ohm" | "V") => {
            format!("{word} {} {}", figure.sense().sign(), engineering(level, figure.unit()))
        }
        Some(level) => format!("{word} {}", stated(figure, level)),
        None => format!("{word} mask"),
    }
}
