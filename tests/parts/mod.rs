//! Survival checks, the choice per line and the port bill.

// The lints guard the code under test.
#![allow(clippy::unwrap_used, clippy::panic)]

mod bill;
mod choice;
mod discharged;
mod latch_up;
mod lowest;
mod packages;
mod pair;
mod peak;
mod residual;
mod surged;
mod survival;
mod trade;

use lanecap::model::{ClampPoint, Part, VoltageRange};
use lanecap::parts::{Check, Duty, Verdict, checks};
use lanecap::units::{Ampere, Volt};

pub(crate) fn volts(low: f64, high: f64) -> Option<VoltageRange> {
    Some(VoltageRange { low: Volt(low), high: Volt(high) })
}

pub(crate) fn point(voltage: f64, current: f64) -> Option<ClampPoint> {
    Some(ClampPoint { voltage: Volt(voltage), current: Ampere(current) })
}

/// The check of this name, where the line asks for it.
pub(crate) fn find(duty: &Duty, part: &Part, name: &str) -> Option<Check> {
    checks(duty, part).checks.into_iter().find(|c| c.check == name)
}

/// Required, available, margin and verdict of the check of this name.
#[track_caller]
pub(crate) fn row(duty: &Duty, part: &Part, name: &str) -> (Option<f64>, Option<f64>, Option<f64>, Verdict) {
    let check = find(duty, part, name).unwrap_or_else(|| panic!("no check {name}"));
    (check.required, check.available, check.margin, check.verdict)
}

#[track_caller]
pub(crate) fn verdict(duty: &Duty, part: &Part, name: &str) -> Verdict {
    row(duty, part, name).3
}

/// Each number within 1e-12 of the expected one, and absent where none is expected.
#[track_caller]
pub(crate) fn near(found: Option<f64>, expected: Option<f64>) {
    match (found, expected) {
        (Some(a), Some(b)) => assert!((a - b).abs() <= 1e-12 * b.abs().max(1e-300), "{a} is not {b}"),
        _ => assert_eq!(found, expected),
    }
}

/// The same with some of its values changed.
pub(crate) fn changed<T>(mut whole: T, change: impl FnOnce(&mut T)) -> T {
    change(&mut whole);
    whole
}
