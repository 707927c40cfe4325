//! A discharge of the stated level, and the worst one up to it.

use super::build::StruckLine;
use super::run::Bench;
use super::seen::{Outcome, PinOutcome, Strike};
use crate::units::{Second, Volt};

/// Levels looked at, evenly over their logarithm, from the lowest of them on.
const LEVELS: u32 = 24;
const LOWEST: f64 = 500.0;
/// The finest step to begin with, and the finest of all.
const STEP: f64 = 2e-12;
const LEAST_STEP: f64 = 0.25e-12;
/// How much the figures may move where the step is halved.
const MOVES: f64 = 5e-3;
/// Share to which the level is told from which on the protector conducts.
const TOLD: f64 = 0.01;
/// Halvings of the level below the lowest one looked at.
const HALVINGS: u32 = 12;
/// A figure that falls below this share of itself from one level to the next higher one has jumped between them.
const DROPS: f64 = 0.98;
/// Levels below the lowest of these while a part that snaps back turns on there, each so far from the next.
const BELOW: u32 = 16;
const APART: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// A discharge whose step was halved until it stood still.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled {
    /// What it leaves.
    pub outcome: Outcome,
    /// Whether it stood still: its figures moved by less than 0.5 %, and every step had a solution.
    pub settled: bool,
}

/// What discharges of one polarity leave, up to the stated level.
#[derive(Debug, Clone, PartialEq)]
pub struct Discharged {
    /// The stated level.
    pub level: Volt,
    /// What it leaves.
    pub stated: Settled,
    /// The level that leaves most: the greatest equivalent current, without a clamp the highest voltage.
    pub worst_level: Volt,
    /// What that leaves.
    pub worst: Settled,
    /// The level from which on the protector conducts; `None` where it never does.
    pub turns_on_from: Option<Volt>,
    /// Every level looked at, with what it leaves at the pin at the first step size.
    pub levels: Vec<(Volt, PinOutcome)>,
}

/// A level in volt with what it leaves.
type Looked = (f64, Outcome);

impl StruckLine {
    /// A strike of this level, seen at the pin.
    pub fn strike(&self, level: Volt) -> Strike {
        Strike { level, pin: self.pin, clamp: self.clamp, arrives: self.arrives }
    }

    /// One discharge, its step halved until it stands still; `None` for a circuit that cannot be computed.
    pub fn discharge(&self, level: Volt) -> Option<Settled> {
        let bench = Bench::new(&self.circuit, Second(STEP))?;
        self.settle(level, bench.run(&self.strike(level), None))
    }

    /// The same from what it leaves at the first step size.
    fn settle(&self, level: Volt, mut outcome: Outcome) -> Option<Settled> {
        let strike = self.strike(level);
        let mut step = STEP;
        loop {
            step /= 2.0;
            let finer = Bench::new(&self.circuit, Second(step))?.run(&strike, None);
            let still = stands_still(&outcome, &finer, self);
            let solved = finer.solved;
            outcome = finer;
            if still || step <= LEAST_STEP {
                return Some(Settled { outcome, settled: still && solved });
            }
        }
    }

    /// Discharges of 24 levels up to this one, of lower ones while a part that snaps back turns on there, and of those on both
    /// sides of where one turns on or lets go once more or less, and from which on the protector conducts; `None` for a circuit
    /// that cannot be computed.
    pub fn up_to(&self, level: Volt) -> Option<Discharged> {
        let bench = Bench::new(&self.circuit, Second(STEP))?;
        let lowest = LOWEST.min(level.0);
        let share = |k: u32| f64::from(k) / f64::from(LEVELS - 1);
        let at = |k: u32| if k + 1 == LEVELS { level.0 } else { lowest * (level.0 / lowest).powf(share(k)) };
        let volts: Vec<f64> = if lowest < level.0 { (0..LEVELS).map(at).collect() } else { vec![level.0] };
        let mut looked: Vec<Looked> = volts.iter().map(|level| self.look(&bench, *level)).collect();
        self.look_below(&bench, &mut looked);
        self.look_where_parts_switch(&bench, &mut looked);
        let (volts, outcomes): (Vec<f64>, Vec<Outcome>) = looked.into_iter().unzip();
        let severity = |outcome: &Outcome| match self.clamp {
            Some(_) => outcome.pin.equivalent.0,
            None => outcome.pin.peak.0,
        };
        let worse = |a: &usize, b: &usize| severity(&outcomes[*a]).total_cmp(&severity(&outcomes[*b]));
        let worst = (0..outcomes.len()).max_by(worse)?;
        let last = outcomes.len() - 1;
        let settle = |k: usize| self.settle(Volt(volts[k]), outcomes[k].clone());
        let stated = settle(last)?;
        let other = if worst == last { None } else { Some(settle(worst)?) };
        // Near one another, the two may change places with the step.
        let (worst_level, worst) = match other {
            Some(other) if severity(&other.outcome) > severity(&stated.outcome) => (Volt(volts[worst]), other),
            _ => (level, stated.clone()),
        };
        let levels = volts.iter().zip(&outcomes).map(|(level, outcome)| (Volt(*level), outcome.pin)).collect();
        let turns_on_from = self.turns_on_from(&bench, &volts, &outcomes);
        Some(Discharged { level, stated, worst_level, worst, turns_on_from, levels })
    }

