//! A value set on the command line, in a line, and typed into the sheet.

use lanecap::model::{AddressedValue, Owner, ValueName};
use lanecap::reading::{Addresses, Asked, NotSet, read, read_set};
use lanecap::sheet::Gathered;
use lanecap::units::Dimension;

use super::{beside, circuit, designs};
use crate::support::read_text;

fn asked(line: &str, value: &AddressedValue, number: f64) -> Asked {
    let unit = match value.range.dimension {
        Dimension::Area => "m2",
        dimension => dimension.symbol(),
    };
    let line = match value.address.owner {
        Owner::Part(_) | Owner::Laminate(_) => String::new(),
        _ => format!("{line}/"),
    };
    format!("{line}{}={number:e} {unit}", value.address).parse().unwrap()
}

/// A good sheet that includes none, as gathered.
fn gathered(text: &str) -> Gathered {
    read_text(text).0
}

#[test]
fn three_ways_to_another_value_give_one_circuit() {
    let (mut tried, mut typed) = (0, 0);
    for (path, text, design) in designs() {
        if text.contains("\ninclude ") {
            continue;
        }
        let whole = gathered(&text);
        for line in &design.lines {
            for value in line.head.values.iter() {
                let number = beside(value);
                let name = format!("{} {} {} {number:e}", path.display(), line.head.name, value.address);
                let changed = line.with_values([(&value.address, number)]);
                let set = read_set(&whole, &[asked(&line.head.name, value, number)], Addresses::Toleranced);
                let (changed, set) = match (changed, set) {
                    (Ok(changed), Ok(set)) => (changed, set),
                    // Diameters that no longer rise, a loss below that of the loss tangent: refused by both.
                    (Err(_), Err(NotSet::Sheet(_))) => continue,
                    (changed, set) => panic!("{name}: {changed:?} {set:?}"),
                };
                let same = set.lines.iter().find(|own| own.head.name == line.head.name).unwrap();
                assert!(near(&circuit(same), &circuit(&changed)), "{name}\n{}\n{}", circuit(same), circuit(&changed));
                tried += 1;
                let whole_line = matches!(
                    value.address.value,
                    ValueName::Rate | ValueName::Place | ValueName::Loss | ValueName::SecondLoss
                );
                if value.nominal.is_none() || whole_line || value.address.owner == Owner::Part(String::new()) {
                    continue;
                }
                if value.tolerance.is_some() && matches!(value.address.owner, Owner::Part(_)) {
                    continue;
                }
                let mut edited = text.clone();
                let unit = value.range.dimension.symbol();
                edited.replace_range(value.span.start as usize..value.span.end as usize, &format!("{number:e} {unit}"));
                let (_, design) = read_text(&edited);
                let design = design.unwrap_or_else(|errors| panic!("{name}: {errors:?}"));
                let own = design.lines.iter().find(|own| own.head.name == line.head.name).unwrap();
                assert!(near(&circuit(own), &circuit(same)), "{name}\n{}\n{}", circuit(own), circuit(same));
                typed += 1;
            }
        }
    }
    assert!(tried > 1000 && typed > 600, "{tried} {typed}");
}

/// The same texts, numbers apart by at most 1e-12 of themselves.
fn near(a: &str, b: &str) -> bool {
    let parts = |text: &str| -> Vec<String> {
        text.split(|c: char| !(c.is_ascii_alphanumeric() || "+-.".contains(c))).map(str::to_owned).collect()
    };
    let (a, b) = (parts(a), parts(b));
    a.len() == b.len()
        && a.iter().zip(&b).all(|(a, b)| match (a.parse::<f64>(), b.parse::<f64>()) {
            (Ok(a), Ok(b)) => (a - b).abs() <= 1e-12 * a.abs().max(b.abs()),
            _ => a == b,
        })
}

const SHEET: &str = r#"
lane "link" {
    rate 5 Gb/s nrz
    reference 90 ohm differential
    limit added_loss <= 0.5 dB
    path {
        driver 90 ohm pad 0.3 pF
        trace 90 ohm 4 mm permittivity 3.4 loss 0.2 dB at 2.5 GHz
        protector pad 0.06 pF
        trace 90 ohm 32 mm permittivity 3.4 loss 1.6 dB at 2.5 GHz
        receiver 90 ohm pad 0.25 pF
    }
}
"#;

