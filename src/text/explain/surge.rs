//! The working of a surge: its wave, the straight lines of parts and chip, and what they carry.

use super::struck::{clamp_lines, line_rows, numbered};
use super::write::{amount, heading, say};
use crate::model::Line;
use crate::transient::{
    LineDischarge, NEGATIVE, PartInSurge, PartLines, Sign, StraightLine, StruckPart, Surge, SurgeOutcome, SurgeWave,
};
use crate::units::decimal::working::real;
use crate::units::{Ampere, Second, Volt};
use crate::words::discharge;

/// Adds the working of the surge that a line states.
pub(super) fn surge(text: &mut String, line: &Line, found: &LineDischarge) {
    let Some((stated, outcome)) = Surge::of(&line.head.demands).zip(found.surge.as_ref()) else { return };
    heading(text, "Surge", '-');
    let outcome = match outcome {
        Ok(outcome) => outcome,
        Err(why) => return say!(text, "  The surge is not computed: {why}."),
    };
    say!(text, "  An estimate of a {}; verify on the built board.", discharge::surge(stated));
    wave(text, stated);
    say!(text, "  Resistances alone: lines, inductances, resistances and capacitances to ground are left out, and a");
    say!(text, "  capacitance in series is a short.");
    for (part, _) in &outcome.parts {
        let both = [Sign::Positive, Sign::Negative].map(|sign| PartLines::in_surge(&part.part, sign));
        if let [Some(positive), Some(negative)] = &both {
            say!(text, "  {}, at its terminals:", numbered(part));
            line_rows(text, [positive, negative]);
        }
    }
    match found.chip.clamp {
        Some(clamp) => say!(text, "  The chip's clamp: {}", clamp_lines(&found.chip, clamp)),
        None => say!(text, "  The chip states no `clamps`: it draws no current."),
    }
    // What is stated in both polarities, and the one that leaves the pin at the highest voltage where that is weaker.
    let worst = found.surges().max_by(|a, b| a.2.pin_peak.0.total_cmp(&b.2.pin_peak.0).then(a.0.total_cmp(&b.0)));
    for (share, sign, of) in found.surges().filter(|surge| surge.0 >= 1.0).chain(worst.filter(|worst| worst.0 < 1.0)) {
        numbers(text, found, (stated, share, sign), of);
    }
}

fn wave(text: &mut String, stated: Surge) {
    let wave = match stated {
        Surge::Current(peak) => {
            say!(text, "  Source: i(t) = {peak} w(t), with 1 Mohm beside it");
            SurgeWave::Current
        }
        Surge::Voltage(peak, through) => {
            say!(text, "  Source: v(t) = {peak} w(t) behind {through}");
            SurgeWave::Voltage
        }
    };
    let (rise, exponent, fall, k) = wave.constants();
    let (rise, fall, k) = (Second(rise), Second(fall), real(k));
    say!(
        text,
        "    w(t) = x/(1 + x) e^(-t/{fall})/k, x = (t/{rise})^{exponent}, k = {k} (IEC 61000-4-5:2014, from memory)"
    );
}

/// What everything carries at most, and the voltage that its straight line has there.
fn numbers(text: &mut String, found: &LineDischarge, (stated, share, sign): (Surge, f64, Sign), of: &SurgeOutcome) {
    let weaker = if share < 1.0 { ", weaker and worse at the pin" } else { "" };
    say!(text, "  A {} {}{weaker}:", sign.word(), discharge::surge(stated.share(share)));
    let snaps = of.parts.iter().any(|(part, _)| part.part.strength.holding.is_some());
    if let (Surge::Current(peak), false) = (stated.share(share), snaps) {
        let of_parts = of.parts.iter().map(|(part, seen)| format!("{} in {}", amount(seen.peak), numbered(part)));
        let of_chip = of.pin_peak_current.map(|current| format!("{} in the chip", amount(current)));
        let all: Vec<String> = of_parts.chain(of_chip).collect();
        say!(text, "    {} at its peak = {}", amount(peak), all.join(" + "));
    }
    for (part, seen) in &of.parts {
        part_row(text, part, seen, sign);
    }
    let volts = amount(of.pin_peak);
    match found.chip.clamp.zip(of.pin_peak_current.filter(|current| current.0 > 0.0)) {
        Some((clamp, current)) => {
            let from = match sign {
                Sign::Positive => clamp.voltage,
                Sign::Negative => found.chip.negative.unwrap_or(NEGATIVE),
            };
            let line = StraightLine { from, intercept: from, slope: clamp.resistance };
            say!(text, "    pin: at most {volts}; the chip carries at most {}", on(&line, current));
        }
        None => say!(text, "    pin: at most {volts}, no current into the chip"),
    }
}

fn part_row(text: &mut String, part: &StruckPart, seen: &PartInSurge, sign: Sign) {
    let name = numbered(part);
    let line = PartLines::in_surge(&part.part, sign).and_then(|lines| lines.lines.last().copied());
    match (seen.on_at, line) {
        (Some(at), Some(line)) => {
            let (at, energy) = (amount(at), amount(seen.energy));
            say!(text, "    {name}: starts to conduct after {at}, carries at most {}", on(&line, seen.peak));
            say!(text, "      energy {energy}, charge over highest current {}", amount(seen.length));
        }
        _ => say!(text, "    {name}: does not conduct"),
    }
}

/// A current with the voltage of its straight line.
fn on(line: &StraightLine, current: Ampere) -> String {
    let volts = Volt(line.intercept.0 + line.slope.0 * current.0);
    let (from, slope, current) = (amount(line.intercept), amount(line.slope), amount(current));
    format!("{current}, at V + R I = {from} + {slope} * {current} = {}", amount(volts))
}
