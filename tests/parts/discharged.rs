//! The checks of the computed discharge against an independent script (fixtures/reference/discharge.py) and against closed
//! forms.

use crate::support::{read_text, root};
use lanecap::budget::Figures;
use lanecap::parts::Check;
use lanecap::parts::Verdict::{Fails, NotStated, Passes};
use lanecap::result::{LineHead, Report, size};
use lanecap::text::{Format, render};
use lanecap::transient::{ContactDischarge, LATE, SurgeWave};
use lanecap::units::{Second, Volt};
use serde_json::Value;

fn sized(text: &str, figures: Figures) -> Report {
    let (gathered, design) = read_text(text);
    let design = design.unwrap_or_else(|errors| panic!("{errors:?}\n{text}"));
    let all: Vec<usize> = (0..design.names().len()).collect();
    size(&design, &all, figures, &gathered.sources, &|| ()).unwrap()
}

fn head(report: &Report) -> &LineHead {
    let lanes = report.lanes.iter().map(|line| &line.head);
    lanes
        .chain(report.buses.iter().map(|line| &line.head))
        .chain(report.rails.iter().map(|line| &line.head))
        .next()
        .unwrap()
}

/// The checks of the one line of a sheet, and the codes of its warnings.
pub(crate) fn checked(text: &str) -> (Vec<Check>, Vec<&'static str>) {
    let report = sized(text, Figures::All);
    let head = head(&report);
    (head.checks.clone(), head.warnings.iter().map(|note| note.code).collect())
}

#[track_caller]
pub(crate) fn find<'a>(checks: &'a [Check], name: &str) -> &'a Check {
    let names: Vec<String> = checks.iter().map(Check::name).collect();
    checks.iter().find(|check| check.name() == name).unwrap_or_else(|| panic!("no {name} in {names:?}"))
}

pub(crate) fn has(checks: &[Check], name: &str) -> bool {
    checks.iter().any(|check| check.check == name)
}

#[track_caller]
fn near(found: Option<f64>, expected: f64, relative: f64) {
    let found = found.unwrap();
    assert!((found / expected - 1.0).abs() <= relative, "{found} is not {expected}");
}

/// A lane of the reference with its level, what its chip survives, and the equivalent currents in both polarities.
fn reference(name: &str, survives: &str, exposure: &str) -> (String, [f64; 2]) {
    let text = std::fs::read_to_string(root().join("fixtures/reference/discharge.json")).unwrap();
    let all: Value = serde_json::from_str(&text).unwrap();
    let lane = all["lanes"].as_array().unwrap().iter().find(|lane| lane["name"] == name).unwrap();
    let sheet = lane["sheet"].as_str().unwrap();
    let (before, after) = sheet.split_once("exposure contact ").unwrap();
    let sheet = format!("{before}exposure {exposure}\n{}", after.split_once('\n').unwrap().1);
    let at = sheet.find("clamps").unwrap();
    let end = at + sheet[at..].find('\n').unwrap();
    let sheet = format!("{} {survives}{}", &sheet[..end], &sheet[end..]);
    (sheet, ["positive", "negative"].map(|sign| lane[sign]["pin"]["equivalent_a"].as_f64().unwrap()))
}

/// 0.321 A and 0.492 A at 8 kV by the script: the worse polarity counts.
#[test]
fn a_chip_is_held_to_the_worse_polarity() {
    let (sheet, amperes) = reference("camera 2", "survives 0.3 A", "contact 8 kV");
    assert!(amperes[1] > amperes[0] && amperes[0] > 0.3);
    let (checks, codes) = checked(&sheet);
    let current = find(&checks, "pin current");
    assert_eq!((current.required, current.verdict), (Some(0.3), Fails));
    near(current.available, amperes[1], 0.01);
    assert_eq!(current.why.as_deref(), Some("at 8 kV, negative"));
    // what it survives for nanoseconds is not stated, and more than 0.3 A flow then
    assert_eq!(find(&checks, "pin current peak").verdict, NotStated);
    assert!(!has(&checks, "pin voltage") && !has(&checks, "turn-on"));
    assert!(!codes.contains(&"turn-on"), "{codes:?}");
    // between the two: the positive polarity alone would pass
    let (checks, _) = checked(&sheet.replace("survives 0.3 A", "survives 0.4 A"));
    assert_eq!(find(&checks, "pin current").verdict, Fails);
    let (checks, _) = checked(&sheet.replace("survives 0.3 A", "survives 0.51 A peak 0.5 A"));
    assert_eq!(find(&checks, "pin current").verdict, Passes);
    assert_eq!(find(&checks, "pin current peak").verdict, Fails);
}

