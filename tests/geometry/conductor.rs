use approx::assert_relative_eq;

use lanecap::resolve::geometry::{Roughness, skin_depth, surface_resistance};
use lanecap::units::{Hertz, Metre};

/// D. M. Pozar, Microwave Engineering, 2nd ed. (1998), Ex. 1.2 p. 20, as re-worked in FPTC, chapter 1: 10 GHz.
#[test]
fn skin_depth_of_four_metals_at_10_ghz() {
    for (metal, conductivity, micrometres) in
        [("Al", 3.816e7, 0.815), ("Cu", 5.813e7, 0.660), ("Au", 4.098e7, 0.786), ("Ag", 6.173e7, 0.641)]
    {
        let depth = skin_depth(Hertz(1e10), 1.0 / conductivity).0 * 1e6;
        assert!((depth - micrometres).abs() < 0.0006, "{metal}: {depth} µm");
    }
}

/// Pozar, 2nd ed., Ex. 1.4 p. 38 (copper, 1 GHz: 2.087 µm and 8.241 mΩ) and the output of Ex. 3.1
/// (5.8e7 S/m, 10 GHz: 0.02608951 Ω), as re-worked in FPTC.
#[test]
fn copper_surface_resistance() {
    assert!((skin_depth(Hertz(1e9), 1.0 / 5.813e7).0 * 1e6 - 2.087).abs() < 0.001);
    assert!((surface_resistance(Hertz(1e9), 1.0 / 5.813e7).0 * 1e3 - 8.241).abs() < 0.001);
    assert_relative_eq!(surface_resistance(Hertz(1e10), 1.0 / 5.8e7).0, 0.026_089_51, max_relative = 1e-6);
}

/// Formula of E. Hammerstad, Ø. Jensen, MTT-S 1980; the values are an independent calculation.
#[test]
fn hammerstad_roughness() {
    for (rms, depth, factor) in [
        (0.15, 2.0873, 1.004_602_707),
        (1.0, 2.0873, 1.197_933_772),
        (0.5, 0.660_07, 1.430_839_731),
        (1.0, 0.660_07, 1.807_926_615),
        (1e4, 0.5, 2.0),
    ] {
        let rough = Roughness::Hammerstad { rms: Metre(rms * 1e-6) };
        assert_relative_eq!(rough.factor(Metre(depth * 1e-6)), factor, max_relative = 1e-6);
    }
}

/// Formula as in J. E. Bracken, DesignCon 2012; the geometry (79 balls of 0.8 µm on 9.4 µm squared) from memory,
/// the values an independent calculation. The second set is one ball count of 14 with r = 0.06 Rz, A = 36 r².
#[test]
fn huray_roughness() {
    let tile = Roughness::Huray { count: 79.0, radius: Metre(0.8e-6), area: 9.4e-6 * 9.4e-6 };
    for (depth, factor) in [(2.0873, 2.537_997), (0.933_46, 4.787_728), (0.660_07, 5.980_809)] {
        assert_relative_eq!(tile.factor(Metre(depth * 1e-6)), factor, max_relative = 1e-6);
    }
    for (rz, coarse, fine) in [(5e-6, 1.227_919, 2.304_165), (2e-6, 1.043_203, 1.338_918)] {
        let radius = 0.06 * rz;
        let packed = Roughness::Huray { count: 14.0, radius: Metre(radius), area: 36.0 * radius * radius };
        assert_relative_eq!(packed.factor(Metre(2.0873e-6)), coarse, max_relative = 1e-6);
        assert_relative_eq!(packed.factor(Metre(0.660_07e-6)), fine, max_relative = 1e-6);
    }
}

#[test]
fn smooth_and_empty_surfaces_add_nothing() {
    let none = Roughness::Huray { count: 14.0, radius: Metre(0.0), area: 1e-12 };
    let flat = Roughness::Hammerstad { rms: Metre(0.0) };
    for surface in [Roughness::Smooth, none, flat] {
        assert_eq!(surface.factor(Metre(1e-6)), 1.0);
    }
}
