use approx::assert_relative_eq;
use proptest::prelude::*;

use super::{microstrip_mm, stripline_mm, thin};
use lanecap::resolve::geometry::{LaminateAt, LineFromGeometry, microstrip, stripline};
use lanecap::units::{Hertz, Metre};

/// Logarithmically spread.
fn spread(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.ln()..high.ln()).prop_map(f64::exp)
}

fn sane(line: &LineFromGeometry, er: f64) -> bool {
    line.impedance.0.is_finite()
        && line.impedance.0 > 0.0
        && (1.0..=er).contains(&line.effective_permittivity)
        && line.conductor_loss.is_finite()
        && line.conductor_loss >= 0.0
        && line.loss_tangent.is_finite()
        && line.loss_tangent >= 0.0
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_wider_trace_has_a_lower_impedance(
        u in spread(0.1, 10.0), factor in 1.02..3f64, t in 0.0..0.3f64, er in 1.0..15f64,
    ) {
        let laminate = LaminateAt { copper_thickness: Metre(t * 1e-3), ..thin(er) };
        for line in [microstrip_mm, stripline_mm] {
            prop_assert!(line(u * factor, 1.0, None, &laminate).impedance.0 < line(u, 1.0, None, &laminate).impedance.0);
        }
    }

    #[test]
    fn a_narrower_gap_lowers_the_odd_mode_and_no_pair_is_above_its_single_line(
        u in spread(0.2, 5.0), g in spread(0.15, 5.0), factor in 1.1..3f64, t in 0.0..0.3f64, er in 1.0..15f64,
    ) {
        let laminate = LaminateAt { copper_thickness: Metre(t * 1e-3), ..thin(er) };
        for line in [microstrip_mm, stripline_mm] {
            let narrow = line(u, 1.0, Some(g), &laminate).impedance.0;
            let wide = line(u, 1.0, Some(g * factor), &laminate).impedance.0;
            let alone = line(u, 1.0, None, &laminate).impedance.0;
            // The fits' own ripple where the coupling is all but gone: 0.2 %.
            prop_assert!(narrow < wide * 1.002, "{narrow} {wide}");
            prop_assert!(wide < alone * 1.004, "{wide} {alone}");
        }
    }

    /// Nothing breaks within the wide ranges of engineering, published or not.
    #[test]
    fn every_section_has_finite_values(
        h in spread(1e-5, 1e-2), u in spread(0.01, 100.0), g in proptest::option::of(spread(1e-3, 1e3)),
        t in prop_oneof![Just(0.0), spread(1e-7, 1e-3)], er in prop_oneof![Just(1.0), 1.0..100f64],
        f in spread(1e3, 1e12), tan in 0.0..0.1f64,
    ) {
        let laminate = LaminateAt { copper_thickness: Metre(t), loss_tangent: tan, ..thin(er) };
        let (w, h, g) = (Metre(u * h), Metre(h), g.map(|g| Metre(g * h)));
        for line in [microstrip, stripline] {
            let line = line(w, h, g, &laminate, Hertz(f));
            prop_assert!(sane(&line, er), "{line:?}");
        }
    }

    /// The mode's fields move into the laminate as the frequency rises.
    #[test]
    fn microstrip_permittivity_rises_with_frequency(
        u in spread(0.1, 10.0), g in spread(0.1, 10.0), er in 1.5..15f64, f in spread(1e8, 2e10),
    ) {
        let (w, h) = (Metre(u * 1e-3), Metre(1e-3));
        let single = |f| microstrip(w, h, None, &thin(er), Hertz(f)).effective_permittivity;
        prop_assert!(single(f) <= single(1.3 * f) && single(1.3 * f) < er);
        // A pair's fit is not monotone everywhere, but never below its quasi-static value.
        let pair = |f| microstrip(w, h, Some(Metre(g * 1e-3)), &thin(er), Hertz(f)).effective_permittivity;
        prop_assert!(pair(1e3) <= pair(f) && pair(f) < er);
    }
}

/// Far apart, the lines of a pair are alone: at any frequency for the permittivity, without thickness.
#[test]
fn a_wide_gap_uncouples() {
    for u in [0.3, 1.0, 3.0] {
        let (w, h, s) = (Metre(u * 1e-3), Metre(1e-3), Some(Metre(0.1)));
        for f in [1e6, 5e9, 2e10] {
            let (pair, single) =
                (microstrip(w, h, s, &thin(4.2), Hertz(f)), microstrip(w, h, None, &thin(4.2), Hertz(f)));
            assert_relative_eq!(pair.effective_permittivity, single.effective_permittivity, max_relative = 1e-3);
        }
        let (pair, single) = (microstrip_mm(u, 1.0, Some(100.0), &thin(4.2)), microstrip_mm(u, 1.0, None, &thin(4.2)));
        assert_relative_eq!(pair.impedance.0, single.impedance.0, max_relative = 2e-3);
        let (pair, single) = (stripline_mm(u, 1.0, Some(20.0), &thin(4.2)), stripline_mm(u, 1.0, None, &thin(4.2)));
        assert_relative_eq!(pair.impedance.0, single.impedance.0, max_relative = 1e-12);
    }
}

/// In air the mode is TEM: ε_eff = 1 at every frequency, and the impedance does not disperse.
#[test]
fn air_does_not_disperse() {
    for gap in [None, Some(Metre(0.5e-3))] {
        for f in [1e6, 1e9, 3e10] {
            let line = microstrip(Metre(1e-3), Metre(1e-3), gap, &thin(1.0), Hertz(f));
            assert_relative_eq!(line.effective_permittivity, 1.0, max_relative = 1e-12);
            let low = microstrip(Metre(1e-3), Metre(1e-3), gap, &thin(1.0), Hertz(1e3));
            assert_relative_eq!(line.impedance.0, low.impedance.0, max_relative = 1e-12);
        }
    }
}