/// 2 kV do not turn the part on in the positive polarity, by the script: the chip carries 2.99 A alone.
#[test]
fn a_part_that_does_not_turn_on_is_a_caution_unless_the_chip_fails() {
    let (sheet, amperes) = reference("buoy 1", "survives 2.5 A", "contact 2 kV");
    let (checks, codes) = checked(&sheet);
    near(find(&checks, "pin current").available, amperes[0], 0.01);
    assert_eq!((find(&checks, "pin current").verdict, find(&checks, "turn-on").verdict), (Fails, Fails));
    assert!(!codes.contains(&"turn-on"));
    let why = find(&checks, "turn-on").why.as_deref().unwrap();
    assert!(why.contains("not in the positive polarity") && why.contains("2 kV"), "{why}");
    let (checks, codes) = checked(&sheet.replace("survives 2.5 A", "survives 3.1 A"));
    assert_eq!((find(&checks, "pin current").verdict, find(&checks, "turn-on").verdict), (Passes, Passes));
    assert!(codes.contains(&"turn-on"));
}

/// What 2 kV leave by the script counts against a level that turns the part on.
#[test]
fn a_low_level_can_be_worse_than_a_high_one() {
    let (sheet, amperes) = reference("buoy 1", "survives 2.5 A", "contact 15 kV");
    let report = sized(&sheet, Figures::All);
    let discharge = head(&report).discharge.as_ref().unwrap();
    let contact = discharge.contact.as_ref().unwrap().as_ref().unwrap();
    let at_stated = contact.positive.stated.outcome.pin.equivalent.0;
    assert!(contact.positive.turns_on_from.is_some_and(|level| level.0 > 2e3 && level.0 < 15e3));
    let check = find(&head(&report).checks, "pin current");
    assert!(check.available.unwrap() > 0.99 * amperes[0] && check.available.unwrap() > 1.2 * at_stated);
    let why = check.why.as_deref().unwrap();
    assert!(why.ends_with("kV, positive") && !why.contains("15 kV"), "{why}");
    assert_eq!(check.verdict, Fails);
    assert!(!has(&head(&report).checks, "turn-on"));
}

/// A rail whose part is a straight line from 10 V with 0.5 Ω: through 10.5 V at 1 A.
fn rail(exposure: &str, pin: &str) -> String {
    format!(
        "part \"clamp\" {{ capacitance 1 pF max at 0 V; unidirectional; standoff 9 V; breakdown 10 V at 1 nA; clamp 18 V at 16 A\n\
         dynamic_resistance 0.5 ohm; contact 8 kV; surge 20 A; surge_clamp 18 V at 16 A }}\n\
         rail \"supply\" {{ line_voltage 0 V to 5 V; exposure {exposure}\n\
         path {{ connector 0 pF; protector part \"clamp\"; pin {pin} }} }}"
    )
}

/// The voltage of that part at a source current, 330 Ω beside it.
fn volts(source: f64) -> f64 {
    (source + 10.0 / 0.5) / (1.0 / 0.5 + 1.0 / 330.0)
}

/// Highest current of the standard's wave at 8 kV from a time on, in ampere.
fn highest(from: f64) -> f64 {
    let wave = ContactDischarge { level: Volt(8e3) };
    (0..20_000).map(|k| wave.current(Second(from + f64::from(k) * 1e-12)).0).fold(0.0, f64::max)
}

