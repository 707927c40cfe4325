//! The straight lines of a part and of a chip's clamp, from what a sheet states of them.

use super::{Conductor, SnapBack};
use crate::model::{ChipClamp, Part, Polarity};
use crate::units::{Ampere, Ohm, Volt};

/// From where a part with one junction, a part with rails or a chip's clamp conducts below ground where it does not say so:
/// one junction. An assumption.
pub const NEGATIVE: Volt = Volt(0.7);

/// Which way the struck line goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Above ground.
    Positive,
    /// Below ground: the circuit is computed upside down.
    Negative,
}

impl Sign {
    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Sign::Positive => "positive",
            Sign::Negative => "negative",
        }
    }
}

/// The word of a part that is missing for its curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MissingWord(pub &'static str);

/// The curve of a part behind its own resistance, under a pulse of 100 ns, above ground and below it; of the negative polarity
/// upside down.
///
/// Without `holding` straight from the breakdown, or else from the larger of the stand-off and the line's own intercept,
/// through the clamp point, and on with the dynamic resistance. With `holding` off up to the trigger, then
/// max(holding, V_clamp − R_dyn·I_clamp) + R_dyn·I. R_dyn is measured at the terminals: the part's own resistance is taken
/// out of it. Below ground a part with one junction conducts from that on, any other as above it.
///
/// # Errors
/// The word that is missing.
pub(super) fn part(part: &Part, sign: Sign) -> Result<Conductor, MissingWord> {
    Ok(turned(above_and_below(part)?, sign))
}

fn turned(conductor: Conductor, sign: Sign) -> Conductor {
    if sign == Sign::Negative { conductor.upside_down() } else { conductor }
}

fn above_and_below(part: &Part) -> Result<Conductor, MissingWord> {
    let (strength, own) = (&part.strength, part.resistance);
    let stated = strength.dynamic_resistance;
    let inner = |slope: Ohm| Ohm((slope.0 - own.0).max(0.0));
    let clamp = strength.clamp.ok_or(MissingWord("clamp"));
    if let Some(holding) = strength.holding {
        let trigger = strength.trigger.ok_or(MissingWord("trigger"))?;
        let slope = match stated {
            Some(slope) => slope,
            None => clamp.map(|point| Ohm(((point.voltage - holding).0 / point.current.0).max(0.0)))?,
        };
        let intercept = strength.clamp.map_or(holding.0, |point| point.voltage.0 - slope.0 * point.current.0);
        let on = Volt(holding.0.max(intercept));
        let holding = strength.holding_current.unwrap_or(Ampere::ZERO);
        let snap = SnapBack { trigger, holding, turn_on: strength.turn_on };
        let above = Conductor::from(on, inner(slope)).snaps_back(snap);
        return Ok(match junction(part) {
            Some(from) => above.below(&Conductor::from(from, inner(slope))),
            None => above.both_ways(),
        });
    }
    if strength.trigger.is_some() {
        return Err(MissingWord("holding"));
    }
    let point = clamp?;
    let intercept = stated.map(|slope| point.voltage.0 - slope.0 * point.current.0);
    let from = match (strength.breakdown, part.working_voltage()) {
        (Some(breakdown), _) => breakdown.voltage.0,
        (None, Some(standoff)) => standoff.0.max(intercept.unwrap_or(0.0)),
        (None, None) => return Err(MissingWord("standoff")),
    };
    let slope = stated.unwrap_or(Ohm(((point.voltage.0 - from) / point.current.0).max(0.0)));
    let side = |higher: f64| {
        let from = from + higher;
        let through = (Volt(point.voltage.0 + higher - own.0 * point.current.0), point.current);
        let rises = through.0.0 > from;
        Conductor::through(Volt(from), if rises { std::slice::from_ref(&through) } else { &[] }, inner(slope))
    };
    let below = junction(part).map(|from| Conductor::from(from, inner(slope)));
    Ok(side(0.0).below(&below.unwrap_or_else(|| side(higher_below(part)))))
}

/// The voltage at a part's terminals at the current of its `clamp` point, where its straight lines miss that point by more
/// than 1 %: what is stated of it does not go together.
pub fn misses_clamp(of: &Part) -> Option<Volt> {
    let point = of.strength.clamp?;
    let inner = part(of, Sign::Positive).ok()?.voltage(point.current);
    let volts = inner.0 + of.resistance.0 * point.current.0;
    ((volts - point.voltage.0).abs() > 0.01 * point.voltage.0).then_some(Volt(volts))
}

/// The curve of a part at its terminals in a surge: through its `surge_clamp` point, or else its `clamp` point. The dynamic
/// resistance is of the 100 ns pulse and does not count.
///
/// # Errors
/// The word that is missing.
pub(super) fn part_in_surge(part: &Part, sign: Sign) -> Result<Conductor, MissingWord> {
    let strength = &part.strength;
    let point = strength.surge_clamp.or(strength.clamp).ok_or(MissingWord("surge_clamp"))?;
    let from = match (strength.holding, strength.breakdown, part.working_voltage()) {
        (Some(holding), ..) => holding,
        (None, Some(breakdown), _) => breakdown.voltage,
        (None, None, Some(standoff)) => standoff,
        (None, None, None) => return Err(MissingWord("standoff")),
    };
    let slope = Ohm(((point.voltage - from).0 / point.current.0).max(0.0));
    // Nothing swings the other way in a surge: one side is all.
    let higher = match (sign, junction(part)) {
        (Sign::Negative, Some(from)) => return Ok(Conductor::from(from, slope)),
        (Sign::Negative, None) => higher_below(part),
        (Sign::Positive, _) => 0.0,
    };
    let conductor = Conductor::from(Volt(from.0 + higher), slope);
    match (strength.holding, strength.trigger) {
        (None, None) => Ok(conductor),
        (None, Some(_)) => Err(MissingWord("holding")),
        (Some(_), None) => Err(MissingWord("trigger")),
        (Some(_), Some(trigger)) => {
            let holding = strength.holding_current.unwrap_or(Ampere::ZERO);
            Ok(conductor.snaps_back(SnapBack { trigger, holding, turn_on: None }))
        }
    }
}

/// By how many volt the curve of a part that stands off more below ground than above it lies higher there: as far as its
/// stand-off does (common practice, no source). Nothing for one that snaps back, whose trigger is stated.
fn higher_below(part: &Part) -> f64 {
    let strength = &part.strength;
    let apart = strength.standoff_low.zip(strength.standoff).map_or(0.0, |(low, high)| -low.0 - high.0);
    if strength.holding.is_none() { apart.max(0.0) } else { 0.0 }
}

/// From where a part with one junction or with rails conducts below ground.
fn junction(part: &Part) -> Option<Volt> {
    let has_one = matches!(part.polarity, Some(Polarity::Unidirectional | Polarity::Rails(_)));
    has_one.then(|| part.strength.negative.unwrap_or(NEGATIVE))
}

/// The clamp of a chip, above ground and below it; `negative` is where it begins below, if that is stated.
pub(super) fn chip(clamp: ChipClamp, negative: Option<Volt>, sign: Sign) -> Conductor {
    let below = Conductor::from(negative.unwrap_or(NEGATIVE), clamp.resistance);
    turned(Conductor::from(clamp.voltage, clamp.resistance).below(&below), sign)
}
