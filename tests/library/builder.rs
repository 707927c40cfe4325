//! Lanes put together by the builder, and what it refuses.

use lanecap::builder::LaneBuilder;
use lanecap::diag::Span;
use lanecap::figures;
use lanecap::model::*;
use lanecap::resolve::{LossPoint, resolve_loss};
use lanecap::units::*;
use lanecap::{Design, Figures, size_lane};

use crate::support::random::Random;

/// A sheet with every element that the builder makes.
const SHEET: &str = "lane \"camera link\" {
    rate 5 Gb/s nrz
    reference 90 ohm differential
    limit added_loss <= 0.5 dB
    limit return_loss >= 12 dB at 100 MHz, 8 dB at 3 GHz
    limit worst_eye_penalty <= 20 %
    path {
        driver 90 ohm pad 0.3 pF swing 1 V
        cable 90 ohm 0.8 m permittivity 2.2
        connector 0.12 pF 0.35 nH
        plane
        trace 90 ohm 4 mm permittivity 3.4
        series 2 ohm
        protector 0.4 pF pad 0.06 pF
        trace 90 ohm 32 mm loss 0.2 dB/cm at 2.5 GHz permittivity 3.4 loss_tangent 0.012
        via 0.2 pF 0.4 nH
        shunt 10 kohm
        receiver 90 ohm pad 0.25 pF needs 200 mV
    }
}";

fn mask(points: [(f64, Hertz); 2]) -> Mask {
    Mask::new(points.map(|(level, frequency)| MaskPoint { level, frequency }).into()).unwrap()
}

/// The same without a sheet.
fn built() -> LaneBuilder {
    let point = LossPoint { frequency: Hertz::giga(2.5), attenuation: 20.0 / DB_PER_NEPER };
    let loss = resolve_loss(&[point], Some(0.012), 3.4, Hertz::giga(2.5)).unwrap();
    let (impedance, length) = (Ohm(90.0), Metre::milli(32.0));
    let lossy = TransmissionLine { medium: Medium::Trace, impedance, length, permittivity: 3.4, loss };
    let driver = Driver { pad: Farad::pico(0.3), swing: Some(Volt(1.0)), ..Ohm(90.0).into() };
    let receiver = Receiver { pad: Farad::pico(0.25), needs: Some(Volt::milli(200.0)), ..Ohm(90.0).into() };
    let place = Protector { fitted: Some(Farad::pico(0.4)), pad: Farad::pico(0.06), ..Protector::default() };
    let via = Via {
        barrel: Barrel::Lumped { capacitance: Farad::pico(0.2), inductance: Some(Henry::nano(0.4)) },
        stub: None,
    };
    Lane::builder()
        .rate(Baud::giga(5.0), Modulation::Nrz)
        .reference(Ohm(90.0))
        .differential()
        .limit(LaneLimit::Loss(Loss::Added, Over::Level(0.5)))
        .limit(LaneLimit::Loss(Loss::Return, Over::Mask(mask([(12.0, Hertz::mega(100.0)), (8.0, Hertz::giga(3.0))]))))
        .limit(LaneLimit::WorstEyePenalty(0.2))
        .path(|p| {
            p.driver(driver)
                .cable(Ohm(90.0), Metre(0.8), 2.2)
                .connector(Farad::pico(0.12), Henry::nano(0.35))
                .plane()
                .trace(Ohm(90.0), Metre::milli(4.0), 3.4)
                .series(Immittance::Resistance(Ohm(2.0)))
                .protector(place)
                .line(lossy)
                .via(via)
                .shunt(Immittance::Resistance(Ohm::kilo(10.0)))
                .receiver(receiver)
        })
}

