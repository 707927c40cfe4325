//! Random feeds against a direct walk over a dense grid.

use approx::assert_relative_eq;

use crate::support::feeds::{fitted, gamma, random_feed, worst};
use crate::support::lanes::{guard, limit, mask};
use crate::support::random::Random;
use lanecap::budget::size_feed;
use lanecap::figures::*;
use lanecap::model::{Antenna, Element, Guard, PathElement};
use lanecap::network::FeedChain;
use lanecap::units::{Farad, Henry, Hertz, Metre, Ohm};

#[test]
fn the_worst_of_the_band() {
    let mut r = Random(41);
    for _ in 0..60 {
        let c = r.decade(2e-14, 2e-12);
        let feed = fitted(random_feed(&mut r), c);
        let outcome = size_feed(&feed).unwrap();
        let metrics = outcome.sized.fitted.unwrap().at.figures.band;
        for (metrics, c) in [(outcome.sized.absent.band, None), (metrics, Some(c))] {
            // A dense grid sees a smooth maximum from below, by less than the square of its step.
            let dense = worst(&feed, c, None);
            assert_relative_eq!(metrics.reflection, dense, max_relative = 1e-6, epsilon = 1e-12);
            assert!(metrics.reflection >= dense * (1.0 - 1e-12), "{feed:?}");
            let there = gamma(&feed, metrics.at.0, c, None).norm();
            assert_relative_eq!(metrics.reflection, there, max_relative = 1e-10, epsilon = 1e-12);
        }
    }
}

#[test]
fn the_budget_is_where_the_worst_of_the_band_meets_the_bound() {
    let mut r = Random(42);
    let mut bounded = 0;
    for _ in 0..60 {
        let mut feed = random_feed(&mut r);
        let at = r.decade(5e-14, 1e-12);
        let most = worst(&feed, Some(at), None).clamp(0.02, 0.95);
        let (kind, level) = match r.below(3) {
            0 => (&RETURN_LOSS, -20.0 * most.log10()),
            1 => (&VSWR, (1.0 + most) / (1.0 - most)),
            _ => (&MISMATCH_LOSS, -10.0 * (1.0 - most * most).log10()),
        };
        feed.limits = vec![limit(kind, level)];
        let budget = size_feed(&feed).unwrap().sized.budget;
        let Some(c) = budget.capacitance.filter(|c| c.0 > 0.0) else {
            continue;
        };
        bounded += 1;
        let lowest = budget.lowest.unwrap().0;
        assert!(worst(&feed, Some(c.0), None) <= most * (1.0 + 1e-9), "{kind:?} {feed:?}");
        assert!(worst(&feed, Some(0.5 * (c.0 + lowest)), None) <= most * (1.0 + 1e-9), "{feed:?}");
        let at = budget.set_at.unwrap().0;
        let beyond = gamma(&feed, at, Some(c.0 * (1.0 + 1e-6)), None).norm();
        assert!(beyond > most * (1.0 - 1e-12), "{beyond} {most} {kind:?} {feed:?}");
    }
    assert!(bounded >= 30, "{bounded}");
}

/// A gas tube at the connector belongs to the circuit: the worst match over the band is that of the direct route with it.
#[test]
fn a_guard_is_part_of_the_match() {
    let mut r = Random(47);
    for _ in 0..40 {
        let mut feed = random_feed(&mut r);
        let own = (r.decade(5e-14, 8e-13), r.decade(5e-11, 5e-10), r.between(0.0, 1.0));
        let stub = if r.chance(0.5) { r.decade(1e-4, 2e-3) } else { 0.0 };
        let guard = Guard {
            part_inductance: Henry(own.1),
            part_resistance: Ohm(own.2),
            inductance: Henry(0.1e-9),
            pad: Farad(2e-14),
            stub: Metre(stub),
            ..guard(own.0)
        };
        let without = gamma(&feed, feed.band.low.0, Some(2e-13), None);
        let place = PathElement { element: Element::Guard(guard), ..feed.path.elements[0].clone() };
        let at = 1 + r.below(feed.path.elements.len() as u64 - 1) as usize;
        feed.path.elements.insert(at, place);
        let chain = FeedChain::new(&feed);
        for f in [feed.band.low.0, 0.5 * (feed.band.low.0 + feed.band.high.0), feed.band.high.0] {
            let (got, absent) = (chain.at(Hertz(f)).at(2e-13).reflection, chain.at(Hertz(f)).absent.reflection);
            // Seen from the radio in 50 ohm, as the direct route sees it.
            assert!((got - gamma(&feed, f, Some(2e-13), None)).norm() < 1e-9, "{f}");
            assert!((absent - gamma(&feed, f, None, None)).norm() < 1e-9, "{f}");
        }
        let band = size_feed(&feed).unwrap().sized.absent.band;
        assert_relative_eq!(band.reflection, worst(&feed, None, None), max_relative = 1e-6, epsilon = 1e-12);
        assert!((gamma(&feed, feed.band.low.0, Some(2e-13), None) - without).norm() > 1e-6);
    }
}

#[test]
fn a_mask_binds_at_its_own_frequencies() {
    let mut r = Random(43);
    for _ in 0..20 {
        let mut feed = random_feed(&mut r);
        let at = 0.5 * (feed.band.low.0 + feed.band.high.0);
        let level = -20.0 * gamma(&feed, at, Some(3e-13), None).norm().log10();
        feed.limits = vec![mask(&RETURN_LOSS, &[(level, at)])];
        let budget = size_feed(&feed).unwrap().sized.budget;
        let ends = budget.allowed.intervals().iter().flat_map(|i| [i.low, i.high]);
        let nearest = ends.map(|end| (end / 3e-13 - 1.0).abs()).fold(f64::INFINITY, f64::min);
        assert!(nearest < 1e-6, "{nearest} {:?}", budget.allowed);
    }
}

#[test]
fn a_coil_at_the_protector() {
    let mut r = Random(44);
    let mut tuned = 0;
    for _ in 0..40 {
        let c = r.decade(5e-14, 1e-12);
        let mut feed = fitted(random_feed(&mut r), c);
        let level = r.between(6.0, 14.0);
        feed.limits = vec![limit(&RETURN_LOSS, level)];
        let outcome = size_feed(&feed).unwrap();
        let judged = outcome.sized.fitted.unwrap().at;
        if !matches!(feed.path.antenna(), Some(Antenna::Series(_) | Antenna::Parallel(_))) {
            assert!(outcome.sized.absent.resonance.is_none() && judged.changes.retune.is_none());
            continue;
        }
        let (Some(retune), Some(resonance)) = (judged.changes.retune, outcome.sized.absent.resonance) else {
            continue;
        };
        tuned += 1;
        let omega = 2.0 * std::f64::consts::PI * resonance.0;
        let total = c + feed.path.protector().unwrap().pad.0;
        // At ω0 the coil's reactance is that of the capacitance.
        assert_relative_eq!(omega * retune.shunt.0, 1.0 / (omega * total), max_relative = 1e-12);
        assert_relative_eq!(retune.series.0, total * 2500.0, max_relative = 1e-12);
        let off = (retune.nearest.0 / retune.shunt.0).ln().abs();
        // The widest gap of the series lies between 1.3 and 1.5.
        assert!(off <= 0.5 * (1.5f64 / 1.3).ln() + 1e-12, "{retune:?}");
        let dense = worst(&feed, Some(c), Some(retune.nearest.0));
        assert_relative_eq!(retune.metrics.reflection, dense, max_relative = 1e-6);
        assert_eq!(retune.holds, -20.0 * dense.log10() >= level);
    }
    assert!(tuned >= 10, "{tuned}");
}
