//! Junction capacitance at the worst bias of a line.

use crate::model::{CapacitanceRating, Grading, Polarity, VoltageRange};
use crate::units::{Farad, Volt};

/// Grading of a part that states none: from memory, common practice for silicon junctions.
pub const DEFAULT_GRADING: Grading = Grading { voltage: Volt(0.7), exponent: 0.33 };

/// A rating moved to the line's worst bias, and what was assumed on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JunctionOutcome {
    /// The capacitance to judge.
    pub capacitance: Farad,
    /// The bias it was moved to; `None` where the value stands as stated.
    pub moved_to: Option<Volt>,
    /// Whether [`DEFAULT_GRADING`] raised the value.
    pub default_grading_used: bool,
    /// Whether the value stands because only [`DEFAULT_GRADING`] would have lowered it.
    pub kept_without_grading: bool,
    /// Whether the part counts as unidirectional because it states no polarity.
    pub polarity_assumed: bool,
    /// Whether the rating states a bias that could not be used because the line states no voltage.
    pub line_voltage_missing: bool,
}

/// The worst capacitance of a part on a line.
///
/// With reverse bias V and g(V) = (1 + V/V_j)^m (Sze, *Physics of Semiconductor Devices*):
/// unidirectional C ∝ 1/g(V) at the lowest bias of the range, a negative one counting as 0; bidirectional
/// C ∝ 2/(1 + g(|V|)) at the smallest |V|; rails C ∝ 1/g(V) + 1/g(V_dd − V) at the end nearest to a rail, V within
/// 0…V_dd. Without a stated bias or a line voltage the value stands as stated. Without a stated grading the default one
/// may raise the value, never lower it.
pub fn worst_case(
    rating: &CapacitanceRating,
    polarity: Option<Polarity>,
    grading: Option<Grading>,
    line_voltage: Option<VoltageRange>,
) -> JunctionOutcome {
    let stated = JunctionOutcome {
        capacitance: rating.maximum,
        moved_to: None,
        default_grading_used: false,
        kept_without_grading: false,
        polarity_assumed: false,
        line_voltage_missing: rating.bias.is_some() && line_voltage.is_none(),
    };
    let (Some(bias), Some(range)) = (rating.bias, line_voltage) else {
        return stated;
    };
    let polarity_assumed = polarity.is_none();
    let polarity = polarity.unwrap_or(Polarity::Unidirectional);
    let law = grading.unwrap_or(DEFAULT_GRADING);
    let worst = worst_bias(polarity, range);
    let ratio = relative(polarity, law, worst) / relative(polarity, law, bias.0);
    let outcome = JunctionOutcome { polarity_assumed, ..stated };
    if grading.is_none() && ratio <= 1.0 {
        return JunctionOutcome { kept_without_grading: ratio < 1.0, ..outcome };
    }
    JunctionOutcome {
        capacitance: Farad(rating.maximum.0 * ratio),
        moved_to: Some(Volt(worst)),
        default_grading_used: grading.is_none(),
        ..outcome
    }
}

/// The least capacitance over a range of bias, over that at the stated bias; 1 where one of them is not known. Without a stated
/// grading the default one may lower it, never raise it.
pub(super) fn least_ratio(
    stated: Option<Volt>,
    polarity: Option<Polarity>,
    grading: Option<Grading>,
    line_voltage: Option<VoltageRange>,
) -> f64 {
    let (Some(bias), Some(range)) = (stated, line_voltage) else { return 1.0 };
    let polarity = polarity.unwrap_or(Polarity::Unidirectional);
    let law = grading.unwrap_or(DEFAULT_GRADING);
    let ratio = relative(polarity, law, least_bias(polarity, range)) / relative(polarity, law, bias.0);
    if grading.is_some() { ratio } else { ratio.min(1.0) }
}

/// The bias of a range at which the capacitance is least.
fn least_bias(polarity: Polarity, range: VoltageRange) -> f64 {
    match polarity {
        Polarity::Unidirectional => range.high.0.max(0.0),
        Polarity::Bidirectional => range.magnitudes().high.0,
        // The nearest to midway.
        Polarity::Rails(supply) => (0.5 * supply.0).min(within(range.high.0, supply)).max(within(range.low.0, supply)),
    }
}

/// The bias of a range at which the capacitance is largest.
fn worst_bias(polarity: Polarity, range: VoltageRange) -> f64 {
    let (low, high) = (range.low.0, range.high.0);
    match polarity {
        Polarity::Unidirectional => low.max(0.0),
        Polarity::Bidirectional if low <= 0.0 && high >= 0.0 => 0.0,
        Polarity::Bidirectional => low.abs().min(high.abs()),
        Polarity::Rails(supply) => {
            let (low, high) = (within(low, supply), within(high, supply));
            // The sum of the two junctions is least midway and alike on both sides.
            if low <= supply.0 - high { low } else { high }
        }
    }
}

/// C(V) up to a factor.
fn relative(polarity: Polarity, law: Grading, bias: f64) -> f64 {
    let g = |v: f64| (1.0 + v / law.voltage.0).powf(law.exponent);
    match polarity {
        Polarity::Unidirectional => 1.0 / g(bias.max(0.0)),
        Polarity::Bidirectional => 2.0 / (1.0 + g(bias.abs())),
        Polarity::Rails(supply) => {
            let bias = within(bias, supply);
            1.0 / g(bias) + 1.0 / g(supply.0 - bias)
        }
    }
}

fn within(bias: f64, supply: Volt) -> f64 {
    bias.min(supply.0).max(0.0)
}