    fn look(&self, bench: &Bench, level: f64) -> Looked {
        (level, bench.run(&self.strike(Volt(level)), None))
    }

    /// Adds levels below the lowest one down to one at which no part turns on that snaps back.
    fn look_below(&self, bench: &Bench, looked: &mut Vec<Looked>) {
        for _ in 0..BELOW {
            let lowest = looked.first().filter(|(_, outcome)| outcome.parts.iter().any(|part| part.switched > 0));
            let Some((level, _)) = lowest else { return };
            looked.insert(0, self.look(bench, level * APART));
        }
    }

    /// Adds the levels on both sides of those at which a part that snaps back turns on or lets go once more or less, or from
    /// which on the pin sees less, each known to 1 %: just below such a level the chip may carry most.
    fn look_where_parts_switch(&self, bench: &Bench, looked: &mut Vec<Looked>) {
        let alike = |low: &Looked, high: &Looked| {
            let mut parts = low.1.parts.iter().zip(&high.1.parts);
            let mut pins = figures(&low.1).into_iter().zip(figures(&high.1));
            parts.all(|(low, high)| low.switched == high.switched) && pins.all(|(low, high)| high >= DROPS * low)
        };
        let mut further = Vec::new();
        for pair in looked.windows(2).filter(|pair| !alike(&pair[0], &pair[1])) {
            let (mut low, mut high) = (None, None);
            let level = |side: &Option<Looked>, end: &Looked| side.as_ref().unwrap_or(end).0;
            while level(&high, &pair[1]) > level(&low, &pair[0]) * (1.0 + TOLD) {
                let middle = self.look(bench, (level(&low, &pair[0]) * level(&high, &pair[1])).sqrt());
                if alike(&pair[0], &middle) { low = Some(middle) } else { high = Some(middle) }
            }
            further.extend([low, high].into_iter().flatten());
        }
        looked.extend(further);
        looked.sort_by(|a, b| a.0.total_cmp(&b.0));
    }

    /// By bisection below the first level looked at that turns the protector on.
    fn turns_on_from(&self, bench: &Bench, volts: &[f64], outcomes: &[Outcome]) -> Option<Volt> {
        let protector = self.parts.iter().position(|part| part.protects)?;
        let on = |outcome: &Outcome| outcome.parts[protector].on_at.is_some();
        let first = outcomes.iter().position(on)?;
        let turns_on = |level: f64| bench.turns_on(&self.strike(Volt(level)), protector);
        let mut high = volts[first];
        let mut low = if first > 0 { volts[first - 1] } else { high / 2.0 };
        let mut halvings = 0;
        while first == 0 && turns_on(low) {
            high = low;
            low /= 2.0;
            halvings += 1;
            if halvings == HALVINGS {
                return Some(Volt(high));
            }
        }
        while high > low * (1.0 + TOLD) {
            let middle = (low * high).sqrt();
            if turns_on(middle) { high = middle } else { low = middle }
        }
        Some(Volt(high))
    }
}

/// What the pin is held to.
fn figures(Outcome { pin, .. }: &Outcome) -> [f64; 4] {
    [pin.peak.0, pin.late_peak.0, pin.peak_current.0, pin.equivalent.0]
}

/// Whether the figures of the pin and the currents of the parts are the same with half the step; what is small against 10 mV,
/// 1 mA and 10 pJ by these, and a swing against the voltage in the direction of the strike by that.
fn stands_still(coarse: &Outcome, fine: &Outcome, line: &StruckLine) -> bool {
    let near = |a: f64, b: f64, least: f64| (a - b).abs() <= MOVES * b.abs().max(least);
    let (a, b) = (&coarse.pin, &fine.pin);
    let pins = near(a.peak.0, b.peak.0, 0.01)
        && near(a.late_peak.0, b.late_peak.0, 0.01)
        && near(a.swing.0, b.swing.0, b.peak.0.max(0.01))
        && near(a.late_swing.0, b.late_swing.0, b.late_peak.0.max(0.01))
        && near(a.plateau.0, b.plateau.0, 0.01)
        && near(a.peak_current.0, b.peak_current.0, 1e-3)
        && near(a.energy.0, b.energy.0, 1e-11);
    let parts = coarse.parts.iter().zip(&fine.parts).zip(&line.parts);
    let still = |((a, b), part): ((&super::PartOutcome, &super::PartOutcome), &super::StruckPart)| {
        a.on_at.is_some() == b.on_at.is_some()
            && (!part.has_peak || near(a.peak.0, b.peak.0, 1e-3))
            && near(a.energy.0, b.energy.0, 1e-11)
    };
    pins && parts.into_iter().all(still)
}