#[test]
fn the_pin_of_a_straight_line_by_hand() {
    let [peak, late] = [volts(highest(0.0)), volts(highest(LATE.0))];
    assert!(late < peak - 2.0, "{late} {peak}");
    let (checks, _) = checked(&rail(&format!("contact 8 kV; withstands {} V peak {} V", late + 0.1, peak + 0.1), ""));
    assert!(!has(&checks, "residual") && !has(&checks, "first peak"));
    let (after, first) = (find(&checks, "pin voltage"), find(&checks, "pin voltage peak"));
    near(after.available, late, 2e-3);
    near(first.available, peak, 2e-3);
    // no inductance of the part is stated: what its first peak is stays open
    assert_eq!((after.verdict, first.verdict), (Passes, NotStated));
    assert_eq!(after.why.as_deref(), Some("at 8 kV, positive"));
    let (checks, _) = checked(&rail(&format!("contact 8 kV; withstands {} V peak {} V", late - 0.1, peak - 0.1), ""));
    assert_eq!((find(&checks, "pin voltage").verdict, find(&checks, "pin voltage peak").verdict), (Fails, Fails));
    // what it withstands so long is not stated: above what it withstands at all it is open
    let (checks, _) = checked(&rail(&format!("contact 8 kV; withstands {} V", peak + 0.1), ""));
    assert_eq!(find(&checks, "pin voltage peak").verdict, NotStated);
    let (checks, _) = checked(&rail(&format!("contact 8 kV; withstands {} V", late + 0.1), ""));
    let open = find(&checks, "pin voltage peak");
    assert_eq!((open.verdict, open.required, open.margin), (NotStated, None, None));
    near(open.available, peak, 2e-3);
    assert!(open.why.as_deref().unwrap().contains("`peak`"));
}

#[test]
fn a_surge_by_hand() {
    // 20 A of 8/20 us through 10 V + 0.5 ohm: 20 V, the rating met to the ampere.
    let (checks, _) = checked(&rail("surge 20 A; withstands 20.1 V", ""));
    assert!(!has(&checks, "residual surge"));
    near(find(&checks, "pin surge").available, 20.0, 1e-3);
    assert_eq!((find(&checks, "pin surge").verdict, find(&checks, "rating surge").verdict), (Passes, Passes));
    near(find(&checks, "rating surge").available, 20.0, 1e-12);
    let (checks, _) = checked(&rail("surge 20 A; withstands 19.9 V", ""));
    assert_eq!(find(&checks, "pin surge").verdict, Fails);
    // what it withstands for so long counts, where it is stated
    let (checks, _) = checked(&rail("surge 20 A; withstands 30 V surge 19.9 V", ""));
    assert_eq!((find(&checks, "pin surge").required, find(&checks, "pin surge").verdict), (Some(19.9), Fails));

    let (checks, _) = checked(&rail("contact 8 kV; exposure surge 20 A; withstands 40 V", ""));
    let names: Vec<&str> = checks.iter().map(|check| check.check).collect();
    let order = ["stand-off", "rating contact", "rating surge", "pin voltage", "pin voltage peak", "pin surge"];
    assert_eq!(names, order);

    // 1 kV behind 42 ohm: (1000 w − 10)/42.5 where that is above nothing; its length is charge over peak.
    let step = SurgeWave::Voltage.end().0 / 65_000.0;
    let currents: Vec<f64> = (1..=65_000)
        .map(|k| ((1000.0 * SurgeWave::Voltage.at(Second(f64::from(k) * step)) - 10.0) / 42.5).max(0.0))
        .collect();
    let peak = currents.iter().copied().fold(0.0, f64::max);
    let length = currents.iter().sum::<f64>() * step / peak;
    let (checks, _) = checked(&rail("surge 1 kV through 42 ohm; withstands 40 V", ""));
    let rating = find(&checks, "rating surge");
    // the negative one finds a junction at 0.7 V: (1000 − 0.7)/42.5 at its peak, a little more and longer
    near(rating.required, 999.3 / 42.5, 2e-3);
    assert!(rating.required.unwrap() > peak && rating.why.as_deref().unwrap().ends_with("negative"), "{rating:?}");
    near(rating.available, 20.0 * (17.4e-6 / length).sqrt(), 2e-2);
    assert_eq!(rating.verdict, Fails);
    near(find(&checks, "pin surge").available, 10.0 + 0.5 * peak, 2e-3);

    // a generator of 2 ohm sends 8/20 us: the whole rating counts
    let (checks, _) = checked(&rail("surge 40 V through 2 ohm; withstands 40 V", ""));
    near(find(&checks, "rating surge").available, 20.0, 1e-12);
}

