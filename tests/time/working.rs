//! The working of an eye adds up.

use approx::assert_abs_diff_eq;

use lanecap::reading::read;
use lanecap::sheet::{LoadFault, Loaded, gather};
use lanecap::text::working;

/// The working of the only line of a sheet.
fn explained(text: &str) -> String {
    let loaded = Loaded { identity: "-".into(), name: "-".into(), bytes: text.as_bytes().to_vec() };
    let gathered = gather(loaded, &mut |_, _| Err(LoadFault { message: String::new() }));
    let design = read(&gathered).unwrap();
    working(&design.lines[0], &gathered.sources).unwrap()
}

/// The number after each `name` in a text.
fn numbers(text: &str, name: &str) -> Vec<f64> {
    let number = |rest: &str| {
        let end = rest.find(|c: char| !"0123456789.e-".contains(c)).unwrap_or(rest.len());
        rest[..end].parse().unwrap()
    };
    text.split(name).skip(1).map(number).collect()
}

#[test]
fn height_is_the_main_cursor_less_interference_less_tail() {
    let text = explained(
        "lane \"p\" { rate 5 GBd pam4; reference 100 ohm differential; limit eye_height >= 10 %\n\
         path { driver 100 ohm; cable 100 ohm 0.5 m loss 3 dB at 2.5 GHz; protector 0.2 pF; receiver 100 ohm dfe 2 limit 0.02 } }\n",
    );
    let [main, sum, tail, height] =
        ["    h_0 = ", ", sum |h_k| = ", " UI: ", "EH = h_0 - 3 sum |h_k| - tail = "].map(|name| numbers(&text, name));
    assert!(height.len() >= 2 && height.len() == main.len() && main.len() == sum.len() && sum.len() == tail.len());
    assert!(tail.iter().any(|tail| *tail > 1e-4), "{tail:?}");
    for i in 0..height.len() {
        assert_abs_diff_eq!(main[i] - 3.0 * sum[i] - tail[i], height[i], epsilon = 1e-7);
    }
}

#[test]
fn a_closed_eye_says_so() {
    let text = explained(
        "lane \"old\" { rate 10 Gb/s nrz; reference 90 ohm differential; limit worst_eye_penalty <= 5 %\n\
         path { driver 90 ohm; cable 90 ohm 3 m loss 25 dB at 5 GHz; protector 0.5 pF; receiver 90 ohm } }\n",
    );
    assert!(text.contains("cannot be evaluated: the eye is already closed without the protector (-67.5"), "{text}");
}

#[test]
fn unlimited_taps_are_a_default() {
    let lane = |taps: &str| {
        let path = format!("path {{ driver 50 ohm; protector; receiver 50 ohm {taps} }}");
        lanecap::model::Design::parse(&format!("lane \"p\" {{ rate 5 Gb/s nrz; reference 50 ohm; {path} }}\n"))
    };
    let noted =
        |taps| lane(taps).unwrap().lanes().any(|(head, _)| head.defaults.iter().any(|n| n.code == "default-dfe-limit"));
    assert_eq!([noted("dfe 2"), noted("dfe 2 limit 0.3"), noted("")], [true, false, false]);
    // A limit of no taps, and one beyond the main cursor.
    assert!(lane("limit 0.3").is_err() && lane("dfe 2 limit 1.5").is_err());
}
