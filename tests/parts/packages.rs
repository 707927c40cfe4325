//! A pair on two packages of one part; each part's own budget; what the bill takes for a line, and what `size` says of it.

use lanecap::budget::Figures;
use lanecap::result::{LinePickReport, PartPickReport, PickReport, Report, pick, size};
use lanecap::text::{Format, render, render_pick};

use super::near;
use crate::support::read_text;

/// A matched pair of 100 ohm with one part.
fn sheet(part: &str, rows: &str) -> String {
    format!(
        "part \"p\" {{ {part} }}
lane \"pair\" {{
    rate 10 Gb/s nrz; reference 100 ohm differential; {rows}
    path {{ driver 100 ohm; protector part \"p\"; receiver 100 ohm }}
}}"
    )
}

fn of_size(text: &str) -> Report {
    let (gathered, design) = read_text(text);
    size(&design.expect("a good sheet"), &[0], Figures::Nyquist, &gathered.sources, &|| ()).expect("in range")
}

fn picked(text: &str) -> PickReport {
    let (_, design) = read_text(text);
    let design = design.expect("a good sheet");
    pick(&design, &(0..design.lines.len()).collect::<Vec<_>>(), &|| ()).expect("in range")
}

fn part<'a>(line: &'a LinePickReport, name: &str) -> &'a PartPickReport {
    line.parts.iter().find(|part| part.part == name).expect("a part of the sheet")
}

/// Mode conversion of two shunts on a matched pair: half the difference of the two lines' S21 = 2/(2 + jωCZ), at
/// C ± ΔC/2 with Z = 50 ohm (own arithmetic, no code of the project).
fn conversion(c: f64, difference: f64) -> f64 {
    let through = |c: f64| {
        let x = std::f64::consts::TAU * 5e9 * c * 50.0;
        (4.0 / (4.0 + x * x), -2.0 * x / (4.0 + x * x))
    };
    let (a, b) = (through(c - difference / 2.0), through(c + difference / 2.0));
    10.0 * (((a.0 - b.0).powi(2) + (a.1 - b.1).powi(2)) / 4.0).log10()
}

#[test]
fn two_packages_differ_by_the_whole_spread() {
    let limit = "limit mode_conversion <= -30 dB";
    let found = |rating: &str| {
        let report = of_size(&sheet(&format!("channels 1; {rating}"), limit));
        let at = &report.lanes[0].fitted().expect("a part is named").at;
        (at.capacitance.0, at.changes.unlike.and_then(|unlike| unlike.conversion).expect("two packages"))
    };
    // 0.3 pF ± 10 %: from 0.27 to 0.33 pF, 2tQ = 0.06 pF apart
    let (c, db) = found("capacitance 0.3 pF ± 10 %");
    near(Some(c), Some(0.33e-12));
    assert!((db - conversion(0.33e-12, 0.06e-12)).abs() < 0.05, "{db} {}", conversion(0.33e-12, 0.06e-12));
    // a typical value and a maximum: 2 (0.35 − 0.25) = 0.2 pF
    let (_, db) = found("capacitance 0.25 pF typical 0.35 pF max");
    assert!((db - conversion(0.35e-12, 0.2e-12)).abs() < 0.3, "{db} {}", conversion(0.35e-12, 0.2e-12));
    // a mismatch within one package says nothing of two: the larger of both
    let (_, db) = found("capacitance 0.3 pF ± 10 %; mismatch 0.01 pF");
    assert!((db - conversion(0.33e-12, 0.06e-12)).abs() < 0.05, "{db}");
    let (_, db) = found("capacitance 0.3 pF ± 10 %; mismatch 0.09 pF");
    assert!((db - conversion(0.33e-12, 0.09e-12)).abs() < 0.05, "{db}");
    let (_, db) = found("capacitance 0.3 pF ± 1 %; mismatch 30 %");
    assert!((db - conversion(0.303e-12, 0.0909e-12)).abs() < 0.05, "{db}");
    // a maximum alone: its mismatch, with a word that the spread is not known
    let (_, db) = found("capacitance 0.33 pF max; mismatch 0.01 pF");
    assert!((db - conversion(0.33e-12, 0.01e-12)).abs() < 0.05, "{db}");
    let report = of_size(&sheet("channels 1; capacitance 0.33 pF max; mismatch 0.01 pF", limit));
    let warning = report.lanes[0].head.warnings.iter().find(|note| note.code == "two-packages").expect("a note");
    assert!(warning.text.contains("`mismatch`; how far these differ from package to package is not known"));
    // one package of two channels is no two packages
    let limitless = of_size(&sheet("channels 2; capacitance 0.3 pF ± 10 %", "limit return_loss >= 5 dB"));
    assert!(limitless.lanes[0].fitted().is_some_and(|fitted| fitted.at.changes.unlike.is_none()));
}

