//! Slow buses and rails: closed forms, the words of the sheet, the result.

use crate::support::{buses, read_text};
use lanecap::budget::{Figures, Verdict, rise_factor, size_bus};
use lanecap::figures::Rows;
use lanecap::figures::{BUS_RISE, TIME_CONSTANT, TOTAL_CAPACITANCE};
use lanecap::model::Design;
use lanecap::parts;
use lanecap::result::{Report, size};
use lanecap::text::{Format, render};

fn port(text: &str) -> Design {
    read_text(text).1.unwrap_or_else(|errors| panic!("{errors:?}"))
}

fn report(text: &str) -> Report {
    let (gathered, port) = read_text(text);
    let port = port.unwrap_or_else(|errors| panic!("{errors:?}"));
    let all: Vec<usize> = (0..port.names().len()).collect();
    size(&port, &all, Figures::Nyquist, &gathered.sources, &|| ()).unwrap()
}

fn codes(text: &str) -> Vec<&'static str> {
    read_text(text).1.unwrap_err().iter().map(|error| error.code).collect()
}

fn budget(lines: &str) -> Option<f64> {
    let port = port(&format!("bus \"b\" {{ {lines} }}"));
    size_bus(&buses(port)[0]).budget.capacitance.map(|c| c.0)
}

#[track_caller]
fn near(found: Option<f64>, expected: f64, relative: f64) {
    let found = found.unwrap();
    assert!((found / expected - 1.0).abs() <= relative, "{found} is not {expected}");
}

/// The bus specification UM10204, 7.1: R_p(max) = t_r/(0.8473 C_b), as quoted in a secondary source, with 400 pF at 1000 ns
/// and 300 ns and 550 pF at 120 ns: 2950.5, 885.2 and 257.5 ohm.
#[test]
fn a_two_wire_bus_at_its_largest_pull_up() {
    assert!((rise_factor((0.3, 0.7)) - 0.8473).abs() < 5e-5);
    for (time, ohm, farad) in [("1000 ns", 2950.5, 400e-12), ("300 ns", 885.2, 400e-12), ("120 ns", 257.5, 550e-12)] {
        let found = budget(&format!("pull_up {ohm} ohm; inputs 0 pF; limit rise_time <= {time} from 30 % to 70 %"));
        near(found, farad, 2e-4);
    }
}

/// 10–90 % rise of an RC: 2.2 R C (ln 9 = 2.197), as quoted in a secondary source; f = 1/(2π R C), any textbook.
#[test]
fn other_limits_in_closed_form() {
    near(budget("source 1 kohm; inputs 0 pF; limit rise_time <= 2.2 us"), 1e-9, 2e-3);
    near(budget("source 1 kohm; inputs 0 pF; limit time_constant <= 1 us"), 1e-9, 1e-12);
    near(budget("source 1 kohm; inputs 0 pF; limit bandwidth >= 159.154943 kHz"), 1e-9, 1e-8);
    near(budget("wiring 60 pF; inputs 40 pF; limit total_capacitance <= 400 pF"), 300e-12, 1e-12);
    // Three protectors share what is left.
    near(budget("wiring 100 pF; nodes 3; limit total_capacitance <= 400 pF"), 100e-12, 1e-12);
}

#[test]
fn the_tightest_limit_sets_the_budget_and_the_first_on_a_tie() {
    let text = "bus \"b\" { source 1 kohm; wiring 0 pF; limit time_constant <= 1 us; limit total_capacitance <= 1 nF\n\
                limit rise_time <= 5 us }";
    let report = report(text);
    let budget = report.buses[0].budget();
    assert_eq!((budget.verdict, budget.set_by), (Verdict::Bounded, Some(&TIME_CONSTANT)));
    assert_eq!(budget.limits.len(), 3);
}

#[test]
fn too_much_wiring_is_impossible_and_says_by_how_much() {
    let report = report("bus \"b\" { wiring 420 pF; limit total_capacitance <= 400 pF }");
    assert_eq!(report.buses[0].budget().verdict, Verdict::Impossible);
    assert!(!report.passes());
    let text = render(&report, Format::Table);
    assert!(
        text.contains(
            "total_capacitance breaks already with the protector absent: 420 pF against <= 400 pF, 20 pF off."
        ),
        "{text}"
    );
}

