//! Parts.

use super::{Findings, Reader, addressed, stated, strength};
use crate::diag::{Diagnostic, Span};
use crate::figures::{CAPACITANCE, INDUCTANCE, RESISTANCE};
use crate::model::{
    Address, AddressedValue, CapacitanceRating, CurveFlaw, Grading, Mismatch, Owner, Part, PartOnLine, Polarity,
    Tolerance, ValueName, VoltageRange, Voltages,
};
use crate::resolve;
use crate::resolve::{Flaw, Place, part_on_line};
use crate::sheet::ast::{ArgumentKind, Block, Row, Text};
use crate::sheet::entries::Entries;
use crate::sheet::read::{Arguments, found};
use crate::sheet::schema::{Form, PART};
use crate::sheet::values::{StatedWidth, Value, Values};
use crate::units::{Farad, Henry, Ohm, Volt};

/// A part with the values that have an address; `None` after an error that leaves it without a use.
pub(crate) fn lower(
    block: &Block<'_>,
    name: Text<'_>,
    errors: &mut Vec<Diagnostic>,
) -> Option<(Part, Vec<AddressedValue>)> {
    let before = errors.len();
    let entries = Entries::of(&PART, &block.items, errors);
    let mut part = Part { name: name.text.to_owned(), span: name.span, ..Part::default() };
    let address = |value: ValueName| Address { owner: Owner::Part(name.text.to_owned()), value };
    let mut capacitances = Vec::new();
    for line in entries.lines("capacitance") {
        if let Some(rating) = rating(line, errors) {
            let (low, high) = rating.bounds;
            let tolerance = Tolerance {
                low,
                high,
                together: None,
                relative: rating.tolerance.is_some_and(|stated| stated.relative),
                stated: rating.tolerance.is_some(),
                span: rating.tolerance.map_or(line.span, |stated| stated.span),
            };
            let value = AddressedValue {
                address: address(ValueName::Capacitance),
                nominal: Some(rating.rating.maximum.0),
                range: CAPACITANCE,
                tolerance: (low < high).then(|| Box::new(tolerance)),
                span: rating.number,
            };
            capacitances.push((rating.across, value));
            put_rating(&mut part, rating, line, errors);
        }
    }
    // The one to ground, where both are stated.
    capacitances.sort_by_key(|(across, _)| *across);
    let mut stated: Vec<AddressedValue> = capacitances.into_iter().take(1).map(|(_, value)| value).collect();
    if part.to_ground.is_none() && part.across.is_none() {
        entries.require("capacitance", name.span, "this part", "add e.g. `capacitance 0.42 pF max at 0 V`", errors);
    }
    if let Some(values) = simple(&entries, "grading", errors) {
        if let (Some(voltage), Some(exponent)) = (values.number("voltage"), values.number("exponent")) {
            part.grading = Some(Grading { voltage: Volt(voltage.si), exponent: exponent.si });
        }
    }
    let mut in_series = |of: ValueName, range, errors: &mut Vec<Diagnostic>| {
        let number = simple(&entries, of.word(), errors).and_then(|values| values.first_number());
        let unstated = AddressedValue { address: address(of), nominal: None, range, tolerance: None, span: name.span };
        stated.push(number.map_or(unstated, |value| addressed::of_row(address(of), value, None, errors)));
        number.map_or(0.0, |value| value.si)
    };
    part.inductance = Henry(in_series(ValueName::Inductance, INDUCTANCE, errors));
    part.resistance = Ohm(in_series(ValueName::Resistance, RESISTANCE, errors));
    if let Some(values) = simple(&entries, "mismatch", errors) {
        let absolute = values.number("capacitance").map(|v| Mismatch::Absolute(Farad(v.si)));
        part.mismatch = absolute.or(values.number("share").map(|v| Mismatch::Share(v.si)));
    }
    let reader = Reader { schema: &PART, entries: &entries };
    part.strength = strength::lower(&reader, errors);
    part.polarity = polarity(&entries, errors);
    check_rails(&part, errors);
    check_negative(&part, &entries, errors);
    if let Some(flaw) = part.contradiction().filter(|_| errors.len() == before) {
        errors.push(contradicts(&flaw, name.span, &entries));
    }
    (errors.len() == before && entries.is_whole()).then_some((part, stated))
}

