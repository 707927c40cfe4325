//! Finite thickness in air against a charge-basis method of moments: fixtures/reference/strip_moments.py makes the
//! tables. D is R/R_s of the line in 1/m at a height of 1 m, so that α_c = R_s D/(2 Z).

use approx::assert_relative_eq;

use super::thin;
use lanecap::resolve::geometry::{LaminateAt, LineFromGeometry, microstrip, stripline, surface_resistance};
use lanecap::units::{Hertz, Metre};

type Section = (f64, f64, Option<f64>, f64, f64);

const MICROSTRIP: [Section; 14] = [
    (1.0, 0.01, None, 125.190, 1.1740),
    (1.0, 0.1, None, 118.681, 0.8450),
    (2.0, 0.1, None, 85.505, 0.5213),
    (1.0, 0.3, None, 110.104, 0.6607),
    (0.5, 0.2, None, 143.141, 1.0880),
    (4.0, 0.05, None, 56.919, 0.3286),
    (1.0, 0.1, Some(0.5), 78.355, 0.8797),
    (1.0, 0.2, Some(1.0), 86.885, 0.6793),
    (1.0, 0.35, Some(1.0), 79.390, 0.5751),
    (1.5, 0.35, Some(1.5), 75.945, 0.4544),
    (1.0, 0.3, Some(0.4), 59.905, 0.7144),
    (2.0, 0.3, Some(1.0), 62.888, 0.4045),
    (0.5, 0.2, Some(0.5), 85.290, 1.0800),
    (1.0, 0.2, Some(3.0), 105.771, 0.6921),
];

const STRIPLINE: [Section; 16] = [
    (1.0, 0.02, None, 62.877, 1.0484),
    (1.0, 0.1, None, 55.700, 0.8471),
    (0.3, 0.1, None, 103.879, 1.9443),
    (0.5, 0.2, None, 71.605, 1.1871),
    (0.2, 0.05, None, 132.259, 3.0440),
    (2.0, 0.1, None, 33.612, 0.4668),
    (0.1, 0.1, None, 142.602, 3.4618),
    (0.5, 0.01, Some(0.2), 76.939, 2.3329),
    (0.5, 0.05, Some(0.2), 68.447, 1.7912),
    (0.3, 0.03, Some(0.3), 96.884, 2.6219),
    (0.3, 0.1, Some(0.3), 81.487, 1.9043),
    (0.3, 0.06, Some(0.3), 89.415, 2.2170),
    (0.3, 0.1, Some(0.5), 92.512, 1.8605),
    (0.3, 0.1, Some(0.15), 64.342, 2.1628),
    (1.0, 0.1, Some(0.5), 52.152, 0.8379),
    (0.8, 0.1, Some(0.1), 40.793, 1.4741),
];

type Line = fn(Metre, Metre, Option<Metre>, &LaminateAt, Hertz) -> LineFromGeometry;

/// Tolerances: impedance and D of a single line, impedance and D of an odd mode.
fn check(line: Line, sections: &[Section], tolerances: [f64; 4]) {
    for &(w, t, s, impedance, crowding) in sections {
        let laminate = LaminateAt { copper_thickness: Metre(t), ..thin(1.0) };
        let frequency = Hertz(1e6);
        let line = line(Metre(w), Metre(1.0), s.map(Metre), &laminate, frequency);
        let d = 2.0 * line.impedance.0 * line.conductor_loss / surface_resistance(frequency, laminate.resistivity).0;
        let [z_tolerance, d_tolerance] = match s {
            None => [tolerances[0], tolerances[1]],
            Some(_) => [tolerances[2], tolerances[3]],
        };
        assert_relative_eq!(line.impedance.0, impedance, max_relative = z_tolerance);
        assert_relative_eq!(d, crowding, max_relative = d_tolerance);
    }
}

#[test]
fn thick_microstrip() {
    check(microstrip, &MICROSTRIP, [2e-3, 0.02, 0.025, 0.06]);
}

#[test]
fn thick_stripline() {
    check(stripline, &STRIPLINE, [3e-3, 0.02, 0.015, 0.06]);
}
