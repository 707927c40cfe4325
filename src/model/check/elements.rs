//! The values of a path's elements.

use super::flaw::Place;
use super::values::{Found, Values};
use super::{chip, stated};
use crate::figures::*;
use crate::model::{
    Antenna, Barrel, Driver, Element, Guard, Immittance, Mismatch, Path, Protector, Receiver, TAP_CURE,
    TransmissionLine, Via, tap_fault,
};
use crate::units::SPEED_OF_LIGHT;

/// Holds every value against the range a sheet gives it.
pub(super) fn check(path: &Path, found: &mut Found) {
    for (index, element) in path.elements.iter().enumerate() {
        let mut of = Values { index, found };
        stated::check(&element.stated, &mut of);
        element.element.chip().iter().for_each(|stated| chip::check(stated, &mut of));
        match &element.element {
            Element::Driver(driver) => check_driver(driver, &mut of),
            Element::Receiver(receiver) => check_receiver(receiver, &mut of),
            Element::Antenna(antenna) => check_antenna(antenna, &mut of),
            Element::Radio(radio) => {
                of.within("impedance", radio.impedance.0, IMPEDANCE);
                of.within("pad", radio.pad.0, CAPACITANCE);
            }
            Element::Pin(pin) => of.within("pad", pin.pad.0, CAPACITANCE),
            Element::Line(line) => check_line(line, &mut of),
            Element::Connector { capacitance, inductance } => {
                of.within("capacitance", capacitance.0, CAPACITANCE);
                inductance.iter().for_each(|l| of.within("inductance", l.0, INDUCTANCE));
            }
            Element::Via(via) => check_via(via, &mut of),
            Element::Series(Immittance::Resistance(r)) => of.within("resistance", r.0, RESISTANCE),
            Element::Series(Immittance::Inductance(l)) => of.within("inductance", l.0, INDUCTANCE),
            Element::Series(Immittance::Capacitance(c)) => of.within("capacitance", c.0, CAPACITANCE_ABOVE_ZERO),
            Element::Shunt(Immittance::Resistance(r)) => of.within("resistance", r.0, SHUNT_RESISTANCE),
            Element::Shunt(Immittance::Inductance(l)) => of.within("inductance", l.0, INDUCTANCE_ABOVE_ZERO),
            Element::Shunt(Immittance::Capacitance(c)) => of.within("capacitance", c.0, CAPACITANCE),
            Element::Plane => {}
            Element::Protector(protector) => check_protector(protector, &mut of),
            Element::Guard(guard) => check_guard(guard, &mut of),
        }
    }
    if let Some(fault) = path.neck_fault() {
        found.cured(fault.code, Place::Value(path.protector_index(), "neck"), fault.message, &fault.help);
    }
}

fn check_driver(driver: &Driver, of: &mut Values<'_>) {
    of.within("impedance", driver.impedance.0, IMPEDANCE);
    of.within("pad", driver.pad.0, CAPACITANCE);
    driver.rise.iter().for_each(|t| of.within("rise", t.0, TIME));
    driver.swing.iter().for_each(|v| of.within("swing", v.0, VOLTAGE));
    if let Some(taps) = &driver.taps {
        taps.iter().for_each(|tap| of.within("taps", *tap, TAP));
        if let Some(message) = tap_fault(*taps) {
            of.found.cured("tap-sum", Place::Value(of.index, "taps"), message, TAP_CURE);
        }
    }
}

fn check_receiver(receiver: &Receiver, of: &mut Values<'_>) {
    receiver.impedance.iter().for_each(|z| of.within("impedance", z.0, IMPEDANCE));
    of.within("pad", receiver.pad.0, CAPACITANCE);
    if let Some(ctle) = &receiver.ctle {
        of.within("peaking", ctle.peaking, PEAKING);
        ctle.zero.iter().for_each(|f| of.within("zero", f.0, FREQUENCY));
        ctle.poles.iter().flatten().for_each(|f| of.within("poles", f.0, FREQUENCY));
    }
    if receiver.dfe > 0 {
        of.within("dfe", receiver.dfe as f64, FEEDBACK);
    }
    receiver.dfe_limit.iter().for_each(|limit| of.within("limit", *limit, TAP_LIMIT));
    receiver.needs.iter().for_each(|v| of.within("needs", v.0, VOLTAGE));
}