#[test]
fn a_built_lane_is_the_lane_of_the_same_sheet_to_the_last_bit() {
    let design = Design::parse(SHEET).unwrap();
    let (head, read) = design.lanes().next().unwrap();
    let built_lane = built().build().unwrap();
    let sized = |lane: &Lane| format!("{:?}", size_lane(lane, Figures::All).unwrap());
    assert!(sized(read).contains("EYE_OPENING") || sized(read).contains("eye_opening"));
    assert_eq!(sized(read), sized(&built_lane));
    // Another capacitance is another outcome.
    let mut other = built_lane;
    other.path.fit(Farad::pico(0.401));
    assert_ne!(sized(read), sized(&other));
    let line = built().line(Head::new("camera link")).unwrap();
    let texts = |head: &Head| head.defaults.iter().map(|note| (note.code, note.text.clone())).collect::<Vec<_>>();
    assert_eq!(texts(&line.head), texts(head));
}

/// The flaws of the lane after a change: code and place.
fn flaws(change: impl FnOnce(&mut Head, &mut Lane)) -> Vec<(&'static str, Place)> {
    let (mut head, mut lane) = (Head::new("a"), built().build().unwrap());
    change(&mut head, &mut lane);
    let flaws = Line::new(head, Kind::Lane(lane)).map(|_| ()).unwrap_err();
    flaws.list.iter().map(|flaw| (flaw.code, flaw.at)).collect()
}

fn replace(lane: &mut Lane, index: usize, element: Element) {
    lane.path.elements[index].element = element;
}

#[test]
fn a_line_has_a_name_and_values_in_range() {
    assert_eq!(flaws(|head, _| head.name = " ".into()), [("missing-name", Place::Line)]);
    assert_eq!(flaws(|head, _| head.count = 0), [("out-of-range", Place::Line)]);
    let reversed = VoltageRange { low: Volt(3.0), high: Volt(1.0) };
    assert_eq!(flaws(|head, _| head.voltage = Some(reversed)), [("range-order", Place::Line)]);
    let reversed = TemperatureRange { low: 85.0, high: -40.0 };
    assert_eq!(flaws(|head, _| head.demands.temperature = Some(reversed)), [("range-order", Place::Line)]);
    for rate in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(flaws(|_, lane| lane.symbol_rate = Baud(rate)), [("out-of-range", Place::Line)], "{rate}");
    }
    assert_eq!(flaws(|_, lane| lane.reference = Ohm(-90.0)), [("out-of-range", Place::Line)]);
}

#[test]
fn a_path_has_its_ends_one_protector_and_at_most_one_plane() {
    let (last, protector) = (10, 6);
    assert_eq!(flaws(|_, lane| drop(lane.path.elements.remove(protector))), [("no-protector", Place::Line)]);
    let again = |_: &mut Head, lane: &mut Lane| replace(lane, 1, Element::Protector(Protector::default()));
    assert_eq!(flaws(again), [("two-protectors", Place::Element(protector))]);
    assert_eq!(flaws(|_, lane| replace(lane, 4, Element::Plane)), [("two-planes", Place::Element(4))]);
    assert_eq!(flaws(|_, lane| lane.path.elements.truncate(last))[0], ("path-ends", Place::Line));
    assert_eq!(flaws(|_, lane| lane.path.elements.swap(0, 1)), [("path-ends", Place::Element(1))]);
    let second = |_: &mut Head, lane: &mut Lane| replace(lane, 1, Element::Driver(Ohm(90.0).into()));
    assert_eq!(flaws(second), [("path-ends", Place::Element(1))]);
    let radio = |_: &mut Head, lane: &mut Lane| replace(lane, 1, Element::Radio(Ohm(90.0).into()));
    assert_eq!(flaws(radio), [("misplaced-word", Place::Element(1))]);
    let turned = |lane: &Lane| Line::new(Head::new("a"), Kind::Lane(lane.clone())).is_ok();
    let mut lane = built().build().unwrap();
    lane.path.elements.reverse();
    assert!(turned(&lane), "a path may begin with its receiver");
}

