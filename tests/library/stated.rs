//! Lines built from what a sheet would state: the same numbers, the same remarks, the same refusals.

use std::sync::Arc;

use lanecap::diag::Span;
use lanecap::model::*;
use lanecap::units::*;
use lanecap::{Design, Figures, size_bus, size_feed, size_lane};

use crate::support::random::Random;

const LANE: &str = "laminate \"board\" { permittivity 4.1 at 1 GHz; loss_tangent 0.015 at 1 GHz; roughness 0.5 um }
part \"clamp\" { capacitance 0.4 pF max at 2 V; inductance 0.3 nH; bidirectional; mismatch 0.01 pF }
lane \"link\" {
    rate 8 Gb/s nrz
    reference 90 ohm differential
    line_voltage 0 V to 3.3 V
    limit added_loss <= 1 dB
    limit mode_conversion <= -30 dB
    path {
        driver 90 ohm
        cable 90 ohm 5 ns loss 3 dB at 2 GHz, 5 dB at 4 GHz
        trace 90 ohm 32 mm loss 0.2 dB/cm at 2.5 GHz permittivity 3.4 loss_tangent 0.012
        trace 20 mm microstrip width 0.2 mm height 0.12 mm gap 0.18 mm on \"board\"
        protector part \"clamp\" pad 0.05 pF inductance 0.2 nH stub 0.5 mm
        trace 10 mm stripline width 0.12 mm height 0.35 mm on \"board\"
        via barrel 1 mm drill 0.2 mm pad 0.45 mm antipad 0.7 mm stub 0.4 mm on \"board\"
        via 0.2 pF 0.4 nH stub 0.3 mm outer
        receiver 90 ohm
    }
}";

fn board() -> Arc<Laminate> {
    let at = Some(Hertz::giga(1.0));
    let roughness = Roughness::Hammerstad { rms: Metre::micro(0.5) };
    Arc::new(Laminate { loss_tangent: (0.015, at), roughness, ..Laminate::new(4.1, at) })
}

fn rating(capacitance: Farad, bias: Option<Volt>) -> Option<CapacitanceRating> {
    Some(CapacitanceRating { maximum: capacitance, bias, span: Span::default() })
}

fn clamp() -> Part {
    Part {
        name: "clamp".into(),
        to_ground: rating(Farad::pico(0.4), Some(Volt(2.0))),
        inductance: Henry::nano(0.3),
        polarity: Some(Polarity::Bidirectional),
        mismatch: Some(Mismatch::Absolute(Farad::pico(0.01))),
        ..Part::default()
    }
}

fn microstrip() -> TraceGeometry {
    let (width, height, gap) = (Metre::milli(0.2), Metre::milli(0.12), Some(Metre::milli(0.18)));
    TraceGeometry { width, height, gap, laminate: board() }
}

fn drilled() -> StatedVia {
    let [barrel, drill, pad, antipad] = [1.0, 0.2, 0.45, 0.7].map(Metre::milli);
    let stub = StatedStub { length: Metre::milli(0.4), permittivity: None, side: StubSide::Inner };
    StatedVia { make: ViaMake::Geometry { barrel, drill, pad, antipad, laminate: board() }, stub: Some(stub) }
}

fn place(part: Part) -> StatedProtector {
    StatedProtector { part: Some(Arc::new(part)), ..StatedProtector::default() }
}

fn trace(millimetres: f64, make: LineMake) -> Stated {
    Stated::Line(StatedLine::trace(Metre::milli(millimetres), make))
}

fn loss(loss: Attenuation, frequency: Hertz) -> LineAttenuation {
    LineAttenuation { loss, frequency }
}

