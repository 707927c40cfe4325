//! The working of a contact discharge: source, circuit, straight lines, assumptions, what both polarities leave, and the
//! numbers at two instants; that of a surge behind it.

use super::struck::{circuit, numbered, part_rows};
use super::surge::surge;
use super::write::{amount, heading, say};
use crate::model::{Kind, Line};
use crate::transient::{
    Bench, Contact, ContactDischarge, DISCHARGE_RESISTOR, LineDischarge, Outcome, PartLines, PinOutcome, Sign,
    StraightLine, StruckLine, StruckPart, Trace, struck,
};
use crate::units::decimal::working::real;
use crate::units::{Ampere, Joule, Ohm, Second, Volt};
use crate::words::discharge::{assumed, found};

/// The step of the numbers that are shown.
const STEP: Second = Second(0.5e-12);
/// When they are shown beside the pin's peak.
const LATER: Second = Second(30e-9);

/// The working of what strikes a line, as it is computed; nothing where nothing strikes it or it states no path.
pub(super) fn working(line: &Line, found: Option<&LineDischarge>) -> String {
    let mut text = String::new();
    let Some(found) = found else { return text };
    match &found.contact {
        None => {}
        Some(contact) => {
            heading(&mut text, "Discharge", '-');
            match contact {
                Err(why) => say!(text, "  The contact discharge is not computed: {why}."),
                Ok(contact) => both_polarities(&mut text, line, found, contact),
            }
        }
    }
    surge(&mut text, line, found);
    text
}

fn both_polarities(text: &mut String, line: &Line, found: &LineDischarge, contact: &Contact) {
    let lines = [Sign::Positive, Sign::Negative].map(|sign| struck(line, sign).ok());
    let [Some(positive), Some(negative)] = lines else { return };
    source(text, contact.positive.level);
    circuit(text, line, found);
    for (k, part) in contact.parts.iter().enumerate() {
        if let (Some(positive), Some(negative)) = (positive.lines_of(k), negative.lines_of(k)) {
            part_rows(text, part, [positive, negative]);
        }
    }
    assumptions(text, line, found, contact);
    switching(text, contact);
    at_the_pin(text, contact);
    let [(sign, of), _] = contact.worse_first();
    let struck = match sign {
        Sign::Positive => &positive,
        Sign::Negative => &negative,
    };
    say!(text, "  The numbers of the worse polarity, {}, rounded to three digits each:", sign.word());
    numbers(text, struck, sign, of.level);
    equivalent(text, struck, sign, (of.level, of.stated.outcome.pin));
    if of.worst_level != of.level {
        numbers(text, struck, sign, of.worst_level);
        equivalent(text, struck, sign, (of.worst_level, of.worst.outcome.pin));
    }
}

fn source(text: &mut String, level: Volt) {
    let [one, two] = ContactDischarge::TERMS;
    let [k1, k2] = [one, two].map(|term| real(term.highest()));
    let (of, exponent) = (ContactDischarge::LEVEL, ContactDischarge::EXPONENT);
    say!(text, "  An estimate of a contact discharge of V0 = {level}; verify on the built board, by IEC 61000-4-2.");
    say!(text, "  Source (IEC 61000-4-2:2008, Annex B, from memory):");
    say!(
        text,
        "    i(t) = V0/{of} ({}/k1 x1/(1 + x1) e^(-t/{}) + {}/k2 x3/(1 + x3) e^(-t/{})),",
        one.current,
        one.fall,
        two.current,
        two.fall
    );
    say!(text, "    x1 = (t/{})^{exponent}, x3 = (t/{})^{exponent}, k1 = {k1}, k2 = {k2}", one.rise, two.rise);
    let current =
        |k: u32| (Second(f64::from(k) * 1e-12), ContactDischarge { level }.current(Second(f64::from(k) * 1e-12)));
    let peak = (1..5000).map(current).max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((t, peak)) = peak {
        say!(text, "    its peak: {peak} after {t:.3}");
    }
    say!(text, "    into the struck node n0, {DISCHARGE_RESISTOR} beside it; n0 does not exceed V0");
}

fn assumptions(text: &mut String, line: &Line, found: &LineDischarge, contact: &Contact) {
    say!(text, "  Assumptions:");
    say!(text, "    - What lies outward of the struck node is not there.");
    say!(text, "    - All is at rest and at 0 V before the discharge.");
    say!(text, "    - Lines have no loss; one shorter than 10 ps stands in lumps.");
    say!(text, "    - Terminations, resistances to ground and the receiver's resistance are left out.");
    if matches!(&line.kind, Kind::Lane(lane) if lane.differential) {
        say!(
            text,
            "    - One line of the pair is struck, its neighbour is at rest: impedances across the pair stand at half."
        );
    }
    say!(
        text,
        "    - Where the line swings the other way, parts and the chip conduct as in the other polarity; a part that snapped back does not."
    );
    if contact.parts.iter().any(|part| part.part.strength.holding.is_some()) {
        say!(
            text,
            "    - A part that snaps back lets go once its current has been at or below its holding current for 1 ns."
        );
    }
    for assumed in assumed(found, &contact.parts) {
        say!(text, "    - Not stated: {assumed}.");
    }
    if found.chip.clamp.is_none() {
        say!(text, "    - The chip states no `clamps`: it draws no current.");
    }
}