#[test]
fn the_values_of_elements_are_in_range() {
    let driver = |change: fn(&mut Driver)| {
        let mut driver = Driver { swing: Some(Volt(1.0)), ..Ohm(90.0).into() };
        change(&mut driver);
        flaws(|_, lane| replace(lane, 0, Element::Driver(driver)))
    };
    assert_eq!(driver(|d| d.impedance = Ohm(0.0)), [("out-of-range", Place::Value(0, "impedance"))]);
    assert_eq!(driver(|d| d.pad = Farad(-1e-15)), [("out-of-range", Place::Value(0, "pad"))]);
    assert_eq!(driver(|d| d.rise = Some(Second(0.0))), [("out-of-range", Place::Value(0, "rise"))]);
    assert_eq!(driver(|d| d.taps = Some([-0.1, 0.8, 0.0])), [("tap-sum", Place::Value(0, "taps"))]);
    let receiver = |change: fn(&mut Receiver)| {
        let mut receiver = Ohm(90.0).into();
        change(&mut receiver);
        flaws(|_, lane| replace(lane, 10, Element::Receiver(receiver)))
    };
    assert_eq!(receiver(|r| r.dfe = 65), [("out-of-range", Place::Value(10, "dfe"))]);
    assert_eq!(receiver(|r| r.dfe_limit = Some(1.1)), [("out-of-range", Place::Value(10, "limit"))]);
    let ctle = |r: &mut Receiver| r.ctle = Some(Ctle { peaking: 61.0, zero: None, poles: [None; 2] });
    assert_eq!(receiver(ctle), [("out-of-range", Place::Value(10, "peaking"))]);
    let line = |change: fn(&mut TransmissionLine)| {
        flaws(|_, lane| {
            let Element::Line(line) = &mut lane.path.elements[7].element else { panic!("a line") };
            change(line);
        })
    };
    assert_eq!(line(|l| l.impedance = Ohm(f64::NAN)), [("out-of-range", Place::Value(7, "impedance"))]);
    assert_eq!(line(|l| l.length = Metre(-1.0)), [("out-of-range", Place::Value(7, "length"))]);
    assert_eq!(line(|l| l.permittivity = 0.9), [("out-of-range", Place::Value(7, "permittivity"))]);
    assert_eq!(line(|l| l.loss.conductor = 1e4), [("loss-too-high", Place::Element(7))]);
    let place = |change: fn(&mut Protector)| {
        let mut place = Protector::default();
        change(&mut place);
        flaws(|_, lane| replace(lane, 6, Element::Protector(place)))
    };
    assert_eq!(place(|p| p.fitted = Some(Farad(f64::NAN))), [("out-of-range", Place::Value(6, "fitted"))]);
    assert_eq!(place(|p| p.spread = Some(-0.1)), [("out-of-range", Place::Value(6, "spread"))]);
    let series = |value| flaws(|_, lane| replace(lane, 5, Element::Series(value)));
    assert_eq!(series(Immittance::Capacitance(Farad(0.0))), [("out-of-range", Place::Value(5, "capacitance"))]);
    let shunt = |value| flaws(|_, lane| replace(lane, 9, Element::Shunt(value)));
    assert_eq!(shunt(Immittance::Resistance(Ohm(0.0))), [("out-of-range", Place::Value(9, "resistance"))]);
}

#[test]
fn limits_can_be_asked_of_the_lane() {
    let asked = |of: LaneLimit| flaws(|_, lane| lane.limits.push(Limit { of, span: None }));
    let at = Place::Limit(4);
    assert_eq!(flaws(|_, lane| lane.limits.clear()), [("no-limits", Place::Line)]);
    assert_eq!(asked(LaneLimit::WorstEyePenalty(0.1)), [("duplicate-limit", at)]);
    assert_eq!(asked(LaneLimit::EyePenalty(f64::NAN)), [("out-of-range", at)]);
    assert_eq!(asked(LaneLimit::ModeConversion(-30.0)), [("conversion-without-mismatch", at)]);
    let wild = Over::Mask(mask([(3.0, Hertz(0.0)), (3.0, Hertz::giga(1.0))]));
    assert_eq!(asked(LaneLimit::Loss(Loss::Insertion, wild)), [("out-of-range", at)]);
    let single = |_: &mut Head, lane: &mut Lane| {
        lane.differential = false;
        lane.limits.push(Limit { of: LaneLimit::ModeConversion(-30.0), span: None });
    };
    assert_eq!(flaws(single), [("conversion-single-ended", at)]);
    let blocked = |_: &mut Head, lane: &mut Lane| {
        replace(lane, 5, Element::Series(Immittance::Capacitance(Farad::pico(100.0))));
        lane.limits.push(Limit { of: LaneLimit::AddedRise(Second::pico(10.0)), span: None });
    };
    assert_eq!(flaws(blocked), [("rise-without-dc", at)]);
    let silent = |_: &mut Head, lane: &mut Lane| replace(lane, 0, Element::Driver(Ohm(90.0).into()));
    assert_eq!(flaws(silent), [("needs-swing", Place::Limit(3))]);
}