fn check_antenna(antenna: &Antenna, of: &mut Values<'_>) {
    match antenna {
        Antenna::Series(resonator) | Antenna::Parallel(resonator) => {
            of.within("frequency", resonator.frequency.0, FREQUENCY);
            of.within("resistance", resonator.resistance.0, IMPEDANCE);
            of.within("quality", resonator.quality, QUALITY);
        }
        Antenna::Resistance(resistance) => of.within("resistance", resistance.0, IMPEDANCE),
        Antenna::Table(table) => {
            of.within("reference", table.reference.0, IMPEDANCE);
            if table.points.len() < 2 || table.points.windows(2).any(|pair| pair[0].frequency >= pair[1].frequency) {
                let message = "a table has at least two points, rising in frequency";
                of.found.push("table-order", Place::Element(of.index), message);
            }
        }
    }
}

fn check_line(line: &TransmissionLine, of: &mut Values<'_>) {
    of.within("impedance", line.impedance.0, IMPEDANCE);
    // A length may be stated as its delay.
    let longest = (SPEED_OF_LIGHT * DELAY.high).max(LENGTH.high);
    of.within("length", line.length.0, Range { high: longest, ..LENGTH });
    of.within("permittivity", line.permittivity, PERMITTIVITY);
    of.derived("reference", line.loss.reference.0);
    of.derived("conductor", line.loss.conductor);
    of.derived("loss_tangent", line.loss.loss_tangent);
    let share = line.loss.inductance_ratio(line.permittivity);
    // Not a number where the reference is 0.
    if share >= 1.0 || share.is_nan() {
        of.found.cured(
            "loss-too-high",
            Place::Element(of.index),
            "this loss is too high for a line of this impedance and delay",
            "the conductor's internal inductance alone would exceed the line's; check the loss and its frequency",
        );
    }
}

fn check_via(via: &Via, of: &mut Values<'_>) {
    match via.barrel {
        Barrel::Lumped { capacitance, inductance } => {
            of.within("capacitance", capacitance.0, CAPACITANCE);
            inductance.iter().for_each(|l| of.within("inductance", l.0, INDUCTANCE));
        }
        Barrel::Line { impedance, length, permittivity } => {
            of.within("impedance", impedance.0, IMPEDANCE);
            of.within("length", length.0, LENGTH);
            of.within("permittivity", permittivity, PERMITTIVITY);
        }
    }
    if let Some(stub) = &via.stub {
        of.within("stub", stub.length.0, LENGTH);
        of.within("permittivity", stub.permittivity, PERMITTIVITY);
    }
}

fn check_guard(guard: &Guard, of: &mut Values<'_>) {
    of.derived("capacitance", guard.capacitance.0);
    of.within("pad", guard.pad.0, CAPACITANCE);
    of.derived("part_inductance", guard.part_inductance.0);
    of.derived("part_resistance", guard.part_resistance.0);
    of.within("inductance", guard.inductance.0, INDUCTANCE);
    of.within("stub", guard.stub.0, LENGTH);
    of.within("stub_permittivity", guard.stub_permittivity, PERMITTIVITY);
}

fn check_protector(protector: &Protector, of: &mut Values<'_>) {
    protector.fitted.iter().for_each(|c| of.derived("fitted", c.0));
    of.within("pad", protector.pad.0, CAPACITANCE);
    of.derived("part_inductance", protector.part_inductance.0);
    of.derived("part_resistance", protector.part_resistance.0);
    of.within("inductance", protector.inductance.0, INDUCTANCE);
    of.within("resistance", protector.resistance.0, RESISTANCE);
    of.within("stub", protector.stub.0, LENGTH);
    of.within("stub_permittivity", protector.stub_permittivity, PERMITTIVITY);
    if let Some(neck) = &protector.neck {
        of.within("neck", neck.impedance.0, IMPEDANCE);
        of.within("neck", neck.length.0, LENGTH);
    }
    match protector.mismatch {
        Some(Mismatch::Absolute(difference)) => of.derived("mismatch", difference.0),
        Some(Mismatch::Share(share)) => of.within("mismatch", share, MISMATCH),
        None => {}
    }
    protector.spread.iter().for_each(|t| of.within("spread", *t, SPREAD));
}