/// The same lane without a sheet.
fn lane() -> lanecap::builder::LaneBuilder {
    let totals = [(3.0, 2.0), (5.0, 4.0)].map(|(db, at)| loss(Attenuation::Total(db), Hertz::giga(at)));
    let cable = LineImpedance { losses: totals.into(), ..Ohm(90.0).into() };
    let (medium, length) = (Medium::Cable, StatedLength::Delay(Second::nano(5.0)));
    let cable = StatedLine { medium, length, make: LineMake::Impedance(cable) };
    let lossy = LineImpedance {
        permittivity: Some(3.4),
        losses: vec![loss(Attenuation::PerMetre(20.0), Hertz::giga(2.5))],
        loss_tangent: Some(0.012),
        ..Ohm(90.0).into()
    };
    let (width, height) = (Metre::milli(0.12), Metre::milli(0.35));
    let stripline = TraceGeometry { width, height, gap: None, laminate: board() };
    let footprint = StatedProtector {
        pad: Farad::pico(0.05),
        inductance: Henry::nano(0.2),
        stub: Metre::milli(0.5),
        ..place(clamp())
    };
    let make = ViaMake::Lumped { capacitance: Farad::pico(0.2), inductance: Some(Henry::nano(0.4)) };
    let stub = StatedStub { length: Metre::milli(0.3), permittivity: None, side: StubSide::Outer };
    Lane::builder()
        .rate(Baud::giga(8.0), Modulation::Nrz)
        .reference(Ohm(90.0))
        .differential()
        .voltage(Volt(0.0), Volt(3.3))
        .limit(LaneLimit::Loss(Loss::Added, Over::Level(1.0)))
        .limit(LaneLimit::ModeConversion(-30.0))
        .path(|p| {
            p.driver(Ohm(90.0))
                .stated(Stated::Line(cable))
                .stated(trace(32.0, LineMake::Impedance(lossy)))
                .stated(trace(20.0, LineMake::Microstrip(microstrip())))
                .stated(Stated::Protector(footprint))
                .stated(trace(10.0, LineMake::Stripline(stripline)))
                .stated(Stated::Via(drilled()))
                .stated(Stated::Via(StatedVia { make, stub: Some(stub) }))
                .receiver(Ohm(90.0))
        })
}

