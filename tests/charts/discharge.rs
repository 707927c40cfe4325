//! What a discharge leaves, drawn: its numbers against closed forms and the tool's own figures, and what is written.

use roxmltree::Document;

use super::layout::check_drawn;
use super::words::texts;
use crate::support::{files, read_file, read_text, root};
use lanecap::curve::{AtPin, DischargeCurves, NotDrawn, Picture, Spot, Trail, charted_discharge};
use lanecap::model::Line;
use lanecap::picture::{png, svg};
use lanecap::transient::{ContactDischarge, LineDischarge, MissingWord, NotStruck, Sign};
use lanecap::units::{Second, Volt};

const PART: &str = "part \"array\" { capacitance 0.1 fF max at 0 V; unidirectional; standoff 5 V; clamp 9 V at 16 A; \
    dynamic_resistance 0.25 ohm; negative 5 V }\n";

fn line(part: &str, exposure: &str, path: &str) -> Line {
    let text = format!(
        "{part}lane \"under test\" {{ rate 1 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 1 V; {exposure}\n\
         limit return_loss >= 6 dB; path {{ driver 50 ohm; {path} }} }}"
    );
    read_text(&text).1.unwrap_or_else(|e| panic!("{e:?}")).lines.remove(0)
}

fn curves(line: &Line) -> DischargeCurves {
    match charted_discharge(line).unwrap().picture {
        Picture::Discharge(curves) => *curves,
        other => panic!("{other:?}"),
    }
}

fn of(trails: &[Trail], wanted: Spot) -> &[(f64, f64)] {
    &trails.iter().find(|trail| trail.of == wanted).unwrap().points
}

/// The lines of every good sheet that a discharge can be computed on.
fn fixtures() -> Vec<(String, Line)> {
    let sheets = files("fixtures/sheets/ok", "lanes");
    let lines = sheets.iter().flat_map(|path| {
        let place = path.file_name().unwrap().to_string_lossy().into_owned();
        read_file(path).1.unwrap().lines.into_iter().map(move |line| (format!("{place}: {}", line.head.name), line))
    });
    lines.filter(|(_, line)| charted_discharge(line).is_ok()).collect()
}

fn race() -> Vec<Line> {
    read_file(&root().join("fixtures/sheets/ok/late_array.lanes")).1.unwrap().lines
}

/// A protector and a chip at the struck node, each a straight line: at every instant the source divides among them and the
/// generator's 330 ohm, v = (i + V1/R1 + V2/R2)/(1/330 + 1/R1 + 1/R2).
#[test]
fn currents_divide_as_the_closed_form_has_it() {
    let line =
        line(PART, "exposure contact 6 kV", "protector part \"array\"; receiver 50 ohm clamps 4 V 1 ohm negative 4 V");
    let found = curves(&line);
    assert_eq!((found.level_v, found.polarity), (6e3, None));
    let source = ContactDischarge { level: Volt(6e3) };
    // Through (5 V, 0 A) and (9 V, 16 A).
    let (v1, r1, v2, r2) = (5.0, 0.25, 4.0, 1.0);
    let (volts, chip) = (of(&found.volts, Spot::Chip), of(&found.amperes, Spot::Chip));
    let part = of(&found.amperes, Spot::Protector(2));
    assert_eq!((volts.len(), chip.len()), (part.len(), part.len()));
    assert!(volts.last().unwrap().0 > 59.9e-9);
    let mut seen = 0;
    for k in 0..volts.len() {
        let (t, v) = volts[k];
        let i = source.current(Second(t)).0;
        let wanted = (i + v1 / r1 + v2 / r2) / (1.0 / 330.0 + 1.0 / r1 + 1.0 / r2);
        if t < 0.5e-9 {
            continue;
        }
        seen += 1;
        let near = |a: f64, b: f64| assert!((a - b).abs() < 5e-3 * b.abs(), "at {t}: {a} {b}");
        near(v, wanted);
        near(chip[k].1, (wanted - v2) / r2);
        near(part[k].1, (wanted - v1) / r1);
    }
    assert!(seen > 2000, "{seen} instants");
    assert_eq!(of(&found.volts, Spot::Connector), volts);
}

