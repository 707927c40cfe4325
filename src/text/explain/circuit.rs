//! The half circuit, its elements and its chain at Nyquist.

use std::f64::consts::TAU;

use super::write::{heading, say};
use crate::diag::{inert, shorten};
use crate::model::{
    AddressedValue, Antenna, Barrel, Element, Guard, Immittance, Lane, Owner, Path, PathElement, Protector, Resonator,
    TransmissionLine, Via,
};
use crate::network::{Chain, Mobius, Section, TwoPort, sections_of};
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{complex, frequency, real};
use crate::units::{DB_PER_NEPER, Hertz, Metre, Ohm};
use crate::words::value::value;

pub(crate) fn half_circuit(text: &mut String, lane: &Lane, chain: &Chain) {
    heading(text, "2  Half circuit", '-');
    let (source, load) = chain.ends();
    if lane.differential {
        say!(
            text,
            "  A differential pair is computed on its odd-mode half circuit: driver, receiver, lines, shunt R and the"
        );
        say!(text, "  reference are halved; every C and L, series R and the part are per line as stated.");
        say!(text, "  Z_ref = {} ohm / 2 = {} ohm", real(lane.reference.0), real(chain.reference().0));
    } else {
        say!(text, "  A single-ended line: Z_ref = {} ohm", real(chain.reference().0));
    }
    let load = load.map_or("open".to_owned(), |z| format!("{} ohm", real(z.0)));
    say!(text, "  Z_source = {} ohm, Z_receiver = {load}", real(source.0));
    let outer = if lane.path.driver_is_outer() { "driver" } else { "receiver" };
    say!(text, "  Outer end: the {outer}. Return loss is seen {}, looking in.", chain.reference_plane());
}

/// In which circuit and at which frequency elements are shown.
pub(crate) struct Frame<'a> {
    pub(crate) values: &'a [AddressedValue],
    pub(crate) across: f64,
    pub(crate) reference: Ohm,
    pub(crate) frequency: Hertz,
}

pub(crate) fn elements(text: &mut String, path: &Path, frame: &Frame<'_>, title: &str) {
    heading(text, title, '-');
    say!(text, "  Each with its chain matrix [A B; C D], B in ohm, C in siemens.");
    for (index, element) in path.elements.iter().enumerate() {
        say!(text, "  {}. {}{}", element.number, describe(frame, element), neck(frame, path, index));
        addresses(text, frame.values, |owner| *owner == Owner::Element(element.number));
        for section in sections_of(path, index, frame.across, frame.reference) {
            say!(text, "       {}", formula(&section, frame.frequency));
            matrix(text, &section.two_port(frame.frequency));
        }
    }
    blocks(text, frame.values);
}

/// The values that have an address, each beside it; nothing where there are none.
pub(crate) fn addresses(text: &mut String, values: &[AddressedValue], is_own: impl Fn(&Owner) -> bool) {
    let own = values.iter().filter(|value| is_own(&value.address.owner));
    let said = own.map(|own| match own.nominal {
        Some(nominal) => format!("{} = {}", inert(&own.address.to_string()), value(nominal, own.range.dimension)),
        None => format!("{} not stated", inert(&own.address.to_string())),
    });
    for row in said.collect::<Vec<_>>().chunks(3) {
        say!(text, "       {}", row.join(", "));
    }
}

/// The same of the line itself.
pub(crate) fn of_line(text: &mut String, values: &[AddressedValue]) {
    addresses(text, values, |owner| *owner == Owner::Line);
}

/// The same of its parts and board materials.
pub(crate) fn blocks(text: &mut String, values: &[AddressedValue]) {
    addresses(text, values, |owner| matches!(owner, Owner::Part(_) | Owner::Laminate(_)));
}

