//! What stands beside a verdict: warnings without which it would mislead, and the distance to the budget.

use serde_json::Value;

use super::{lanecap, run_with};

fn size(sheet: &str, options: &[&str]) -> (i32, String) {
    let args = [&["size", "-"][..], options].concat();
    let (status, out, err) = run_with(lanecap(&args).write_stdin(sheet.to_owned()));
    assert_eq!(err, "");
    (status, out)
}

fn json(sheet: &str, options: &[&str]) -> Value {
    serde_json::from_str(&size(sheet, &[options, &["--format", "json"]].concat()).1).unwrap()
}

/// The text of a warning of the first lane.
fn warning(json: &Value, code: &str) -> Option<String> {
    let notes = json["lanes"][0]["warnings"].as_array().unwrap();
    notes.iter().find(|note| note["code"] == code).map(|note| note["text"].as_str().unwrap().to_owned())
}

fn lane(limits: &str, path: &str) -> String {
    format!("lane \"test\" {{ rate 10 Gb/s nrz; reference 50 ohm; {limits}; path {{ {path} }} }}\n")
}

/// By hand: a lossless matched lane whose loss may not grow at all takes C = 0 alone; a bus of 400 pF that may have 400 pF
/// takes none.
#[test]
fn a_budget_of_nothing_is_no_room() {
    let lane = lane("limit added_loss <= 0 dB", "driver 50 ohm; protector; receiver 50 ohm");
    let bus = "bus \"full\" { pull_up 2.2 kohm; wiring 400 pF; limit total_capacitance <= 400 pF }\n";
    for (sheet, lines, limit) in [(lane.as_str(), "lanes", "added_loss"), (bus, "buses", "total_capacitance")] {
        let (status, out) = size(sheet, &[]);
        assert_eq!(status, 1);
        assert!(out.contains("no room for a protector"), "{out}");
        assert!(out.contains(&format!("No room for a protector: {limit} is used up")), "{out}");
        let budget = &json(sheet, &[])[lines][0]["budget"];
        assert_eq!((budget["verdict"].as_str(), budget["set_by"].as_str()), (Some("no_room"), Some(limit)));
        assert_eq!(budget["capacitance_f"], 0.0);
    }
    let (status, out) = size(&lane, &["--fitted", "0.3pF"]);
    assert!(status == 1 && out.contains("breaks added_loss") && !out.contains("test: no room"), "{out}");
    // The least room is room.
    assert_eq!(size(&lane.replace("0 dB", "0.001 dB"), &[]).0, 0);
}

/// S11 of a capacitance across 50 ohm is -jx/(1 + jx), x = pi f C Z: a return loss of 12 dB is x = 0.2595, C = 0.3304 pF.
#[test]
fn the_headroom_is_the_one_to_the_budget() {
    let path = "driver 50 ohm; protector 0.1652 pF; receiver 50 ohm";
    let sheet = lane("limit return_loss >= 12 dB; limit added_loss <= 0.45 dB", path);
    let c = 1.0 / (std::f64::consts::PI * 5e9 * 50.0 * (10f64.powf(1.2) - 1.0f64).sqrt());
    assert!((0.1652e-12 / c - 0.5).abs() < 1e-3, "{c}");
    // At half the budget, x = 0.1297, the return loss has 5.811 dB left, 48 % of its bound; the added loss is 0.0725 dB.
    let one = size(&sheet, &["--nyquist"]).1;
    assert!(one.contains("return_loss +5.811") && !one.contains("below the budget"), "{one}");
    // An added loss of 0.28 dB is x = 0.2581, C = 0.3286 pF: it sets the budget, with 74 % of its bound left.
    let other = size(&sheet.replace("0.45 dB", "0.28 dB"), &["--nyquist", "--format", "markdown"]).1;
    assert!(other.contains("50 % below the budget (added\\_loss), +0.2075 dB"), "{other}");
    let broken = size(&sheet, &["--nyquist", "--fitted", "0.4pF"]).1;
    assert!(broken.contains("return_loss -1.5") && !broken.contains("below the budget"), "{broken}");
}

#[test]
fn a_limit_that_breaks_below_nyquist_is_warned_of() {
    let path = "driver 50 ohm; protector 0.12 pF; trace 50 ohm 5.3 mm permittivity 4; receiver 50 ohm pad 0.12 pF";
    let sheet = lane("limit return_loss >= 25 dB", path).replace("10 Gb/s", "12 Gb/s");
    let said = warning(&json(&sheet, &["--nyquist"]), "breaks-below-nyquist").unwrap();
    assert!(said.contains("with the fitted capacitance: 21.1") && said.contains(" GHz against >= 25 dB"), "{said}");
    let (status, out) = size(&sheet, &["--nyquist"]);
    assert!(status == 0 && out.contains("test: holds (warning: breaks below Nyquist)"), "{out}");
    assert!(size(&sheet, &["--nyquist", "--format", "markdown"]).1.contains("holds (warning: breaks below Nyquist)"));
}