#[test]
fn the_current_into_the_chip_is_named_beside_a_surge() {
    let (checks, _) = checked(&rail("surge 20 A; withstands 30 V", "clamps 12 V 2 ohm"));
    // (v − 10)/0.5 + (v − 12)/2 = 20: v = 18.4, 3.2 A into the chip
    near(find(&checks, "pin surge").available, 18.4, 1e-3);
    assert!(find(&checks, "pin surge").why.as_deref().unwrap().starts_with("3.2 A into the chip"));
    // 16.8 A through the part in the positive polarity, 16 A in the negative one
    near(find(&checks, "rating surge").required, 16.8, 1e-3);
    assert!(!has(&checks, "pin surge current"));
    // both conduct from 0.7 V in the negative polarity: 20 A · 0.5/2.5 = 4 A into the chip; more than it survives for 100 ns it does not survive for microseconds
    let (checks, _) = checked(&rail("surge 20 A; withstands 30 V", "clamps 12 V 2 ohm survives 3 A"));
    let current = find(&checks, "pin surge current");
    near(current.available, 4.0, 1e-3);
    assert_eq!((current.verdict, current.required), (Fails, Some(3.0)));
    let (checks, _) = checked(&rail("surge 20 A; withstands 30 V", "clamps 12 V 2 ohm survives 4.1 A"));
    assert!(!has(&checks, "pin surge current"));
}

#[test]
fn what_is_missing_is_named_and_the_estimates_stay() {
    let bare =
        rail("contact 8 kV; withstands 40 V", "clamps 12 V 2 ohm survives 3 A").replace("; clamp 18 V at 16 A", "");
    let bare = bare.replace("dynamic_resistance 0.5 ohm; ", "").replace("breakdown 10 V at 1 nA", "package \"0402\"");
    let (checks, _) = checked(&bare);
    assert!(has(&checks, "residual") && has(&checks, "first peak") && !has(&checks, "pin voltage"));
    let current = find(&checks, "pin current");
    assert_eq!((current.verdict, current.required), (NotStated, Some(3.0)));
    let why = current.why.as_deref().unwrap();
    assert!(why.contains("the part \"clamp\" does not state `clamp`"), "{why}");
    // a chip that states nothing is not asked
    let (checks, _) = checked(&bare.replace(" clamps 12 V 2 ohm survives 3 A", ""));
    assert!(has(&checks, "residual") && !has(&checks, "pin current"));
}

#[test]
fn without_a_path_the_estimates_stay() {
    let text = rail("contact 8 kV; withstands 40 V", "");
    let (before, _) = text.split_once("path").unwrap();
    let (checks, _) = checked(&format!("{before} part \"clamp\" }}"));
    assert!(has(&checks, "residual") && !has(&checks, "pin voltage"));
}

#[test]
fn at_nyquist_alone_no_discharge_is_computed() {
    let report = sized(&rail("contact 8 kV; withstands 40 V", ""), Figures::Nyquist);
    let head = head(&report);
    assert!(head.discharge.is_none() && has(&head.checks, "residual") && !has(&head.checks, "pin voltage"));
    assert!(head.defaults.iter().all(|note| note.code != "discharge-assumptions"));
}