/// What the neck of the protector makes of an element.
fn neck(frame: &Frame<'_>, path: &Path, index: usize) -> String {
    if let Some([outer, inner]) = path.cut(index) {
        return format!(
            "; cut into {} of {} and {} of {}",
            si(outer.length.0, "m"),
            si(outer.impedance.0, "ohm"),
            si(inner.length.0, "m"),
            si(inner.impedance.0, "ohm")
        );
    }
    let own = path.protector().filter(|_| index == path.protector_index()).and_then(|protector| protector.neck);
    let Some((neck, balances)) = own.zip(path.neck_balances(frame.across, frame.reference)) else {
        return String::new();
    };
    let (z, length, c) = (si(neck.impedance.0, "ohm"), si(neck.length.0, "m"), si(balances.0, "F"));
    format!("; neck of {z}, {length} on either side: balances C + pad = {c} at low frequency")
}

fn describe(frame: &Frame<'_>, element: &PathElement) -> String {
    match &element.element {
        Element::Driver(driver) => format!("driver {}, pad {}", si(driver.impedance.0, "ohm"), si(driver.pad.0, "F")),
        Element::Receiver(receiver) => {
            let impedance = receiver.impedance.map_or("open".to_owned(), |z| si(z.0, "ohm"));
            format!("receiver {impedance}, pad {}", si(receiver.pad.0, "F"))
        }
        Element::Antenna(antenna) => describe_antenna(antenna),
        Element::Radio(radio) => format!("radio {}, pad {}", si(radio.impedance.0, "ohm"), si(radio.pad.0, "F")),
        Element::Pin(pin) => format!("pin, pad {}", si(pin.pad.0, "F")),
        Element::Guard(guard) => describe_guard(frame, guard),
        Element::Line(line) => describe_line(element.element.word(), line),
        Element::Connector { capacitance, inductance } => {
            let inductance = inductance.map_or(String::new(), |l| format!(", {}", si(l.0, "H")));
            format!("connector {}{inductance}", si(capacitance.0, "F"))
        }
        Element::Via(via) => describe_via(via),
        Element::Series(part) => format!("series {}", describe_immittance(part)),
        Element::Shunt(part) => format!("shunt {}", describe_immittance(part)),
        Element::Plane => "plane: the port plane".to_owned(),
        Element::Protector(protector) => describe_protector(frame, protector),
    }
}

fn describe_antenna(antenna: &Antenna) -> String {
    let resonator = |kind, r: &Resonator| {
        let (f0, resistance, q) = (frequency(r.frequency.0), si(r.resistance.0, "ohm"), real(r.quality));
        format!("antenna, {kind} resonator: f0 = {f0}, R = {resistance}, Q = {q}")
    };
    match antenna {
        Antenna::Series(r) => resonator("series", r),
        Antenna::Parallel(r) => resonator("parallel", r),
        Antenna::Resistance(r) => format!("antenna {}", si(r.0, "ohm")),
        Antenna::Table(table) => {
            let (name, z) = (inert(&shorten(&table.name, 60)), si(table.reference.0, "ohm"));
            format!("antenna, the table \"{name}\" of {} measured points in {z}", table.points.len())
        }
    }
}

fn describe_line(word: &str, line: &TransmissionLine) -> String {
    let (impedance, length) = (si(line.impedance.0, "ohm"), si(line.length.0, "m"));
    let lossless = format!("{word} {impedance}, {length}, permittivity {}", real(line.permittivity));
    let loss = &line.loss;
    if loss.conductor <= 0.0 && loss.loss_tangent <= 0.0 {
        return lossless;
    }
    let (at, tangent) = (si(loss.reference.0, "Hz"), real(loss.loss_tangent));
    let conductor = real(loss.conductor * line.length.0 * DB_PER_NEPER);
    format!("{lossless}; at f_ref = {at}: conductor loss {conductor} dB, loss tangent {tangent}")
}

fn describe_via(via: &Via) -> String {
    let barrel = match via.barrel {
        Barrel::Lumped { capacitance, inductance } => {
            si(capacitance.0, "F") + &inductance.map_or(String::new(), |l| format!(", {}", si(l.0, "H")))
        }
        Barrel::Line { impedance, length, permittivity } => {
            let (impedance, length) = (si(impedance.0, "ohm"), si(length.0, "m"));
            format!("barrel {impedance}, {length}, permittivity {}", real(permittivity))
        }
    };
    let stub = via.stub.map_or(String::new(), |stub| {
        format!(", stub {} of permittivity {}", si(stub.length.0, "m"), real(stub.permittivity))
    });
    format!("via {barrel}{stub}")
}

