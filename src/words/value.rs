//! A value of an address, and what is done to it, in words.

use crate::model::Owner;
use crate::study::{Breaks, Change, Gain, Out};
use crate::units::Dimension;
use crate::units::decimal::{Decimal, Round, Scale, engineering, significant};

/// Digits of a number without a prefix.
const DIGITS: usize = 4;
/// A loss per length of this many decibel per metre or more is read per centimetre, as that of a trace.
const PER_CENTIMETRE: f64 = 10.0;

/// What is said where a line states tolerances of which nothing is asked.
pub(crate) const AS_STATED: &str =
    "As stated: within its tolerances the line may break sooner; `size` tells the worst case.";

/// A value in SI with the prefix and unit a reader expects.
pub(crate) fn value(value: f64, of: Dimension) -> String {
    match of {
        Dimension::Number => significant(value, DIGITS),
        Dimension::Percent => format!("{} %", significant(100.0 * value, DIGITS)),
        Dimension::DecibelPerLength if value.abs() >= PER_CENTIMETRE => {
            format!("{} dB/cm", significant(value / 100.0, DIGITS))
        }
        Dimension::Decibel | Dimension::DecibelPerLength | Dimension::Angle | Dimension::Temperature => {
            format!("{} {}", significant(value, DIGITS), of.symbol())
        }
        _ => engineering(value, of.symbol()),
    }
}

/// An end of what is allowed: a lower one never rounded down, an upper one never up.
pub(crate) fn end(value: f64, of: Dimension, round: Round) -> String {
    if of == Dimension::DecibelPerLength && value.abs() >= PER_CENTIMETRE {
        return format!("{} dB/cm", Decimal::new(value, DIGITS + 1, round).times_ten_to(-2));
    }
    let scale = match of {
        Dimension::Number | Dimension::Decibel | Dimension::DecibelPerLength => Scale::of(1.0),
        _ => Scale::of(value),
    };
    let power = -(scale.factor.log10().round() as i32);
    let number = Decimal::new(value, DIGITS + 1, round).times_ten_to(power);
    format!("{number} {}{}", scale.prefix, of.symbol()).trim_end().to_owned()
}

/// The same with the word of its element first, for what is labelled in a picture: `receiver 9 pad`.
pub(crate) fn labelled(of: &Out, elements: &[(usize, &'static str)]) -> String {
    let named = named(of, elements);
    match (of, named.split_once(" of ")) {
        (Out::Value(_), Some((value, owner))) => format!("{} {value}", owner.trim_start_matches("the ")),
        _ => named.replace("\".", "\" "),
    }
}

/// What an address names, with the word of its element: `pad of receiver 9`.
pub(crate) fn named(of: &Out, elements: &[(usize, &'static str)]) -> String {
    let element = |number: usize| {
        let word = elements.iter().find(|element| element.0 == number).map_or("element", |element| element.1);
        format!("{word} {number}")
    };
    match of {
        Out::Element(number) => element(*number),
        Out::Value(address) => {
            let value = address.value.word();
            match &address.owner {
                Owner::Element(number) => format!("{value} of {}", element(*number)),
                Owner::Line => format!("{value} of the {}", if value == "place" { "protector" } else { "line" }),
                _ => address.to_string(),
            }
        }
    }
}

/// What is done: `28 → 30.8 mm`.
pub(crate) fn change(of: &Gain) -> String {
    let (Change::Down(to, dimension) | Change::Up(to, dimension)) = of.change else { return "removed".to_owned() };
    let to = value(to, dimension);
    let Some(from) = of.from.map(|from| value(from, dimension)) else { return format!("→ {to}") };
    let unit = to.split_once(' ').map_or("", |(_, unit)| unit);
    let from = from.strip_suffix(unit).filter(|_| !unit.is_empty()).filter(|from| from.ends_with(' ')).unwrap_or(&from);
    format!("{} → {to}", from.trim_end())
}

/// What breaks.
pub(crate) fn breaks(what: &Breaks) -> String {
    match what {
        Breaks::Limit(figure) => super::limits::title(figure),
        Breaks::Check(name) => name.clone(),
        Breaks::NoLine(why) => format!("cannot be built: {why}"),
    }
}
