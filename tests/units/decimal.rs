//! Numbers rounded for a reader.

use std::cmp::Ordering;

use lanecap::units::decimal::working::{complex, frequency, picofarad, real};
use lanecap::units::decimal::*;
use proptest::prelude::*;

use crate::support::decimals::{beside, number};

#[test]
fn numbers_close_to_their_bound_get_more_digits() {
    let check = |value, bound, expected: (&str, &str)| {
        let (value, bound) = digits_apart(value, bound);
        assert_eq!((value.as_str(), bound.as_str()), expected);
    };
    check(13.1, 12.0, ("13.1", "12"));
    check(11.9996, 12.0, ("11.9996", "12"));
    check(11.9999996, 12.0, ("11.9999996", "12"));
    check(12.0, 12.0, ("12", "12"));
    check(0.0, 0.5, ("0", "0.5"));
    check(-0.000_12, 0.5, ("-0.00012", "0.5"));
    check(123_456.0, 12.0, ("123500", "12"));
    check(1.0 + f64::EPSILON, 1.0, ("1.0000000000000002", "1"));
}

#[test]
fn numbers_with_a_unit_share_the_prefix_of_the_second() {
    let text = |a, b, unit| {
        let (a, b) = engineering_apart(a, b, unit);
        format!("{a} | {b}")
    };
    assert_eq!(text(900.0, 1100.0, "V"), "0.9 kV | 1.1 kV");
    assert_eq!(text(1100.0, 1100.01, "V"), "1.1 kV | 1.10001 kV");
    assert_eq!(text(1500.0, 2000.0, "degC"), "1500 degC | 2000 degC");
    assert_eq!(text(3.0, 4.0, ""), "3 | 4");
    assert_eq!(text(3.0, 3.0, "A"), "3 A | 3 A");
}

#[test]
fn just_below_a_power_of_ten_no_digit_is_lost() {
    let text = |value, round| Decimal::new(value, 4, round).to_string();
    assert_eq!(text(9.99996, Round::Down), "9.999");
    assert_eq!(text(9.99996, Round::Nearest), "10");
    assert_eq!(text(-9.99996, Round::Up), "-9.999");
    assert_eq!(text(10.0001, Round::Down), "10");
    assert_eq!(text(10.001, Round::Up), "10.01");
}

#[test]
fn a_ratio_in_percent() {
    assert_eq!(percent(0.2), "20 %");
    assert_eq!(percent(0.123_456), "12.35 %");
    assert_eq!(signed_percent(0.07), "+7 %");
    assert_eq!(signed_percent(-1.5), "-150 %");
    assert_eq!(signed_percent(-0.0), "+0 %");
}

#[test]
fn numbers_along_an_axis_have_the_decimals_of_their_step() {
    assert_eq!(stepped(0.5, 0.1), "0.5");
    assert_eq!(stepped(10.0, 5.0), "10");
    assert_eq!(stepped(-1e-14, 0.1), "0.0");
    assert_eq!(stepped(2e6, 5e5), "2e6");
    assert_eq!(stepped(3e-6, 1e-6), "3e-6");
}

#[test]
fn numbers_to_go_on_with() {
    assert_eq!(real(0.0), "0");
    assert_eq!(real(1.0 / 3.0), "0.33333333");
    assert_eq!(real(1e6 / 3.0), "333333.33");
    assert_eq!(real(-1.25e7), "-1.2500000e7");
    assert_eq!(complex(num_complex::Complex64::new(1.5, -0.25)), "1.5 - j 0.25");
    assert_eq!(frequency(2.5e9), "2.5 GHz");
    assert_eq!(picofarad(4.2e-13), "0.42 pF");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn order_is_kept(bound in 1e-3f64..1e3, exponent in -15i32..0, above: bool, exact in prop::bool::weighted(0.1)) {
        let value = beside(bound, exponent, above, exact);
        let (shown, against) = digits_apart(value, bound);
        prop_assert_eq!(number(&shown).partial_cmp(&number(&against)), value.partial_cmp(&bound));
    }

    #[test]
    fn a_decimal_is_on_its_side_and_one_step_away_at_most(m in 1.0..10.0f64, e in -14i32..14, digits in 1usize..15, negative: bool) {
        let value = if negative { -m } else { m } * 10f64.powi(e);
        let step = 1.001 * 10f64.powi(e + 1 - digits as i32);
        let [down, up] = [Round::Down, Round::Up].map(|round| Decimal::new(value, digits, round).value());
        prop_assert!(down <= value && value <= up && value - down <= step && up - value <= step);
        let near = Decimal::new(value, digits, Round::Nearest);
        prop_assert!((near.value() - value).abs() <= 0.501 * step);
        prop_assert_eq!(near.to_string().parse::<f64>().unwrap(), near.value());
        prop_assert_eq!(near.signed().starts_with('-'), negative);
        let shown = apart_from(value, Round::Down, &[(value, Ordering::Equal)]);
        prop_assert_eq!(shown.value(), value);
    }
}
