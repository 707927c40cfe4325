//! Unit names of the lane sheet: what they measure, their factor to SI, and the nearest one to a misspelling.

use std::fmt;

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// A bare number.
    Number,
    /// Farad.
    Capacitance,
    /// Henry.
    Inductance,
    /// Ohm.
    Resistance,
    /// Siemens.
    Conductance,
    /// Second.
    Time,
    /// Hertz.
    Frequency,
    /// Bits per second.
    BitRate,
    /// Baud.
    SymbolRate,
    /// Metre.
    Length,
    /// Square metre.
    Area,
    /// Volt.
    Voltage,
    /// Ampere.
    Current,
    /// Watt.
    Power,
    /// Decibels over a milliwatt.
    PowerLevel,
    /// Decibel.
    Decibel,
    /// Decibel per metre.
    DecibelPerLength,
    /// Percent: the value is the ratio.
    Percent,
    /// Degree of angle.
    Angle,
    /// Degree Celsius.
    Temperature,
    /// Ohm metre.
    Resistivity,
}

impl Dimension {
    /// The unit an error message names as an example.
    pub fn example(self) -> &'static str {
        match self {
            Dimension::Number => "a bare number",
            Dimension::Capacitance => "pF",
            Dimension::Inductance => "nH",
            Dimension::Resistance => "ohm",
            Dimension::Conductance => "mS",
            Dimension::Time => "ps",
            Dimension::Frequency => "GHz",
            Dimension::BitRate => "Gb/s",
            Dimension::SymbolRate => "GBd",
            Dimension::Length => "mm",
            Dimension::Area => "um2",
            Dimension::Voltage => "V",
            Dimension::Current => "A",
            Dimension::Power => "W",
            Dimension::PowerLevel => "dBm",
            Dimension::Decibel => "dB",
            Dimension::DecibelPerLength => "dB/cm",
            Dimension::Percent => "%",
            Dimension::Angle => "deg",
            Dimension::Temperature => "degC",
            Dimension::Resistivity => "nohm*m",
        }
    }

    /// The SI unit in which ranges and results are given.
    pub fn symbol(self) -> &'static str {
        match self {
            Dimension::Number => "",
            Dimension::Capacitance => "F",
            Dimension::Inductance => "H",
            Dimension::Resistance => "ohm",
            Dimension::Conductance => "S",
            Dimension::Time => "s",
            Dimension::Frequency => "Hz",
            Dimension::BitRate => "b/s",
            Dimension::SymbolRate => "Bd",
            Dimension::Length => "m",
            Dimension::Area => "m2",
            Dimension::Voltage => "V",
            Dimension::Current => "A",
            Dimension::Power => "W",
            Dimension::PowerLevel => "dBm",
            Dimension::Decibel => "dB",
            Dimension::DecibelPerLength => "dB/m",
            Dimension::Percent => "%",
            Dimension::Angle => "deg",
            Dimension::Temperature => "degC",
            Dimension::Resistivity => "ohm*m",
        }
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Dimension::Number => "number without a unit",
            Dimension::Capacitance => "capacitance",
            Dimension::Inductance => "inductance",
            Dimension::Resistance => "resistance",
            Dimension::Conductance => "conductance",
            Dimension::Time => "time",
            Dimension::Frequency => "frequency",
            Dimension::BitRate => "bit rate",
            Dimension::SymbolRate => "symbol rate",
            Dimension::Length => "length",
            Dimension::Area => "area",
            Dimension::Voltage => "voltage",
            Dimension::Current => "current",
            Dimension::Power => "power",
            Dimension::PowerLevel => "power level",
            Dimension::Decibel => "level in decibels",
            Dimension::DecibelPerLength => "loss per length",
            Dimension::Percent => "percentage",
            Dimension::Angle => "angle",
            Dimension::Temperature => "temperature",
            Dimension::Resistivity => "resistivity",
        })
    }
}

/// A unit as written: what it measures and its factor to the SI unit of that dimension.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// What the unit measures.
    pub dimension: Dimension,
    /// SI value of one such unit, but for the power of ten.
    pub factor: f64,
    /// The power of ten that comes on top of the factor: kept apart so that `0.42 pF` is the double nearest to 4.2e-13.
    pub exponent: i32,
}

impl Unit {
    /// The SI value of the decimal number `digits` in this unit, rounded once: `0.42` pF is the double nearest to
    /// 4.2e-13. `None` where `digits` is no number.
    pub fn value_of(&self, digits: &str) -> Option<f64> {
        let (mantissa, own) = match digits.split_once(['e', 'E']) {
            Some((mantissa, own)) => (mantissa, own.parse::<i32>().ok()?),
            None => (digits, 0),
        };
        let exponent = own.checked_add(self.exponent)?;
        let value: f64 = format!("{mantissa}e{exponent}").parse().ok()?;
        Some(value * self.factor)
    }
}

/// `value` times a power of ten, rounded once: the decimal that `value` is written as, with its exponent moved.
pub(super) fn scaled(value: f64, exponent: i32) -> f64 {
    let unit = Unit { dimension: Dimension::Number, factor: 1.0, exponent };
    // -0 becomes 0, as in a sheet; NaN and the infinities are written without digits.
    unit.value_of(&format!("{value:e}")).unwrap_or(value) + 0.0
}

/// The prefixes of the lane sheet and their powers of ten; `u` is micro, as are both code points of µ.
pub const PREFIXES: [(&str, i32); 12] = [
    ("", 0),
    ("f", -15),
    ("p", -12),
    ("n", -9),
    ("u", -6),
    ("\u{b5}", -6),
    ("\u{3bc}", -6),
    ("m", -3),
    ("k", 3),
    ("M", 6),
    ("G", 9),
    ("T", 12),
];

