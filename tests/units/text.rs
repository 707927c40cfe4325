//! A quantity as it is shown.

use lanecap::units::*;
use proptest::prelude::*;

#[test]
fn four_digits_and_a_prefix() {
    assert_eq!(Farad(4.2e-13).to_string(), "420 fF");
    assert_eq!(Hertz(2.5e9).to_string(), "2.5 GHz");
    assert_eq!(Baud(1.25e9).to_string(), "1.25 GBd");
    assert_eq!(Henry(1e-9).to_string(), "1 nH");
    assert_eq!(Ohm(49.9).to_string(), "49.9 ohm");
    assert_eq!(Siemens(0.02).to_string(), "20 mS");
    assert_eq!(Second(-1.23456e-10).to_string(), "-123.5 ps");
    assert_eq!(Metre(0.0254).to_string(), "25.4 mm");
    assert_eq!(Volt(999.96).to_string(), "1 kV");
    assert_eq!(Ampere(0.0).to_string(), "0 A");
    assert_eq!(Watt(-0.0).to_string(), "0 W");
    assert_eq!(Coulomb(1.5e-8).to_string(), "15 nC");
    assert_eq!(Joule(f64::INFINITY).to_string(), "inf J");
}

#[test]
fn a_precision_is_the_significant_digits() {
    assert_eq!(format!("{:.3}", Farad(1.23456e-12)), "1.23 pF");
    assert_eq!(format!("{:.6}", Farad(1.23456e-12)), "1.23456 pF");
    assert_eq!(format!("{:.3}", Volt(999.6)), "1 kV");
    assert_eq!(format!("{:.5}", Volt(999.96)), "999.96 V");
    assert_eq!(format!("{:.5}", Volt(999.996)), "1 kV");
    // Digits before the point stand.
    assert_eq!(format!("{:.1}", Volt(456.7)), "457 V");
    assert_eq!(format!("{:.1}", Volt(999.6)), "1 kV");
    assert_eq!(format!("{:.0}", Volt(3.3)), "3 V");
}

#[test]
fn a_width_holds_as_for_a_text() {
    assert_eq!(format!("{:9}|", Volt(3.3)), "3.3 V    |");
    assert_eq!(format!("{:>9}|", Volt(3.3)), "    3.3 V|");
    assert_eq!(format!("{:^9}|", Volt(3.3)), "  3.3 V  |");
    assert_eq!(format!("{:>9.2}|", Volt(3.333)), "    3.3 V|");
}

#[test]
fn a_symbol_is_that_of_the_sheet() {
    let symbols = [
        (Hertz::SYMBOL, Dimension::Frequency),
        (Baud::SYMBOL, Dimension::SymbolRate),
        (Farad::SYMBOL, Dimension::Capacitance),
        (Henry::SYMBOL, Dimension::Inductance),
        (Ohm::SYMBOL, Dimension::Resistance),
        (Siemens::SYMBOL, Dimension::Conductance),
        (Second::SYMBOL, Dimension::Time),
        (Metre::SYMBOL, Dimension::Length),
        (Volt::SYMBOL, Dimension::Voltage),
        (Ampere::SYMBOL, Dimension::Current),
        (Watt::SYMBOL, Dimension::Power),
    ];
    for (symbol, dimension) in symbols {
        let unit = parse_unit(symbol).unwrap();
        assert_eq!((unit.dimension, unit.value_of("1")), (dimension, Some(1.0)));
        assert_eq!(dimension.symbol(), symbol);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_shown_value_reads_as_itself_rounded(m in 1.0..10.0f64, e in -14..12i32, digits in 3usize..12) {
        let value = Second(m * 10f64.powi(e));
        let text = format!("{value:.digits$}");
        let (number, unit) = text.split_once(' ').unwrap();
        let Some(unit) = parse_unit(unit) else { return Ok(()) };
        let shown = unit.value_of(number).unwrap();
        prop_assert!((shown / value.0 - 1.0).abs() <= 0.5001 * 10f64.powi(1 - digits as i32), "{value:?}: {text}");
        prop_assert!(number.split('.').next().unwrap().len() <= 3, "{text}");
    }
}
