//! What the circuit has follows from what is stated, and follows again after a change.

use lanecap::model::{
    Element, Feed, Kind, Lane, LineImpedance, LineMake, Path, Stated, StatedLength, StatedLine, VoltageRange, Voltages,
};
use lanecap::resolve::{Flaw, Place, Surroundings, path};
use lanecap::units::{Farad, Hertz, Metre, Second, Volt};

use crate::support::{files, lanes, read_file, read_text};

/// The elements to the last bit: a `Debug` number reads back as the same double.
fn bits(path: &Path) -> Vec<String> {
    path.elements.iter().map(|place| format!("{:?}", place.element)).collect()
}

/// A lane with a trace of this geometry at this rate, its stub from that trace.
fn sheet(rate: &str, trace: &str) -> String {
    format!(
        "laminate \"board\" {{ permittivity 4.1 at 1 GHz; loss_tangent 0.015 at 1 GHz }}
part \"clamp\" {{ capacitance 0.4 pF max at 2 V; inductance 0.3 nH; bidirectional }}
lane \"link\" {{
    rate {rate}; reference 90 ohm differential; line_voltage 0 V to 3.3 V; limit added_loss <= 1 dB
    path {{
        driver 90 ohm
        cable 90 ohm 5 ns loss 3 dB at 2 GHz
        trace {trace} on \"board\"
        protector part \"clamp\" pad 0.05 pF stub 0.5 mm
        via barrel 1 mm drill 0.2 mm pad 0.45 mm antipad 0.7 mm stub 0.4 mm on \"board\"
        receiver 90 ohm
    }}
}}"
    )
}

/// The path of the lane of a sheet.
fn read(text: &str) -> Path {
    let (_, design) = read_text(text);
    lanes(design.unwrap()).remove(0).path
}

/// What the elements of such a sheet meet.
fn at(frequency: Hertz) -> Surroundings {
    let line_voltage = VoltageRange { low: Volt(0.0), high: Volt(3.3) };
    Surroundings { frequency, differential: true, voltages: Voltages { line: Some(line_voltage), pair: None } }
}

fn stated_line(path: &mut Path, number: usize) -> &mut StatedLine {
    match &mut path.elements[number - 1].stated {
        Stated::Line(line) => line,
        other => panic!("{other:?}"),
    }
}

const TRACE: &str = "30 mm microstrip width 0.2 mm height 0.12 mm gap 0.18 mm";

#[test]
fn every_good_sheet_resolves_again_to_the_last_bit() {
    let mut resolved = 0;
    for file in files("fixtures/sheets/ok", "lanes") {
        let (_, design) = read_file(&file);
        for mut line in design.unwrap().lines {
            let Some(surroundings) = Surroundings::of(&line) else { continue };
            let (Kind::Lane(Lane { path: elements, .. }) | Kind::Feed(Feed { path: elements, .. })) = &mut line.kind
            else {
                continue;
            };
            let before = bits(elements);
            for place in elements.elements.iter_mut().filter(|place| place.stated != Stated::AsIs) {
                place.element = Element::Plane;
                resolved += 1;
            }
            assert_ne!(bits(elements), before);
            path(elements, &surroundings).unwrap();
            assert_eq!(bits(elements), before, "{} of {}", line.head.name, file.display());
        }
    }
    assert!(resolved > 60, "only {resolved} elements were resolved again");
}

#[test]
fn a_changed_width_is_the_sheet_with_that_width() {
    let mut changed = read(&sheet("8 Gb/s nrz", TRACE));
    let before = bits(&changed);
    let LineMake::Microstrip(shape) = &mut stated_line(&mut changed, 3).make else { panic!("no microstrip") };
    shape.width = Metre::milli(0.25);
    path(&mut changed, &at(Hertz::giga(4.0))).unwrap();
    let fresh = bits(&read(&sheet("8 Gb/s nrz", &TRACE.replace("width 0.2 mm", "width 0.25 mm"))));
    assert_eq!(bits(&changed), fresh);
    // The trace, and the protector's stub, which has the permittivity of the trace.
    let differing = (0..before.len()).filter(|i| before[*i] != fresh[*i]).collect::<Vec<_>>();
    assert_eq!(differing, [2, 3]);
}

#[test]
fn a_changed_rate_is_the_sheet_with_that_rate() {
    let mut changed = read(&sheet("8 Gb/s nrz", TRACE));
    let before = bits(&changed);
    path(&mut changed, &at(Hertz::giga(6.0))).unwrap();
    let fresh = bits(&read(&sheet("12 Gb/s nrz", TRACE)));
    assert_eq!(bits(&changed), fresh);
    let differing = (0..before.len()).filter(|i| before[*i] != fresh[*i]).collect::<Vec<_>>();
    assert_eq!(differing, [2, 3, 4]);
}

#[test]
fn a_delay_stays_a_delay_and_a_total_loss_a_total() {
    let text = sheet("8 Gb/s nrz", TRACE);
    let mut changed = read(&text);
    let line = stated_line(&mut changed, 2);
    assert_eq!(line.length, StatedLength::Delay(Second::nano(5.0)));
    let LineMake::Impedance(LineImpedance { permittivity, .. }) = &mut line.make else { panic!("no impedance") };
    assert_eq!(*permittivity, None);
    *permittivity = Some(2.25);
    let remarks = path(&mut changed, &at(Hertz::giga(4.0))).unwrap();
    assert!(remarks.iter().all(|(number, remark)| *number != 2 || remark.code() != "default-permittivity"));
    let fresh = read(&text.replace("5 ns loss 3 dB", "5 ns permittivity 2.25 loss 3 dB"));
    assert_eq!(bits(&changed), bits(&fresh));
    let Element::Line(cable) = &changed.elements[1].element else { panic!("no cable") };
    // 5 ns at two thirds of the speed of light.
    assert!((cable.length.0 - 0.999_308_193).abs() < 1e-8, "{}", cable.length);
}

#[test]
fn what_cannot_be_leaves_the_path_as_it_was() {
    let mut changed = read(&sheet("8 Gb/s nrz", TRACE));
    stated_line(&mut changed, 2).length = StatedLength::Length(Metre(0.0));
    let LineMake::Microstrip(shape) = &mut stated_line(&mut changed, 3).make else { panic!("no microstrip") };
    shape.width = Metre::milli(0.25);
    let before = bits(&changed);
    let (number, flaw) = path(&mut changed, &at(Hertz::giga(4.0))).unwrap_err();
    assert_eq!((number, flaw, flaw.place()), (2, Flaw::LossWithoutLength(0), Place::Loss(0)));
    assert_eq!(bits(&changed), before);

    let mut single = read(&sheet("8 Gb/s nrz", TRACE));
    let alone = Surroundings { differential: false, ..at(Hertz::giga(4.0)) };
    assert_eq!(path(&mut single, &alone).unwrap_err(), (3, Flaw::GapOfSingleLine));
}

#[test]
fn a_fitted_capacitance_outlasts_a_change() {
    let mut fitted = read(&sheet("8 Gb/s nrz", TRACE));
    let part = fitted.protector().unwrap().part_inductance;
    fitted.fit(Farad::pico(0.7));
    let before = bits(&fitted);
    path(&mut fitted, &at(Hertz::giga(4.0))).unwrap();
    assert_eq!(bits(&fitted), before);
    let protector = fitted.protector().unwrap();
    assert_eq!((protector.fitted, protector.part_inductance), (Some(Farad::pico(0.7)), part));
    assert!(part.0 > 0.0 && protector.part.is_none());
}