fn switching(text: &mut String, contact: &Contact) {
    let level = contact.positive.level;
    say!(text, "  When the parts start to conduct, at {level}:");
    let met = contact.parts.iter().any(|part| part.protects);
    for (sign, of) in contact.both() {
        let parts = contact.parts.iter().zip(&of.stated.outcome.parts);
        let mut on: Vec<String> = parts.map(|(part, outcome)| switches(part, outcome.on_at)).collect();
        if on.is_empty() {
            on.push("no part is met".to_owned());
        }
        say!(text, "    {}: {}", sign.word(), on.join(", "));
        match of.turns_on_from {
            Some(from) => say!(text, "      the protector conducts from a discharge of {} on", found(from)),
            None if met => say!(text, "      the protector conducts at no level up to {level}"),
            None => {}
        }
    }
}

fn switches(part: &StruckPart, on_at: Option<Second>) -> String {
    let when = on_at.map_or("never".to_owned(), |t| format!("at {t:.3}"));
    format!("{} {when}", numbered(part))
}

/// What both polarities leave at the pin, at the stated and at the worst level.
fn at_the_pin(text: &mut String, contact: &Contact) {
    say!(
        text,
        "  At the pin, of each polarity (after 5 ns, and the mean from 28 ns to 32 ns, counted from the arrival):"
    );
    for (sign, of) in contact.both() {
        let worst = if of.worst_level == of.level { ", the worst level" } else { "" };
        pin_row(text, (sign, &format!("{}{worst}", of.level)), &of.stated.outcome.pin);
        if of.worst_level != of.level {
            pin_row(text, (sign, &format!("{}, the worst level", found(of.worst_level))), &of.worst.outcome.pin);
        }
    }
}

fn pin_row(text: &mut String, (sign, level): (Sign, &str), pin: &PinOutcome) {
    let sign = sign.word();
    say!(text, "    {sign}, {level}: highest {} after {}", amount(pin.peak), amount(pin.peak_at));
    say!(text, "      after 5 ns at most {}, mean {}", amount(pin.late_peak), amount(pin.plateau));
    if pin.energy.0 > 0.0 {
        let (most, pulse, energy) = (amount(pin.peak_current), amount(pin.equivalent), amount(pin.energy));
        say!(text, "      into the chip at most {most}, as a pulse of 100 ns {pulse}, energy {energy}");
    }
}

/// The numbers at the pin's highest voltage and later.
fn numbers(text: &mut String, struck: &StruckLine, sign: Sign, level: Volt) {
    let mut trace = Trace::default();
    let strike = struck.strike(level);
    let Some(bench) = Bench::new(&struck.circuit, STEP) else { return };
    let outcome = bench.run(&strike, Some(&mut trace));
    let at = |time: Second| trace.t.iter().position(|t| *t >= time.0);
    let sign = sign.word();
    for (time, which) in [(outcome.pin.peak_at, "At the pin's highest voltage"), (LATER, "Later")] {
        let Some(k) = at(time).filter(|k| *k > 0 && k + 1 < trace.t.len()) else { continue };
        let moment = Moment { struck, trace: &trace, outcome: &outcome, k };
        say!(text, "  {which}, {} after the start of {}, {sign} polarity:", amount(Second(trace.t[k])), found(level));
        moment.currents(text, level);
        moment.pin(text);
        (0..struck.parts.len()).for_each(|part| moment.part(text, part));
    }
}

/// A term of a sum, with its sign.
fn term<Q: std::fmt::Display + std::ops::Neg<Output = Q> + PartialOrd + Default>(value: Q) -> String {
    if value < Q::default() { format!("- {}", amount(-value)) } else { format!("+ {}", amount(value)) }
}

/// An instant of a discharge; there is one before and one after it.
struct Moment<'a> {
    struck: &'a StruckLine,
    trace: &'a Trace,
    outcome: &'a Outcome,
    k: usize,
}

