//! From a line and its discharge to the numbers of a picture: over time, and over the level.

use super::data::{Carries, ChartData, Picture};
use super::discharge::{AtPin, ChipLimits, DischargeCurves, LevelCurve, Spot, Trail};
use crate::model::Line;
use crate::transient::{
    Bench, Contact, Discharged, LATE, LineDischarge, NotStruck, PinOutcome, Sign, StruckLine, StruckPart, Trace, struck,
};
use crate::units::{Second, Volt};

/// How long the curves over time are.
const SHOWN: f64 = 60e-9;
/// The finest step of them.
const STEP: Second = Second(0.5e-12);
/// Differences of the polarities below this share of the greatest value do not show.
const ALIKE: f64 = 2e-3;

/// Why there is no picture of a discharge.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotDrawn {
    /// The line states no path.
    NoPath,
    /// The line meets no contact discharge.
    NoContact,
    /// Its circuit cannot be computed.
    NotStruck(NotStruck),
}

/// The numbers of the picture of what a contact discharge leaves at the chip of a line.
///
/// # Errors
/// Why there is none.
pub fn charted_discharge(line: &Line) -> Result<ChartData, NotDrawn> {
    if line.path().is_none() {
        return Err(NotDrawn::NoPath);
    }
    let found = LineDischarge::of(line).and_then(|found| found.contact).ok_or(NotDrawn::NoContact)?;
    discharge_chart_data(line, &found.map_err(NotDrawn::NotStruck)?).map_err(NotDrawn::NotStruck)
}

/// The same from the line's own discharge.
///
/// # Errors
/// As [`struck`].
pub fn discharge_chart_data(line: &Line, contact: &Contact) -> Result<ChartData, NotStruck> {
    let [(sign, worse), (other_sign, other)] = contact.worse_first();
    let circuit = struck(line, sign)?;
    let alike = alike(worse, other);
    let polarity = |sign| (!alike).then_some(sign);
    let mut over_level = over_level(worse, circuit.clamp.is_some(), polarity(sign));
    if !alike {
        over_level.extend(self::over_level(other, circuit.clamp.is_some(), polarity(other_sign)));
    }
    let [volts, amperes] = over_time(&circuit, worse.level).ok_or(NotStruck::NotComputable)?;
    let demands = &line.head.demands;
    let survives = line.path().and_then(|path| path.inner_chip()?.survives);
    let curves = DischargeCurves {
        level_v: worse.level.0,
        polarity: polarity(sign),
        volts,
        amperes,
        ends_s: [LATE.0, SHOWN],
        pin: pins(worse),
        other: (!alike).then_some((pins(other), other.worst_level.0)),
        settled: [worse, other].iter().all(|of| of.stated.settled && of.worst.settled),
        over_level,
        worst_level_v: worse.worst_level.0,
        turns_on_from_v: circuit.protector.map(|_| worse.turns_on_from.map(|level| level.0)),
        survives: ChipLimits {
            clamps: circuit.clamp.is_some(),
            late_v: demands.withstands.map(|v| v.0),
            early_v: demands.withstands_peak.map(|v| v.0),
            pulse_a: survives.map(|s| s.current.0),
            peak_a: survives.and_then(|s| s.peak).map(|i| i.0),
        },
    };
    Ok(ChartData {
        line: line.head.name.clone(),
        carries: Carries::Contact(worse.level.0),
        budget_f: None,
        set_by: None,
        fitted_f: None,
        picture: Picture::Discharge(Box::new(curves)),
    })
}

/// What the pin sees at the stated level, and at the worst one.
fn pins(of: &Discharged) -> [PinOutcome; 2] {
    [of.stated.outcome.pin, of.worst.outcome.pin]
}

/// Whether both polarities leave the same at the pin, as far as a picture can tell.
fn alike(a: &Discharged, b: &Discharged) -> bool {
    let figures = |pin: &PinOutcome| [pin.peak.0, pin.late_peak.0, pin.equivalent.0, pin.peak_current.0];
    let as_many = a.levels.len() == b.levels.len();
    as_many
        && (0..4).all(|k| {
            let most = a.levels.iter().map(|(_, pin)| figures(pin)[k]).fold(0.0, f64::max);
            let both = a.levels.iter().zip(&b.levels);
            both.into_iter().all(|((_, a), (_, b))| (figures(a)[k] - figures(b)[k]).abs() <= ALIKE * most)
        })
}

/// What the pin sees over the level: its current where its clamp is stated, or else its voltage.
fn over_level(of: &Discharged, clamps: bool, polarity: Option<Sign>) -> Vec<LevelCurve> {
    let shown = if clamps { [AtPin::Equivalent, AtPin::PeakCurrent] } else { [AtPin::LateVoltage, AtPin::PeakVoltage] };
    let curve = |of_pin: &AtPin| {
        let value = |pin: &PinOutcome| match of_pin {
            AtPin::Equivalent => pin.equivalent.0,
            AtPin::PeakCurrent => pin.peak_current.0,
            AtPin::LateVoltage => pin.late_peak.0,
            AtPin::PeakVoltage => pin.peak.0,
        };
        let points = of.levels.iter().map(|(level, pin)| (level.0, value(pin))).collect();
        LevelCurve { of: *of_pin, polarity, points }
    };
    shown.iter().map(curve).collect()
}

/// Voltages and currents over time; `None` for a circuit that cannot be computed.
fn over_time(line: &StruckLine, level: Volt) -> Option<[Vec<Trail>; 2]> {
    let mut trace = Trace::default();
    Bench::new(&line.circuit, STEP)?.run(&line.strike(level), Some(&mut trace));
    let trail = |of: Spot, values: &[f64]| {
        let shown = trace.t.iter().copied().zip(values.iter().copied()).take_while(|point| point.0 <= SHOWN);
        Trail { of, points: std::iter::once((0.0, 0.0)).chain(shown).collect() }
    };
    let mut volts = vec![trail(Spot::Chip, &trace.pin)];
    let mut amperes = Vec::new();
    for (part, (across, through)) in line.parts.iter().zip(&trace.parts) {
        if part.protects {
            volts.push(trail(spot(part), across));
        }
        amperes.push(trail(spot(part), through));
    }
    volts.push(trail(Spot::Connector, &trace.struck));
    if line.clamp.is_some() {
        amperes.insert(0, trail(Spot::Chip, &trace.chip));
    }
    Some([volts, amperes])
}

fn spot(part: &StruckPart) -> Spot {
    if part.protects { Spot::Protector(part.element) } else { Spot::Guard(part.element) }
}
