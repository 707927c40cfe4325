//! Junction capacitance against worked examples.

use approx::assert_relative_eq;

use lanecap::diag::Span;
use lanecap::model::{CapacitanceRating, Grading, Polarity, VoltageRange};
use lanecap::resolve::{JunctionOutcome, worst_case};
use lanecap::units::{Farad, Volt};

fn rating(c: f64, bias: f64) -> CapacitanceRating {
    CapacitanceRating { maximum: Farad(c), bias: Some(Volt(bias)), span: Span::default() }
}

fn range(low: f64, high: f64) -> Option<VoltageRange> {
    Some(VoltageRange { low: Volt(low), high: Volt(high) })
}

fn grading(voltage: f64, exponent: f64) -> Option<Grading> {
    Some(Grading { voltage: Volt(voltage), exponent })
}

fn moved(from: f64, to: f64, law: Option<Grading>, polarity: Polarity) -> JunctionOutcome {
    worst_case(&rating(1e-12, from), Some(polarity), law, range(to, to + 10.0))
}

/// D. A. Neamen, *Electronic Circuit Analysis and Design*, 2nd ed. (2001), ch. 1, example before Ex. 1.5, p. 17, as
/// quoted in a secondary source: C_j0 0.5 pF, V_bi 0.637455 V, m 1/2 gives 0.31 pF at 1 V and 0.17 pF at 5 V. The further
/// digits are own arithmetic.
#[test]
fn a_silicon_junction_of_a_textbook() {
    for (bias, printed, digits) in [(1.0, 0.31e-12, 0.311968e-12), (5.0, 0.17e-12, 0.168133e-12)] {
        let outcome =
            worst_case(&rating(0.5e-12, 0.0), Some(Polarity::Unidirectional), grading(0.637455, 0.5), range(bias, 9.0));
        assert!((outcome.capacitance.0 - printed).abs() <= 0.005e-12);
        assert_relative_eq!(outcome.capacitance.0, digits, max_relative = 3e-6);
        assert_eq!(outcome.moved_to, Some(Volt(bias)));
    }
}

/// C/C_j0 of the classic diode model (own arithmetic for the model defaults, which are quoted in a secondary source), and
/// an abrupt junction of 1 V: a tenth at 99 V (GATE ECE 1991, Q1.16, answer by own arithmetic).
#[test]
fn ratios_of_the_classic_diode_model() {
    let rows = [
        (0.5, 1.0, 0.5, 0.816497),
        (0.5, 1.0, 1.65, 0.614295),
        (0.5, 1.0, 3.3, 0.482243),
        (0.5, 1.0, 5.0, 0.408248),
        (1.0 / 3.0, 0.75, 0.5, 0.843433),
        (1.0 / 3.0, 0.75, 3.3, 0.569992),
        (1.0 / 3.0, 0.75, 5.0, 0.507144),
        (0.5, 0.75, 3.3, 0.430331),
        (0.5, 0.75, 5.0, 0.361158),
        (0.5, 1.0, 99.0, 0.1),
    ];
    for (m, v_j, bias, ratio) in rows {
        let down = moved(0.0, bias, grading(v_j, m), Polarity::Unidirectional);
        assert_relative_eq!(down.capacitance.0, ratio * 1e-12, max_relative = 2e-6);
        let up = moved(bias, 0.0, grading(v_j, m), Polarity::Unidirectional);
        assert_relative_eq!(up.capacitance.0, 1e-12 / ratio, max_relative = 2e-6);
    }
}

/// Two junctions back to back: g = 2 at V = 3 V_j for m = 1/2, so C = 2/(1 + 2) (closed form).
#[test]
fn a_bidirectional_part_is_worst_at_the_smallest_voltage() {
    let law = grading(1.0, 0.5);
    let c = |low, high| worst_case(&rating(3e-12, 0.0), Some(Polarity::Bidirectional), law, range(low, high));
    assert_relative_eq!(c(3.0, 8.0).capacitance.0, 2e-12, max_relative = 1e-12);
    assert_relative_eq!(c(-8.0, -3.0).capacitance.0, 2e-12, max_relative = 1e-12);
    assert_eq!(c(-8.0, -3.0).moved_to, Some(Volt(3.0)));
    assert_relative_eq!(c(-8.0, 3.0).capacitance.0, 3e-12, max_relative = 1e-12);
}

/// V_j 1 V, m 1/2, V_dd 3 V: 1/g(0) + 1/g(3) = 1.5 at a rail, 2/√2.5 midway (closed form).
#[test]
fn rails_are_worst_at_the_end_nearest_to_a_rail() {
    let law = grading(1.0, 0.5);
    let c = |low, high| {
        worst_case(&rating(2f64.sqrt() / 1.25f64.sqrt(), 1.5), Some(Polarity::Rails(Volt(3.0))), law, range(low, high))
    };
    for (low, high, worst) in [(0.0, 1.0, 0.0), (1.0, 3.0, 3.0), (1.5, 9.0, 3.0), (-1.0, 2.9, 0.0)] {
        let outcome = c(low, high);
        assert_eq!(outcome.moved_to, Some(Volt(worst)));
        assert_relative_eq!(outcome.capacitance.0, 1.5, max_relative = 1e-12);
    }
    assert_eq!(c(1.2, 1.6).moved_to, Some(Volt(1.2)));
}

#[test]
fn the_default_grading_moves_up_and_never_down() {
    let up = moved(3.3, 0.0, None, Polarity::Unidirectional);
    assert_relative_eq!(up.capacitance.0, 1e-12 * (4.0f64 / 0.7).powf(0.33), max_relative = 1e-12);
    assert!(up.default_grading_used && !up.kept_without_grading);
    let down = moved(0.0, 3.3, None, Polarity::Unidirectional);
    assert_eq!((down.capacitance, down.moved_to), (Farad(1e-12), None));
    assert!(!down.default_grading_used && down.kept_without_grading);
}

#[test]
fn without_a_bias_or_a_line_voltage_the_value_stands() {
    let uni = Some(Polarity::Unidirectional);
    let unbiased = CapacitanceRating { bias: None, ..rating(1e-12, 0.0) };
    let a = worst_case(&unbiased, uni, grading(0.7, 0.5), range(0.0, 1.0));
    let b = worst_case(&rating(1e-12, 5.0), uni, grading(0.7, 0.5), None);
    assert_eq!((a.capacitance, b.capacitance), (Farad(1e-12), Farad(1e-12)));
    assert_eq!((a.line_voltage_missing, b.line_voltage_missing), (false, true));
    let negative = worst_case(&rating(1e-12, 0.0), None, grading(0.7, 0.5), range(-1.0, 1.0));
    assert_eq!((negative.capacitance, negative.moved_to), (Farad(1e-12), Some(Volt(0.0))));
    assert!(negative.polarity_assumed);
}