fn describe_immittance(part: &Immittance) -> String {
    match part {
        Immittance::Resistance(r) => si(r.0, "ohm"),
        Immittance::Inductance(l) => si(l.0, "H"),
        Immittance::Capacitance(c) => si(c.0, "F"),
    }
}

fn describe_protector(frame: &Frame<'_>, protector: &Protector) -> String {
    let pad = si(protector.pad.0, "F");
    let inductance = si(protector.part_inductance.0 + protector.ground_inductance().0, "H");
    let resistance = si(protector.part_resistance.0 + protector.resistance.0, "ohm");
    let named = protector.part.as_ref().zip(protector.fitted).zip(protector.bias);
    let worst = named.map_or(String::new(), |((_, c), bias)| {
        let place = if protector.across { "between the lines of the pair" } else { "to ground" };
        format!(", of the part at worst {} at {} {place}", si(c.0, "F"), si(bias.0, "V"))
    });
    let direct = format!("protector C{worst}, pad {pad}, in series with C: L = {inductance}, R = {resistance}");
    direct + &at_stub(frame, protector.stub, protector.stub_permittivity)
}

fn describe_guard(frame: &Frame<'_>, guard: &Guard) -> String {
    let (name, pad) = (inert(&shorten(&guard.part.name, 60)), si(guard.pad.0, "F"));
    let place = if guard.across { "between the lines of the pair" } else { "to ground" };
    let bias = guard.bias.map_or(String::new(), |bias| format!(" at {} {place}", si(bias.0, "V")));
    let (c, resistance) = (si(guard.capacitance.0, "F"), si(guard.part_resistance.0, "ohm"));
    let inductance = si(guard.part_inductance.0 + guard.ground_inductance().0, "H");
    let direct = format!(
        "guard \"{name}\" C = {c} at worst{bias}, pad {pad}, in series with C: L = {inductance}, R = {resistance}"
    );
    direct + &at_stub(frame, guard.stub, guard.stub_permittivity)
}

fn at_stub(frame: &Frame<'_>, length: Metre, permittivity: f64) -> String {
    if length.0 <= 0.0 {
        return String::new();
    }
    let (stub, z) = (si(length.0, "m"), real(frame.reference.0));
    format!("; at the end of a stub of {stub}, {z} ohm, permittivity {}", real(permittivity))
}

/// The element's model, with its reactance.
fn formula(section: &Section, frequency: Hertz) -> String {
    let omega = TAU * frequency.0;
    let reactance_c = |c: f64| {
        if c > 0.0 { format!("{} ohm", real(1.0 / (omega * c))) } else { "open".to_owned() }
    };
    match *section {
        Section::SeriesResistance(r) => format!("series Z = R = {} ohm", real(r.0)),
        Section::SeriesInductance(l) => format!("series Z = j omega L = j {} ohm", real(omega * l.0)),
        Section::SeriesCapacitance(c) => format!("series Z = 1/(j omega C), 1/(omega C) = {}", reactance_c(c.0)),
        Section::ShuntResistance(r) => format!("shunt Y = 1/R, R = {} ohm", real(r.0)),
        Section::ShuntInductance(l) => format!("shunt Y = 1/(j omega L), omega L = {} ohm", real(omega * l.0)),
        Section::ShuntCapacitance(c) => format!("shunt Y = j omega C, 1/(omega C) = {}", reactance_c(c.0)),
        Section::Tee { capacitance, inductance } => {
            let (l, c) = (real(omega * inductance.0 / 2.0), reactance_c(capacitance.0));
            format!("T: L/2, shunt C, L/2; omega L/2 = {l} ohm, 1/(omega C) = {c}")
        }
        Section::Pi { capacitance, inductance } => {
            let (l, c) = (real(omega * inductance.0), reactance_c(capacitance.0 / 2.0));
            format!("pi: shunt C/2, L, shunt C/2; omega L = {l} ohm, 2/(omega C) = {c}")
        }
        Section::OpenStub { impedance, delay } => {
            let (z, tau, angle) = (real(impedance.0), si(delay.0, "s"), real(omega * delay.0));
            format!("open stub: shunt Y = j tan(omega tau)/Z, Z = {z} ohm, tau = {tau}, omega tau = {angle} rad")
        }
        Section::Guard { branch, capacitance } => {
            let (c, y) = (si(capacitance.0, "F"), complex(branch.admittance(frequency).at(capacitance.0)));
            let stub = if branch.stub_delay.0 > 0.0 { ", through its stub" } else { "" };
            format!("guard: shunt Y of its pad beside C = {c} in series with L and R{stub}: {y} S")
        }
        Section::Line(line) => {
            let (gamma, impedance) = line.constants(frequency);
            let (angle, z) = (complex(gamma * line.length().0), complex(impedance));
            format!(
                "line: gamma l = {angle}, Zc = {z} ohm; A = D = cosh gamma l, B = Zc sinh gamma l, C = sinh gamma l/Zc"
            )
        }
    }
}

