//! A scaled constructor gives the double that the sheet gives for the same decimal.

use lanecap::units::*;
use proptest::prelude::*;

/// A constructor's name as the sheet writes it, and what it makes of a number.
struct Scaled {
    unit: &'static str,
    prefix: &'static str,
    make: fn(f64) -> f64,
}

/// The prefix of the sheet for a constructor's name.
fn letter(name: &str) -> &'static str {
    match name {
        "femto" => "f",
        "pico" => "p",
        "nano" => "n",
        "micro" => "u",
        "milli" => "m",
        "centi" => "c",
        "kilo" => "k",
        "mega" => "M",
        "giga" => "G",
        "tera" => "T",
        other => panic!("{other} is no prefix"),
    }
}

macro_rules! all {
    ($($unit:ident: $($prefix:ident)*;)*) => {
        vec![$($(Scaled {
            unit: $unit::SYMBOL,
            prefix: letter(stringify!($prefix)),
            make: |value| $unit::$prefix(value).0,
        },)*)*]
    };
}

fn constructors() -> Vec<Scaled> {
    all! {
        Hertz: kilo mega giga tera;
        Baud: kilo mega giga tera;
        Farad: femto pico nano micro milli;
        Henry: femto pico nano micro milli;
        Ohm: micro milli kilo mega giga;
        Siemens: nano micro milli kilo;
        Second: femto pico nano micro milli;
        Metre: nano micro milli centi kilo;
        Volt: nano micro milli kilo;
        Ampere: femto pico nano micro milli kilo;
        Watt: nano micro milli kilo mega;
        Coulomb: femto pico nano micro milli;
        Joule: femto pico nano micro milli kilo;
    }
}

/// What a sheet reads in `digits` of the unit; charge and energy have no unit there and are scaled as a capacitance.
fn sheet(digits: &str, of: &Scaled) -> f64 {
    let unit = match of.unit {
        "C" | "J" => parse_unit(&format!("{}F", of.prefix)),
        unit => parse_unit(&format!("{}{unit}", of.prefix)),
    };
    unit.and_then(|unit| unit.value_of(digits)).unwrap()
}

fn agree(digits: &str) {
    let value: f64 = digits.parse().unwrap();
    for of in constructors() {
        let (made, read) = ((of.make)(value), sheet(digits, &of));
        assert_eq!(made.to_bits(), read.to_bits(), "{digits} {}{}: {made:e}, not {read:e}", of.prefix, of.unit);
    }
}

#[test]
fn every_short_decimal_is_that_of_the_sheet() {
    for whole in [0, 1, 2, 7, 33, 220, 999] {
        for part in 0..100 {
            agree(&format!("{whole}.{part:02}"));
            agree(&format!("{whole}.{part:03}"));
        }
    }
}

#[test]
fn multiplying_by_the_power_of_ten_would_not_do() {
    let missed = (1..1000).filter(|n| Farad::pico(f64::from(*n) / 100.0).0 != f64::from(*n) / 100.0 * 1e-12).count();
    assert!(missed > 100, "{missed}");
}

#[test]
fn values_that_are_no_decimal_stay_as_they_are() {
    assert!(Farad::pico(f64::NAN).0.is_nan());
    assert_eq!(Farad::pico(f64::INFINITY).0, f64::INFINITY);
    assert_eq!(Hertz::giga(f64::NEG_INFINITY).0, f64::NEG_INFINITY);
    assert_eq!(Hertz::tera(1e300).0, f64::INFINITY);
    assert_eq!(Farad::femto(-0.0).0.to_bits(), 0.0f64.to_bits());
    assert_eq!(Farad::femto(1e-320).0, 0.0);
}

#[test]
fn values_by_hand() {
    assert_eq!(Farad::pico(0.42), Farad(4.2e-13));
    assert_eq!(Hertz::giga(2.5), Hertz(2.5e9));
    assert_eq!(Metre::centi(2.54), Metre(0.0254));
    assert_eq!(Ampere::pico(-3.0), Ampere(-3e-12));
    assert_eq!(Joule::micro(1.5), Joule(1.5e-6));
    assert_eq!(Coulomb::nano(15.0), Coulomb(1.5e-8));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_decimal_of_fifteen_digits_is_that_of_the_sheet(
        mantissa in 0u64..1_000_000_000_000_000,
        places in 0i32..30,
        negative in any::<bool>(),
    ) {
        let sign = if negative && mantissa != 0 { "-" } else { "" };
        agree(&format!("{sign}{mantissa}e{}", 8 - places));
    }
}
