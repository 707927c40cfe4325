//! A quantity adds, scales and compares as its SI value does.

use std::cmp::Ordering;

use lanecap::units::*;
use proptest::prelude::*;

/// The laws for one quantity, with two values and a factor: each with its name.
macro_rules! laws {
    ($a:expr, $b:expr, $k:expr; $($unit:ident)*) => {$({
        let (a, b, k): (f64, f64, f64) = ($a, $b, $k);
        let (p, q) = ($unit(a), $unit(b));
        let (mut added, mut taken) = (p, p);
        added += q;
        taken -= q;
        let laws = [
            ("a + b", (p + q).0 == a + b && q + p == p + q && added == p + q),
            ("a - b", (p - q).0 == a - b && taken == p - q),
            ("-a", (-p).0 == -a),
            ("a + b - b", (p + q - q - p).abs().0 <= 2.0 * f64::EPSILON * (a.abs() + b.abs())),
            ("k a", (p * k).0 == a * k && k * p == p * k),
            ("a / k", (p / k).0 == a / k),
            ("a / b", p / q == a / b),
            ("order", p.partial_cmp(&q) == a.partial_cmp(&b) && p.total_cmp(&q) == a.total_cmp(&b)),
            ("min and max", p.min(q) <= p.max(q) && p.min(q) + p.max(q) == p + q),
            ("sum", [p, q, p].iter().sum::<$unit>() == p + q + p && [p, q].into_iter().sum::<$unit>() == p + q),
            ("finite", p.is_finite()),
        ];
        for (law, holds) in laws {
            prop_assert!(holds, "{law} of {p} and {q}");
        }
    })*};
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_quantity_computes_as_its_value(
        a in -1e12..1e12f64,
        b in prop_oneof![-1e12..-1e-15f64, 1e-15..1e12f64],
        k in prop_oneof![-1e3..-1e-3f64, 1e-3..1e3f64],
    ) {
        laws!(a, b, k; Hertz Baud Farad Henry Ohm Siemens Second Metre Volt Ampere Watt Coulomb Joule);
    }
}

#[test]
fn no_summand_gives_a_zero_without_sign() {
    let none = std::iter::empty::<Farad>().sum::<Farad>();
    assert_eq!(none.0.to_bits(), 0.0f64.to_bits());
    assert_eq!(none, Farad::ZERO);
    assert_eq!(none, Farad::default());
}

#[test]
fn what_is_no_number_has_a_place_in_the_order() {
    let nan = Ohm(f64::NAN);
    assert!(!nan.is_finite());
    assert!(!Ohm(f64::INFINITY).is_finite());
    assert_eq!(nan.partial_cmp(&Ohm(1.0)), None);
    assert_eq!(nan.total_cmp(&Ohm(f64::INFINITY)), Ordering::Greater);
    assert_eq!(nan.min(Ohm(1.0)), Ohm(1.0));
    assert_eq!(Ohm(1.0).max(nan), Ohm(1.0));
}