#[test]
fn a_pair_takes_two_packages_where_the_part_has_one_channel() {
    let text = sheet("channels 1; capacitance 0.3 pF ± 10 %; cost 0.7", "count 2; limit return_loss >= 5 dB");
    let report = picked(&text);
    let line = &report.lines[0];
    assert_eq!(line.recommended.as_deref(), Some("p"));
    near(line.parts[0].cost_per_line, Some(1.4));
    let bill = &report.bills[0];
    assert_eq!((bill.parts[0].packages, bill.parts[0].spare_channels), (4, 0));
    near(bill.cost, Some(2.8));
    let said =
        |cautions: &[String]| cautions.iter().any(|c| c.contains("two packages") && c.contains("60 fF (estimate)"));
    assert!(said(&report.cautions), "{:?}", report.cautions);
    let sized = of_size(&text);
    let warning = sized.lanes[0].head.warnings.iter().find(|note| note.code == "two-packages");
    assert!(warning.is_some_and(|note| note.text.contains("60 fF (estimate)") && note.line == Some(1)));
    // `needs channels 2` asks for one package, and both say so
    let text = text.replace("count 2", "count 2; needs channels 2");
    assert_eq!(picked(&text).lines[0].recommended, None);
    let one_package = of_size(&text);
    assert!(!one_package.lanes[0].passes());
    assert!(render(&one_package, Format::Table).contains("pair: fails channels"));
}

/// A limit that 2tQ of two packages breaks and one package keeps: three channels hold one whole pair each, so three pairs
/// take three packages where a pair may not be split, and two where it may.
#[test]
fn a_channel_left_over_serves_half_a_pair_where_the_spread_allows_it() {
    let part = "channels 3; capacitance 0.3 pF ± 10 %; cost 1";
    let packages = |limit: &str| {
        let report = picked(&sheet(part, &format!("count 3; limit return_loss >= 5 dB; {limit}")));
        let split =
            report.cautions.iter().any(|caution| caution.contains("1 pair takes one channel each of two packages"));
        (report.bills[0].parts[0].packages, split)
    };
    assert_eq!(packages(""), (2, true));
    assert_eq!(packages("needs channels 2"), (3, false));
    let mismatched = sheet("channels 3; capacitance 0.3 pF ± 10 %", "count 3; limit mode_conversion <= -40 dB");
    let (_, design) = read_text(&mismatched);
    assert!(design.is_err(), "one package states no mismatch");
    // 1 % within a package keeps −40 dB, the spread of two packages does not
    assert!(conversion(0.33e-12, 0.06e-12) > -40.0 && conversion(0.33e-12, 0.003_3e-12) < -40.0);
    let bought = |tolerance: &str, limit: &str| {
        let stated = format!("channels 3; capacitance 0.3 pF ± {tolerance}; mismatch 1 %");
        picked(&sheet(&stated, &format!("count 3; limit mode_conversion <= {limit}"))).bills[0].parts[0].packages
    };
    assert_eq!(bought("10 %", "-40 dB"), 3);
    // ± 1 % is 6 fF of 303 fF
    assert!(conversion(0.303e-12, 0.006e-12) < -40.0);
    assert_eq!(bought("1 %", "-40 dB"), 2);
}

/// 0.25 pF at 5 V has 0.25 pF · (1 + 5/0.7)^½ = 0.713 pF at none, and its 0.02 pF between two lines grow with it to 0.057 pF.
#[test]
fn a_mismatch_in_farad_is_moved_to_the_bias_of_the_line() {
    let text = sheet(
        "channels 2; capacitance 0.25 pF max at 5 V; mismatch 0.02 pF; unidirectional; grading 0.7 V 0.5; standoff 5 V",
        "line_voltage 0 V to 5 V; limit mode_conversion <= -30 dB",
    );
    let grown = (1.0_f64 + 5.0 / 0.7).sqrt();
    let report = of_size(&text);
    let at = &report.lanes[0].fitted().expect("a part is named").at;
    near(Some(at.capacitance.0), Some(0.25e-12 * grown));
    let db = at.changes.unlike.and_then(|unlike| unlike.conversion).expect("unlike lines");
    let expected = conversion(0.25e-12 * grown, 0.02e-12 * grown);
    assert!((db - expected).abs() < 1e-6, "{db} {expected}");
    // a share is one of the capacitance it has there
    let share = of_size(&text.replace("mismatch 0.02 pF", "mismatch 8 %"));
    let share = share.lanes[0].fitted().and_then(|fitted| fitted.at.changes.unlike?.conversion).expect("unlike lines");
    assert!((share - expected).abs() < 1e-6, "{share} {expected}");
}