/// A receiver that does not match: its echoes close the eye, and the fundamental hardly sees them.
#[test]
fn an_eye_that_disagrees_with_its_penalty_at_nyquist() {
    let path = "driver 50 ohm; protector 0.8 pF; trace 50 ohm 56 mm permittivity 4; receiver 200 ohm pad 0.3 pF";
    let sheet = lane("limit eye_penalty <= 30 %", path);
    let all = json(&sheet, &[]);
    let worst = all["lanes"][0]["fitted"]["worst_eye_penalty"].as_f64().unwrap();
    let nyquist = all["lanes"][0]["fitted"]["eye_penalty"].as_f64().unwrap();
    let bound = worst / 2.0 - 1e-3;
    assert!(nyquist < bound, "{nyquist} {worst}");
    let with = |share: f64, more: &str| lane(&format!("limit eye_penalty <= {} %{more}", 100.0 * share), path);
    let said = warning(&json(&with(bound, ""), &[]), "eye-disagrees").unwrap();
    let percent = |text: &str| format!("{:.2}", 100.0 * text.parse::<f64>().unwrap());
    assert!(said.contains(&percent(&worst.to_string())) && said.contains(&percent(&nyquist.to_string())), "{said}");
    assert!(size(&with(bound, ""), &[]).1.contains("test: holds (warning: the eye disagrees)"));
    // At half of it and above, with a limit of its own, and without the time domain there is nothing to warn of.
    assert_eq!(warning(&json(&with(worst / 2.0 + 1e-3, ""), &[]), "eye-disagrees"), None);
    assert_eq!(warning(&json(&with(bound, "; limit worst_eye_penalty <= 99 %"), &[]), "eye-disagrees"), None);
    assert_eq!(warning(&json(&with(bound, "; limit eye_height >= 0.1 %"), &[]), "eye-disagrees"), None);
    assert_eq!(warning(&json(&with(bound, ""), &["--nyquist"]), "eye-disagrees"), None);
}

/// Into an open receiver H = 1/(1 + j omega C Z), into the reference S21 = 1/(1 + j omega C Z/2): half the capacitance.
#[test]
fn a_loss_into_an_open_receiver_is_half_the_truth() {
    let open = lane("limit added_loss <= 1 dB", "driver 50 ohm; protector 0.6 pF; receiver open");
    let x = 2.0 * std::f64::consts::PI * 5e9 * 0.6e-12 * 50.0;
    let [voltage, into] = [x, x / 2.0].map(|x| 10.0 * (1.0 + x * x).log10());
    let all = json(&open, &["--nyquist"]);
    let said = warning(&all, "loss-into-open").unwrap();
    assert!(said.contains(&format!("is {into:.4} dB")) && said.contains(&format!("loses {voltage:.3} dB")), "{said}");
    assert!(size(&open, &["--nyquist"]).1.contains("(warning: loss into an open end)"));
    assert_eq!(warning(&json(&open.replace("open", "50 ohm"), &["--nyquist"]), "loss-into-open"), None);
    assert_eq!(warning(&json(&open.replace("added_loss <= 1", "return_loss >= 1"), &[]), "loss-into-open"), None);
}

/// A series inductance either side wants a capacitance between: the penalty is negative there, and reads as a gain.
#[test]
fn a_negative_penalty_reads_as_a_gain() {
    let path = "driver 50 ohm; series 0.6 nH; protector 0.3 pF; series 0.6 nH; receiver 50 ohm";
    let sheet = lane("limit eye_penalty <= 5 %", path);
    let penalty = json(&sheet, &["--nyquist"])["lanes"][0]["fitted"]["eye_penalty"].as_f64().unwrap();
    assert!(penalty < -1e-3, "{penalty}");
    let said = format!("gain {:.2}", -100.0 * penalty);
    let (_, out) = size(&sheet, &["--nyquist"]);
    // In the table of figures and among the limits.
    assert_eq!(out.matches(&said).count(), 2, "{said} {out}");
    assert!(!out.contains(&format!("-{:.2}", -100.0 * penalty)), "{out}");
    // Round-off is none.
    let none = size(&lane("limit eye_height >= 1 %", "driver 50 ohm; protector 0 pF; receiver 50 ohm"), &[]).1;
    assert!(!none.contains("gain"), "{none}");
}
