//! The interval of a counted share against scipy: fixtures/reference/clopper_pearson.py.

use lanecap::study::clopper_pearson;

/// Held, samples, lower and upper end.
const REFERENCE: &[(u64, u64, f64, f64)] = &[
    (0, 1, 0.0, 0.975),
    (1, 1, 0.025, 1.0),
    (0, 200, 0.0, 0.0182753403551362),
    (200, 200, 0.981724659644864, 1.0),
    (1, 200, 0.000126581027867018, 0.0275418984572056),
    (103, 200, 0.443463635749216, 0.586085170384956),
    (199, 200, 0.972458101542794, 0.999873418972133),
    (51, 1000, 0.0382052367746862, 0.0665134615949348),
    (997, 1000, 0.991257976761522, 0.99938090006835),
    (5100, 10000, 0.500150426821545, 0.51984374630483),
    (9970, 10000, 0.995720060912957, 0.997975025184129),
    (9999, 10000, 0.999442963002053, 0.999997468222407),
    (3, 1000000, 6.1867255019064e-07, 8.76724778806768e-06),
    (512345, 1000000, 0.511364782182346, 0.513325146308951),
    (997000, 1000000, 0.996890856535218, 0.997106248763778),
];

#[test]
fn intervals_are_those_of_the_beta_distribution() {
    for &(held, samples, low, high) in REFERENCE {
        let found = clopper_pearson(held, samples);
        let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * b.min(1.0 - b).max(1e-9);
        assert!(close(found.0, low) && close(found.1, high), "{held}/{samples}: {found:?}, {low} to {high}");
    }
}
