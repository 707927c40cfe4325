//! A part between the two lines of a pair: the voltage it sees, and what it does not lead away.

use lanecap::budget::Figures;
use lanecap::model::{CapacitanceRating, Part, Polarity};
use lanecap::parts::Verdict::{Fails, NotStated, Passes};
use lanecap::parts::{Duty, checks};
use lanecap::result::{Report, pick, size};
use lanecap::units::{Ampere, Farad, Volt};

use super::{changed, find, near, row, verdict, volts};
use crate::support::read_text;

fn sheet(part: &str, voltages: &str) -> String {
    format!(
        "part \"p\" {{ bidirectional; grading 0.7 V 0.5; standoff 5 V; {part} }}
lane \"pair\" {{
    rate 1 Gb/s nrz; reference 100 ohm differential; {voltages}
    limit return_loss >= 17 dB
    path {{ driver 100 ohm; protector part \"p\"; receiver 100 ohm }}
}}"
    )
}

fn sized(text: &str) -> Report {
    let (gathered, design) = read_text(text);
    size(&design.unwrap(), &[0], Figures::Nyquist, &gathered.sources, &|| ()).unwrap()
}

fn fitted(text: &str) -> f64 {
    sized(text).lanes[0].fitted().unwrap().at.capacitance.0
}

/// A junction that is largest at no bias, on a pair whose two lines may be at one voltage: twice 1 pF of each line to
/// ground, |Γ|² = x²/(4 + x²) with x = ωCZ, Z = 50 ohm (own arithmetic): 16.18 dB, 0.82 dB short of 17 dB.
#[test]
fn the_bias_across_a_pair_is_the_voltage_between_its_lines() {
    let text = sheet("capacitance 1.0 pF max at 0 V across", "line_voltage 2.6 V to 3.3 V");
    let report = sized(&text);
    let fitted = report.lanes[0].fitted().unwrap();
    near(Some(fitted.at.capacitance.0), Some(2e-12));
    let x = std::f64::consts::TAU * 500e6 * 2e-12 * 50.0;
    let return_loss = -10.0 * (x * x / (4.0 + x * x)).log10();
    assert!((fitted.headroom[0].margin.unwrap() - (return_loss - 17.0)).abs() < 1e-9);
    assert!((return_loss - 17.0 + 0.82).abs() < 0.005 && !fitted.holds, "{return_loss}");
    let (gathered, design) = read_text(&text);
    let working = lanecap::text::working(&design.unwrap().lines[0], &gathered.sources).unwrap();
    assert!(working.contains("of the part at worst 2 pF at 0 V between the lines of the pair"), "{working}");
    let (_, design) = read_text(&text);
    near(pick(&design.unwrap(), &[0], &|| ()).unwrap().lines[0].parts[0].capacitance_f, Some(2e-12));
}

/// Two junctions back to back: g = 2 at three times the built-in voltage for m = 1/2, so 2/(1 + 2) of the value at none.
#[test]
fn a_stated_pair_voltage_narrows_it() {
    let at = |voltages: &str| fitted(&sheet("capacitance 0.3 pF max at 0 V across", voltages));
    near(Some(at("pair_voltage 2.1 V to 5 V")), Some(0.4e-12));
    near(Some(at("pair_voltage -5 V to -2.1 V")), Some(0.4e-12));
    near(Some(at("pair_voltage -2.1 V to 2.1 V")), Some(0.6e-12));
    near(Some(at("line_voltage 0 V to 5 V; pair_voltage 2.1 V to 9 V")), Some(0.4e-12));
    // neither voltage: as stated, with the warning
    let text = sheet("capacitance 0.3 pF max at 0 V across", "");
    near(Some(fitted(&text)), Some(0.6e-12));
    let warned = |text: &str| {
        let warnings = read_text(text).1.unwrap().lines.remove(0).head.warnings;
        warnings.iter().any(|note| note.code == "no-line-voltage")
    };
    assert!(warned(&text) && !warned(&sheet("capacitance 0.3 pF max at 0 V across", "pair_voltage -1 V to 1 V")));
}

/// 0.5 pF to ground at 2.1 V of bias is 1/3 pF; 0.3 pF across at none is 0.6 pF of each line.
#[test]
fn a_part_stated_both_ways_has_each_value_at_its_own_bias() {
    let both = "capacitance 0.5 pF max at 0 V; capacitance 0.3 pF max at 0 V across";
    near(Some(fitted(&sheet(both, "line_voltage 2.1 V to 3.3 V"))), Some(0.6e-12));
    let ground = "capacitance 0.5 pF max at 0 V; capacitance 0.1 pF max at 0 V across";
    near(Some(fitted(&sheet(ground, "line_voltage 2.1 V to 3.3 V"))), Some(0.5e-12 * 2.0 / 3.0));
    // its stand-off stands against the line's voltage
    let report = sized(&sheet(both, "line_voltage 2.1 V to 3.3 V; pair_voltage -0.5 V to 0.5 V"));
    assert_eq!(report.lanes[0].head.checks[0].required, Some(3.3));
}

fn hanging(low: f64, high: f64) -> Duty {
    changed(Duty::default(), |d| {
        d.voltage = volts(2.6, 3.3);
        d.pair_voltage = volts(low, high);
        d.footprint.across = true;
    })
}

fn across(standoff: f64) -> Part {
    changed(Part::default(), |r| {
        let maximum = Farad(1e-12);
        r.across = Some(CapacitanceRating { maximum, bias: None, span: Default::default() });
        r.polarity = Some(Polarity::Bidirectional);
        r.strength.standoff = Some(Volt(standoff));
    })
}