/// The values of a line of leading quantities alone.
fn simple<'a>(entries: &Entries<'_, 'a>, word: &str, errors: &mut Vec<Diagnostic>) -> Option<Values<'a>> {
    let line = entries.line(word)?;
    let Form::Arguments { slots, named } = PART.line(word)?.form else {
        return None;
    };
    Arguments::new(line, errors).values(slots, named)
}

fn polarity(entries: &Entries<'_, '_>, errors: &mut Vec<Diagnostic>) -> Option<Polarity> {
    let mut polarity: Option<(Polarity, &Row<'_>)> = None;
    for word in ["unidirectional", "bidirectional", "rails"] {
        let Some(line) = entries.line(word) else { continue };
        let Some(values) = simple(entries, word, errors) else {
            continue;
        };
        let stated = match word {
            "unidirectional" => Polarity::Unidirectional,
            "bidirectional" => Polarity::Bidirectional,
            _ => Polarity::Rails(Volt(values.or_zero("voltage"))),
        };
        match polarity {
            Some((_, earlier)) => errors.push(
                Diagnostic::error("two-polarities", line.word.span, "a part has one polarity")
                    .also(earlier.word.span, "the other one")
                    .help("keep one of `unidirectional`, `bidirectional`, `rails`"),
            ),
            None => polarity = Some((stated, line)),
        }
    }
    polarity.map(|(polarity, _)| polarity)
}

/// What a part contradicts itself in, at the words that say so.
fn contradicts(flaw: &CurveFlaw, part: Span, entries: &Entries<'_, '_>) -> Diagnostic {
    let row = |word| entries.line(word).map_or(part, |row| row.span);
    let error = Diagnostic::error(flaw.code, row(flaw.word), flaw.message.clone());
    let error = match flaw.other {
        Some(other) => error.also(row(other), format!("its `{other}`")),
        None => error,
    };
    error.help(flaw.help)
}

fn check_rails(part: &Part, errors: &mut Vec<Diagnostic>) {
    let Some(Polarity::Rails(supply)) = part.polarity else {
        return;
    };
    for rating in [part.to_ground, part.across].into_iter().flatten() {
        if rating.bias.is_some_and(|bias| bias > supply) {
            errors.push(
                Diagnostic::error(
                    "above-rails",
                    rating.span,
                    format!("this capacitance is stated above the rails' {supply}"),
                )
                .help("the bias of a part with rails lies between 0 V and its supply"),
            );
        }
    }
}

/// A bidirectional part conducts alike in both polarities.
fn check_negative(part: &Part, entries: &Entries<'_, '_>, errors: &mut Vec<Diagnostic>) {
    let Some(line) = entries.line("negative").filter(|_| part.polarity == Some(Polarity::Bidirectional)) else {
        return;
    };
    let message = "a bidirectional part is alike in both polarities";
    let error = Diagnostic::error("negative-bidirectional", line.span, message);
    errors.push(error.help("delete `negative`, or state `unidirectional` or `rails`"));
}

struct StatedRating {
    rating: CapacitanceRating,
    spread: Option<Farad>,
    across: bool,
    typical_only: bool,
    /// Between what it lies, alike where nothing tells.
    bounds: (f64, f64),
    /// Its `±`, where it states one.
    tolerance: Option<StatedWidth>,
    /// The number that is its maximum.
    number: Span,
}

fn put_rating(part: &mut Part, stated: StatedRating, line: &Row<'_>, errors: &mut Vec<Diagnostic>) {
    let place = if stated.across { &mut part.across } else { &mut part.to_ground };
    if let Some(earlier) = place {
        errors.push(
            Diagnostic::error("duplicate-line", line.word.span, "this capacitance is given twice")
                .also(earlier.span, "given here first")
                .help("one line to ground and one `across` may be given"),
        );
        return;
    }
    *place = Some(stated.rating);
    *if stated.across { &mut part.across_spread } else { &mut part.spread } = stated.spread;
    part.typical_only |= stated.typical_only;
}

/// `Q [typical] [Q max] [at V] [across]`, also `Q ± t %`.
fn rating(line: &Row<'_>, errors: &mut Vec<Diagnostic>) -> Option<StatedRating> {
    let mut arguments = Arguments::new(line, errors);
    let (mut typical, mut maximum): (Option<Value>, Option<Value>) = (None, None);
    let mut middle: Option<(f64, StatedWidth)> = None;
    let (mut bias, mut across) = (None, false);
    while let Some(argument) = arguments.peek() {
        match &argument.kind {
            ArgumentKind::Quantity(quantity) => {
                arguments.take();
                let (mut value, _) = arguments.check(quantity, &[CAPACITANCE], "capacitance", true)?;
                if let (Some(tolerance), Some(stated)) = (&quantity.tolerance, value.tolerance) {
                    middle = Some((value.si, stated));
                    value.si *= 1.0 + tolerance.ratio_of(value.si);
                }
                let is_typical = arguments.take_word("typical").filter(|_| quantity.tolerance.is_none());
                if is_typical.is_none() {
                    arguments.take_word("max");
                }
                let place = if is_typical.is_some() { &mut typical } else { &mut maximum };
                if let Some(earlier) = place {
                    let error = Diagnostic::error(
                        "duplicate-argument",
                        quantity.span,
                        "this value is stated twice in this line",
                    )
                    .also(earlier.span, "stated here first")
                    .help("write one value `typical` and one `max`");
                    arguments.errors.push(error);
                    return None;
                }
                *place = Some(value);
            }
            ArgumentKind::Word("at") if bias.is_none() => bias = Some(arguments.bias()?),
            ArgumentKind::Word("across") if !across => {
                arguments.take();
                across = true;
            }
            _ => {
                let message = format!("unexpected {} in a `capacitance` line", found(argument));
                if !line.broken {
                    arguments.errors.push(
                        Diagnostic::error("extra-argument", argument.span, message)
                            .help("it reads `capacitance 0.30 pF typical 0.42 pF max at 0 V across`"),
                    );
                }
                return None;
            }
        }
    }
    let Some(worst) = maximum.or(typical) else {
        if !line.broken {
            arguments.errors.push(
                Diagnostic::error("missing-argument", line.word.span, "`capacitance` needs a capacitance")
                    .help("e.g. `capacitance 0.42 pF max at 0 V`"),
            );
        }
        return None;
    };
    if let (Some(typical), Some(maximum)) = (typical, maximum) {
        if typical.si > maximum.si {
            arguments.errors.push(
                Diagnostic::error("typical-above-max", typical.span, "the typical value is above the maximum")
                    .also(maximum.span, "the maximum")
                    .help("exchange them, or check the data sheet"),
            );
            return None;
        }
    }
    let rating = CapacitanceRating { maximum: Farad(worst.si), bias: bias.map(|b| Volt(b.si)), span: line.span };
    let typical = typical.map(|typical| typical.si).or(middle.map(|(middle, _)| middle));
    let spread = maximum.zip(typical).map(|(maximum, typical)| Farad(2.0 * (maximum.si - typical)));
    let least = match middle {
        Some((middle, stated)) => middle - stated.width,
        None => spread.map_or(worst.si, |spread| (worst.si - spread.0).max(0.0)),
    };
    Some(StatedRating {
        rating,
        spread,
        across,
        typical_only: maximum.is_none(),
        bounds: (least, worst.si),
        tolerance: middle.map(|(_, stated)| stated),
        number: worst.span,
    })
}

/// A part on a line, with what the line should know of it; `None` after an error.
///
/// Parts with an error of another kind are reported where they are named.
pub(crate) fn on_line(
    part: &Part,
    name: Text<'_>,
    differential: bool,
    voltages: Voltages,
    findings: &mut Findings,
) -> Option<PartOnLine> {
    let place = |place| if place == Place::Named { part.span } else { name.span };
    match part_on_line(part, differential, voltages) {
        Ok(on_line) => {
            for remark in &on_line.remarks {
                findings.remark(remark, place(remark.place()));
            }
            Some(on_line.value)
        }
        Err(flaw) => {
            findings.errors.push(stated::error(&flaw, place));
            None
        }
    }
}

/// A part of a single line must not be stated across a pair alone; `None` after an error.
pub(crate) fn on_single_line(part: &Part, name: Text<'_>, findings: &mut Findings) -> Option<()> {
    let place = |place| if place == Place::Named { part.span } else { name.span };
    let flaw = Flaw::AcrossOnSingleLine;
    let fits = !part.is_across_alone();
    if !fits {
        findings.errors.push(stated::error(&flaw, place));
    }
    fits.then_some(())
}

/// The rails of a part must reach as high as the line; `None` after an error.
pub(crate) fn within_rails(
    part: &Part,
    name: Text<'_>,
    line_voltage: Option<VoltageRange>,
    findings: &mut Findings,
) -> Option<()> {
    let place = |place| if place == Place::Named { part.span } else { name.span };
    resolve::within_rails(part, line_voltage).map_err(|flaw| findings.errors.push(stated::error(&flaw, place))).ok()
}