#[test]
fn a_bus_without_limits_is_unbounded_with_a_warning() {
    let report = report("bus \"b\" { wiring 60 pF }");
    let bus = &report.buses[0];
    assert_eq!((bus.budget().verdict, bus.head.warnings[0].code), (Verdict::Unbounded, "no-limits"));
}

const PART: &str = "part \"p\" { capacitance 10 pF max at 0 V; bidirectional; standoff 5 V; contact 8 kV; clamp 12 V at 16 A\n\
                    dynamic_resistance 0.5 ohm }\n";

/// The headroom of a rise limit uses its own levels; the metric stays 10–90 %.
#[test]
fn the_fitted_part_is_judged_at_the_limits_own_levels() {
    let report = report(&format!(
        "{PART}bus \"b\" {{ pull_up 1 kohm; wiring 90 pF; part \"p\"; line_voltage 0 V to 3 V\n\
         limit rise_time <= 100 ns from 30 % to 70 % }}"
    ));
    let fitted = report.buses[0].fitted().unwrap();
    near(fitted.at.figures.read(&TOTAL_CAPACITANCE), 100e-12, 1e-12);
    near(fitted.headroom[0].value, (7f64 / 3.0).ln() * 100e-9, 1e-12);
    near(fitted.at.figures.read(&BUS_RISE), 9f64.ln() * 100e-9, 1e-12);
    assert!(fitted.holds);
}

/// A check that fails makes the exit status 1, one that is not stated does not.
#[test]
fn checks_decide_with_the_limits() {
    let rail = |lines: &str| report(&format!("{PART}rail \"r\" {{ part \"p\"; {lines} }}"));
    assert!(rail("line_voltage 0 V to 5 V; exposure contact 8 kV; withstands 12 V").passes());
    assert!(!rail("line_voltage 0 V to 5.1 V").passes());
    let unstated = rail("line_voltage 0 V to 5 V; exposure air 8 kV");
    assert_eq!(unstated.rails[0].head.checks[1].verdict, parts::Verdict::NotStated);
    assert!(unstated.passes());
}

/// A named part of a lane is checked in `size`.
#[test]
fn a_lane_checks_its_part() {
    let report = report(&format!(
        "{PART}lane \"l\" {{ rate 10 Mb/s; reference 50 ohm; line_voltage 0 V to 6 V; exposure contact 4 kV; withstands 13 V\n\
         path {{ driver 50 ohm; protector part \"p\"; receiver 50 ohm }} }}"
    ));
    let checks = &report.lanes[0].head.checks;
    let found: Vec<_> = checks.iter().map(|check| (check.check, check.verdict.word())).collect();
    // IEC 61000-4-2 at 4 kV: 8 A at 30 ns, below the 16 A of its clamp voltage; no inductance is stated.
    let expected =
        [("stand-off", "fails"), ("rating contact", "passes"), ("residual", "passes"), ("first peak", "not stated")];
    assert_eq!(found, expected);
    assert_eq!(checks[2].available, Some(12.0));
    assert!(report.lanes[0].head.warnings.iter().all(|note| note.code != "first-peak"));
    assert!(!report.passes());
}