type Told = Vec<(&'static str, String)>;

/// Defaults and warnings, without their places.
fn told(head: &Head) -> (Told, Told) {
    let texts = |notes: &[Note]| notes.iter().map(|note| (note.code, note.text.clone())).collect();
    (texts(&head.defaults), texts(&head.warnings))
}

#[test]
fn a_lane_of_stated_values_is_the_lane_of_the_same_sheet_to_the_last_bit() {
    let design = Design::parse(LANE).unwrap();
    let (head, read) = design.lanes().next().unwrap();
    let line = lane().line(Head::new("link")).unwrap();
    let Kind::Lane(built) = &line.kind else { panic!("a lane") };
    let sized = |lane: &Lane| format!("{:?}", size_lane(lane, Figures::All).unwrap());
    assert_eq!(sized(read), sized(built));
    assert_eq!(sized(read), sized(&lane().build().unwrap()));
    assert_eq!(told(head), told(&line.head));
    assert!(head.defaults.iter().any(|note| note.code == "geometry-at-nyquist"));
    let elements = |path: &Path| -> Vec<String> {
        let alike = path.elements.iter().filter(|e| !matches!(e.element, Element::Protector(_)));
        alike.map(|e| format!("{:?}", e.element)).collect()
    };
    assert_eq!(elements(&read.path), elements(&built.path));
    // Another width is another outcome.
    let other = LANE.replace("width 0.2 mm", "width 0.201 mm");
    assert_ne!(sized(Design::parse(&other).unwrap().lanes().next().unwrap().1), sized(built));
}

#[test]
fn a_part_has_its_worst_capacitance_at_the_voltage_of_the_line() {
    // Two junctions back to back, C ~ 2/(1 + g(V)) with g(V) = (1 + V/0.7)^0.33: largest at 0 V of 0 V to 3.3 V, and
    // at 1 V of 1 V to 3.3 V (Sze, Physics of Semiconductor Devices; the grading is the default).
    let g = |v: f64| (1.0 + v / 0.7).powf(0.33);
    let fitted = |low: f64| {
        let lane = lane().voltage(Volt(low), Volt(3.3)).build().unwrap();
        lane.path.protector().unwrap().fitted.unwrap().0
    };
    for (low, by_hand) in [(0.0, 0.4e-12 * (1.0 + g(2.0)) / 2.0), (1.0, 0.4e-12 * (1.0 + g(2.0)) / (1.0 + g(1.0)))] {
        assert!((fitted(low) - by_hand).abs() < 1e-12 * by_hand, "{low} {} {by_hand}", fitted(low));
    }
    // The voltage of a head stands.
    let voltage = Some(VoltageRange { low: Volt(1.0), high: Volt(3.3) });
    let line = lane().line(Head { voltage, ..Head::new("link") }).unwrap();
    let Kind::Lane(lane) = line.kind else { panic!("a lane") };
    assert_eq!(lane.path.protector().unwrap().fitted.unwrap().0, fitted(1.0));
}

#[test]
fn a_built_feed_is_the_feed_of_the_same_sheet_to_the_last_bit() {
    let sheet = "laminate \"board\" { permittivity 3.66 }
part \"clamp\" { capacitance 0.15 pF max at 1 V; unidirectional }
feed \"positioning\" {
    band 1559 MHz to 1610 MHz; reference 50 ohm; power 100 mW; line_voltage 0 V to 3 V
    limit return_loss >= 10 dB
    limit detuning <= 4 MHz
    path {
        antenna parallel 1575.42 MHz 50 ohm q 12
        trace 14 mm microstrip width 1.1 mm height 0.5 mm on \"board\"
        protector part \"clamp\" pad 0.05 pF
        radio 50 ohm pad 0.1 pF
    }
}";
    let design = Design::parse(sheet).unwrap();
    let (head, read) = design.feeds().next().unwrap();
    let part = Part {
        name: "clamp".into(),
        to_ground: rating(Farad::pico(0.15), Some(Volt(1.0))),
        polarity: Some(Polarity::Unidirectional),
        ..Part::default()
    };
    let (width, height) = (Metre::milli(1.1), Metre::milli(0.5));
    let strip = TraceGeometry { width, height, gap: None, laminate: Arc::new(Laminate::new(3.66, None)) };
    let (frequency, resistance) = (Hertz::mega(1575.42), Ohm(50.0));
    let feed = Feed::builder()
        .band(Hertz::mega(1559.0), Hertz::mega(1610.0))
        .reference(Ohm(50.0))
        .power(Watt(0.1))
        .voltage(Volt(0.0), Volt(3.0))
        .limit(FeedLimit::ReturnLoss(Over::Level(10.0)))
        .limit(FeedLimit::Detuning(Hertz::mega(4.0)))
        .path(|p| {
            p.antenna(Antenna::Parallel(Resonator { frequency, resistance, quality: 12.0 }))
                .stated(trace(14.0, LineMake::Microstrip(strip)))
                .stated(Stated::Protector(StatedProtector { pad: Farad::pico(0.05), ..place(part) }))
                .radio(Radio { pad: Farad::pico(0.1), ..Ohm(50.0).into() })
        });
    let sized = |feed: &Feed| format!("{:?}", size_feed(feed).unwrap());
    let line = feed.clone().line(Head::new("positioning")).unwrap();
    let built = feed.build().unwrap();
    assert_eq!(sized(read), sized(&built));
    assert_eq!(told(head), told(&line.head));
    assert_eq!(read.peak_voltage(0.0), built.peak_voltage(0.0));
    let codes = |flaws: Flaws| flaws.list.iter().map(|flaw| flaw.code).collect::<Vec<_>>();
    let nothing = Feed::builder().build().unwrap_err();
    let lacks = ["out-of-range", "out-of-range", "out-of-range", "no-limits", "path-ends", "path-ends", "no-protector"];
    assert_eq!(codes(nothing), lacks);
}

