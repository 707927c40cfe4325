//! Products of two quantities and their quotients.

use lanecap::units::*;
use proptest::prelude::*;

/// The steps between two doubles of one sign.
fn ulps(a: f64, b: f64) -> u64 {
    a.to_bits().abs_diff(b.to_bits())
}

/// Both orders of a product, and both of its quotients back.
macro_rules! products {
    ($x:expr, $y:expr; $($a:ident * $b:ident = $c:ident;)*) => {$({
        let (a, b) = ($a($x), $b($y));
        let product: $c = a * b;
        prop_assert_eq!(product.0, $x * $y);
        prop_assert_eq!(b * a, product);
        let (first, second): ($a, $b) = (product / b, product / a);
        prop_assert!(ulps(first.0, a.0) <= 1, "{} * {}", stringify!($a), stringify!($b));
        prop_assert!(ulps(second.0, b.0) <= 1, "{} * {}", stringify!($a), stringify!($b));
    })*};
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_product_divided_by_one_is_the_other(
        (m, e) in (1.0..10.0f64, -20..12i32),
        (n, g) in (1.0..10.0f64, -20..12i32),
    ) {
        let (x, y) = (m * 10f64.powi(e), n * 10f64.powi(g));
        products! { x, y;
            Ohm * Ampere = Volt;
            Volt * Siemens = Ampere;
            Volt * Ampere = Watt;
            Watt * Second = Joule;
            Joule * Hertz = Watt;
            Ampere * Second = Coulomb;
            Coulomb * Hertz = Ampere;
            Coulomb * Volt = Joule;
            Farad * Volt = Coulomb;
            Ohm * Farad = Second;
            Ohm * Second = Henry;
            Siemens * Second = Farad;
            Siemens * Henry = Second;
        }
    }

    #[test]
    fn a_reciprocal_comes_back(m in 1.0..10.0f64, e in -15..15i32) {
        let x = m * 10f64.powi(e);
        let (g, r): (Siemens, Ohm) = (1.0 / Ohm(x), 1.0 / Siemens(x));
        prop_assert!(ulps((1.0 / g).0, x) <= 1 && ulps((1.0 / r).0, x) <= 1);
        prop_assert!((g * Ohm(x) - 1.0).abs() <= f64::EPSILON);
        prop_assert!((Ohm(x) * g - 1.0).abs() <= f64::EPSILON);
        prop_assert!(ulps(Hertz(x).period().frequency().0, x) <= 1);
        prop_assert_eq!(Hertz(x) * Second(1.0), x);
        prop_assert_eq!(2.0 / Second(x), Hertz(2.0 / x));
        prop_assert_eq!(Baud(x).nyquist().0, x / 2.0);
        prop_assert_eq!(Baud(x).symbol().0, 1.0 / x);
    }
}

#[test]
fn values_by_hand() {
    assert_eq!((Ohm::kilo(1.0) * Farad::nano(100.0)).to_string(), "100 us");
    assert_eq!(Ohm(50.0) * Ampere::milli(20.0), Volt(1.0));
    assert_eq!(Volt(12.0) * Ampere(2.0), Watt(24.0));
    assert_eq!(Watt(60.0) * Second(60.0), Joule(3600.0));
    assert_eq!((Henry::nano(1.0) / Ohm(50.0)).to_string(), "20 ps");
    assert_eq!((Farad::pico(150.0) * Volt::kilo(8.0)).to_string(), "1.2 uC");
    assert_eq!((0.5 * (Farad::pico(150.0) * Volt::kilo(8.0)) * Volt::kilo(8.0)).to_string(), "4.8 mJ");
    assert_eq!((Farad::pico(10.0) * Volt(3.0) * Hertz::mega(100.0)).to_string(), "3 mA");
    assert_eq!((Henry::nano(1.0) * Siemens::milli(20.0)).to_string(), "20 ps");
    assert_eq!((1.0 / Second::nano(2.0)).to_string(), "500 MHz");
}

#[test]
fn a_resonance_by_hand() {
    // 1 nH and 1 pF: 31.62 ohm, and 1/(2 pi sqrt(1e-21 s2)) = 5.0329 GHz.
    assert_eq!(Henry::nano(1.0).impedance_with(Farad::pico(1.0)).to_string(), "31.62 ohm");
    assert_eq!(Henry::nano(1.0).resonance_with(Farad::pico(1.0)).to_string(), "5.033 GHz");
    assert_eq!(Henry(0.0).resonance_with(Farad::pico(1.0)).0, f64::INFINITY);
    assert_eq!(Hertz(0.0).period().0, f64::INFINITY);
}
