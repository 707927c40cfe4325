//! Tolerances as a sheet states them.

use lanecap::model::{Distribution, Line};

use crate::support::read_text;

fn line(element: &str) -> Line {
    let text = format!(
        "lane \"link\" {{ rate 5 Gb/s; reference 90 ohm differential; path {{ driver 90 ohm; {element}; protector; receiver 90 ohm }} }}"
    );
    read_text(&text).1.unwrap().lines.remove(0)
}

fn bounds(line: &Line, address: &str) -> Option<(f64, f64)> {
    let value = line.addressed(&address.parse().unwrap()).unwrap();
    value.tolerance.as_ref().map(|tolerance| (tolerance.low, tolerance.high))
}

#[test]
fn a_tolerance_is_a_share_or_a_width() {
    let line = line("trace 90 ohm ± 10 % 32 mm +- 0.5 mm permittivity 3.4 ± 0.1 loss 0.2 dB/cm ± 10 % at 2.5 GHz");
    let near = |address: &str, low: f64, high: f64| {
        let (a, b) = bounds(&line, address).unwrap();
        assert!((a / low - 1.0).abs() < 1e-12 && (b / high - 1.0).abs() < 1e-12, "{address} {a} {b}");
    };
    near("2.impedance", 81.0, 99.0);
    near("2.length", 31.5e-3, 32.5e-3);
    near("2.permittivity", 3.3, 3.5);
    near("2.loss", 18.0, 22.0);
    assert_eq!(bounds(&line, "1.impedance"), None);
    assert!(line.head.has_tolerance());
    assert_eq!(line.head.distribution, Distribution::Uniform);
    assert!(line.head.defaults.iter().any(|note| note.code == "default-tolerances"));
}

#[test]
fn a_part_lies_between_its_least_and_its_maximum() {
    let of = |capacitance: &str| {
        let text = format!(
            "part \"p\" {{ capacitance {capacitance} }}
             lane \"link\" {{ rate 5 Gb/s; reference 50 ohm; path {{ driver 50 ohm; protector part \"p\"; receiver 50 ohm }} }}"
        );
        let line = read_text(&text).1.unwrap().lines.remove(0);
        let value = line.addressed(&"part \"p\".capacitance".parse().unwrap()).unwrap().clone();
        (
            value.nominal.unwrap(),
            value.tolerance.map(|tolerance| (tolerance.low, tolerance.stated)),
            line.head.has_tolerance(),
        )
    };
    // Q ± t: from Q(1 − t) to Q(1 + t), which is its maximum.
    let (maximum, tolerance, has) = of("0.3 pF ± 20 %");
    assert!((maximum - 0.36e-12).abs() < 1e-24 && (tolerance.unwrap().0 - 0.24e-12).abs() < 1e-24);
    assert!(tolerance.unwrap().1 && has);
    // 2 typical − maximum, and no toleranced line by itself.
    let (maximum, tolerance, has) = of("0.3 pF typical 0.4 pF max");
    assert!(maximum == 0.4e-12 && (tolerance.unwrap().0 - 0.2e-12).abs() < 1e-24);
    assert!(!tolerance.unwrap().1 && !has);
    assert_eq!(of("0.1 pF typical 0.4 pF max").1.unwrap().0, 0.0);
    assert_eq!(of("0.4 pF max").1, None);
    assert_eq!(of("0.4 pF typical").1, None);
}

#[test]
fn values_of_one_line_deviate_together() {
    let line = line("trace 90 ohm ± 10 % 32 mm permittivity 3.4 ± 0.1 together \"board\"");
    let group = |address: &str| {
        let value = line.addressed(&address.parse().unwrap()).unwrap();
        value.tolerance.as_ref().and_then(|tolerance| tolerance.together.clone())
    };
    assert_eq!(group("2.impedance").as_deref(), Some("board"));
    assert_eq!(group("2.permittivity").as_deref(), Some("board"));
}

#[test]
fn a_misplaced_tolerance_has_its_error() {
    for (element, code) in [
        ("trace 90 ohm 32 mm together \"board\"", "idle-group"),
        ("trace 90 ohm ± 5 % together \"board\" 32 mm", "extra-argument"),
        ("trace 90 ohm ± 5 % 32 mm together", "missing-argument"),
        ("trace 90 ohm ± 2000 % 32 mm", "out-of-range"),
        ("trace 90 ohm ± 5 mm 32 mm", "wrong-unit"),
        ("trace 90 ohm ± 5 32 mm", "wrong-unit"),
        ("trace 90 ohm ± 100 % 32 mm", "tolerance-range"),
        ("trace 90 ohm ± -5 % 32 mm", "out-of-range"),
        ("trace 90 ohm 32 mm loss 1 dB at 2.5 GHz ± 5 %", "tolerance"),
    ] {
        let text = format!(
            "lane \"link\" {{ rate 5 Gb/s; reference 90 ohm differential; path {{ driver 90 ohm; {element}; protector; receiver 90 ohm }} }}"
        );
        let errors = read_text(&text).1.unwrap_err();
        assert_eq!(errors.iter().map(|error| error.code).collect::<Vec<_>>(), [code], "{element}");
    }
    for (top, code) in [
        ("tolerances", "missing-argument"),
        ("tolerances uniform normal", "two-alternatives"),
        ("tolerances gaussian", "unknown-argument"),
        ("tolerances normal; tolerances normal", "duplicate-line"),
    ] {
        let text = format!(
            "{top}\nlane \"l\" {{ rate 5 Gb/s; reference 50 ohm; path {{ driver 50 ohm; protector; receiver 50 ohm }} }}"
        );
        let errors = read_text(&text).1.unwrap_err();
        assert_eq!(errors.iter().map(|error| error.code).collect::<Vec<_>>(), [code], "{top}");
    }
}