/// Series inductance: at ω the branch has C/(1 − ω²LC) in effect, so that L lowers what is allowed to C₀/(1 + ω²LC₀).
#[test]
fn each_part_has_its_own_budget() {
    let text = "part \"plain\" { channels 2; capacitance 0.1 pF }
part \"coil\" { channels 2; capacitance 0.1 pF; inductance 1 nH; cost 1 }
lane \"pair\" {
    rate 10 Gb/s nrz; reference 100 ohm differential; limit return_loss >= 12 dB
    path { driver 100 ohm; protector; receiver 100 ohm }
}
rail \"pin\" { line_voltage 0 V to 5 V }";
    let report = picked(text);
    let [plain, coil] = ["plain", "coil"].map(|name| part(&report.lines[0], name).budget_f.expect("bounded"));
    let omega = std::f64::consts::TAU * 5e9;
    near(Some(plain), report.lines[0].budget_f);
    let expected = plain / (1.0 + omega * omega * 1e-9 * plain);
    assert!((coil / expected - 1.0).abs() < 1e-9, "{coil} {expected}");
    assert!(report.lines[1].parts.iter().all(|part| part.budget_f.is_none()));
    // the summary has that of the recommended part
    assert_eq!(report.lines[0].recommended.as_deref(), Some("coil"));
    let table = render_pick(&report, Format::Table);
    let row = table.lines().find(|row| row.trim_start().starts_with("pair")).expect("a row");
    assert!(row.contains(&format!("{:.3}", coil * 1e12 - 5e-4)), "{row} {coil}");
}

#[test]
fn a_line_that_breaks_whatever_is_fitted_says_it_once() {
    // 100 ohm against 50 ohm: 20 log10 3 = 9.54 dB; 100 ohm with jωC across: |Γ|² = (1 + x²)/(9 + x²), never below 1/9
    let text = "part \"a\" { channels 2; capacitance 0.1 pF }
part \"b\" { channels 2; capacitance 0.2 pF; inductance 1 nH }
lane \"line\" {
    rate 10 Gb/s nrz; reference 50 ohm; limit return_loss >= 12 dB
    path { driver 50 ohm; protector; series 50 ohm; receiver 50 ohm }
}";
    let report = picked(text);
    assert_eq!(report.lines[0].why, "the line breaks return_loss whatever is fitted");
    assert_eq!(report.lines[0].recommended, None);
    let table = render_pick(&report, Format::Table);
    assert_eq!(table.matches("whatever is fitted").count(), 2, "{table}");
    assert!(!table.contains("capacitance"), "{table}");
}

#[test]
fn a_count_that_is_met_is_no_margin() {
    let text = sheet(
        "channels 2; capacitance 0.1 pF; temperature -40 degC to 85 degC; standoff 5 V; unidirectional",
        "line_voltage 0 V to 4 V; temperature -40 degC to 85 degC; limit return_loss >= 5 dB",
    );
    let report = picked(&text);
    let part = &report.lines[0].parts[0];
    assert!(part.passes, "{:?}", part.checks);
    assert_eq!(part.smallest_margin_check, Some("stand-off"));
    near(part.smallest_margin, Some(0.25));
    let rows = render_pick(&report, Format::Table);
    let row =
        |check: &str| rows.lines().rev().find(|row| row.trim_start().starts_with(check)).expect("a row").to_owned();
    assert!(row("capacitance").contains("<= "), "{rows}");
    assert!(row("stand-off").contains(">= 4 ") && row("channels").contains(">= 2 "), "{rows}");
}

/// Two lines: a single-channel part at 1 serves each of them best alone, a part of two channels at 1.5 both.
#[test]
fn the_bill_says_why_it_takes_another_part() {
    let line = |name: &str| {
        format!(
            "lane \"{name}\" {{
    rate 1 Gb/s nrz; reference 50 ohm; limit return_loss >= 5 dB
    path {{ driver 50 ohm; protector; receiver 50 ohm }}
}}
"
        )
    };
    let parts = |dual: &str| {
        format!(
            "part \"single\" {{ channels 1; capacitance 0.1 pF; cost 1 }}
part \"dual\" {{ channels 2; capacitance 0.1 pF; cost {dual} }}
"
        )
    };
    let report = picked(&format!("{}{}{}", parts("1.5"), line("a"), line("b")));
    assert_eq!((report.lines[0].recommended.as_deref(), report.bills[0].why.as_deref()), (Some("dual"), None));
    // one line alone leaves a channel of the dual over: 1.5 a package against 1
    let report = picked(&format!("{}{}", parts("1.5"), line("a")));
    assert_eq!(report.lines[0].recommended.as_deref(), Some("dual"));
    let why = report.bills[0].why.as_deref().expect("another part");
    assert!(why.starts_with("\"a\" takes \"single\" and not \"dual\" alone: "), "{why}");
    assert!(why.ends_with("cost 1 in all, with the recommended part of each line 1.5"), "{why}");
    assert!(render_pick(&report, Format::Markdown).contains(&format!("The bill of the lines of no port: {why}.")));
    assert!(render_pick(&report, Format::Json).contains("\"why\": \"\\\"a\\\" takes"));
}

