//! What a line meets, and what it asks of its part.

use super::TemperatureRange;
use crate::units::{Ampere, Ohm, Volt};

/// Properties a part must have.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Needs {
    /// Qualifications, each of which the part must state.
    pub qualified: Vec<String>,
    /// The package.
    pub package: Option<String>,
    /// Channels of one package, at least.
    pub channels: Option<u32>,
    /// Leakage at the line's voltage and highest temperature, at most.
    pub leakage: Option<Ampere>,
    /// Whether it must conduct alike in both directions.
    pub bidirectional: bool,
}

/// What any kind of line meets and asks for. What is `None` or empty is not asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Demands {
    /// Contact discharge, IEC 61000-4-2.
    pub contact: Option<Volt>,
    /// Air discharge, IEC 61000-4-2.
    pub air: Option<Volt>,
    /// 8/20 µs surge current; one stated as a voltage through an impedance is V/Z.
    pub surge: Option<Ampere>,
    /// The impedance that surge was stated through; `None` where a current was stated.
    pub surge_through: Option<Ohm>,
    /// What the protected chip survives at its pin.
    pub withstands: Option<Volt>,
    /// What it survives there for the first 5 ns of a discharge.
    pub withstands_peak: Option<Volt>,
    /// What it survives there for the microseconds of a surge.
    pub withstands_surge: Option<Volt>,
    /// What the part must have.
    pub needs: Needs,
    /// Ambient temperature.
    pub temperature: Option<TemperatureRange>,
}