impl Moment<'_> {
    /// The current of the source and where it goes.
    fn currents(&self, text: &mut String, level: Volt) {
        let source = ContactDischarge { level }.current(Second(self.trace.t[self.k]));
        let struck = Volt(self.trace.struck[self.k]);
        let beside = Ampere(struck.0 / DISCHARGE_RESISTOR.0);
        let mut sum = beside;
        say!(text, "    source {} =", amount(source));
        say!(text, "        {} in {DISCHARGE_RESISTOR}, at {}", amount(beside), amount(struck));
        for (part, (_, current)) in self.struck.parts.iter().zip(&self.trace.parts) {
            let current = Ampere(current[self.k]);
            sum += current;
            say!(text, "      {} in {}", term(current), numbered(part));
        }
        if self.struck.clamp.is_some() {
            let current = Ampere(self.trace.chip[self.k]);
            sum += current;
            say!(text, "      {} in the chip", term(current));
        }
        say!(text, "      {} in capacitances and on lines", term(source - sum));
    }

    fn pin(&self, text: &mut String) {
        let (volts, current) = (Volt(self.trace.pin[self.k]), Ampere(self.trace.chip[self.k]));
        let shown = amount(volts);
        match self.struck.clamp_line() {
            Some(line) if current.0 > 0.0 => {
                let (from, slope, current) = (amount(line.intercept), amount(line.slope), amount(current));
                say!(text, "    pin: V + R I = {from} + {slope} * {current} = {shown}");
            }
            Some(line) => say!(text, "    pin: {shown}, below the {} of the chip's clamp", line.from),
            None => say!(text, "    pin: {shown}"),
        }
    }

    fn part(&self, text: &mut String, part: usize) {
        let Some((lines, seen)) = self.struck.lines_of(part).zip(self.trace.parts.get(part)) else { return };
        let (volts, current) = (Volt(seen.0[self.k]), Ampere(seen.1[self.k]));
        let span = self.trace.t[self.k + 1] - self.trace.t[self.k - 1];
        let rate = (seen.1[self.k + 1] - seen.1[self.k - 1]) / span;
        let coil = Volt(lines.inductance.0 * rate);
        let inner = Volt(volts.0 - lines.resistance.0 * current.0 - coil.0);
        let name = numbered(&self.struck.parts[part]);
        let shown = amount(volts);
        let Some((line, lift)) = self.line(part, &lines, inner, current) else {
            let current = amount(current);
            return say!(text, "    {name}: {shown}; {current} into its capacitance, none through its straight lines");
        };
        let resistance = line.slope + lines.resistance;
        let rest = Volt(volts.0 - line.intercept.0 - resistance.0 * current.0 - lift.0 - coil.0);
        say!(text, "    {name}: V0 + R I = {} + {} * {}", amount(line.intercept), amount(resistance), amount(current));
        if lift.0 > 0.0 {
            say!(text, "      {} as it turns on", term(lift));
        }
        if lines.inductance.0 > 0.0 {
            let rate = Ampere(rate * 1e-9);
            say!(text, "      {} of L dI/dt, {} * {}/ns", term(coil), amount(lines.inductance), amount(rate));
        }
        say!(text, "      {} that its capacitance takes of the current = {shown}", term(rest));
    }

    /// The line that a part is on, and by how much it stands higher as the part turns on; `None` where it has no current.
    fn line(&self, part: usize, lines: &PartLines, inner: Volt, current: Ampere) -> Option<(StraightLine, Volt)> {
        let on_at = self.outcome.parts.get(part)?.on_at?;
        let since = self.trace.t[self.k] - on_at.0;
        let first = lines.lines.first()?;
        let lift = match lines.snap.and_then(|snap| Some((snap.trigger, snap.turn_on?))) {
            Some((trigger, turn_on)) => (trigger.0 - first.from.0) * (-since / turn_on.0).exp(),
            None => 0.0,
        };
        let line = lines.lines.iter().rev().find(|line| inner.0 - lift > line.from.0).filter(|_| since >= 0.0)?;
        // One that has let go may see any voltage, which would be a great current on its line.
        let on_the_line = (inner.0 - lift - line.intercept.0) / line.slope.0;
        let lets_go = lines.snap.is_some() && on_the_line > 2.0 * current.0.abs() + 0.1;
        (!lets_go).then_some((*line, Volt(lift)))
    }
}

/// The equivalent pulse from its energy.
fn equivalent(text: &mut String, struck: &StruckLine, sign: Sign, (level, pin): (Volt, PinOutcome)) {
    let Some(line) = struck.clamp_line() else { return };
    let (volts, slope, current): (Volt, Ohm, Ampere) = (line.intercept, line.slope, pin.equivalent);
    let (v, r, i) = (amount(volts), amount(slope), amount(current));
    say!(text, "  Energy into the chip's clamp at {}, {} polarity: {}", found(level), sign.word(), amount(pin.energy));
    if pin.energy_back > Joule::ZERO {
        let back = amount(pin.energy_back);
        say!(
            text,
            "    {back} of it the other way; the pulses of 100 ns of both, each by its own line, add up to {i} (an estimate)"
        );
        return;
    }
    say!(text, "    = (V + R I) I 100 ns = ({v} + {r} * {i}) * {i} * 100 ns, the equivalent current (an estimate)");
}
