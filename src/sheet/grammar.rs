//! The grammar of a lane sheet, one nom function for each production.
//!
//! ```text
//! sheet     = { line | block }
//! block     = word [ string ] [ word ] "{" { line | block } "}"
//! line      = word { argument } ( newline | ";" | before "}" )
//! argument  = quantity | word | string | "<=" | ">=" | ","
//! quantity  = number [ unit ] [ ("±" | "+-") number ( unit | "%" ) ]
//! number    = [ "+" | "-" ] digit { digit } [ "." { digit } ] [ ("e"|"E") [ "+"|"-" ] digit { digit } ]
//! string    = '"' { any but quote, control character, line end } '"'
//! word      = lower-case letter { lower-case letter | digit | "_" }
//! comment   = "#" { any but line end }
//! ```
//!
//! The productions below the line are here; [`super::structure`] puts lines and blocks together and
//! recovers from what cannot be read.

use nom::branch::alt;
use nom::bytes::complete::{tag, take_while, take_while1};
use nom::character::complete::{char, digit1, one_of};
use nom::combinator::{opt, recognize};
use nom::sequence::{delimited, preceded, terminated};
use nom::{IResult, Parser};

/// Blanks within a line: spaces, tabs, and control characters, which are reported beforehand.
pub(super) fn blank(input: &str) -> IResult<&str, &str> {
    take_while(|c: char| c != '\n' && (c == ' ' || c.is_control())).parse(input)
}

/// `comment = "#" { any but line end }`
pub(super) fn comment(input: &str) -> IResult<&str, &str> {
    recognize((char('#'), take_while(|c| c != '\n'))).parse(input)
}

/// `word`, read generously: any run of letters, digits and `_`, so that a capital letter is an unknown word.
pub(super) fn word(input: &str) -> IResult<&str, &str> {
    recognize((take_while1(|c: char| c.is_alphabetic() || c == '_'), take_while(is_word_character))).parse(input)
}

fn is_word_character(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// `string`, without its quotes.
pub(super) fn string(input: &str) -> IResult<&str, &str> {
    delimited(char('"'), take_while(|c| c != '"' && c != '\n'), char('"')).parse(input)
}

/// `number`
pub(super) fn number(input: &str) -> IResult<&str, &str> {
    recognize((opt(one_of("+-")), digit1, opt((char('.'), digit1)), opt(exponent))).parse(input)
}

/// `digit { digit }`
pub(super) fn digits(input: &str) -> IResult<&str, &str> {
    digit1.parse(input)
}

fn exponent(input: &str) -> IResult<&str, &str> {
    recognize((one_of("eE"), opt(one_of("+-")), digit1)).parse(input)
}

/// What looks like a unit: letters, digits, `/`, `%`, `*`, `·`, `µ`, `Ω`.
pub(super) fn unit(input: &str) -> IResult<&str, &str> {
    let start = |c: char| c.is_alphabetic() || matches!(c, '%' | '\u{b5}' | '\u{2126}' | '\u{b0}');
    let more = |c: char| start(c) || c.is_numeric() || matches!(c, '/' | '*' | '\u{b7}' | '_' | '\u{b2}');
    recognize((take_while1(start), take_while(more))).parse(input)
}

/// The sign before a tolerance, with the blanks around it.
pub(super) fn tolerance_sign(input: &str) -> IResult<&str, &str> {
    preceded(blank, terminated(alt((tag("\u{b1}"), tag("+-"))), blank)).parse(input)
}

/// `<=`, `>=` or `,`
pub(super) fn sign(input: &str) -> IResult<&str, &str> {
    alt((tag("<="), tag(">="), tag(","))).parse(input)
}