#[test]
fn a_built_bus_is_the_bus_of_the_same_sheet_to_the_last_bit() {
    let sheet = "part \"clamp\" { capacitance 12 pF max at 3 V; rails 5 V }
bus \"service wires\" {
    pull_up 2.2 kohm; wiring 60 pF; inputs 25 pF; nodes 2; rate 400 kb/s; line_voltage 0 V to 3.3 V
    part \"clamp\"
    limit rise_time <= 300 ns from 30 % to 70 %
    limit total_capacitance <= 400 pF
}";
    let design = Design::parse(sheet).unwrap();
    let Line { head, kind: Kind::Bus(read) } = &design.lines[0] else { panic!("a bus") };
    let part = Part {
        name: "clamp".into(),
        to_ground: rating(Farad::pico(12.0), Some(Volt(3.0))),
        polarity: Some(Polarity::Rails(Volt(5.0))),
        ..Part::default()
    };
    let bus = |part: Part| {
        Bus::builder()
            .charging(Charging::PullUp(Ohm::kilo(2.2)))
            .load(Farad::pico(60.0), Farad::pico(25.0))
            .nodes(2)
            .rate(400e3)
            .voltage(Volt(0.0), Volt(3.3))
            .part(Arc::new(part))
            .limit(BusLimit::Rise { most: Second::nano(300.0), levels: Some((0.3, 0.7)) })
            .limit(BusLimit::Total(Farad::pico(400.0)))
    };
    let line = bus(part.clone()).line(Head::new("service wires")).unwrap();
    let built = bus(part.clone()).build().unwrap();
    let sized = |bus: &Bus| format!("{:?}", size_bus(bus));
    assert_eq!(sized(read), sized(&built));
    assert_eq!(told(head), told(&line.head));
    let (fitted, worst) = (built.fitted.unwrap().0, read.fitted.unwrap().0);
    assert!(fitted == worst && fitted > 12e-12, "{fitted} {worst}");
    let low = Part { polarity: Some(Polarity::Rails(Volt(3.0))), ..part.clone() };
    assert_eq!(refused(bus(low).build()), [("above-rails", Place::Field("part"))]);
    let none = Part { to_ground: None, ..part };
    assert_eq!(refused(bus(none).build()), [("missing-line", Place::Line)]);
}

/// Code and place of each flaw.
fn refused<T>(built: Result<T, Flaws>) -> Vec<(&'static str, Place)> {
    let flaws = built.map(|_| ()).unwrap_err();
    flaws.list.iter().map(|flaw| (flaw.code, flaw.at)).collect()
}

/// A matched lane with one stated element beside its protector.
fn with(stated: Stated, differential: bool) -> Result<Lane, Flaws> {
    let lane = Lane::builder()
        .rate(Baud::giga(5.0), Modulation::Nrz)
        .reference(Ohm(50.0))
        .voltage(Volt(0.0), Volt(3.3))
        .limit(LaneLimit::Loss(Loss::Added, Over::Level(0.5)));
    let lane = if differential { lane.differential() } else { lane };
    lane.path(|p| {
        let is_place = matches!(stated, Stated::Protector(_));
        let p = p.driver(Ohm(50.0)).stated(stated);
        let p = if is_place { p } else { p.protector(Protector::default()) };
        p.receiver(Ohm(50.0))
    })
    .build()
}

#[test]
fn what_cannot_be_is_refused_at_its_value() {
    let at = |name| Place::Value(1, name);
    let strip = |change: fn(&mut TraceGeometry)| {
        let mut shape = microstrip();
        change(&mut shape);
        trace(5.0, LineMake::Stripline(shape))
    };
    assert_eq!(refused(with(strip(|_| ()), false)), [("gap-single-ended", at("gap"))]);
    assert_eq!(refused(with(strip(|s| s.height = Metre::micro(20.0)), true)), [("stripline-height", at("height"))]);
    assert_eq!(refused(with(strip(|s| s.width = Metre(f64::NAN)), true)), [("out-of-range", at("width"))]);
    let worse = |s: &mut TraceGeometry| s.laminate = Arc::new(Laminate::new(0.5, None));
    assert_eq!(refused(with(strip(worse), true)), [("out-of-range", at("permittivity"))]);
    let lossy = |s: &mut TraceGeometry| {
        s.laminate = Arc::new(Laminate { loss_tangent: (0.9, None), ..Laminate::new(1.0, None) });
    };
    assert_eq!(refused(with(strip(lossy), true)), [("laminate-points", at("on"))]);
    let line = |losses: Vec<LineAttenuation>, loss_tangent| {
        trace(32.0, LineMake::Impedance(LineImpedance { losses, loss_tangent, ..Ohm(50.0).into() }))
    };
    let point = |db, at| loss(Attenuation::PerMetre(db), Hertz::giga(at));
    let below = line(vec![point(1.0, 2.5)], Some(0.02));
    assert_eq!(refused(with(below, false)), [("loss-below-dielectric", at("loss"))]);
    let twice = line(vec![point(20.0, 2.5), point(30.0, 5.0)], Some(0.02));
    assert_eq!(refused(with(twice, false)), [("loss-tangent-twice", at("loss_tangent"))]);
    assert_eq!(refused(with(line(vec![point(-1.0, 2.5)], None), false)), [("out-of-range", at("loss"))]);
    let mut via = drilled();
    let ViaMake::Geometry { antipad, .. } = &mut via.make else { panic!("a geometry") };
    *antipad = Metre::milli(0.4);
    assert_eq!(refused(with(Stated::Via(via), false)), [("via-geometry", at("antipad"))]);
    let across = Part { to_ground: None, across: clamp().to_ground, ..clamp() };
    assert_eq!(refused(with(Stated::Protector(place(across)), false)), [("across-single-ended", at("part"))]);
    let rails = Part { polarity: Some(Polarity::Rails(Volt(1.8))), ..clamp() };
    assert_eq!(refused(with(Stated::Protector(place(rails)), false)), [("above-rails", at("part"))]);
    let flaws = with(Stated::Protector(place(Part::default())), false).unwrap_err();
    assert_eq!(flaws.to_string(), "this part states no capacitance (part of element 2 of the path)");
}

