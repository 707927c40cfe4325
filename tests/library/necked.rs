//! The neck of a protector: read, built, changed at its addresses, and refused.

use lanecap::diag::Span;
use lanecap::model::*;
use lanecap::network::Chain;
use lanecap::resolve::{self, SetFault, Surroundings};
use lanecap::units::*;
use lanecap::{Design, Figures, size_lane};

use crate::support::read_text;

const LAMINATE: &str = "laminate \"board\" { permittivity 4.1 at 1 GHz; loss_tangent 0.015 at 1 GHz }\n";

fn sheet(outer: &str, place: &str, inner: &str) -> String {
    format!(
        "{LAMINATE}lane \"mast camera\" {{ rate 10 Gb/s nrz; reference 100 ohm differential
         limit added_loss <= 1 dB; limit return_loss >= 10 dB; limit worst_eye_penalty <= 15 %
         path {{ driver 100 ohm\n{outer}\n{place}\n{inner}\nreceiver 100 ohm pad 0.1 pF }} }}"
    )
}

fn line(outer: &str, place: &str, inner: &str) -> Line {
    let sheet = sheet(outer, place, inner);
    Design::parse(&sheet).unwrap_or_else(|errors| panic!("{errors}")).lines.remove(0)
}

const OUTER: &str = "trace 15 mm microstrip width 0.2 mm height 0.12 mm gap 0.18 mm on \"board\"";
const INNER: &str = "trace 95 ohm 30 mm loss 0.6 dB at 5 GHz permittivity 3.6";

fn lane(line: &Line) -> &Lane {
    let Kind::Lane(lane) = &line.kind else { panic!("a lane") };
    lane
}

fn same(one: &Line, other: &Line) {
    let (one, other) = (Chain::new(lane(one)), Chain::new(lane(other)));
    for k in 0..30 {
        let f = Hertz(1e8 * 1.2f64.powi(k));
        let (a, b) = (one.at(f).at(0.2e-12), other.at(f).at(0.2e-12));
        assert!((a.s11 - b.s11).norm() < 1e-12 && (a.s21 - b.s21).norm() < 1e-12, "{a:?} {b:?}");
    }
}

fn set(line: &Line, values: &[(&str, f64)]) -> Result<Line, SetFault> {
    let values: Vec<(Address, f64)> = values.iter().map(|(at, value)| (at.parse().unwrap(), *value)).collect();
    line.with_values(values.iter().map(|(at, value)| (at, *value)))
}

#[test]
fn a_neck_without_length_changes_nothing() {
    let sized = |place: &str| {
        let line = line(OUTER, place, INNER);
        format!("{:?}", size_lane(lane(&line), Figures::All).unwrap())
    };
    let place = "protector 0.2 pF pad 0.05 pF inductance 0.2 nH";
    assert_eq!(sized(place), sized(&format!("{place} neck 140 ohm 0 mm")));
    assert_ne!(sized(place), sized(&format!("{place} neck 140 ohm 1 um")));
}

#[test]
fn a_path_with_a_neck_is_resolved_again() {
    let read = line(OUTER, "protector pad 0.05 pF neck 140 ohm 1.5 mm", INNER);
    let mut again = lane(&read).path.clone();
    for _ in 0..2 {
        resolve::path(&mut again, &Surroundings::of(&read).unwrap()).unwrap();
        assert_eq!(format!("{:?}", again.elements), format!("{:?}", lane(&read).path.elements));
    }
}