#[test]
fn mistakes_in_the_shared_lines() {
    let rail = |lines: &str| codes(&format!("rail \"r\" {{ line_voltage 0 V to 5 V; {lines} }}"));
    assert_eq!(rail("exposure contact 8 kV; exposure contact 4 kV"), ["duplicate-line"]);
    assert_eq!(rail("exposure contact 8"), ["missing-unit"]);
    assert_eq!(rail("exposure surge 1 kV"), ["missing-condition"]);
    assert_eq!(rail("exposure"), ["missing-argument"]);
    assert_eq!(rail("needs leakage >= 1 uA"), ["wrong-comparison"]);
    assert_eq!(rail("needs channels 2.5"), ["out-of-range"]);
    assert_eq!(rail("needs package qfn"), ["missing-argument"]);
    assert_eq!(rail("temperature 85 degC to -40 degC"), ["range-order"]);
    assert_eq!(rail("temperature -300 degC to 0 degC"), ["out-of-range"]);
    assert_eq!(rail("temperature -40 deg to 85 degC"), ["wrong-unit"]);
    assert_eq!(rail("withstands 22 V; withstands 20 V"), ["duplicate-line"]);
    assert_eq!(rail("limit rise_time <= 1 us"), ["misplaced-word"]);
    let part =
        |lines: &str| codes(&format!("part \"p\" {{ capacitance 1 pF; {lines} }}\nrail \"r\" {{ line_voltage 5 V }}"));
    assert_eq!(part("clamp 8.5 V"), ["missing-condition"]);
    assert_eq!(part("channels 0"), ["out-of-range"]);
    assert_eq!(part("leakage 10 nA at 5 A"), ["wrong-unit"]);
    let bus = |lines: &str| codes(&format!("bus \"b\" {{ wiring 1 pF; {lines} }}"));
    assert_eq!(bus("pull_up 1 kohm; source 1 kohm"), ["two-alternatives"]);
    assert_eq!(bus("pull_up 1 kohm; limit rise_time <= 1 us from 70 % to 30 %"), ["range-order"]);
    assert_eq!(bus("limit bandwidth >= 1 kHz"), ["no-resistance"]);
    assert_eq!(bus("limit return_loss >= 10 dB"), ["misplaced-limit"]);
    assert_eq!(bus("part \"p\""), ["unknown-part"]);
    assert_eq!(
        codes("part \"p\" { capacitance 1 pF across }\nbus \"b\" { wiring 1 pF; part \"p\" }"),
        ["across-single-ended"]
    );
    assert_eq!(
        codes("part \"p\" { capacitance 1 pF across }\nrail \"r\" { line_voltage 0 V to 5 V; part \"p\" }"),
        ["across-single-ended"]
    );
    assert_eq!(
        codes("part \"p\" { capacitance 1 pF; rails 3.3 V }\nrail \"b\" { line_voltage 0 V to 5 V; part \"p\" }"),
        ["above-rails"]
    );
    assert_eq!(codes("rail \"a\" { line_voltage 5 V }\nbus \"a\" { wiring 1 pF }"), ["duplicate-name"]);
}

/// One table for lines of every kind: each row has the cells of its own columns alone.
#[test]
fn csv_holds_lines_of_every_kind() {
    let text = format!(
        "{PART}lane \"l\" {{ rate 10 Mb/s; reference 50 ohm; path {{ driver 50 ohm; protector; receiver 50 ohm }} }}\n\
         bus \"b\" {{ wiring 90 pF; limit total_capacitance <= 400 pF }}\nrail \"r\" {{ line_voltage 0 V to 5 V; part \"p\" }}"
    );
    let csv = render(&report(&text), Format::Csv);
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let header = reader.headers().unwrap().clone();
    let rows: Vec<_> = reader.records().map(|row| row.unwrap()).collect();
    let cell = |row: usize, key: &str| {
        let column = header.iter().position(|name| name == key).unwrap();
        rows[row][column].to_owned()
    };
    assert_eq!(rows.iter().map(|row| &row[0]).collect::<Vec<_>>(), ["l", "b", "r"]);
    assert_eq!((cell(0, "modulation"), cell(1, "modulation")), ("nrz".to_owned(), String::new()));
    assert_eq!(cell(1, "budget_capacitance_f").parse::<f64>().unwrap(), 310e-12);
    assert_eq!((cell(1, "line_voltage_high_v"), cell(2, "line_voltage_high_v")), (String::new(), "5.0".to_owned()));
    assert_eq!(cell(2, "part"), "p");
    let names: std::collections::BTreeSet<_> = header.iter().collect();
    assert_eq!(names.len(), header.len(), "a column twice");
}

/// A wrong count hides no other mistake of its block.
#[test]
fn every_mistake_of_a_slow_line_is_told() {
    for block in ["bus \"b\" { count 1.5; rate 5 V", "rail \"r\" { count 1.5; current 5 V"] {
        assert_eq!(codes(&format!("{block}; exposure }}")), ["out-of-range", "wrong-unit", "missing-argument"]);
    }
}

/// What `--fitted` judges on a bus, and that a rail has nothing to judge.
#[test]
fn another_capacitance_takes_the_parts_place() {
    let mut port = port(&format!(
        "{PART}bus \"b\" {{ wiring 90 pF; part \"p\"; limit total_capacitance <= 100 pF }}\nrail \"r\" {{ line_voltage 5 V; part \"p\" }}"
    ));
    assert!(size_bus(&buses(port.clone())[0]).fitted.unwrap().holds);
    port.fit(lanecap::units::Farad(11e-12));
    assert!(port.lines[0].part().is_none() && port.lines[1].part().is_some());
    assert!(!size_bus(&buses(port.clone())[0]).fitted.unwrap().holds);
}