#[test]
fn a_guard_is_checked_by_its_name() {
    let text = rail("contact 8 kV; exposure surge 30 A; withstands 40 V", "")
        .replace("connector 0 pF;", "connector 0 pF; guard part \"outer\"; series 1 ohm;");
    let outer = "part \"outer\" { capacitance 1 pF max at 0 V; unidirectional; standoff 4 V; breakdown 10 V at 1 nA\n\
                 clamp 18 V at 16 A; dynamic_resistance 0.5 ohm; contact 4 kV; surge 19.9 A; surge_clamp 18 V at 16 A }\n";
    let (checks, _) = checked(&format!("{outer}{text}"));
    let strike = find(&checks, "rating contact of \"outer\"");
    assert_eq!((strike.verdict, strike.required, strike.available), (Fails, Some(8e3), Some(4e3)));
    assert_eq!(find(&checks, "rating contact").verdict, Passes);
    assert_eq!(find(&checks, "stand-off of \"outer\"").verdict, Fails);
    // 30 A: (v − 10)/0.5 + (v − 10)/1.5 = 30, v = 21.25: 22.5 A into the outer one, 7.5 A into the inner one
    let surge = find(&checks, "rating surge of \"outer\"");
    assert_eq!(surge.verdict, Fails);
    near(surge.required, 22.5, 1e-3);
    near(find(&checks, "rating surge").required, 7.5, 1e-3);
}

#[test]
fn what_is_assumed_is_listed_once() {
    let report = sized(&rail("contact 8 kV; withstands 40 V", ""), Figures::All);
    let count = head(&report).defaults.iter().filter(|note| note.code == "discharge-assumptions").count();
    assert_eq!(count, 1);
    let report = sized(&rail("surge 2 A", ""), Figures::All);
    assert!(head(&report).defaults.iter().all(|note| note.code != "discharge-assumptions"));
}

#[test]
fn lines_that_are_alike_share_a_discharge_and_others_do_not() {
    let one = rail("contact 8 kV; withstands 40 V", "");
    let (part, line) = one.split_at(one.find("rail").unwrap());
    let [alike, lower, other] = [
        line.replace("supply", "alike"),
        line.replace("supply", "lower").replace("8 kV", "4 kV"),
        line.replace("supply", "other").replace("protector", "series 1 ohm; protector"),
    ];
    let together = sized(&format!("{part}{line}\n{alike}\n{lower}\n{other}"), Figures::All);
    let figures = |head: &LineHead| {
        let contact = head.discharge.as_ref().unwrap().contact.as_ref().unwrap().as_ref().unwrap();
        let pin = contact.positive.stated.outcome.pin;
        (contact.positive.level, pin.peak, contact.parts[0].element)
    };
    let found: Vec<_> = together.rails.iter().map(|rail| figures(&rail.head)).collect();
    for (line, shared) in [line, &alike, &lower, &other].into_iter().zip(&found) {
        assert_eq!(figures(head(&sized(&format!("{part}{line}"), Figures::All))), *shared);
    }
    assert!(found[0] == found[1] && found[0] != found[2] && found[0] != found[3]);
}

#[test]
fn the_json_has_what_is_left() {
    let text = rail("contact 8 kV; exposure surge 20 A; withstands 40 V", "clamps 12 V 2 ohm");
    let json: Value = serde_json::from_str(&render(&sized(&text, Figures::All), Format::Json)).unwrap();
    let left = &json["rails"][0]["discharge"];
    let keys = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>().join(" ");
    assert_eq!(left["level_v"], 8e3);
    let pin = "energy_j equivalent_a late_peak_v peak_a peak_at_s peak_v v30_v";
    assert_eq!((keys(&left["pin"]).as_str(), keys(&left["worst"]).as_str()), (pin, pin));
    assert_eq!(keys(&left["negative"]), "parts pin worst worst_level_v");
    assert_eq!(keys(left), "level_v negative parts pin surge turns_on_from_v worst worst_level_v");
    assert_eq!(left["parts"][0]["part"], "clamp");
    assert_eq!(left["parts"][0]["element"], 2);
    assert!(left["pin"]["peak_a"].as_f64().unwrap() > 0.0);
    assert!((left["surge"]["pin_peak_a"].as_f64().unwrap() - 3.2).abs() < 0.01);
    // without a clamp no current of the pin is known
    let text = rail("contact 8 kV", "");
    let json: Value = serde_json::from_str(&render(&sized(&text, Figures::All), Format::Json)).unwrap();
    let left = &json["rails"][0]["discharge"];
    assert!(left["pin"]["peak_a"].is_null() && left["pin"]["equivalent_a"].is_null() && left["surge"].is_null());
    let json: Value = serde_json::from_str(&render(&sized(&rail("air 8 kV", ""), Figures::All), Format::Json)).unwrap();
    assert!(json["rails"][0]["discharge"].is_null());
}