#[test]
fn a_neck_and_a_place_are_set_as_in_another_sheet() {
    let with = |length: &str, neck: &str, inner: &str| {
        let place = format!("protector pad 0.05 pF neck {neck}");
        line(&OUTER.replace("15 mm", length), &place, inner)
    };
    let read = with("15 mm", "140 ohm 1.5 mm", INNER);
    same(&set(&read, &[("3.neck.impedance", 160.0)]).unwrap(), &with("15 mm", "1.5 mm 160 ohm", INNER));
    same(&set(&read, &[("3.neck.length", 4e-3)]).unwrap(), &with("15 mm", "140 ohm 4 mm", INNER));
    let moved = "trace 95 ohm 25 mm loss 0.5 dB at 5 GHz permittivity 3.6";
    same(&set(&read, &[("place", 20e-3)]).unwrap(), &with("20 mm", "140 ohm 1.5 mm", moved));
    // The place goes by the neck, in whichever order they are given.
    let end = "trace 95 ohm 44.5 mm loss 0.89 dB at 5 GHz permittivity 3.6";
    for values in [[("place", 0.5e-3), ("3.neck.length", 0.5e-3)], [("3.neck.length", 0.5e-3), ("place", 0.5e-3)]] {
        same(&set(&read, &values).unwrap(), &with("0.5 mm", "140 ohm 0.5 mm", end));
    }
    // From the neck to what it leaves of the sum, both ends included.
    let low = 1.5e-3;
    let high = 15e-3 + 30e-3 - low;
    assert!(set(&read, &[("place", low)]).is_ok() && set(&read, &[("place", high)]).is_ok());
    for beyond in [low - 1e-9, high + 1e-9] {
        let fault = set(&read, &[("place", beyond)]).unwrap_err();
        assert_eq!(fault.to_string(), "`place` takes 1.5 mm to 43.5 mm, what the two traces leave beside a neck");
    }
    let place = read.addressed(&"place".parse().unwrap()).unwrap();
    assert_eq!((place.nominal, place.range.low, place.range.high), (Some(15e-3), low, high));
    let SetFault::Line(flaws) = set(&read, &[("3.neck.length", 16e-3)]).unwrap_err() else { panic!("a flaw") };
    assert_eq!(flaws.list[0].code, "neck-too-long");
    // With nothing stated there is no such value.
    let bare = line(OUTER, "protector pad 0.05 pF", INNER);
    assert!(matches!(set(&bare, &[("3.neck.length", 1e-3)]), Err(SetFault::NoValue(_))));
}

#[test]
fn a_built_neck_is_the_neck_of_the_same_sheet() {
    let neck = Neck { impedance: Ohm(140.0), length: Metre::milli(2.0) };
    let built = |place: fn(lanecap::builder::PathBuilder, Neck) -> lanecap::builder::PathBuilder| {
        Lane::builder()
            .rate(Baud::giga(10.0), Modulation::Nrz)
            .reference(Ohm(100.0))
            .differential()
            .limit(LaneLimit::Loss(Loss::Added, Over::Level(1.0)))
            .path(|p| {
                let p = p.driver(Ohm(100.0)).trace(Ohm(100.0), Metre::milli(9.0), 3.4);
                place(p, neck).trace(Ohm(95.0), Metre::milli(12.0), 3.6).receiver(Ohm(100.0))
            })
            .line(Head::new("built"))
            .unwrap()
    };
    let read = line(
        "trace 100 ohm 9 mm permittivity 3.4",
        "protector neck 140 ohm 2 mm",
        "trace 95 ohm 12 mm permittivity 3.6",
    );
    let sections = |line: &Line| Chain::new(lane(line)).sections().to_vec();
    let stated = built(|p, neck| {
        p.stated(Stated::Protector(StatedProtector { neck: Some(neck), ..StatedProtector::default() }))
    });
    let as_it_is = built(|p, neck| p.protector(Protector { neck: Some(neck), ..Protector::default() }));
    assert_eq!(sections(&stated), sections(&as_it_is));
    // The pad of the receiver is the sheet's alone.
    assert_eq!(sections(&stated), sections(&read)[..sections(&read).len() - 1]);
    let plain = Protector { neck: Some(neck), ..Protector::default() };
    let flaws = Lane::builder()
        .rate(Baud::giga(10.0), Modulation::Nrz)
        .reference(Ohm(100.0))
        .limit(LaneLimit::Loss(Loss::Added, Over::Level(1.0)))
        .path(|p| p.driver(Ohm(100.0)).protector(plain).receiver(Ohm(100.0)))
        .build()
        .unwrap_err();
    assert_eq!(
        (flaws.list.len(), flaws.list[0].code, flaws.list[0].at),
        (1, "neck-without-trace", Place::Value(1, "neck"))
    );
}

