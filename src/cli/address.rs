//! Addresses typed on the command line, with the values they are asked for.

use super::Failure;
use crate::diag::{nearest, shorten};
use crate::model::{AddressedValue, Line};
use crate::sheet::lone_quantity;

/// Addresses named in a message at most.
const MOST: usize = 60;

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
    let failure = Failure::new(format!("the line \"{name}\" has no `{}`", shorten(text, 60)));
    let names: Vec<String> = line.head.values.iter().map(|value| value.address.to_string()).collect();
    if names.is_empty() {
        return failure.help("no value of it has an address");
    }
    let near = nearest(text, names.iter().map(String::as_str));
    let rest = names.iter().map(String::as_str).filter(|name| Some(*name) != near);
    let all: Vec<&str> = near.into_iter().chain(rest).collect();
    let more = if all.len() > MOST { ", …" } else { "" };
    let listed = all.iter().take(MOST).map(|name| format!("`{}`", shorten(name, 60))).collect::<Vec<_>>().join(", ");
    failure.help(match near {
        Some(near) => format!("did you mean `{near}`? Its addresses are {listed}{more}"),
        None => format!("its addresses are {listed}{more}"),
    })
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
        return Ok((addressed(line, text)?, None));
    };
    let of = addressed(line, &text[..at])?;
    let cure = format!("write it as {option} \"{} from 1 to 2\", each value with its unit", of.address);
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