#[test]
fn a_feed_reaches_over_its_band_and_has_a_resonance_to_detune() {
    let feed = |antenna: Antenna, of: FeedLimit| {
        let path = |elements: [Element; 3]| {
            let numbered = elements.into_iter().enumerate();
            let elements = numbered
                .map(|(i, element)| PathElement {
                    element,
                    number: i + 1,
                    span: Span::default(),
                    stated: lanecap::model::Stated::AsIs,
                })
                .collect();
            Path { elements }
        };
        let place = Element::Protector(Protector::default());
        Feed {
            band: Band { low: Hertz::giga(1.0), high: Hertz::giga(2.0) },
            reference: Ohm(50.0),
            power: None,
            current: None,
            path: path([Element::Antenna(antenna), place, Element::Radio(Ohm(50.0).into())]),
            limits: vec![Limit { of, span: None }],
        }
    };
    let flaws = |feed: Feed| match Line::new(Head::new("a"), Kind::Feed(feed)) {
        Ok(_) => Vec::new(),
        Err(flaws) => flaws.list.iter().map(|flaw| (flaw.code, flaw.at)).collect(),
    };
    let table = |low: f64, high: f64| {
        let points = [(Hertz::giga(low), 0.5, 10.0), (Hertz::giga(high), 0.5, 20.0)];
        Antenna::Table(std::sync::Arc::new(ReflectionTable::new("t".into(), Span::default(), Ohm(50.0), points)))
    };
    let match_of = |level| FeedLimit::ReturnLoss(Over::Level(level));
    assert_eq!(flaws(feed(table(0.5, 3.0), match_of(6.0))), []);
    assert_eq!(flaws(feed(table(1.5, 3.0), match_of(6.0))), [("table-span", Place::Field("band"))]);
    assert_eq!(flaws(feed(table(3.0, 0.5), match_of(6.0)))[0], ("table-order", Place::Element(0)));
    let detuning = FeedLimit::Detuning(Hertz::mega(5.0));
    assert_eq!(flaws(feed(Antenna::Resistance(Ohm(50.0)), detuning)), [("no-resonance", Place::Limit(0))]);
    let mut turned = feed(Antenna::Resistance(Ohm(50.0)), match_of(6.0));
    turned.path.elements.reverse();
    assert_eq!(flaws(turned), [("path-ends", Place::Element(2)), ("path-ends", Place::Element(0))]);
    let mut reversed = feed(Antenna::Resistance(Ohm(50.0)), match_of(6.0));
    reversed.band = Band { low: Hertz::giga(2.0), high: Hertz::giga(1.0) };
    assert_eq!(flaws(reversed), [("range-order", Place::Line)]);
}