#[test]
fn it_stands_off_the_largest_voltage_between_the_lines() {
    let (required, available, margin, found) = row(&hanging(-0.7, 0.7), &across(0.84), "stand-off");
    assert_eq!((required, available, found), (Some(0.7), Some(0.84), Passes));
    near(margin, Some(0.2));
    assert_eq!(verdict(&hanging(-6.0, 1.0), &across(5.0), "stand-off"), Fails);
    // either way round: the smaller end of an unsymmetrical stand-off
    let skew = changed(across(12.0), |r| r.strength.standoff_low = Some(Volt(-7.0)));
    assert_eq!(row(&hanging(-6.0, 8.0), &skew, "stand-off").1, Some(7.0));
    assert_eq!(verdict(&hanging(-6.0, 8.0), &skew, "stand-off"), Fails);
    let unknown = changed(hanging(0.0, 0.0), |d| d.pair_voltage = None);
    assert_eq!(find(&unknown, &across(5.0), "stand-off"), None);
}

#[test]
fn a_pair_that_changes_its_sign_asks_for_both_directions() {
    let single = changed(across(5.0), |r| r.polarity = Some(Polarity::Unidirectional));
    assert_eq!(verdict(&hanging(-0.7, 0.7), &single, "polarity"), Fails);
    assert_eq!(verdict(&hanging(-0.7, 0.7), &across(5.0), "polarity"), Passes);
    assert_eq!(find(&hanging(0.2, 0.7), &single, "polarity"), None);
}

/// What comes against ground leaves through ground, and a part across the pair alone has no way there.
#[test]
fn a_strike_against_ground_has_no_way_out_across_the_pair() {
    let duty = changed(hanging(-0.7, 0.7), |d| {
        d.demands.contact = Some(Volt(8e3));
        d.demands.air = Some(Volt(15e3));
        d.demands.withstands = Some(Volt(20.0));
    });
    let part = changed(across(5.0), |r| {
        r.strength.contact = Some(Volt(30e3));
        r.strength.air = Some(Volt(30e3));
        r.strength.surge = Some(Ampere(50.0));
        r.strength.clamp = super::point(8.0, 16.0);
        r.strength.surge_clamp = super::point(8.0, 20.0);
    });
    let names = ["rating contact", "rating air", "residual", "first peak"];
    for name in names {
        let check = find(&duty, &part, name).unwrap();
        assert_eq!((check.verdict, check.margin), (Fails, None), "{name}");
        let why = check.why.unwrap();
        assert!(why.contains("no way out") && !why.contains("surge"), "{why}");
    }
    let surged = changed(duty.clone(), |d| d.demands.surge = Some(Ampere(2.0)));
    for name in ["rating surge", "residual surge"] {
        let check = find(&surged, &part, name).unwrap();
        assert_eq!(check.verdict, Fails, "{name}");
        assert!(check.why.unwrap().contains("a surge between the two lines is not judged"));
    }
    let failing = |part: &Part| checks(&surged, part).checks.iter().filter(|c| c.verdict == Fails).count();
    assert_eq!(failing(&part), 6);
    let both = changed(part, |r| r.to_ground = r.across);
    assert_eq!(failing(&both), 0);
    assert_eq!(verdict(&surged, &both, "first peak"), NotStated);
}

#[test]
fn a_pair_voltage_needs_a_pair_that_can_have_it() {
    let code = |text: &str| {
        let errors = read_text(text).1.unwrap_err();
        errors.iter().map(|e| e.code).collect::<Vec<_>>()
    };
    let text = sheet("capacitance 1 pF", "line_voltage 0 V to 1 V; pair_voltage -1 V to 1 V");
    assert_eq!(code(&text.replace(" differential", "")), ["pair-voltage-single-ended"]);
    assert_eq!(code(&text.replace("-1 V to 1 V", "3 V to 4 V")), ["pair-voltage-range"]);
    assert_eq!(code(&text.replace("-1 V to 1 V", "1 V to -1 V")), ["range-order"]);
}

/// Two lines of ±4 V are up to 8 V apart, and a stand-off of 5 V to ground says nothing of that.
#[test]
fn a_part_stated_both_ways_does_not_hold_the_voltage_between_the_lines() {
    let both = "capacitance 0.2 pF max at 0 V; capacitance 0.1 pF max at 0 V across; channels 2";
    let warned = |voltages: &str| {
        let report = sized(&sheet(both, voltages));
        let mut warnings = report.lanes[0].head.warnings.clone();
        warnings.retain(|note| note.code == "pair-voltage-not-held");
        warnings.pop().map(|note| note.text)
    };
    let text = warned("line_voltage -4 V to 4 V").unwrap();
    assert!(text.contains("up to 8 V") && text.contains("stand-off of 5 V"), "{text}");
    assert_eq!(warned("line_voltage -2 V to 2 V"), None);
    assert_eq!(warned("line_voltage -4 V to 4 V; pair_voltage -5 V to 5 V"), None);
}

#[test]
fn a_part_across_a_pair_has_no_place_on_a_single_line() {
    let text = "part \"p\" { capacitance 0.3 pF max across; bidirectional; standoff 6 V; contact 8 kV; channels 1 }
rail \"r\" { line_voltage 0 V to 5 V; exposure contact 8 kV }
bus \"b\" { pull_up 1 kohm; line_voltage 0 V to 5 V; limit total_capacitance <= 100 pF }";
    let (_, design) = read_text(text);
    let report = pick(&design.unwrap(), &[0, 1], &|| ()).unwrap();
    for line in &report.lines {
        assert_eq!(line.recommended, None, "{}", line.name);
        assert!(line.why.contains("\"p\" fails place: the part is stated across a pair alone"), "{}", line.why);
    }
}
