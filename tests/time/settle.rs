//! Records: shared, grown, given up.

use std::cell::Cell;

use num_complex::Complex64;

use super::{channel, data, shunt};
use lanecap::response::{Case, ChainSample, Source, TimeDomain};

struct Counted<'a, S>(S, &'a Cell<usize>);

impl<S: Source> Source for Counted<'_, S> {
    fn at(&self, f_hz: f64) -> ChainSample {
        self.1.set(self.1.get() + 1);
        self.0.at(f_hz)
    }
}

#[test]
fn each_frequency_is_evaluated_once_for_all_capacitances() {
    let count = Cell::new(0);
    let mut lane = TimeDomain::new(Counted(shunt(50.0), &count), data(100e-12, 30e-12));
    lane.eye(Case::Absent).unwrap();
    let first = count.get();
    assert_eq!(first, lane.frequencies());
    lane.eye(Case::With(0.3e-12)).unwrap();
    lane.eye(Case::With(0.6e-12)).unwrap();
    lane.rise_s(Case::With(0.3e-12), 0.0).unwrap();
    assert_eq!(count.get(), first);
    assert!(first < 800, "{first}");
}

#[test]
fn figures_do_not_depend_on_what_was_asked_before() {
    let case = Case::With(0.4e-12);
    let mut fresh = TimeDomain::new(shunt(50.0), data(100e-12, 30e-12));
    let alone = fresh.eye(case).unwrap();
    let mut used = TimeDomain::new(shunt(50.0), data(100e-12, 30e-12));
    used.eye(Case::With(20e-12)).unwrap();
    let after = used.eye(case).unwrap();
    assert!(used.frequencies() > fresh.frequencies());
    assert!((alone.0.height - after.0.height).abs() < 1e-14);
}

#[test]
fn endless_ringing_is_an_error_that_names_the_figure() {
    // A lossless resonance of Q = 1e7 near a sixth of the symbol rate.
    let ring = |f: f64| {
        let x = Complex64::new(1.0 - (f / 1.7e9).powi(2), f / 1.7e9 * 1e-7);
        1.0 / x
    };
    let mut lane = TimeDomain::new(channel(ring), data(100e-12, 120e-12));
    let error = lane.eye(Case::Absent).unwrap_err();
    assert_eq!(error.figure, "eye height");
    let text = error.to_string();
    assert!(text.starts_with("the eye height does not settle within a record of "), "{text}");
}

#[test]
fn an_edge_too_short_for_any_record_is_an_error_not_a_wait() {
    let mut lane = TimeDomain::new(shunt(50.0), data(100e-12, 1e-17));
    assert_eq!(lane.eye(Case::Absent).unwrap_err().moved, f64::INFINITY);
    let error = lane.rise_s(Case::Absent, 0.0).unwrap_err();
    assert!(error.to_string().starts_with("the rise time cannot be found: a record of "), "{error}");
    assert_eq!(lane.frequencies(), 0);
}
