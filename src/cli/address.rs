//! Addresses typed on the command line, with the values they are asked for.

use super::Failure;
use crate::diag::shorten;
use crate::model::{AddressedValue, Line};
use crate::reading::without_address;
use crate::sheet::lone_quantity;
use crate::units::Dimension;
use crate::words::value::value;

/// The value of an address of a line.
///
/// # Errors
/// An address the line does not have, with those it has, the nearest first.
pub(super) fn addressed<'a>(line: &'a Line, text: &str) -> Result<&'a AddressedValue, Failure> {
    let of = text.trim();
    let found = line.head.values.iter().find(|value| value.address.to_string() == of);
    found.ok_or_else(|| no_address(line, of))
}

fn no_address(line: &Line, text: &str) -> Failure {
    let name = shorten(&line.head.name, 60);
    Failure::new(format!("the line \"{name}\" has no `{}`", shorten(text, 60))).help(without_address(
        text,
        &line.head.values,
        line.path(),
    ))
}

/// How an address is written with its values, after `option`.
pub(super) fn example(of: &AddressedValue, option: &str) -> String {
    let dimension = of.range.dimension;
    let around = of.nominal.filter(|nominal| *nominal > 0.0).map(|nominal| {
        [nominal / 2.0, 2.0 * nominal].map(|end| value(end.clamp(of.range.low, of.range.high), dimension))
    });
    let [from, to] = around.unwrap_or_else(|| match dimension {
        Dimension::Number => ["1", "2"].map(str::to_owned),
        _ => ["1", "2"].map(|number| format!("{number} {}", dimension.example())),
    });
    format!("write it as {option} \"{} from {from} to {to}\"", of.address)
}

/// An address with the two values it is asked between, where they are stated: `7.length from 1 mm to 20 mm`.
pub(super) type Between<'a> = (&'a AddressedValue, Option<(f64, f64)>);

/// Reads an address of a line with its values; `option` is the word of the command line.
///
/// # Errors
/// As [`addressed`]; a value in another unit, out of its range, or not between the two words.
pub(super) fn between<'a>(line: &'a Line, text: &str, option: &str) -> Result<Between<'a>, Failure> {
    // A name in quotes may hold the words.
    let quoted = text.rfind('"').unwrap_or(0);
    let Some(at) = text[quoted..].find(" from ").map(|at| quoted + at) else {
        let rest = text[quoted..].trim_start();
        let Some((_, further)) = rest.split_once(' ').filter(|(_, further)| !further.trim().is_empty()) else {
            return Ok((addressed(line, text)?, None));
        };
        let of = addressed(line, text.strip_suffix(further).unwrap_or(text))?;
        let what = format!("expected `from` after `{}` in {option}", of.address);
        return Err(Failure::new(what).help(example(of, option)));
    };
    let of = addressed(line, &text[..at])?;
    let cure = example(of, option);
    let Some((from, to)) = text[at + " from ".len()..].split_once(" to ") else {
        return Err(Failure::new(format!("expected `from` and `to` with a value each in {option}")).help(cure));
    };
    let (from, to) = (quantity(from, of, option)?, quantity(to, of, option)?);
    if from >= to {
        return Err(
            Failure::new(format!("{option} `{}`: the first value must be below the last", of.address)).help(cure)
        );
    }
    Ok((of, Some((from, to))))
}

/// A value as a sheet would state it.
fn quantity(text: &str, of: &AddressedValue, option: &str) -> Result<f64, Failure> {
    let (address, range) = (&of.address, &of.range);
    let failure = |what: String| Failure::new(format!("{option} `{address}`: {what}"));
    let read = lone_quantity(text).map_err(|(what, cure)| Failure { help: cure, ..failure(what) })?;
    let cure = format!("`{address}` takes {}", range.range());
    match read.dimension {
        _ if read.tolerance.is_some() => Err(failure("a value stands here without a tolerance".to_owned())),
        Some(dimension) if dimension == range.dimension && range.contains(read.value) => Ok(read.value),
        Some(dimension) if dimension == range.dimension => {
            Err(failure(format!("this {dimension} is out of range")).help(cure))
        }
        Some(dimension) => {
            Err(failure(format!("expected a {}, but this is a {dimension}", range.dimension)).help(cure))
        }
        None => Err(failure("the unit is unknown".to_owned())),
    }
}
