use approx::assert_relative_eq;

use lanecap::resolve::{Debye, DebyeError};
use lanecap::units::Hertz;

/// ε_r 4.2, tan δ 0.02 at 1 GHz: formula of Djordjević et al., IEEE Trans. EMC 43(4), 2001, evaluated
/// independently and checked with scikit-rf 2.2.0.
#[test]
fn wideband_debye_from_one_frequency() {
    let fr4 = Debye::from_points((4.2, Hertz(1e9)), (0.02, Hertz(1e9))).unwrap();
    for (f, permittivity, loss_tangent) in [
        (1e6, 4.569635, 0.0183822),
        (1e8, 4.323212, 0.0194410),
        (1e9, 4.2, 0.02),
        (2.5e9, 4.150969, 0.0202169),
        (5e9, 4.113879, 0.0203667),
        (1e10, 4.076791, 0.0204863),
        (2e10, 4.039709, 0.0205420),
        (4e10, 4.002650, 0.0204650),
    ] {
        assert_relative_eq!(fr4.permittivity(Hertz(f)).re, permittivity, max_relative = 1e-6);
        assert_relative_eq!(fr4.loss_tangent(Hertz(f)), loss_tangent, max_relative = 5e-6);
    }
    // Far above the upper pole: ε_inf of the same calculation.
    assert_relative_eq!(fr4.permittivity(Hertz(1e17)).re, 3.830_364_879, max_relative = 1e-6);
}

/// Second material of the same calculation.
#[test]
fn wideband_debye_of_the_measured_board() {
    let board = Debye::from_points((4.413, Hertz(1e9)), (0.0182, Hertz(1e9))).unwrap();
    for (f, permittivity, loss_tangent) in [(1e8, 4.530809, 0.0177368), (1e10, 4.295194, 0.0185920)] {
        assert_relative_eq!(board.permittivity(Hertz(f)).re, permittivity, max_relative = 1e-6);
        assert_relative_eq!(board.loss_tangent(Hertz(f)), loss_tangent, max_relative = 5e-6);
    }
}

/// Points of the table above at two frequencies lead back to the same material.
#[test]
fn wideband_debye_from_two_frequencies() {
    for (f1, permittivity, f2, loss_tangent) in
        [(1e6, 4.569635, 1e10, 0.0204863), (4e10, 4.002650, 1e6, 0.0183822), (1e8, 4.323212, 5e9, 0.0203667)]
    {
        let fr4 = Debye::from_points((permittivity, Hertz(f1)), (loss_tangent, Hertz(f2))).unwrap();
        assert_relative_eq!(fr4.permittivity(Hertz(1e9)).re, 4.2, max_relative = 3e-6);
        assert_relative_eq!(fr4.loss_tangent(Hertz(1e9)), 0.02, max_relative = 5e-6);
    }
}

/// A passive dielectric never gains energy, also outside its poles.
#[test]
fn loss_tangent_is_never_negative() {
    let fr4 = Debye::from_points((4.2, Hertz(1e9)), (0.02, Hertz(1e9))).unwrap();
    for decade in -3..18 {
        assert!(fr4.loss_tangent(Hertz(10f64.powi(decade))) >= 0.0, "1e{decade} Hz");
    }
    assert_eq!(fr4.permittivity(Hertz(0.0)).im, 0.0);
}

#[test]
fn without_loss_the_permittivity_is_constant() {
    let air = Debye::from_points((3.4, Hertz(1e9)), (0.0, Hertz(1e9))).unwrap();
    assert_eq!(air.permittivity(Hertz(1e3)), air.permittivity(Hertz(1e11)));
    assert_eq!(air.loss_tangent(Hertz(1e9)), 0.0);
}

#[test]
fn too_much_loss_is_refused() {
    assert_eq!(Debye::from_points((4.0, Hertz(1e11)), (0.3, Hertz(1e4))), Err(DebyeError));
    assert_eq!(Debye::from_points((1.1, Hertz(1e5)), (0.2, Hertz(1e9))), Err(DebyeError));
}