/// Units that take a prefix: name, dimension, and the prefixes a misspelling most likely meant.
const PREFIXED: [(&str, Dimension, &str); 17] = [
    ("F", Dimension::Capacitance, "pfnum"),
    ("H", Dimension::Inductance, "npum"),
    ("ohm*m", Dimension::Resistivity, "nu"),
    ("ohm\u{b7}m", Dimension::Resistivity, ""),
    ("\u{3a9}*m", Dimension::Resistivity, ""),
    ("\u{3a9}\u{b7}m", Dimension::Resistivity, ""),
    ("\u{2126}*m", Dimension::Resistivity, ""),
    ("\u{2126}\u{b7}m", Dimension::Resistivity, ""),
    ("ohm", Dimension::Resistance, "kmM"),
    ("\u{3a9}", Dimension::Resistance, ""),
    ("\u{2126}", Dimension::Resistance, ""),
    ("Hz", Dimension::Frequency, "GMkT"),
    ("b/s", Dimension::BitRate, "GMkT"),
    ("Bd", Dimension::SymbolRate, "GMkT"),
    ("S", Dimension::Conductance, "mu"),
    ("s", Dimension::Time, "pnufm"),
    ("V", Dimension::Voltage, "kmu"),
];

const PREFIXED_SHORT: [(&str, Dimension, &str); 3] =
    [("A", Dimension::Current, "mnu"), ("W", Dimension::Power, "mk"), ("m", Dimension::Length, "munk")];

/// Units that stand as they are.
const PLAIN: [(&str, Dimension, f64, i32); 18] = [
    ("m2", Dimension::Area, 1.0, 0),
    ("mm2", Dimension::Area, 1.0, -6),
    ("um2", Dimension::Area, 1.0, -12),
    ("m\u{b2}", Dimension::Area, 1.0, 0),
    ("mm\u{b2}", Dimension::Area, 1.0, -6),
    ("um\u{b2}", Dimension::Area, 1.0, -12),
    ("cm", Dimension::Length, 1.0, -2),
    ("mil", Dimension::Length, 25.4, -6),
    ("in", Dimension::Length, 25.4, -3),
    ("dB", Dimension::Decibel, 1.0, 0),
    ("dBm", Dimension::PowerLevel, 1.0, 0),
    ("dB/m", Dimension::DecibelPerLength, 1.0, 0),
    ("dB/cm", Dimension::DecibelPerLength, 1.0, 2),
    ("dB/mm", Dimension::DecibelPerLength, 1.0, 3),
    ("dB/in", Dimension::DecibelPerLength, 1.0 / 25.4, 3),
    ("%", Dimension::Percent, 1.0, -2),
    ("deg", Dimension::Angle, 1.0, 0),
    ("degC", Dimension::Temperature, 1.0, 0),
];

fn prefixed() -> impl Iterator<Item = (&'static str, Dimension, &'static str)> {
    PREFIXED.into_iter().chain(PREFIXED_SHORT)
}

/// The unit written as `text`, or `None` where it is no unit. Case matters.
///
/// ```
/// use lanecap::units::{parse_unit, Dimension};
/// assert_eq!(parse_unit("pF").map(|u| u.dimension), Some(Dimension::Capacitance));
/// assert!(parse_unit("pf").is_none());
/// ```
pub fn parse_unit(text: &str) -> Option<Unit> {
    if let Some((_, dimension, factor, exponent)) = PLAIN.into_iter().find(|(name, ..)| *name == text) {
        return Some(Unit { dimension, factor, exponent });
    }
    prefixed().find_map(|(name, dimension, _)| {
        let prefix = text.strip_suffix(name)?;
        let (_, exponent) = PREFIXES.into_iter().find(|(p, _)| *p == prefix)?;
        Some(Unit { dimension, factor: 1.0, exponent })
    })
}

/// The known unit nearest to a misspelt one; one of `wanted`'s dimensions is preferred.
///
/// ```
/// use lanecap::units::suggest_unit;
/// assert_eq!(suggest_unit("pf", &[]).as_deref(), Some("pF"));
/// assert_eq!(suggest_unit("Gbps", &[]).as_deref(), Some("Gb/s"));
/// assert_eq!(suggest_unit("mhz", &[]).as_deref(), Some("MHz"));
/// ```
pub fn suggest_unit(text: &str, wanted: &[Dimension]) -> Option<String> {
    if text.chars().count() > 12 {
        return None;
    }
    let lower = text.to_lowercase();
    let plain = PLAIN.into_iter().map(|(name, dimension, ..)| (name.to_owned(), dimension, 0));
    let with_prefix = prefixed().flat_map(|(name, dimension, likely)| {
        std::iter::once((name.to_owned(), dimension, 0))
            .chain(likely.chars().enumerate().map(move |(rank, p)| (format!("{p}{name}"), dimension, rank)))
    });
    plain
        .chain(with_prefix)
        .filter_map(|(name, dimension, rank)| {
            let folded = strsim::damerau_levenshtein(&name.to_lowercase(), &lower);
            let exact = strsim::damerau_levenshtein(&name, text);
            let allowed = if lower.chars().count() <= 2 { 1 } else { 2 };
            let other_kind = !wanted.is_empty() && !wanted.contains(&dimension);
            (folded <= allowed && folded < lower.chars().count().max(2))
                .then_some(((folded, other_kind, rank, exact), name))
        })
        .min_by(|a, b| a.0.cmp(&b.0))
        .map(|(_, name)| name)
}