#[test]
fn the_curves_are_the_tools_own_figures() {
    for (name, line) in fixtures() {
        let found = curves(&line);
        let contact = LineDischarge::of(&line).unwrap().contact.unwrap().unwrap();
        let [(sign, worse), _] = contact.worse_first();
        assert!(found.polarity.is_none_or(|polarity| polarity == sign), "{name}");
        assert_eq!((found.level_v, found.worst_level_v), (worse.level.0, worse.worst_level.0), "{name}");
        let most = |points: &[(f64, f64)]| points.iter().map(|point| point.1).fold(0.0, f64::max);
        let pin = worse.stated.outcome.pin;
        // A figure stands still to half a percent; one later than the picture ends is not in it.
        if worse.stated.settled && pin.peak_at.0 < 60e-9 {
            let drawn = most(of(&found.volts, Spot::Chip));
            assert!((drawn - pin.peak.0).abs() < 1e-2 * pin.peak.0, "{name}: {drawn} {pin:?}");
        }
        let all = found.volts.iter().chain(&found.amperes).flat_map(|trail| &trail.points);
        let levels = found.over_level.iter().flat_map(|curve| &curve.points);
        assert!(all.chain(levels).all(|(x, y)| x.is_finite() && y.is_finite()), "{name}");
        for trail in found.volts.iter().chain(&found.amperes) {
            assert!(trail.points.windows(2).all(|pair| pair[0].0 < pair[1].0), "{name}: {:?}", trail.of);
        }
        // Of the curves that say which level is the worst, that of the polarity shown is highest there.
        let tells = if found.survives.clamps { AtPin::Equivalent } else { AtPin::PeakVoltage };
        let curve = found.over_level.iter().find(|c| c.of == tells && c.polarity == found.polarity).unwrap();
        let at_worst = curve.points.iter().find(|point| point.0 == found.worst_level_v).unwrap();
        // The curve is of the first step, and levels near one another may change places with a finer one.
        assert!(at_worst.1 > 0.97 * most(&curve.points), "{name}: {at_worst:?} of {:?}", curve.points);
    }
}

#[test]
fn both_polarities_are_drawn_where_they_differ() {
    let path = "protector part \"array\"; receiver 50 ohm clamps 4 V 1 ohm";
    let alike = curves(&line(PART, "exposure contact 6 kV", &format!("{path} negative 4 V")));
    assert_eq!(alike.over_level.iter().map(|curve| curve.polarity).collect::<Vec<_>>(), [None, None]);
    // From 0.7 V the chip takes more below ground.
    let apart = curves(&line(PART, "exposure contact 6 kV", path));
    assert_eq!(apart.polarity, Some(Sign::Negative));
    let drawn: Vec<_> = apart.over_level.iter().map(|curve| (curve.of, curve.polarity)).collect();
    let [below, above] = [Sign::Negative, Sign::Positive].map(Some);
    let (equivalent, peak) = (AtPin::Equivalent, AtPin::PeakCurrent);
    assert_eq!(drawn, [(equivalent, below), (peak, below), (equivalent, above), (peak, above)]);
    let without = curves(&line(PART, "exposure contact 6 kV", "protector part \"array\"; receiver 50 ohm"));
    assert!(without.over_level.iter().all(|curve| matches!(curve.of, AtPin::LateVoltage | AtPin::PeakVoltage)));
    assert!(without.amperes.iter().all(|trail| trail.of != Spot::Chip));
}

/// J. Zhou et al., IEEE Trans. EMC 64(4), 2022, 907-914 (abstract, secondary): currents in the on-chip diode can be larger
/// at low levels than at high ones, and a small impedance between lowers them by a factor of two and more.
#[test]
fn the_pictures_of_the_race_show_both_directions() {
    let [direct, apart] = [0, 1].map(|index| curves(&race()[index]));
    assert!(direct.worst_level_v < 0.5 * direct.level_v, "{}", direct.worst_level_v);
    let [stated, worst] = direct.pin;
    assert!(worst.equivalent.0 > 2.0 * stated.equivalent.0, "{worst:?} {stated:?}");
    assert!(direct.turns_on_from_v.unwrap().unwrap() > direct.worst_level_v);
    assert!(apart.turns_on_from_v.unwrap().unwrap() < 0.6 * direct.turns_on_from_v.unwrap().unwrap());
    assert!(apart.pin[0].equivalent.0 < 0.5 * stated.equivalent.0, "{:?}", apart.pin);
    assert!(apart.pin[1].equivalent.0 < 0.5 * worst.equivalent.0, "{:?}", apart.pin);
    // The one breaks its limit below the stated level alone, the other nowhere.
    let most = direct.survives.pulse_a.unwrap();
    assert!(stated.equivalent.0 < most && worst.equivalent.0 > most && apart.pin[1].equivalent.0 < most);
}

#[test]
fn texts_keep_apart_on_every_sheet() {
    let all = fixtures();
    assert!(all.len() > 12, "{}", all.len());
    for (name, line) in all {
        let drawn = svg(&charted_discharge(&line).unwrap());
        check_drawn(&drawn, &name);
        assert!(drawn.len() < 40_000, "{name}: {} bytes", drawn.len());
        assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "{name}");
    }
}

