//! Parts judged by what a discharge leaves with them.

use super::picked;
use lanecap::parts::Check;
use lanecap::result::PartPickReport;

/// A chip beside its protector.
const LANE: &str = "lane \"gauge\" { rate 100 Mb/s nrz; reference 50 ohm; line_voltage 0 V to 1 V; exposure contact 8 kV\n\
                    limit return_loss >= 6 dB\n\
                    path { driver 50 ohm; connector 0 pF; protector\n\
                    receiver 50 ohm pad 0.2 pF clamps 3 V 2 ohm survives 2.5 A peak 30 A } }\n";

fn snap(name: &str, trigger: f64, resistance: f64) -> String {
    let clamp = 2.0 + 16.0 * resistance;
    format!(
        "part \"{name}\" {{ capacitance 0.3 pF max at 0 V; bidirectional; inductance 0.2 nH; standoff 1.5 V; trigger {trigger} V\n\
         holding 2 V; clamp {clamp} V at 16 A; dynamic_resistance {resistance} ohm; contact 8 kV; channels 1; cost 1 }}\n"
    )
}

fn check<'a>(part: &'a PartPickReport, name: &str) -> &'a Check {
    part.checks.iter().find(|check| check.check == name).unwrap_or_else(|| panic!("no {name}"))
}

/// The chip holds the node at 3 V + 2 ohm · I: a trigger of 10 V is reached from 3.5 A on, one of 60 V from 28.5 A,
/// which is 7.6 kV; up to there the chip carries it all.
#[test]
fn a_part_that_triggers_too_late_fails_by_the_current_it_leaves() {
    let report = picked(&(snap("early", 10.0, 0.05) + &snap("late", 60.0, 0.05) + LANE));
    let line = &report.lines[0];
    assert_eq!(line.recommended.as_deref(), Some("early"), "{}", line.why);
    let late = check(&line.parts[1], "pin current");
    assert!(late.margin.unwrap() < -1.0, "{late:?}");
    let alone = picked(&(snap("late", 60.0, 0.05) + LANE));
    assert!(alone.lines[0].why.contains("\"late\" fails pin current ("), "{}", alone.lines[0].why);
}

/// Both keep the capacitance by the same margin and the pin with more room than that: the one of less resistance leaves less.
#[test]
fn of_equals_the_one_that_leaves_least_is_recommended() {
    let roomy = LANE.replace("survives 2.5 A", "survives 500 A");
    let report = picked(&(snap("more", 10.0, 0.3) + &snap("less", 10.0, 0.1) + &roomy));
    let line = &report.lines[0];
    let left: Vec<f64> = line.parts.iter().map(|part| check(part, "pin current").available.unwrap()).collect();
    assert!(left[1] < 0.9 * left[0], "{left:?}");
    assert_eq!(line.recommended.as_deref(), Some("less"));
    assert!(line.why.contains("it leaves least at the pin"), "{}", line.why);
}

/// What fails elsewhere is not computed, and keeps its estimates.
#[test]
fn a_part_that_fails_another_check_is_not_computed() {
    let weak = snap("weak", 10.0, 0.1).replace("contact 8 kV", "contact 4 kV");
    let report = picked(&(weak + &LANE.replace("exposure contact 8 kV", "exposure contact 8 kV; withstands 30 V")));
    let names: Vec<&str> = report.lines[0].parts[0].checks.iter().map(|check| check.check).collect();
    assert!(names.contains(&"residual") && !names.contains(&"pin current"), "{names:?}");
}

/// What a part does not state leaves its check open, and names the word.
#[test]
fn a_missing_word_is_named() {
    let open = snap("open", 10.0, 0.1).replace("trigger 10 V", "package \"0201\"");
    let report = picked(&(open + LANE));
    let why = &report.lines[0].why;
    assert!(why.contains("leaves pin current open") && why.contains("\"open\" does not state `trigger`"), "{why}");
}

#[test]
fn a_guard_that_fails_stops_every_part() {
    let guarded = LANE.replace("connector 0 pF;", "connector 0 pF; guard part \"outer\"; series 1 ohm;");
    let report = picked(
        &(snap("early", 10.0, 0.05) + &snap("outer", 10.0, 0.05).replace("contact 8 kV", "contact 6 kV") + &guarded),
    );
    let why = &report.lines[0].why;
    assert!(why.contains("\"early\" fails rating contact of \"outer\""), "{why}");
}