#[test]
fn a_guard_that_stays_on_fails_latch_up() {
    let tube = "part \"tube\" { capacitance 1 pF max at 0 V; bidirectional; standoff 40 V; trigger 90 V; holding 12 V at 300 mA\n\
                clamp 18 V at 16 A; contact 15 kV; surge 100 A }\n";
    let lane = |volts: f64, series: &str| {
        format!(
            "{tube}part \"fine\" {{ capacitance 1 pF max at 0 V; bidirectional; standoff 40 V; clamp 60 V at 16 A; contact 15 kV }}\n\
             lane \"l\" {{ rate 100 Mb/s nrz; reference 50 ohm; line_voltage 0 V to {volts} V; limit return_loss >= 6 dB\n\
             exposure contact 8 kV; path {{ driver 50 ohm; guard part \"tube\"; {series}; protector part \"fine\"; receiver 50 ohm }} }}\n"
        )
    };
    // both ends of 50 ohm, the inner one behind 10 ohm: (32 − 12)(1/50 + 1/60) = 733 mA
    let (checks, _) = checked(&lane(32.0, "series 10 ohm"));
    let stays = find(&checks, "latch-up of \"tube\"");
    near(stays.required, 20.0 * (1.0 / 50.0 + 1.0 / 60.0), 1e-9);
    assert_eq!((stays.verdict, stays.available), (Fails, Some(0.3)));
    // 12 V is above what the line has
    let (checks, _) = checked(&lane(11.0, "series 10 ohm"));
    assert_eq!(find(&checks, "latch-up of \"tube\"").verdict, Passes);
}

#[test]
fn a_part_that_stands_off_more_below_ground_clamps_higher_there() {
    // −24 V to 12 V, 17 V at 16 A with 0.3 ohm above ground: below it 12 V more, from 24.2 V on, and some 29 V at 16 A.
    let sheet = "part \"a\" { capacitance 10 pF max; bidirectional; standoff -24 V to 12 V; inductance 0.3 nH\n\
                 clamp 17 V at 16 A; dynamic_resistance 0.3 ohm; contact 15 kV; channels 2 }\n\
                 lane \"l\" { rate 10 Mb/s nrz; reference 120 ohm differential; line_voltage -7 V to 12 V\n\
                 limit return_loss >= 0.1 dB; exposure contact 8 kV; withstands 22 V peak 90 V\n\
                 path { driver 120 ohm; connector 1 pF; protector part \"a\"; receiver 120 ohm pad 5 pF } }\n";
    let (checks, _) = checked(sheet);
    let late = find(&checks, "pin voltage");
    assert_eq!(late.verdict, Fails);
    // 16.1 A at most after 5 ns
    near(late.available, 24.2 + 0.3 * 16.1, 0.02);
    assert!(late.why.as_deref().unwrap().contains("negative"), "{late:?}");
}

