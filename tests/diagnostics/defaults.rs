//! What a lane takes where its sheet says nothing is listed with it, and is gone from the list once it is stated.

use lanecap::budget::Figures;
use lanecap::model::Note;
use lanecap::result::size;
use lanecap::text::{Format, render};

use crate::support::read_text;

fn sheet(reference: &str, line: &str) -> String {
    format!(
        "laminate \"board\" {{ permittivity 4 at 1 GHz; loss_tangent 0.01 at 1 GHz }}
lane \"link\" {{
    rate 5 Gb/s nrz
    reference {reference}
    limit added_loss <= 0.5 dB
    path {{
        driver 90 ohm rise 40 ps
        {line}
        protector
        receiver 90 ohm
    }}
}}"
    )
}

/// The defaults of the lane, each with the line of the sheet it stands at.
fn defaults(text: &str) -> Vec<(Note, u32)> {
    let (gathered, design) = read_text(text);
    let design = design.unwrap();
    let head = &design.lines[0].head;
    head.defaults.iter().map(|note| (note.clone(), gathered.sources.line(note.span.unwrap()))).collect()
}

fn codes(text: &str) -> Vec<&'static str> {
    defaults(text).iter().map(|(note, _)| note.code).collect()
}

/// One loss may be copper's alone, √f, or mostly the dielectric's, f: a sheet that does not say which gets the former.
#[test]
fn one_loss_without_a_loss_tangent_is_the_conductors() {
    let line = |rest: &str| sheet("90 ohm differential", &format!("trace 90 ohm 30 cm permittivity 4 {rest}"));
    let found = defaults(&line("loss 6 dB at 2.5 GHz"));
    assert_eq!(found.iter().map(|(note, line)| (note.code, *line)).collect::<Vec<_>>(), [("default-loss-split", 8)]);
    assert!(found[0].0.text.contains("`loss_tangent`") && found[0].0.text.contains("conductor"), "{}", found[0].0.text);
    for stated in
        ["loss 6 dB at 2.5 GHz loss_tangent 0", "loss 3 dB at 1 GHz, 6 dB at 2.5 GHz", "loss 0 dB at 2.5 GHz", ""]
    {
        assert_eq!(codes(&line(stated)), [""; 0], "{stated}");
    }
}

#[test]
fn a_microstrip_is_bare_and_a_stripline_has_no_mask() {
    let made = |rest: &str| sheet("90 ohm differential", &format!("trace 30 mm {rest} gap 0.18 mm on \"board\""));
    let bare = made("microstrip width 0.2 mm height 0.12 mm");
    assert_eq!(codes(&bare), ["default-solder-mask", "geometry-at-nyquist"]);
    let text = defaults(&bare).remove(0).0.text;
    assert!(text.contains("5 to 8 %") && text.contains("`trace"), "{text}");
    assert_eq!(codes(&made("stripline width 0.11 mm height 0.34 mm")), ["geometry-at-nyquist"]);
}

#[test]
fn a_reference_of_a_pair_without_the_word_is_listed() {
    let line = "trace 90 ohm 30 mm permittivity 4";
    let found = defaults(&sheet("90 ohm", line));
    assert_eq!(found.iter().map(|(note, line)| (note.code, *line)).collect::<Vec<_>>(), [("default-single-ended", 4)]);
    assert!(found[0].0.text.contains("`reference 90 ohm differential`"), "{}", found[0].0.text);
    assert_eq!(codes(&sheet("75 ohm", line)), ["default-single-ended"]);
    assert_eq!(codes(&sheet("74.9 ohm", line)), [""; 0]);
    assert_eq!(codes(&sheet("90 ohm differential", line)), [""; 0]);
}

#[test]
fn a_lane_says_whether_it_is_a_pair() {
    let said = |text: &str| {
        let (gathered, design) = read_text(text);
        let report = size(&design.unwrap(), &[0], Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        render(&report, Format::Table)
    };
    let sheet = sheet("90 ohm differential", "trace 90 ohm 30 mm permittivity 4");
    assert!(said(&sheet).contains("1 differential pair, nrz"));
    assert!(said(&sheet.replace("    rate", "    count 3; rate")).contains("3 differential pairs, nrz"));
    let single = sheet.replace(" differential", "");
    assert!(said(&single).contains("1 single-ended line, nrz"));
    assert!(said(&single.replace("    rate", "    count 3; rate")).contains("3 single-ended lines, nrz"));
}
