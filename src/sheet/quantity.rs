//! Numbers with their units and tolerances.

use super::ast::{Deviation, Quantity, Tolerance};
use super::structure::Reader;
use super::{grammar, schema};
use crate::diag::{Diagnostic, Span, nearest};
use crate::units::{Dimension, Unit, parse_unit, suggest_unit};

/// The unit of a bare number.
const BARE: Unit = Unit { dimension: Dimension::Number, factor: 1.0, exponent: 0 };

impl Reader<'_> {
    /// `number [ unit ] [ "±" number ( unit | "%" ) ]`; `None` after an error.
    pub(super) fn quantity(&mut self, start: u32) -> Option<Quantity> {
        let digits = self.take(grammar::number)?;
        let number_span = self.span_from(start);
        if self.rest.starts_with('.') {
            let span = self.span_from(start);
            self.error(
                Diagnostic::error("bad-number", span, "a decimal point stands once, with a digit on either side")
                    .help("write `0.5`, `1.0` or `1e3`; there is no thousands separator"),
            );
            return None;
        }
        if self.rest.starts_with(',') && self.rest[1..].starts_with(|c: char| c.is_ascii_digit()) {
            self.take(grammar::sign);
            let decimals = self.take(grammar::digits).unwrap_or_default();
            let error =
                Diagnostic::error("bad-number", self.span_from(start), "a decimal point is a point, not a comma")
                    .help(format!("write `{digits}.{decimals}`"));
            self.error(error);
            return None;
        }
        let before = self.rest;
        let (unit, _) = self.unit(digits);
        let written = before.strip_suffix(self.rest).unwrap_or_default().trim();
        let value = self.value(digits, unit, number_span)? + 0.0; // -0 becomes 0
        let span = self.span_from(start);
        let mut tolerance = None;
        if self.take(grammar::tolerance_sign).is_some() {
            tolerance = Some(Box::new(self.tolerance((value, unit, written), span.end)?));
            let start = self.offset();
            if self.take(grammar::tolerance_sign).is_some() {
                let error = Diagnostic::error("unexpected-character", self.span_from(start), "a second tolerance");
                self.error(error.help("a value has one tolerance, alike on both sides: delete the second"));
                return None;
            }
        }
        Some(Quantity { value, dimension: unit.map(|unit| unit.dimension), tolerance, span })
    }

    /// `± number [ unit | "%" ]`: a share of a value, or in its unit, which the sheet writes as `written`.
    fn tolerance(&mut self, (value, unit, written): (f64, Option<Unit>, &str), from: u32) -> Option<Tolerance> {
        let (start, before) = (self.offset(), self.rest);
        let Some(digits) = self.take(grammar::number) else {
            let end = start + self.rest.chars().next().map_or(0, |c| c.len_utf8() as u32);
            let span = Span { end, ..self.span_from(start) };
            let error = Diagnostic::error("unexpected-character", span, "expected a number after `±`");
            self.error(error.help(format!("write `± 10 %` or {}", in_unit("1", written))));
            return None;
        };
        let (own, own_span) = self.unit(digits);
        let own_text = before.strip_suffix(self.rest).unwrap_or_default().trim();
        let spread = self.value(digits, own, self.span_from(start))?;
        let span = self.span_from(from);
        let (own, of) = (own?.dimension, unit?.dimension);
        let deviation = match own {
            Dimension::Percent if of != Dimension::Percent => Deviation::Ratio(spread),
            own if own == of && of != Dimension::Percent => Deviation::Width(spread),
            _ => {
                let help = match of {
                    Dimension::Percent => "delete it".to_owned(),
                    _ => format!("write {}, or in per cent", in_unit(digits.trim_start_matches('-'), written)),
                };
                let message = "expected a percentage or the unit of the value itself";
                self.error(Diagnostic::error("wrong-unit", own_span, message).help(help));
                return None;
            }
        };
        let tolerance = Tolerance { deviation, span };
        let most = 10.0 * value.abs();
        let bounded = matches!(deviation, Deviation::Width(_)) && value == 0.0;
        if spread < 0.0 {
            let own = own_text.trim_start_matches('-');
            self.error(Diagnostic::error("out-of-range", span, format!("a tolerance has no sign: write `± {own}`")));
            return None;
        }
        if !bounded && tolerance.width_of(value) > most {
            self.error(Diagnostic::error("out-of-range", span, "a tolerance is at least 0 % and at most 1000 %"));
            return None;
        }
        Some(tolerance)
    }

    /// The unit after a number, `None` for an unknown one, which is reported; a known word of the language is no unit.
    fn unit(&mut self, digits: &str) -> (Option<Unit>, Span) {
        let before = self.rest;
        self.skip_blank();
        let start = self.offset();
        let Some(text) = self.take(grammar::unit) else {
            self.rest = before;
            return (Some(BARE), self.span_from(self.offset()));
        };
        if let Some(unit) = parse_unit(text) {
            return (Some(unit), self.span_from(start));
        }
        if schema::is_argument_word(text) {
            self.rest = before;
            return (Some(BARE), self.span_from(self.offset()));
        }
        let span = self.span_from(start);
        let mut error = Diagnostic::error("unknown-unit", span, format!("unknown unit `{text}`"));
        let unit = suggest_unit(text, &[]);
        let word = nearest(text, schema::argument_words());
        error = match (unit, word) {
            _ if matches!(text, "C" | "\u{b0}C") => error.help("a temperature in degrees Celsius is written `degC`"),
            _ if is_coded(text) => error.help(spelt_out(digits, text)),
            (Some(unit), _) => error.help(format!("did you mean `{unit}`? Case matters")),
            (None, Some(word)) => {
                error.help(format!("did you mean the word `{word}`? A number needs its unit before it"))
            }
            (None, None) => error.help("units are such as pF, nH, ohm, mm, ps, GHz, Gb/s, dB, V and %"),
        };
        self.error(error);
        (None, span)
    }

    /// The SI value of `digits`, rounded once.
    fn value(&mut self, digits: &str, unit: Option<Unit>, span: Span) -> Option<f64> {
        let value = unit.unwrap_or(BARE).value_of(digits);
        let zero = !digits.split(['e', 'E']).next().unwrap_or("").contains(|c| matches!(c, '1'..='9'));
        match value {
            Some(v) if v.is_normal() || (zero && v == 0.0) => Some(v),
            _ => {
                self.error(
                    Diagnostic::error("number-size", span, "this number is too large or too small to compute with")
                        .help("check its exponent"),
                );
                None
            }
        }
    }
}

/// A tolerance in the unit of its value, as it is written.
fn in_unit(digits: &str, unit: &str) -> String {
    format!("`{}`", format!("± {digits} {unit}").trim_end())
}

/// Whether a number goes on with its prefix in the place of the decimal point, as in 2k2.
fn is_coded(text: &str) -> bool {
    let decimals = text.strip_prefix(['R', 'k', 'M', 'm', 'u', 'n', 'p']);
    decimals.is_some_and(|decimals| !decimals.is_empty() && decimals.bytes().all(|b| b.is_ascii_digit()))
}

/// How such a number is written here.
fn spelt_out(digits: &str, text: &str) -> String {
    let (letter, decimals) = text.split_at(1);
    let value = format!("{digits}.{decimals}");
    match letter {
        "R" => format!("write `{value} ohm`"),
        "k" | "M" => format!("write `{value} {letter}ohm`"),
        "p" => format!("write `{value} pF`"),
        _ => format!("write the point, the prefix and the unit, e.g. `{value} {letter}H`"),
    }
}