/// What is too weak for the part leaves up to its trigger: at a level at which the computed part never conducts that still
/// holds, at one at which it does the computed levels say it.
#[test]
fn a_part_that_never_conducts_keeps_its_caution() {
    let of = |level: &str| {
        format!(
            "part \"late\" {{ capacitance 0.2 pF max; inductance 0.2 nH; bidirectional; standoff 5 V; trigger 30 V\n\
             holding 3 V at 20 mA; clamp 6 V at 16 A; dynamic_resistance 0.2 ohm; contact 15 kV }}\n\
             lane \"l\" {{ rate 1 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 1 V; limit return_loss >= 0.1 dB\n\
             exposure contact {level}; withstands 20 V peak 40 V\n\
             path {{ driver 50 ohm; protector part \"late\"; receiver 50 ohm clamps 4 V 1 ohm survives 30 A peak 40 A }} }}\n"
        )
    };
    // By hand: 3.73 A at 1 kV through 4 V and 1 ohm are 7.7 V, 30 A at 8 kV are 34 V.
    let (checks, codes) = checked(&of("1 kV"));
    assert_eq!(find(&checks, "turn-on").verdict, Passes);
    assert!(codes.contains(&"below-trigger") && codes.contains(&"turn-on"), "{codes:?}");
    let (checks, codes) = checked(&of("8 kV"));
    assert!(!has(&checks, "turn-on") && !codes.contains(&"below-trigger"), "{codes:?}");
}

#[test]
fn an_air_discharge_leaves_what_a_chip_survives_open() {
    let air = |exposure: &str| {
        rail(&format!("{exposure}; withstands 60 V peak 90 V"), "clamps 12 V 2 ohm survives 30 A peak 40 A")
    };
    let (_, codes) = checked(&air("air 15 kV").replace("; withstands 60 V peak 90 V", ""));
    assert!(codes.contains(&"air-residual"), "{codes:?}");
    let (_, codes) = checked(&air("contact 8 kV"));
    assert!(!codes.contains(&"air-residual"), "{codes:?}");
}

/// A part from 18 V on in front of 47 nF, 1 kohm and 1 nF: 1.16 uC of 8 kV would charge 47 nF to 24.7 V, so it clamps there, and
/// the pin comes to 47/48 of that with 1 us, long after the 200 ns.
#[test]
fn a_pin_that_still_rises_is_left_open() {
    let of = |filter: &str, withstands: f64| {
        format!(
            "part \"clamp\" {{ capacitance 200 pF max at 0 V; grading 0.7 V 0; inductance 0.8 nH; unidirectional; standoff 18 V\n\
             breakdown 20 V at 1 mA; clamp 28 V at 16 A; dynamic_resistance 0.2 ohm; contact 30 kV }}\n\
             rail \"input\" {{ line_voltage 0 V to 5 V; exposure contact 8 kV; withstands {withstands} V\n\
             path {{ connector 2 pF 4 nH; protector part \"clamp\" inductance 0.5 nH; {filter}; pin pad 5 pF }} }}\n"
        )
    };
    for filter in ["shunt 47 nF; series 1 kohm; shunt 1 nF", "series 100 uH; shunt 1 nF"] {
        let (checks, _) = checked(&of(filter, 10.0));
        let voltage = find(&checks, "pin voltage");
        assert!(voltage.available.unwrap() < 10.0, "{voltage:?}");
        assert_eq!(voltage.verdict, NotStated, "{filter}");
        assert!(voltage.why.as_deref().unwrap().contains("still rises"), "{voltage:?}");
    }
    // 1.16 uC into 470 nF: 2.4 V by the end, what the source still brings is less than 1 % of that
    let (checks, _) = checked(&of("shunt 470 nF", 11.0));
    let voltage = find(&checks, "pin voltage");
    near(voltage.available, 5.0 + 1.162e-6 / 470e-9, 0.02);
    assert_eq!(voltage.verdict, Passes, "{voltage:?}");
    // it is on top of the line's own 5 V, below the 20 V of the part
    assert!(voltage.why.as_deref().unwrap().ends_with("with the line's own 5 V"), "{voltage:?}");
    let (checks, _) = checked(&of("shunt 470 nF", 7.0));
    assert_eq!(find(&checks, "pin voltage").verdict, Fails);
}