pub(crate) fn chain(text: &mut String, lane: &Lane, chain: &Chain) {
    let nyquist = lane.nyquist();
    heading(text, "4  Chain at f_N", '-');
    halves(text, chain, nyquist, ("outer end", "inner end"));
    say!(text, "    Y = j omega C_pad + j omega C/(1 + j omega C (R + j omega L)), through its stub where it has one");
    mobius(text, "Y", &chain.branch().admittance(nyquist));
    say!(
        text,
        "  The protector adds Y(C) times (column 2 of the outer matrix)(row 1 of the inner matrix), so every figure
  keeps that form. From [A B; C D], with Z = Z_ref and D0 = A + B/Z + C Z + D:
    S11 = (A + B/Z - C Z - D)/D0 of the part inward of the port plane, S21 = 2/D0, S22 = (-A + B/Z - C Z + D)/D0,
    H = V_receiver/V_source (Z_source + Z_receiver)/Z_receiver
  S(C) = (p + q C)/(r + s C), C in pF:"
    );
    let point = chain.at(nyquist);
    for (name, function, absent) in [
        ("S11", &point.s11, point.absent.s11),
        ("S21", &point.s21, point.absent.s21),
        ("S22", &point.s22, point.absent.s22),
        ("H", &point.transfer, point.absent.transfer),
    ] {
        mobius(text, name, function);
        say!(text, "      absent: {name} = {}, |{name}| = {}", complex(absent), real(absent.norm()));
    }
}

/// What lies on both sides of the protector, up to the named ends.
pub(crate) fn halves(text: &mut String, chain: &Chain, at: Hertz, (outer, inner): (&str, &str)) {
    let [outward, inward] = chain.halves(at);
    say!(text, "  Product of the matrices from the {outer} to the protector:");
    matrix(text, &outward);
    say!(text, "  and from the protector to the {inner}:");
    matrix(text, &inward);
    say!(text, "  Y(C) = (p + q C)/(r + s C) of the protector with its pad, C in pF, Y in siemens:");
}

/// The coefficients over r, so that r = 1, per picofarad.
pub(crate) fn mobius(text: &mut String, name: &str, function: &Mobius) {
    let unit = if function.r.norm() > 0.0 { function.r } else { num_complex::Complex64::new(1.0, 0.0) };
    let [p, q, r, s] = [function.p, function.q * 1e-12, function.r, function.s * 1e-12].map(|c| complex(c / unit));
    say!(text, "    {name}: p = {p}, q = {q},\n      r = {r}, s = {s}");
}

fn matrix(text: &mut String, m: &TwoPort) {
    say!(text, "       A = {},  B = {}", complex(m.a), complex(m.b));
    say!(text, "       C = {},  D = {}", complex(m.c), complex(m.d));
}
