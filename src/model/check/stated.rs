//! The ranges of what is stated of an element and does not enter the circuit as it is.

use super::flaw::Place;
use super::strength;
use super::values::{Found, Values};
use crate::figures::*;
use crate::model::{
    Attenuation, Laminate, LineMake, Part, Roughness, Stated, StatedGuard, StatedLength, StatedLine, StatedProtector,
    StatedVia, ViaMake,
};

/// Holds stated values against the range a sheet gives them.
pub(super) fn check(stated: &Stated, of: &mut Values<'_>) {
    match stated {
        Stated::AsIs => {}
        Stated::Line(line) => check_line(line, of),
        Stated::Via(via) => check_via(via, of),
        Stated::Protector(StatedProtector { part, .. }) => {
            part.iter().for_each(|part| check_part(part, Place::Value(of.index, "part"), of.found));
        }
        Stated::Guard(StatedGuard { part, .. }) => check_part(part, Place::Value(of.index, "part"), of.found),
    }
}

fn check_line(line: &StatedLine, of: &mut Values<'_>) {
    match line.length {
        StatedLength::Length(length) => of.within("length", length.0, LENGTH),
        StatedLength::Delay(delay) => of.within("delay", delay.0, DELAY),
    }
    match &line.make {
        LineMake::Impedance(make) => {
            of.within("impedance", make.impedance.0, IMPEDANCE);
            make.permittivity.iter().for_each(|e| of.within("permittivity", *e, PERMITTIVITY));
            for stated in &make.losses {
                match stated.loss {
                    Attenuation::Total(loss) => of.within("loss", loss, LOSS),
                    Attenuation::PerMetre(loss) => of.within("loss", loss, LOSS_PER_LENGTH),
                }
                of.within("frequency", stated.frequency.0, FREQUENCY);
            }
            make.loss_tangent.iter().for_each(|t| of.within("loss_tangent", *t, LOSS_TANGENT));
        }
        LineMake::Microstrip(shape) | LineMake::Stripline(shape) => {
            of.within("width", shape.width.0, SIZE);
            of.within("height", shape.height.0, SIZE);
            shape.gap.iter().for_each(|gap| of.within("gap", gap.0, SIZE));
            check_laminate(&shape.laminate, of);
        }
    }
}

fn check_laminate(laminate: &Laminate, of: &mut Values<'_>) {
    of.within("permittivity", laminate.permittivity.0, PERMITTIVITY);
    of.within("loss_tangent", laminate.loss_tangent.0, LOSS_TANGENT);
    for frequency in [laminate.permittivity.1, laminate.loss_tangent.1].iter().flatten() {
        of.within("frequency", frequency.0, FREQUENCY);
    }
    of.within("copper", laminate.copper.0, SIZE);
    of.within("resistivity", laminate.resistivity, RESISTIVITY);
    match laminate.roughness {
        Roughness::Smooth => {}
        Roughness::Hammerstad { rms } => of.within("roughness", rms.0, ROUGHNESS),
        Roughness::Huray { count, radius, area } => {
            of.within("count", count, BALLS);
            of.within("radius", radius.0, SIZE);
            of.within("area", area, AREA);
        }
    }
}

fn check_via(via: &StatedVia, of: &mut Values<'_>) {
    if let ViaMake::Geometry { barrel, drill, pad, antipad, laminate } = &via.make {
        for (name, size) in [("barrel", barrel), ("drill", drill), ("pad", pad), ("antipad", antipad)] {
            of.within(name, size.0, SIZE);
        }
        check_laminate(laminate, of);
    }
}

/// What a part's worst capacitance follows from, and its curve.
pub(super) fn check_part(part: &Part, at: Place, found: &mut Found) {
    if part.to_ground.is_none() && part.across.is_none() {
        found.push("missing-line", at, "this part states no capacitance");
    }
    for rating in [part.to_ground, part.across].iter().flatten() {
        found.derived(at, "capacitance", rating.maximum.0);
        rating.bias.iter().for_each(|bias| found.within(at, "bias", bias.0, SIGNED_VOLTAGE));
    }
    if let Some(grading) = &part.grading {
        found.within(at, "grading", grading.voltage.0, VOLTAGE);
        found.within(at, "grading", grading.exponent, EXPONENT);
    }
    strength::check(&part.strength, at, found);
    if let Some(flaw) = part.contradiction() {
        found.cured(flaw.code, at, flaw.message, flaw.help);
    }
}