/// 100 nF hold some 10 V at the end, above the 4 V of the chip's clamp: 1/2 100 nF (V^2 - 16 V^2) may still go into it.
#[test]
fn a_chip_that_is_still_fed_is_left_open() {
    let of = |survives: f64| {
        format!(
            "part \"slow\" {{ capacitance 100 nF max at 0 V; grading 0.7 V 0; inductance 4 nH; bidirectional; standoff 18 V\n\
             breakdown 20 V at 1 mA; clamp 35 V at 16 A; dynamic_resistance 0.5 ohm; contact 30 kV }}\n\
             rail \"r\" {{ line_voltage 0 V to 3 V; exposure contact 8 kV; path {{ connector 1 pF 1 nH\n\
             protector part \"slow\" inductance 0.5 nH; series 4.7 ohm\n\
             pin pad 5 pF clamps 4 V 1 ohm negative 4 V survives {survives} A peak 40 A }} }}\n"
        )
    };
    let (checks, _) = checked(&of(2.0));
    let current = find(&checks, "pin current");
    assert!(current.available.unwrap() < 2.0, "{current:?}");
    assert_eq!(current.verdict, NotStated);
    assert!(current.why.as_deref().unwrap().contains("stored at the end"), "{current:?}");
    // not more than 1.162 uC at 12 V at most: (4 V + 1 ohm I) I 100 ns = 14 uJ is 10 A
    assert_eq!(find(&checked(&of(10.0)).0, "pin current").verdict, Passes);
}

/// 36 V turn the part on: some 53 V of a generator do not, and leave all of it; at 8 kV it is on within the first 5 ns.
#[test]
fn levels_below_500_v_are_looked_at() {
    let sheet = "part \"snap\" { capacitance 1 pF max at 0 V; grading 0.7 V 0; inductance 0.4 nH; bidirectional; standoff 5.5 V\n\
                 trigger 36 V; holding 6 V at 20 mA; turn_on 0.3 ns; clamp 9 V at 16 A; dynamic_resistance 0.15 ohm; contact 30 kV }\n\
                 rail \"r\" { line_voltage 0 V; exposure contact 8 kV; withstands 24 V peak 70 V\n\
                 path { connector 0.5 pF 1 nH; protector inductance 0.1 nH part \"snap\"; shunt 47 pF; series 47 ohm; pin pad 5 pF } }\n";
    let report = sized(sheet, Figures::All);
    let voltage = find(&head(&report).checks, "pin voltage");
    assert_eq!(voltage.verdict, Fails);
    assert!(voltage.available.is_some_and(|volts| volts > 35.0 && volts <= 36.0), "{voltage:?}");
    let contact = head(&report).discharge.as_ref().unwrap().contact.as_ref().unwrap().as_ref().unwrap();
    let (below, from) = (contact.positive.worst_level, contact.positive.turns_on_from.unwrap());
    assert!(from < Volt(100.0) && contact.positive.levels.iter().any(|(level, _)| *level < from), "{below} {from}");
}

/// 2.65 kV leave 5.92 A and 2.4 kV 5.35 A, 2.7 kV 4.85 A, by an independent computation: the grid has neither of the first.
#[test]
fn a_figure_that_jumps_between_two_levels_is_found() {
    let sheet = "part \"s\" { capacitance 2.25632474 pF max at 0 V; grading 0.7 V 0; inductance 0.92527492 nH; bidirectional\n\
                 standoff 6.57 V; trigger 66.3 V; holding 7.3 V at 1631 mA; turn_on 0.42 ns; clamp 12.58 V at 16 A\n\
                 dynamic_resistance 0.33 ohm; contact 30 kV }\n\
                 rail \"r\" { line_voltage 0 V to 0.5 V; exposure contact 8 kV\n\
                 path { connector 1 pF 2 nH; protector part \"s\" inductance 0.5 nH; series 20 nH\n\
                 pin pad 3 pF clamps 7.2 V 1.8 ohm negative 1.7 V survives 5 A peak 5.6 A } }\n";
    let (checks, _) = checked(sheet);
    let peak = find(&checks, "pin current peak");
    near(peak.available, 5.92, 0.015);
    assert_eq!(peak.verdict, Fails);
}