#[test]
fn texts_keep_apart_at_any_size() {
    let chips = ["", "clamps 4 V 1 ohm survives 1 nA peak 2 nA", "clamps 4 V 1 ohm survives 123.4 kA peak 765.4 kA"];
    for level in ["1 V", "400 V", "501 V", "2.345 kV", "999 kV"] {
        for chip in chips {
            for withstands in ["", "; withstands 1 uV peak 2 uV", "; withstands 123.4 kV peak 765.4 kV"] {
                let path = format!(
                    "guard part \"array\"; series 1 kohm; guard part \"array\"; guard part \"array\"; guard part \"array\"; \
                     series 22 nH; protector part \"array\"; series 10 ohm; guard part \"array\"; receiver 50 ohm {chip}"
                );
                let line = line(PART, &format!("exposure contact {level}{withstands}"), &path);
                check_drawn(&svg(&charted_discharge(&line).unwrap()), &format!("{level} {chip} {withstands}"));
            }
        }
    }
    let mut named = race().remove(0);
    named.head.name = "漢字W".repeat(60);
    check_drawn(&svg(&charted_discharge(&named).unwrap()), "a long name");
}

#[test]
fn level_polarity_limits_and_marks_are_named() {
    let direct = race().remove(0);
    let texts = texts(&svg(&charted_discharge(&direct).unwrap()));
    let heading = format!("{}: contact discharge of 8 kV, either polarity, estimate", direct.head.name);
    let wanted = [
        heading.as_str(),
        "time [ns]",
        "voltage [V]",
        "into the parts [A]",
        "into the chip [A]",
        "current into the chip [A]",
        "level of the discharge [kV]",
        "at the connector, struck",
        "at the protector 4",
        "at the pin",
        "protector 4",
        "chip",
        "100 ns pulse",
        "highest",
        "pin withstands 20 V ↑",
        "pin withstands 30 V",
        "chip survives 12 A",
        "100 ns limit 2.5 A",
        "highest limit 12 A",
        "stated 8 kV",
    ];
    for wanted in wanted {
        assert!(texts.iter().any(|text| text == wanted), "{wanted:?} not in {texts:#?}");
    }
    for start in [
        "worst 1.",
        "protector conducts from 1.",
        "the first 5 ns",
        "the first 60 ns; what is higher before 5 ns is cut off",
    ] {
        assert!(texts.iter().any(|text| text.starts_with(start)), "{start:?} not in {texts:#?}");
    }
    assert!(texts.iter().any(|text| text.contains("the test on the built board decides")));
}

#[test]
fn a_weak_discharge_has_no_panel_over_the_level() {
    let path = "protector part \"array\"; receiver 50 ohm clamps 4 V 1 ohm";
    let height = |level: &str| {
        let drawn = svg(&charted_discharge(&line(PART, &format!("exposure contact {level}"), path)).unwrap());
        let document = Document::parse(&drawn).unwrap();
        let view = document.root_element().attribute("viewBox").unwrap().to_owned();
        view.rsplit(' ').next().unwrap().parse::<f64>().unwrap()
    };
    assert!(height("400 V") < height("600 V") - 100.0);
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let path = "protector part \"array\"; receiver 50 ohm";
    let drawn = |part: &str, exposure: &str| charted_discharge(&line(part, exposure, path)).err();
    assert_eq!(drawn(PART, ""), Some(NotDrawn::NoContact));
    assert_eq!(drawn(PART, "exposure surge 2 A"), Some(NotDrawn::NoContact));
    let lacks = "part \"array\" { capacitance 0.1 pF max; unidirectional; standoff 5 V }\n";
    let missing = NotStruck::Missing("array".to_owned(), MissingWord("clamp"));
    assert_eq!(drawn(lacks, "exposure contact 8 kV"), Some(NotDrawn::NotStruck(missing)));
    let demo = read_file(&root().join("fixtures/sheets/ok/demo.lanes")).1.unwrap();
    let rail = demo.lines.iter().find(|line| line.head.name == "supply pin").unwrap();
    assert_eq!(charted_discharge(rail).err(), Some(NotDrawn::NoPath));
}

#[test]
fn the_image_is_the_same_picture() {
    let data = charted_discharge(&race()[0]).unwrap();
    let drawn = svg(&data);
    let document = Document::parse(&drawn).unwrap();
    let view: Vec<f64> =
        document.root_element().attribute("viewBox").unwrap().split(' ').map(|n| n.parse().unwrap()).collect();
    let file = png(&data).unwrap();
    let mut reader = png::Decoder::new(std::io::Cursor::new(&file)).read_info().unwrap();
    let mut image = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut image).unwrap();
    // Ten units of the document to a point, two pixels.
    assert_eq!((f64::from(info.width), f64::from(info.height)), (0.2 * view[2], 0.2 * view[3]));
    let plum = image.chunks_exact(3).filter(|p| p[0] > 120 && p[1] < 90 && p[2] > 60 && p[2] < 160).count();
    let blue = image.chunks_exact(3).filter(|p| p[2] > p[0].saturating_add(60)).count();
    let amber = image.chunks_exact(3).filter(|p| p[0] > 150 && p[2] < 110).count();
    assert!(plum > 1000 && blue > 1000 && amber > 500, "{plum} {blue} {amber}");
}