#[test]
fn what_is_not_stated_shows_in_the_verdict() {
    let rows = "line_voltage 0 V to 3 V; exposure contact 8 kV; limit return_loss >= 5 dB";
    let report = of_size(&sheet("channels 2; capacitance 0.1 pF", rows));
    assert!(report.lanes[0].passes());
    let text = render(&report, Format::Table);
    assert!(text.contains("pair: holds, 2 not stated"), "{text}");
    // a channel count that is not stated is one of them, and one that fails breaks
    let report = of_size(&sheet("capacitance 0.1 pF", rows));
    assert!(render(&report, Format::Table).contains("pair: holds, 3 not stated"));
}

/// Where mode conversion is limited, a part that states no difference does not pass, whatever its channels.
#[test]
fn an_unknown_difference_does_not_pass_a_limit_on_it() {
    let parts = "part \"told\" { channels 1; capacitance 0.3 pF ± 1 % }
part \"untold\" { channels 2; capacitance 0.3 pF }
part \"maximum\" { channels 1; capacitance 0.3 pF max }
";
    let lane = "lane \"pair\" {
    rate 10 Gb/s nrz; reference 100 ohm differential; limit mode_conversion <= -30 dB
    path { driver 100 ohm; protector part \"told\"; receiver 100 ohm }
}";
    let report = picked(&format!("{parts}{lane}"));
    let passing: Vec<&str> = report.lines[0].parts.iter().filter(|p| p.passes).map(|p| p.part.as_str()).collect();
    assert_eq!(passing, ["told"]);
}

/// 0.5 pF lies in the upper of two windows: a series resonance of the part of 0.15 pF steps over a reflection limit.
#[test]
fn what_stands_above_the_lowest_window_does_not_merely_hold() {
    // |Γ| of a shunt b = B·Z: |Γ|² = b²/(4 + b²); B = ωC/(1 − ω²LC) is small at little C, and from the resonance on it
    // falls towards −1/ωL: 10 nH at 5 GHz is 314 ohm, b = 0.16, 21.9 dB
    let text = "part \"p\" { channels 1; capacitance 5 pF; inductance 10 nH }
lane \"line\" {
    rate 10 Gb/s nrz; reference 50 ohm; limit return_loss >= 20 dB
    path { driver 50 ohm; protector part \"p\"; receiver 50 ohm }
}";
    let report = of_size(text);
    assert!(report.lanes[0].passes());
    assert!(render(&report, Format::Table).contains("line: holds, above the lowest window"));
    assert_eq!(picked(text).lines[0].recommended, None);
}

/// A typical value at 5 V, no polarity and no voltage of the line: what is guessed stands beside the part that is taken.
#[test]
fn what_is_guessed_of_a_part_stands_beside_it() {
    let text = |part: &str, rows: &str| {
        format!(
            "part \"p\" {{ {part} }}
lane \"line\" {{
    rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB; {rows}
    path {{ driver 50 ohm; protector; receiver 50 ohm }}
}}"
        )
    };
    let codes = |text: &str| {
        let report = picked(text);
        assert_eq!(report.lines[0].recommended.as_deref(), Some("p"));
        report.lines[0].parts[0].warnings.iter().map(|note| note.code).collect::<Vec<_>>()
    };
    let guessed = text("capacitance 0.8 pF typical at 5 V; channels 1", "");
    assert_eq!(codes(&guessed), ["typical-as-maximum", "no-line-voltage"]);
    let biased = text("capacitance 0.4 pF max at 1 V; channels 1; standoff 5 V", "line_voltage 0 V to 1 V");
    assert_eq!(codes(&biased), ["default-grading", "polarity-assumed"]);
    let told = "capacitance 0.4 pF max at 1 V; channels 1; standoff 5 V; unidirectional; grading 0.7 V 0.5";
    assert!(codes(&text(told, "line_voltage 0 V to 1 V")).is_empty());
    let report = picked(&guessed);
    let table = render_pick(&report, Format::Table);
    assert!(table.contains("line: take \"p\", 2 warnings"), "{table}");
    assert!(table.contains("- part \"p\" states only a typical capacitance"), "{table}");
    assert!(render_pick(&report, Format::Json).contains("\"code\": \"typical-as-maximum\""));
    assert!(render_pick(&report, Format::Csv).contains("it is used as the maximum"));
}
