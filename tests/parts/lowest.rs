//! The least capacitance of a part on a line that needs one, and the voltage of an antenna that is off.

use lanecap::budget::Figures;
use lanecap::parts::Check;
use lanecap::parts::Verdict::{Fails, NotStated, Passes};
use lanecap::result::{LaneResult, pick, size};

use crate::support::read_text;

const NAME: &str = "lowest capacitance";

/// 1 nH to either side of the protector: a line that needs a capacitance.
fn lane(part: &str, voltage: &str) -> String {
    format!(
        "part \"p\" {{ channels 1; {part} }}
lane \"x\" {{ rate 10 Gb/s nrz; reference 50 ohm; {voltage}; limit return_loss >= 14 dB
 path {{ driver 50 ohm; series 1 nH; protector part \"p\"; series 1 nH; receiver 50 ohm }} }}"
    )
}

fn sized(text: &str) -> LaneResult {
    let (gathered, design) = read_text(text);
    let report = size(&design.unwrap(), &[0], Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
    report.lanes[0].clone()
}

/// The check in `size` and in `pick`.
fn both(text: &str) -> [Option<Check>; 2] {
    let find = |checks: &[Check]| checks.iter().find(|check| check.check == NAME).cloned();
    let picked = pick(&read_text(text).1.unwrap(), &[0], &|| ()).unwrap();
    [find(&sized(text).head.checks), find(&picked.lines[0].parts[0].checks)]
}

/// |S11|² = |X|²/(4 + |X|²) of a symmetric T of two jx and one jb, normalised: X = 2x − b − b x²... with z = jx and
/// y = jb: 2 S11/S21 = z(2 + zy) − y = j(x(2 − xb) − b) (Pozar, ABCD of a T). At 14 dB |X| = 2/√(10^1.4 − 1).
fn lowest() -> f64 {
    let omega = std::f64::consts::TAU * 5e9;
    let x = omega * 1e-9 / 50.0;
    let bound = 2.0 / (10f64.powf(1.4) - 1.0).sqrt();
    // 2x − b (1 + x²) = bound at the lower end.
    (2.0 * x - bound) / (1.0 + x * x) / omega / 50.0
}

#[test]
fn a_part_that_may_be_too_small_fails_where_the_line_needs_a_capacitance() {
    for (part, least) in [
        ("capacitance 0.55 pF typical 0.75 pF max", 0.35e-12),
        ("capacitance 0.6 pF typical 0.75 pF max", 0.45e-12),
        ("capacitance 0.35 pF typical 0.75 pF max", 0.0),
        ("capacitance 0.5 pF ± 20 %", 0.4e-12),
        ("capacitance 0.5 pF ± 40 %", 0.3e-12),
    ] {
        let text = lane(&format!("{part}; unidirectional"), "line_voltage 0 V to 3 V");
        for check in both(&text) {
            let check = check.unwrap();
            assert!((check.available.unwrap() - least).abs() < 1e-18, "{part}: {check:?}");
            assert!((check.required.unwrap() / lowest() - 1.0).abs() < 1e-9, "{part}: {check:?} {}", lowest());
            assert_eq!((check.unit, check.verdict == Passes), ("F", least > lowest()), "{part}: {check:?}");
        }
        let sized = sized(&text);
        assert!(sized.fitted().unwrap().holds);
        assert_eq!(sized.passes(), least > lowest(), "{part}");
    }
}

/// C ∝ (1 + V/V_j)^−m: at three times V_j of 0.7 V and m = 1/2 half of that at no bias; two junctions back to back 2/3;
/// without a stated grading 4^−0.33, the default's.
#[test]
fn it_is_taken_at_the_bias_of_least_capacitance() {
    for (more, share) in [
        ("unidirectional; grading 0.7 V 0.5", 0.5),
        ("bidirectional; grading 0.7 V 0.5", 2.0 / 3.0),
        ("unidirectional", 4f64.powf(-0.33)),
        ("unidirectional; grading 0.7 V 0", 1.0),
    ] {
        let text = lane(&format!("capacitance 0.6 pF typical 0.75 pF max at 0 V; {more}"), "line_voltage 0 V to 2.1 V");
        for check in both(&text) {
            assert!((check.unwrap().available.unwrap() / (share * 0.45e-12) - 1.0).abs() < 1e-12, "{more}");
        }
    }
    // Rails: least midway, (1/g(V) + 1/g(V_dd − V))/(1 + 1/g(V_dd)) with g = 2 at 2.1 V, √7 at 4.2 V.
    let rails = "capacitance 0.6 pF typical 0.75 pF max at 0 V; rails 4.2 V; grading 0.7 V 0.5";
    for check in both(&lane(rails, "line_voltage 0 V to 3.3 V")) {
        let least = 0.45e-12 / (1.0 + 1.0 / 7f64.sqrt());
        assert!((check.unwrap().available.unwrap() / least - 1.0).abs() < 1e-12);
    }
    // Across a pair twice the value counts, at the largest magnitude between its lines.
    let pair = "part \"p\" { bidirectional; grading 0.7 V 0.5; capacitance 0.3 pF typical 0.375 pF max at 0 V across }
lane \"x\" { rate 10 Gb/s nrz; reference 100 ohm differential; line_voltage 0 V to 2.1 V; limit return_loss >= 14 dB
 path { driver 100 ohm; series 1 nH; protector part \"p\"; series 1 nH; receiver 100 ohm } }";
    for check in both(pair) {
        assert!((check.unwrap().available.unwrap() / (2.0 / 3.0 * 0.45e-12) - 1.0).abs() < 1e-12);
    }
}

#[test]
fn what_is_missing_is_named() {
    for (part, word) in [("capacitance 0.75 pF max", "`typical`"), ("capacitance 0.75 pF typical", "`max`")] {
        let text = lane(&format!("{part}; unidirectional"), "line_voltage 0 V to 3 V");
        for check in both(&text) {
            let check = check.unwrap();
            assert_eq!((check.verdict, check.available), (NotStated, None));
            assert!(check.why.as_ref().unwrap().contains(word), "{check:?}");
        }
        assert!(sized(&text).passes());
    }
}

#[test]
fn a_line_that_needs_none_has_no_such_check() {
    let text = "part \"p\" { channels 1; capacitance 0.1 pF typical 0.3 pF max; unidirectional }
lane \"x\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 14 dB
 path { driver 50 ohm; protector part \"p\"; receiver 50 ohm } }";
    assert_eq!(both(text), [None, None]);
    let window = lane("capacitance 0.35 pF typical 0.75 pF max; unidirectional", "line_voltage 0 V to 3 V");
    let fails = sized(&window);
    assert_eq!(fails.head.checks[0].verdict, Fails);
}

/// 30 dBm into 50 ohm: √(2PZ) = 10 V of a matched line, √(8PZ) = 20 V of an open one.
#[test]
fn an_open_antenna_port_is_cautioned_of() {
    let feed = |standoff: &str, power: &str| {
        let text = format!(
            "part \"p\" {{ capacitance 0.2 pF max; bidirectional; standoff {standoff}; channels 1 }}
feed \"f\" {{ band 2.4 GHz to 2.48 GHz; reference 50 ohm; {power}
 path {{ antenna 50 ohm; protector part \"p\"; radio 50 ohm }} }}"
        );
        let (gathered, design) = read_text(&text);
        let report = size(&design.unwrap(), &[0], Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        report.feeds[0].head.clone()
    };
    let caution = |standoff: &str, power: &str| {
        feed(standoff, power).warnings.into_iter().find(|note| note.code == "open-antenna").map(|note| note.text)
    };
    let head = feed("12 V", "power 30 dBm");
    assert!(head.survives() && head.checks.iter().any(|check| check.check == "stand-off" && check.verdict == Passes));
    let text = caution("12 V", "power 30 dBm").unwrap();
    assert!(text.contains("= 20 V") && text.contains("against 12 V"), "{text}");
    assert!(caution("19.9 V", "power 30 dBm").is_some());
    assert_eq!(caution("20.1 V", "power 30 dBm"), None);
    assert_eq!(caution("12 V", ""), None);
}

/// Reflected conversion alone asks for how far the two lines differ, as transmitted conversion does.
#[test]
fn a_limit_on_reflected_conversion_asks_for_a_mismatch() {
    let text = |limit: &str| {
        format!(
            "part \"stated\" {{ capacitance 0.2 pF max; mismatch 0.01 pF; bidirectional; channels 2 }}
part \"silent\" {{ capacitance 0.2 pF max; bidirectional; channels 2 }}
lane \"x\" {{ rate 5 Gb/s nrz; reference 100 ohm differential; limit {limit}
 path {{ driver 100 ohm; protector part \"stated\"; receiver 100 ohm }} }}"
        )
    };
    for limit in ["mode_conversion <= -20 dB", "mode_conversion_reflected <= -20 dB"] {
        let picked = pick(&read_text(&text(limit)).1.unwrap(), &[0], &|| ()).unwrap();
        let mismatch = |part: usize| {
            let checks = &picked.lines[0].parts[part].checks;
            checks.iter().find(|check| check.check == "mismatch").map(|check| check.verdict)
        };
        assert_eq!([mismatch(0), mismatch(1)], [Some(Passes), Some(NotStated)], "{limit}");
    }
    let picked = pick(&read_text(&text("return_loss >= 5 dB")).1.unwrap(), &[0], &|| ()).unwrap();
    assert!(picked.lines[0].parts[1].checks.iter().all(|check| check.check != "mismatch"));
}