#[test]
fn a_bus_limited_in_time_charges_through_a_resistance() {
    let bus = |charging, of, nodes| Bus {
        rate: None,
        charging,
        wiring: Farad::ZERO,
        inputs: Farad::ZERO,
        nodes,
        fitted: None,
        part: None,
        limits: vec![Limit { of, span: None }],
        path: None,
    };
    let flaws = |bus: Bus| match Line::new(Head::new("a"), Kind::Bus(bus)) {
        Ok(_) => Vec::new(),
        Err(flaws) => flaws.list.iter().map(|flaw| (flaw.code, flaw.at)).collect(),
    };
    let rise = |levels| BusLimit::Rise { most: Second::nano(300.0), levels };
    let pull_up = Some(Charging::PullUp(Ohm::kilo(2.2)));
    assert_eq!(flaws(bus(pull_up, rise(Some((0.3, 0.7))), 1)), []);
    assert_eq!(flaws(bus(None, rise(None), 1)), [("no-resistance", Place::Limit(0))]);
    assert_eq!(flaws(bus(pull_up, rise(Some((0.7, 0.3))), 1)), [("range-order", Place::Limit(0))]);
    assert_eq!(flaws(bus(None, BusLimit::Total(Farad::pico(400.0)), 0)), [("out-of-range", Place::Line)]);
    let rail = Rail { current: Some(Ampere(-1.0)), part: None, path: None };
    assert!(Line::new(Head::new("a"), Kind::Rail(rail)).is_err());
}

#[test]
fn a_builder_without_its_parts_says_all_it_lacks() {
    let flaws = Lane::builder().build().unwrap_err();
    let codes: Vec<&str> = flaws.list.iter().map(|flaw| flaw.code).collect();
    assert_eq!(codes, ["out-of-range", "out-of-range", "no-limits", "path-ends", "path-ends", "no-protector"]);
    assert_eq!(flaws.to_string().lines().count(), 6);
    assert!(flaws.to_string().contains("the path has no protector"), "{flaws}");
    let range = figures::IMPEDANCE.range();
    assert!(flaws.to_string().contains(&range), "{flaws}");
}

#[test]
fn whatever_the_numbers_are_the_builder_answers() {
    let wild = [f64::NAN, f64::INFINITY, -1.0, 0.0, -0.0, 1e-320, 1e308, 0.3e-12, 50.0, 5e9];
    let random = &mut Random(23);
    let mut built = 0;
    for turn in 0..20_000 {
        // The values of a lane that is built, but for a few of them.
        let often = [0.02, 0.1, 1.0][turn % 3];
        let mut value = |good: f64| if random.chance(often) { wild[random.index(wild.len())] } else { good };
        let (rate, reference, level) = (value(5e9), value(50.0), value(0.5));
        let place = Protector { fitted: Some(Farad(value(0.3e-12))), pad: Farad(value(0.0)), ..Protector::default() };
        let (trace, ends) = ((value(50.0), value(0.01), value(3.4)), (value(50.0), value(50.0)));
        let (via, coil, leak) = ((value(1e-13), value(1e-10)), value(1e-10), value(1e4));
        let protectors = if random.chance(often) { random.index(3) } else { 1 };
        let empty = random.chance(often / 4.0);
        let lane = Lane::builder()
            .rate(Baud(rate), Modulation::Nrz)
            .reference(Ohm(reference))
            .limit(LaneLimit::Loss(Loss::Added, Over::Level(level)))
            .path(|p| {
                if empty {
                    return p;
                }
                let p = p.driver(Ohm(ends.0)).trace(Ohm(trace.0), Metre(trace.1), trace.2);
                let p = p.connector(Farad(via.0), Henry(via.1)).series(Immittance::Inductance(Henry(coil)));
                let p = (0..protectors).fold(p, |p, _| p.protector(place.clone()));
                p.shunt(Immittance::Resistance(Ohm(leak))).receiver(Ohm(ends.1))
            })
            .build();
        match lane {
            Ok(lane) => {
                assert!(!empty && protectors == 1 && rate.is_finite() && level.is_finite());
                built += 1;
                // Some cannot be computed; no number is then made of it.
                if let Ok(outcome) = size_lane(&lane, Figures::Nyquist) {
                    let most = outcome.sized.budget.capacitance;
                    assert!(most.is_none_or(|most| most.0 >= 0.0), "{most:?} of {lane:?}");
                }
            }
            Err(flaws) => assert!(!flaws.list.is_empty() && !flaws.to_string().is_empty()),
        }
    }
    assert!((2_000..18_000).contains(&built), "{built} are built");
}