#[test]
fn whatever_the_stated_numbers_are_the_builder_answers() {
    let wild = [f64::NAN, f64::INFINITY, -1.0, 0.0, -0.0, 1e-320, 1e308, 1e-9, 0.3e-3, 1.0, 50.0, 5e9];
    let random = &mut Random(41);
    let (mut built, mut refused) = (0, 0);
    for turn in 0..4000 {
        let often = [0.02, 0.1, 1.0][turn % 3];
        let mut value = |good: f64| if random.chance(often) { wild[random.index(wild.len())] } else { good };
        let laminate = Arc::new(Laminate {
            loss_tangent: (value(0.015), Some(Hertz(value(1e9)))),
            copper: Metre(value(35e-6)),
            resistivity: value(17e-9),
            ..Laminate::new(value(4.1), None)
        });
        let (width, height, gap) = (Metre(value(2e-4)), Metre(value(3e-4)), Some(Metre(value(2e-4))));
        let shape = TraceGeometry { width, height, gap, laminate: Arc::clone(&laminate) };
        let length = Metre(value(0.02));
        let [barrel, drill, pad, antipad] = [1e-3, 2e-4, 4.5e-4, 7e-4].map(|size| Metre(value(size)));
        let losses = vec![loss(Attenuation::PerMetre(value(20.0)), Hertz(value(2.5e9)))];
        let permittivity = Some(value(3.4));
        let grading = Some(Grading { voltage: Volt(value(0.7)), exponent: value(0.4) });
        let to_ground = rating(Farad(value(0.4e-12)), Some(Volt(value(2.0))));
        let stated = match turn % 5 {
            0 => Stated::Line(StatedLine::trace(length, LineMake::Microstrip(shape))),
            1 => Stated::Line(StatedLine::trace(length, LineMake::Stripline(shape))),
            2 => {
                let make = ViaMake::Geometry { barrel, drill, pad, antipad, laminate };
                Stated::Via(StatedVia { make, stub: None })
            }
            3 => {
                let make = LineImpedance { permittivity, losses, ..Ohm(value(90.0)).into() };
                let length = StatedLength::Delay(Second(value(1e-9)));
                Stated::Line(StatedLine { medium: Medium::Cable, length, make: LineMake::Impedance(make) })
            }
            _ => Stated::Protector(place(Part { to_ground, grading, ..clamp() })),
        };
        match with(stated, true) {
            Ok(lane) => {
                built += 1;
                if let Ok(outcome) = size_lane(&lane, Figures::Nyquist) {
                    assert!(outcome.sized.budget.capacitance.is_none_or(|most| most.0 >= 0.0), "{lane:?}");
                }
            }
            Err(flaws) => {
                refused += 1;
                assert!(!flaws.list.is_empty());
            }
        }
    }
    assert!(built > 500 && refused > 500, "{built} {refused}");
}
