//! What is left open of a surge.

use super::discharged::{checked, find, has};
use lanecap::parts::Verdict::{Fails, NotStated, Passes};

/// A rail behind a part that clamps at 53 V and 60 A, struck by a surge of 23 A.
fn rail(withstands: &str, inner: &str) -> String {
    format!(
        "part \"clamp\" {{ capacitance 500 pF max at 0 V; grading 0.7 V 0; unidirectional; standoff 30 V; breakdown 33 V at 1 mA\n\
         clamp 45 V at 16 A; dynamic_resistance 0.2 ohm; surge 60 A; surge_clamp 53 V at 60 A; contact 30 kV }}\n\
         rail \"r\" {{ line_voltage 0 V to 15 V; exposure surge 1 kV through 42 ohm; {withstands}\n\
         path {{ protector part \"clamp\"; {inner} }} }}\n"
    )
}

/// Some 40.6 V behind the part drive (40.6 - 20)/(1 + 1.5) A into the chip.
#[test]
fn a_surge_into_a_chip_that_states_nothing_of_it_is_left_open() {
    let inner = "series 1 ohm; pin clamps 20 V 1.5 ohm negative 1 V survives 9 A peak 30 A";
    let (checks, _) = checked(&rail("", inner));
    let current = find(&checks, "pin surge current");
    assert!(current.available.is_some_and(|amperes| amperes > 7.0 && amperes < 8.3), "{current:?}");
    assert_eq!((current.verdict, current.required), (NotStated, None));
    assert!(current.why.as_deref().unwrap().contains("`withstands`"), "{current:?}");
    let (checks, _) = checked(&rail("", &inner.replace("survives 9 A", "survives 7 A")));
    assert_eq!(find(&checks, "pin surge current").verdict, Fails);
    let (checks, _) = checked(&rail("withstands 50 V surge 60 V", inner));
    assert!(!has(&checks, "pin surge current"));
    assert_eq!(find(&checks, "pin surge").verdict, Passes);
}

/// sqrt(10 uH 1 uF) = 3.2 us against a front of 1.2 us: the pin overshoots. sqrt(10 nH 100 pF) = 1 ns does not.
#[test]
fn a_filter_that_rings_in_a_surge_is_left_open() {
    let (checks, _) = checked(&rail("withstands 50 V surge 60 V", "series 10 uH; shunt 1 uF; pin pad 5 pF"));
    let surge = find(&checks, "pin surge");
    assert_eq!(surge.verdict, NotStated);
    assert!(surge.why.as_deref().unwrap().contains("sqrt(L C) = 3.2"), "{surge:?}");
    for inner in ["series 10 nH; shunt 100 pF; pin pad 5 pF", "shunt 1 uF; series 10 nH; pin pad 5 pF"] {
        let (checks, _) = checked(&rail("withstands 50 V surge 60 V", inner));
        assert_eq!(find(&checks, "pin surge").verdict, Passes, "{inner}");
    }
}