#[test]
fn a_moved_protector_shares_lengths_and_losses() {
    let design = read_set(&gathered(SHEET), &["link/place=18 mm".parse().unwrap()], Addresses::Toleranced).unwrap();
    let by_hand = SHEET.replace("4 mm permittivity 3.4 loss 0.2 dB", "18 mm permittivity 3.4 loss 0.9 dB");
    let by_hand = by_hand.replace("32 mm permittivity 3.4 loss 1.6 dB", "18 mm permittivity 3.4 loss 0.9 dB");
    let by_hand = read(&gathered(&by_hand)).unwrap();
    assert!(near(&circuit(&design.lines[0]), &circuit(&by_hand.lines[0])));
}

#[test]
fn a_rate_leaves_the_lines_as_they_are() {
    let plain = SHEET.replace(" loss 0.2 dB at 2.5 GHz", "").replace(" loss 1.6 dB at 2.5 GHz", " loss_tangent 0.02");
    let design = read_set(&gathered(&plain), &["link/rate=10 Gb/s".parse().unwrap()], Addresses::Toleranced).unwrap();
    let lanecap::Kind::Lane(lane) = &design.lines[0].kind else { panic!() };
    assert_eq!(lane.nyquist().0, 5e9);
    for place in &lane.path.elements {
        if let lanecap::model::Element::Line(line) = &place.element {
            assert_eq!(line.loss.reference.0, 2.5e9);
        }
    }
}

#[test]
fn a_rate_and_then_another_value_keep_the_lines_too() {
    let plain = SHEET.replace(" loss 1.6 dB at 2.5 GHz", " loss_tangent 0.02");
    let set = ["link/rate=10 Gb/s".parse().unwrap(), "link/1.pad=0.4 pF".parse().unwrap()];
    let both = read_set(&gathered(&plain), &set, Addresses::Toleranced).unwrap();
    let stated = read(&gathered(&plain)).unwrap();
    let address = |text: &str| text.parse::<lanecap::model::Address>().unwrap();
    let (rate, pad) = (address("rate"), address("1.pad"));
    let at_once = stated.lines[0].with_values([(&rate, 10e9), (&pad, 0.4e-12)]).unwrap();
    let one_by_one = stated.lines[0].with_values([(&rate, 10e9)]).unwrap().with_values([(&pad, 0.4e-12)]).unwrap();
    assert!(near(&circuit(&both.lines[0]), &circuit(&at_once)));
    assert!(near(&circuit(&one_by_one), &circuit(&at_once)));
    // And a value of a line whose rate is set already.
    let further = both.lines[0].with_values([(&address("2.length"), 5e-3)]).unwrap();
    let whole = stated.lines[0].with_values([(&rate, 10e9), (&pad, 0.4e-12), (&address("2.length"), 5e-3)]).unwrap();
    assert!(near(&circuit(&further), &circuit(&whole)));
}

#[test]
fn a_place_and_the_trace_it_moves_are_not_both_set() {
    let both: [Asked; 2] = ["link/place=6 mm".parse().unwrap(), "link/2.length=5 mm".parse().unwrap()];
    for asked in [&both[..], &[both[1].clone(), both[0].clone()]] {
        let refused = read_set(&gathered(SHEET), asked, Addresses::Toleranced);
        assert!(matches!(refused, Err(NotSet::Asked(..))), "{refused:?}");
    }
}

#[test]
fn a_maximum_below_the_typical_value_takes_it_along() {
    let text = "part \"p\" { capacitance 0.2 pF typical 0.4 pF max }
        lane \"link\" { rate 5 Gb/s; reference 50 ohm; path { driver 50 ohm; protector part \"p\"; receiver 50 ohm } }";
    let asked: Asked = "part \"p\".capacitance=0.1 pF".parse().unwrap();
    let set = read_set(&gathered(text), &[asked], Addresses::Toleranced).unwrap();
    let address = "part \"p\".capacitance".parse().unwrap();
    let changed = read(&gathered(text)).unwrap().lines[0].with_values([(&address, 0.1e-12)]).unwrap();
    assert_eq!(set.lines[0].fitted().unwrap().0, 0.1e-12);
    assert!(near(&circuit(&set.lines[0]), &circuit(&changed)));
}
