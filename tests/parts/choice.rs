//! Which part is recommended, and why.

use super::{changed, volts};
use lanecap::figures::Sense;
use lanecap::model::Part;
use lanecap::model::Polarity::Unidirectional;
use lanecap::parts::Verdict::{Fails, NotStated, Passes};
use lanecap::parts::{Candidate, Check, Duty, Verdict, checks, cost_per_line, passes, recommend, smallest_margin};
use lanecap::units::Volt;

fn check(name: &'static str, margin: Option<f64>, verdict: Verdict) -> Check {
    let (sense, ends) = (Sense::AtLeast, [None; 2]);
    let (required, available, part, why) = (None, None, None, None);
    Check { check: name, part, sense, required, available, unit: "V", margin, verdict, ends, why }
}

fn candidate(part: &str, margin: f64, cost: Option<f64>) -> Candidate {
    let verdict = if margin < 0.0 { Fails } else { Passes };
    Candidate {
        part: part.to_owned(),
        checks: vec![check("stand-off", Some(margin), verdict), check("package", None, Passes)],
        cost_per_line: cost,
        at_pin: None,
    }
}

#[test]
fn the_smallest_margin_is_over_all_checks_that_have_one() {
    let list =
        [check("stand-off", Some(1.75), Passes), check("residual", Some(0.2), Passes), check("package", None, Passes)];
    assert_eq!(smallest_margin(&list), Some(0.2));
    assert_eq!(smallest_margin(&list[2..]), None);
    assert!(passes(&list));
    assert!(!passes(&[check("residual", None, NotStated)]));
    assert!(passes(&[]));
}

#[test]
fn least_cost_comes_before_margin() {
    let choice = recommend(&[candidate("a", 3.0, Some(2.0)), candidate("b", 0.1, Some(1.0))]);
    assert_eq!(choice.recommended, Some(1));
    assert_eq!(choice.why, "of the 2 parts that pass every check it costs least per line: 1");
}

#[test]
fn at_equal_cost_the_largest_margin_wins_and_then_the_first() {
    // a quad's share of 3/4 · 2 is a single pair's 1.5
    let share = cost_per_line(Some(3.0), 4, 2);
    let choice = recommend(&[candidate("a", 0.1, share), candidate("b", 0.42, Some(1.5))]);
    assert_eq!(choice.recommended, Some(1));
    assert!(choice.why.ends_with("its smallest margin is the largest: 42 % (stand-off)"), "{}", choice.why);
    let choice = recommend(&[candidate("a", 0.1, None), candidate("b", 0.1, None)]);
    assert_eq!(choice.recommended, Some(0));
    assert!(choice.why.ends_with("the first of those whose smallest margin is the largest"), "{}", choice.why);
}

#[test]
fn a_part_without_a_cost_comes_last() {
    let choice = recommend(&[candidate("a", 3.0, None), candidate("b", 0.1, Some(9.0))]);
    assert_eq!(choice.recommended, Some(1));
}

#[test]
fn a_cheap_part_that_fails_or_does_not_say_is_not_recommended() {
    let mut silent = candidate("silent", 1.0, Some(0.1));
    silent.checks.push(check("rating contact", None, NotStated));
    let choice = recommend(&[silent, candidate("weak", -0.2, Some(0.2)), candidate("good", 0.0, Some(5.0))]);
    assert_eq!(choice.recommended, Some(2));
    assert_eq!(choice.why, "the only part that passes every check");
    let stopped: Vec<usize> = choice.stopped.iter().map(|s| s.candidate).collect();
    assert_eq!(stopped, [0, 1]);
}

#[test]
fn when_none_passes_the_nearest_miss_stands_first() {
    let line = changed(Duty::default(), |d| {
        d.voltage = volts(0.0, 20.0);
        d.demands.contact = Some(Volt(8e3));
    });
    let part = |name: &str, standoff: f64, contact: f64| Candidate {
        part: name.to_owned(),
        at_pin: None,
        checks: checks(
            &line,
            &changed(Part::default(), |r| {
                r.polarity = Some(Unidirectional);
                r.strength.standoff = Some(Volt(standoff));
                r.strength.contact = Some(Volt(contact));
            }),
        )
        .checks,
        cost_per_line: Some(1.0),
    };
    // "low" misses stand-off by 75 % and contact by 50 %: the larger miss is what stops it
    let choice = recommend(&[part("low", 5.0, 4e3), part("middle", 12.0, 8e3), part("weak", 24.0, 6e3)]);
    assert_eq!(choice.recommended, None);
    let order: Vec<_> = choice.stopped.iter().map(|s| (s.candidate, s.check.check)).collect();
    assert_eq!(order, [(2, "rating contact"), (1, "stand-off"), (0, "stand-off")]);
    assert_eq!(
        choice.why,
        "no part passes every check: \"weak\" fails rating contact (6 kV against >= 8 kV); \
         \"middle\" fails stand-off (12 V against >= 20 V); \"low\" fails stand-off (5 V against >= 20 V)"
    );
    assert_eq!(recommend(&[]).why, "the sheet has no part");
}

#[test]
fn of_equals_the_one_that_leaves_least_at_the_pin_is_taken() {
    let leaves = |part: &str, at_pin| Candidate { at_pin, ..candidate(part, 0.2, Some(1.0)) };
    let [most, least, unknown] =
        [leaves("most", Some((2.0, "A"))), leaves("least", Some((1.5, "A"))), leaves("?", None)];
    let choice = recommend(&[unknown.clone(), most.clone(), least.clone()]);
    assert_eq!(choice.recommended, Some(2));
    assert!(choice.why.ends_with("it leaves least at the pin: 1.5 A"), "{}", choice.why);
    // cost and margin come before it
    let cheap = Candidate { cost_per_line: Some(0.9), ..unknown };
    assert_eq!(recommend(&[least.clone(), cheap]).recommended, Some(1));
    let roomy = Candidate { checks: candidate("roomy", 0.3, None).checks, ..most };
    assert_eq!(recommend(&[least, roomy]).recommended, Some(1));
}

#[test]
fn a_miss_by_a_hair_is_not_rounded_away() {
    let hair = Candidate {
        part: "hair".to_owned(),
        checks: vec![Check {
            required: Some(8.0),
            available: Some(8.000_000_1),
            sense: lanecap::figures::Sense::AtMost,
            ..check("residual", Some(-1.25e-8), Fails)
        }],
        cost_per_line: None,
        at_pin: None,
    };
    let why = recommend(&[hair]).why;
    assert!(why.contains("(8.0000001 V against <= 8 V)"), "{why}");
}