#[test]
fn a_neck_that_cannot_be_cut_is_refused_at_its_place() {
    let refused = |outer: &str, neck: &str, inner: &str| {
        let text = sheet(outer, &format!("protector pad 0.05 pF {neck} inductance 0.1 nH"), inner);
        let turned = {
            let (head, path) = text.split_once("path {").unwrap();
            let mut rows: Vec<&str> = path.trim_end_matches("} }").trim().lines().collect();
            rows.reverse();
            format!("{head}path outward {{ {} }} }}", rows.join("\n"))
        };
        let found = [text, turned].map(|text| {
            let errors = read_text(&text).1.unwrap_err();
            let [error] = &errors[..] else { panic!("{errors:?}") };
            let at = |span: Span| text[span.start as usize..span.end as usize].to_owned();
            let beside = error.secondary.first().map(|(span, _)| at(*span));
            assert_eq!(at(error.primary.0), neck);
            assert!(error.help.is_some());
            (error.code, error.message.clone(), beside)
        });
        assert_eq!(found[0], found[1]);
        let [found, _] = found;
        found
    };
    let trace = "trace 100 ohm 2 mm";
    for neck in ["neck 140 ohm 2.1 mm", "neck 2.1 mm 140 ohm"] {
        assert_eq!(
            refused(INNER, neck, trace),
            (
                "neck-too-long",
                "this neck of 2.1 mm is cut from a trace of 2 mm on its inner side".into(),
                Some(trace.into())
            )
        );
    }
    let neck = "neck 140 ohm 1 mm";
    let (code, message, beside) = refused("trace 100 ohm 20 ps", neck, trace);
    assert_eq!((code, beside.as_deref()), ("neck-without-trace", Some("trace 100 ohm 20 ps")));
    assert_eq!(message, "a neck is cut from a length, and the trace on its outer side is stated by its delay");
    for between in ["plane", "cable 100 ohm 1 m", "connector 0.1 pF", "via 0.1 pF"] {
        let (code, message, beside) = refused(trace, neck, &format!("{between}\n{trace}"));
        assert_eq!((code, beside.as_deref()), ("neck-without-trace", Some(between)));
        let word = between.split(' ').next().unwrap();
        assert!(message.ends_with(&format!("on its inner side it touches a `{word}`")), "{message}");
    }
    // Exactly as long as the shorter trace is allowed.
    line(trace, "protector neck 140 ohm 2 mm", INNER);
}

#[test]
fn a_neck_has_tolerances_and_is_no_longer_than_its_traces_within_them() {
    let of = |outer: &str, neck: &str| {
        let text = sheet(outer, &format!("protector pad 0.05 pF {neck}"), INNER);
        let found = read_text(&text).1.map(|mut design| design.lines.remove(0));
        found.map_err(|errors| {
            let [error] = &errors[..] else { panic!("{errors:?}") };
            (error.code, text[error.primary.0.start as usize..error.primary.0.end as usize].trim().to_owned())
        })
    };
    let trace = "trace 100 ohm 2 mm ± 0.1 mm";
    let read = of(trace, "neck 1.8 mm ± 5 % 140 ohm ± 10 %").unwrap();
    let ends = |address: &str| {
        let value = read.addressed(&address.parse().unwrap()).unwrap();
        let tolerance = value.tolerance.as_ref().unwrap();
        [tolerance.low, value.nominal.unwrap(), tolerance.high]
    };
    for (found, wanted) in
        [(ends("3.neck.length"), [1.71e-3, 1.8e-3, 1.89e-3]), (ends("3.neck.impedance"), [126.0, 140.0, 154.0])]
    {
        for (found, wanted) in found.into_iter().zip(wanted) {
            assert!((found / wanted - 1.0).abs() < 1e-12, "{found} is not {wanted}");
        }
    }
    // 1.8 mm + 6 % is 1.908 mm, 2 mm − 0.1 mm is 1.9 mm.
    let refused = |outer: &str, neck: &str| of(outer, neck).unwrap_err();
    assert_eq!(refused(trace, "neck 1.8 mm ± 6 % 140 ohm"), ("tolerance-corner", "± 6 %".to_owned()));
    assert_eq!(refused(trace, "neck 1.95 mm 140 ohm"), ("tolerance-corner", "1.95 mm".to_owned()));
    assert!(of(&trace.replace(" ± 0.1 mm", ""), "neck 1.8 mm ± 6 % 140 ohm").is_ok());
}
