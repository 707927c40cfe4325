use approx::assert_relative_eq;

use lanecap::resolve::Debye;
use lanecap::resolve::geometry::{LaminateAt, Roughness, microstrip};
use lanecap::units::{DB_PER_NEPER, Hertz, Metre, SPEED_OF_LIGHT};

/// An FR-4 microstrip (w 3.00 mm, h 1.55 mm, t 50 µm) measured on 21 March 2017: the difference of a 200 mm and
/// a 100 mm line, files MSL200.s2p and MSL100.s2p of scikit-rf at bae3832 (BSD-3-Clause), reduced
/// independently (median over ±25 MHz). The laminate, ε_r 4.421 and tan δ 0.0167 at 1 GHz, is a fit of
/// another implementation to the same data, which weights permittivity more than loss: hence 15 % for the loss.
#[test]
fn measured_fr4_line() {
    let fr4 = Debye::from_points((4.421, Hertz(1e9)), (0.0167, Hertz(1e9))).unwrap();
    for (gigahertz, loss_db, permittivity) in [
        (0.5, 0.1364, 3.3451),
        (1.0, 0.2682, 3.3299),
        (2.0, 0.5100, 3.3235),
        (2.5, 0.6399, 3.3292),
        (3.0, 0.7614, 3.3374),
        (4.0, 1.0322, 3.3589),
        (5.0, 1.2964, 3.3830),
    ] {
        let f = Hertz(gigahertz * 1e9);
        let laminate = LaminateAt {
            permittivity: fr4.permittivity(f).re,
            loss_tangent: fr4.loss_tangent(f),
            copper_thickness: Metre(50e-6),
            resistivity: 1.712e-8,
            roughness: Roughness::Hammerstad { rms: Metre(0.15e-6) },
        };
        let line = microstrip(Metre(3e-3), Metre(1.55e-3), None, &laminate, f);
        assert_relative_eq!(line.effective_permittivity, permittivity, max_relative = 0.01);
        let dielectric =
            std::f64::consts::PI * f.0 * line.effective_permittivity.sqrt() * line.loss_tangent / SPEED_OF_LIGHT;
        let loss = 0.1 * DB_PER_NEPER * (line.conductor_loss + dielectric);
        assert_relative_eq!(loss, loss_db, max_relative = 0.15);
    }
}
