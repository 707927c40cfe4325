//! Limits that do not look at what they seem to bound have a warning; those that do have none.

use crate::support::read_text;

fn warnings(text: &str) -> Vec<(&'static str, String)> {
    let design = read_text(text).1.unwrap();
    design.lines[0].head.warnings.iter().map(|note| (note.code, note.text.clone())).collect()
}

fn codes(text: &str) -> Vec<&'static str> {
    warnings(text).iter().map(|warning| warning.0).collect()
}

/// 50 mm at a permittivity of 4 is 100 mm/c = 333.56 ps: the dip is seen until 667.13 ps and the edge.
#[test]
fn a_dip_read_no_further_than_before_the_protector() {
    let sheet = |more: &str, path: &str| {
        format!(
            "lane \"x\" {{ rate 5 Gb/s nrz; reference 100 ohm differential; limit impedance_dip >= 85 ohm {more}\n\
             path {{ {path} }} }}"
        )
    };
    let inner = "protector 3 pF; trace 100 ohm 10 mm permittivity 4; receiver 100 ohm";
    let far = format!(
        "driver 100 ohm; trace 100 ohm 90 mm permittivity 4; connector 0.01 pF; trace 100 ohm 50 mm permittivity 4; {inner}"
    );
    let found = warnings(&sheet("rise 100 ps until 300 ps", &far));
    assert_eq!(found.iter().map(|warning| warning.0).collect::<Vec<_>>(), ["until-before-protector"]);
    assert!(found[0].1.contains("300 ps") && found[0].1.contains("767.1 ps"), "{}", found[0].1);
    let before = ["until-before-protector"];
    assert_eq!(codes(&sheet("rise 100 ps until 767 ps", &far)), before);
    assert_eq!(codes(&sheet("rise 100 ps until 768 ps", &far)), [""; 0]);
    assert_eq!(codes(&sheet("rise 100 ps", &far)), [""; 0]);
    // The driver's edge is 60 ps where the limit states none; the outer end is the plane without a connector.
    assert_eq!(codes(&sheet("until 727 ps", &far)), before);
    assert_eq!(codes(&sheet("until 728 ps", &far)), [""; 0]);
    let near = format!("driver 100 ohm rise 40 ps; trace 100 ohm 50 mm permittivity 4; {inner}");
    assert_eq!(codes(&sheet("until 707 ps", &near)), before);
    assert_eq!(codes(&sheet("until 708 ps", &near)), [""; 0]);
}

#[test]
fn masks_that_all_end_below_nyquist() {
    let sheet = |limits: &str| {
        format!(
            "lane \"x\" {{ rate 10 Gb/s nrz; reference 50 ohm; {limits}\npath {{ driver 50 ohm; protector 20 pF; receiver \
             50 ohm }} }}"
        )
    };
    let low = "limit added_loss <= 0.5 dB at 1 MHz, 0.5 dB at 100 MHz";
    let found = warnings(&sheet(low));
    assert_eq!(found.iter().map(|warning| warning.0).collect::<Vec<_>>(), ["limits-below-nyquist"]);
    assert!(found[0].1.contains("100 MHz") && found[0].1.contains("5 GHz"), "{}", found[0].1);
    let low_too = format!("{low}; limit return_loss >= 10 dB at 1 MHz, 8 dB at 4.9 GHz");
    assert_eq!(codes(&sheet(&low_too)), ["limits-below-nyquist"]);
    for beside in [
        "return_loss >= 10 dB at 1 MHz, 8 dB at 5 GHz",
        "return_loss >= 1 dB",
        "eye_penalty <= 10 %",
        "worst_eye_penalty <= 10 %",
        "eye_height >= 10 %",
        "added_rise <= 10 ps",
        "impedance_dip >= 40 ohm",
        "impedance_excursion <= 40 ps below 40 ohm",
    ] {
        assert_eq!(codes(&sheet(&format!("{low}; limit {beside}"))), [""; 0], "{beside}");
    }
    let pair = "part \"twin\" { capacitance 0.2 pF max; mismatch 0.02 pF; bidirectional }\n\
                lane \"x\" { rate 10 Gb/s nrz; reference 100 ohm differential; limit mode_conversion <= -20 dB\n";
    let path = "path { driver 100 ohm; protector part \"twin\"; receiver 100 ohm } }";
    assert_eq!(codes(&format!("{pair}{low}\n{path}")), ["limits-below-nyquist"]);
    assert_eq!(codes(&format!("{pair}{path}")), [""; 0]);
}

