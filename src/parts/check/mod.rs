//! Survival checks: what a line asks for against what a part states.

mod capacitance;
mod curve;
mod discharged;
mod exposure;
mod latch_up;
mod leakage;
mod lowest;
mod open_antenna;
mod residual;
mod suit;
mod surged;
mod voltage;
mod whole;

use super::Duty;
pub use super::check::capacitance::capacitance_check;
pub use super::check::curve::clamping_voltage;
pub(crate) use super::check::discharged::left_at_pin;
pub use super::check::residual::{contact_current_30ns, contact_first_peak};
pub(crate) use super::check::suit::apart;
pub use super::check::whole::{Fitted, line_checks};
pub(crate) use super::check::whole::{discharge_checks, fails_already};
use crate::diag::shorten;
use crate::figures::Sense;
use crate::model::{Note, Part};

/// One check of a part on a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// What is checked, in plain words.
    pub check: &'static str,
    /// The part that is checked, where it is a guard and not the part of the protector.
    pub part: Option<String>,
    /// Whether the part must have at least or at most what is required.
    pub sense: Sense,
    /// The limit: what the line asks for. `None` for a check of words.
    pub required: Option<f64>,
    /// What the part offers. `None` for a check of words and where it is not stated.
    pub available: Option<f64>,
    /// Unit of both.
    pub unit: &'static str,
    /// Distance to the limit relative to its size, negative when it fails; `None` without two numbers and at a
    /// limit of zero.
    pub margin: Option<f64>,
    /// The outcome.
    pub verdict: Verdict,
    /// Lowest and highest of what is required and of what is available, where both are ranges.
    pub ends: [Option<(f64, f64)>; 2],
    /// What the numbers do not show: a sentence without a full stop, where one helps.
    pub why: Option<String>,
}

impl Check {
    /// Passes when `available` is `required` or more.
    pub(crate) fn at_least(check: &'static str, required: f64, available: Option<f64>, unit: &'static str) -> Check {
        Check::compare(check, Sense::AtLeast, required, available, unit)
    }

    /// Passes when `available` is `required` or less.
    pub(crate) fn at_most(check: &'static str, required: f64, available: Option<f64>, unit: &'static str) -> Check {
        Check::compare(check, Sense::AtMost, required, available, unit)
    }

    fn compare(check: &'static str, sense: Sense, required: f64, available: Option<f64>, unit: &'static str) -> Check {
        let slack = available.map(|available| sense.margin(available, required));
        Check {
            check,
            part: None,
            sense,
            required: Some(required),
            available,
            unit,
            margin: slack.map(|s| s / required.abs() + 0.0).filter(|m| m.is_finite()),
            verdict: match slack {
                Some(s) if s >= 0.0 => Verdict::Passes,
                Some(_) => Verdict::Fails,
                None => Verdict::NotStated,
            },
            ends: [None; 2],
            why: None,
        }
    }

    /// The same with its reason.
    pub(crate) fn because(self, why: impl Into<String>) -> Check {
        Check { why: Some(why.into()), ..self }
    }

    /// What is checked, with the part where that is a guard.
    pub fn name(&self) -> String {
        match &self.part {
            Some(part) => format!("{} of \"{}\"", self.check, shorten(part, 60)),
            None => self.check.to_owned(),
        }
    }

    /// Its name with why it does not pass, where there is more to say than its numbers show.
    pub fn reason(&self) -> Option<String> {
        let why = self.why.as_deref().filter(|_| self.verdict != Verdict::Passes)?;
        Some(format!("{}: {why}", self.name()))
    }

    /// Whether its margin ranks parts: a count, a word and a temperature, met or not, are no distance, and a
    /// guard is there with any part.
    pub(crate) fn ranks(&self) -> bool {
        self.margin.is_some() && self.part.is_none() && !["channels", "temperature"].contains(&self.check)
    }

    /// Whether what is available is an estimate of what a discharge leaves at the chip.
    #[cfg_attr(not(feature = "cli"), allow(dead_code))]
    pub(crate) fn is_estimate(&self) -> bool {
        discharged::ESTIMATES.contains(&self.check) || self.check == surged::ESTIMATE || self.is_of_pin()
    }

    /// Whether it holds what a computed discharge leaves at the pin against what the chip survives.
    pub(crate) fn is_of_pin(&self) -> bool {
        self.check.starts_with("pin ")
    }

    /// A check of numbers that is left open, with those that are known.
    pub(crate) fn open(
        check: &'static str,
        required: Option<f64>,
        available: Option<f64>,
        unit: &'static str,
    ) -> Check {
        Check { required, available, unit, ..Check::words(check, None) }
    }

    /// A check of words: `held` is `None` where the part does not say.
    pub(crate) fn words(check: &'static str, held: Option<bool>) -> Check {
        Check {
            check,
            part: None,
            sense: Sense::AtLeast,
            required: None,
            available: None,
            unit: "",
            margin: None,
            verdict: match held {
                Some(true) => Verdict::Passes,
                Some(false) => Verdict::Fails,
                None => Verdict::NotStated,
            },
            ends: [None; 2],
            why: None,
        }
    }
}

/// Outcome of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It holds.
    Passes,
    /// It does not hold.
    Fails,
    /// The part does not state what the check needs.
    NotStated,
}

impl Verdict {
    /// The words of the results.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Passes => "passes",
            Verdict::Fails => "fails",
            Verdict::NotStated => "not stated",
        }
    }
}

/// All checks of a part on a line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Checks {
    /// Those the line asks for, in a fixed order.
    pub checks: Vec<Check>,
    /// What the reader should know beside the verdicts.
    pub cautions: Vec<Note>,
}

/// Every check that the line asks for.
///
/// # Units
/// Volts, amperes and degrees Celsius, as each check's `unit` says.
///
/// # Validity
/// Residual and leakage are estimates; none of the checks is a proof of immunity.
pub fn checks(duty: &Duty, part: &Part) -> Checks {
    let against_ground = [
        exposure::contact(duty, part),
        exposure::air(duty, part),
        exposure::surge(duty, part),
        residual::contact(duty, part),
        residual::first_peak(duty, part),
        residual::surge(duty, part),
    ];
    let rest = [leakage::leakage(duty, part), voltage::polarity(duty, part), suit::temperature(duty, part)];
    let checks = [lowest::lowest(duty, part), voltage::stand_off(duty, part), latch_up::latch_up(duty, part)]
        .into_iter()
        .chain(against_ground.map(|check| Some(exposure::against_ground(duty, part, check?))))
        .chain(rest)
        .flatten()
        .chain(suit::qualification(duty, part))
        .chain(suit::package(duty, part))
        .chain(suit::channels(duty, part))
        .chain(suit::mismatch(duty, part))
        .chain(suit::place(duty, part))
        .collect();
    let cautions = residual::cautions(duty, part).chain(suit::two_packages(duty, part));
    let cautions = cautions.chain(voltage::between_lines(duty, part)).chain(open_antenna::caution(duty, part));
    Checks { checks, cautions: cautions.collect() }
}
