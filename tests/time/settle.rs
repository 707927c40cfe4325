//! Records: shared, grown, given up.

use std::cell::Cell;

use num_complex::Complex64;

use super::{channel, data, shunt};
use crate::support::read_text;
use lanecap::budget::Figures;
use lanecap::response::{Case, ChainSample, Source, TimeDomain};
use lanecap::result::size;

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

/// A line of 0.1 ohm between ends of 50 ohm and 10 kohm rings on for longer than a record at 10 GBd. A limit on one figure
/// fails by that figure alone: the eye of four levels settles, the edge does not.
#[test]
fn a_limit_fails_by_no_figure_but_its_own() {
    let told = |limit: &str| {
        let text = format!(
            "lane \"x\" {{ rate 10 GBd pam4; reference 50 ohm; limit {limit}
path {{ driver 50 ohm; trace 0.1 ohm 450 ps permittivity 4; protector 0.3 pF; receiver 10 kohm }} }}"
        );
        let (gathered, design) = read_text(&text);
        match size(&design.unwrap(), &[0], Figures::Nyquist, &gathered.sources, &|| ()) {
            Ok(report) => report.lanes[0].fitted().unwrap().holds.to_string(),
            Err(errors) => errors[0].message.clone(),
        }
    };
    assert_eq!(told("eye_height >= 10 %"), "false");
    assert!(told("added_rise <= 10 ps").contains(": the rise time does not settle"));
}