#[test]
fn masks_that_all_lie_outside_a_feeds_band() {
    let sheet = |limits: &str| {
        format!(
            "feed \"f\" {{ band 1559 MHz to 1610 MHz; reference 50 ohm; {limits}\npath {{ antenna 50 ohm; protector 9 pF; radio \
             50 ohm }} }}"
        )
    };
    for outside in ["10 dB at 100 MHz, 10 dB at 200 MHz", "10 dB at 1.7 GHz, 10 dB at 2 GHz"] {
        let found = warnings(&sheet(&format!("limit return_loss >= {outside}")));
        assert_eq!(found.iter().map(|warning| warning.0).collect::<Vec<_>>(), ["limits-outside-band"], "{outside}");
        assert!(found[0].1.contains("1.559 GHz to 1.61 GHz"), "{}", found[0].1);
        assert_eq!(codes(&sheet(&format!("limit return_loss >= {outside}; limit vswr <= 3"))), [""; 0]);
    }
    assert_eq!(codes(&sheet("limit return_loss >= 10 dB at 1 GHz, 10 dB at 1559 MHz")), [""; 0]);
    assert_eq!(codes(&sheet("limit return_loss >= 10 dB")), [""; 0]);
}

#[test]
fn a_limit_that_takes_the_place_of_a_wider_mask() {
    let sheet = |limits: &str| {
        format!(
            "limits \"s\" {{ return_loss >= 16 dB at 100 MHz, 10 dB at 6 GHz; added_loss <= 1 dB }}\n\
             lane \"x\" {{ rate 10 Gb/s nrz; reference 50 ohm; {limits}\n\
             path {{ driver 50 ohm; protector 0.1 pF; receiver 50 ohm }} }}"
        )
    };
    let found = warnings(&sheet("limits \"s\"; limit return_loss >= 3 dB at 10 MHz"));
    assert_eq!(found.iter().map(|warning| warning.0).collect::<Vec<_>>(), ["set-narrowed"]);
    assert!(found[0].1.contains("at 10 MHz") && found[0].1.contains("from 100 MHz to 6 GHz"), "{}", found[0].1);
    let narrowed = ["set-narrowed"];
    assert_eq!(codes(&sheet("limit return_loss >= 3 dB; limits \"s\"")), narrowed);
    assert_eq!(codes(&sheet("limits \"s\"; limit return_loss >= 3 dB at 100 MHz, 3 dB at 5 GHz")), narrowed);
    for wide in [
        "return_loss >= 3 dB at 100 MHz, 3 dB at 6 GHz",
        "added_loss <= 2 dB",
        "added_loss <= 2 dB at 1 GHz, 2 dB at 5 GHz",
    ] {
        assert_eq!(codes(&sheet(&format!("limits \"s\"; limit {wide}"))), [""; 0], "{wide}");
    }
    assert_eq!(codes(&sheet("limits \"s\"")), [""; 0]);
    // One bound of a feed is held over its band, and no mask of its set is wider than what it is about.
    let feed = "limits \"s\" { return_loss >= 16 dB at 1 GHz, 10 dB at 2 GHz }\nfeed \"f\" { band 1.5 GHz to 1.6 GHz; reference \
                50 ohm; limits \"s\"; limit return_loss >= 9 dB\npath { antenna 50 ohm; protector; radio 50 ohm } }";
    assert_eq!(codes(feed), [""; 0]);
}
