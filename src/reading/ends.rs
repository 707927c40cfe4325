//! The equalisers of driver and receiver.

use super::Findings;
use crate::diag::Diagnostic;
use crate::model::{Ctle, TAP_CURE, tap_fault};
use crate::sheet::values::Values;
use crate::units::Hertz;

/// The transmit taps; the outer `None` after an error.
pub(crate) fn taps(values: &Values<'_>, findings: &mut Findings) -> Option<Option<[f64; 3]>> {
    let [pre, main, post] = values.list("taps") else {
        return Some(None);
    };
    let taps = [pre.si, main.si, post.si];
    if let Some(message) = tap_fault(taps) {
        findings.errors.push(Diagnostic::error("tap-sum", pre.span.to(post.span), message).help(TAP_CURE));
        return None;
    }
    Some(Some(taps))
}

/// The receive equaliser; the outer `None` after an error.
pub(crate) fn ctle(values: &Values<'_>, findings: &mut Findings) -> Option<Option<Ctle>> {
    let poles = values.list("pole");
    let Some(peaking) = values.number("ctle") else {
        let stray = values.word("zero").or_else(|| values.word("pole"));
        if let Some(stray) = stray {
            findings.errors.push(
                Diagnostic::error(
                    "extra-argument",
                    stray.span,
                    format!("`{}` belongs to a `ctle`, and there is none", stray.text),
                )
                .help("write e.g. `ctle 6 dB zero 2 GHz pole 2 GHz 8 GHz`"),
            );
            return None;
        }
        return Some(None);
    };
    let hertz = |index: usize| poles.get(index).map(|v| Hertz(v.si));
    Some(Some(Ctle {
        peaking: peaking.si,
        zero: values.number("zero").map(|v| Hertz(v.si)),
        poles: [hertz(0), hertz(1)],
    }))
}

/// The taps of the decision feedback and their limit; `None` after an error.
pub(crate) fn feedback(values: &Values<'_>, findings: &mut Findings) -> Option<(usize, Option<f64>)> {
    let limit = values.number("limit");
    let Some(taps) = values.number("dfe") else {
        if let Some(limit) = limit {
            let stray =
                Diagnostic::error("extra-argument", limit.span, "`limit` belongs to a `dfe`, and there is none");
            findings.errors.push(stray.help("write e.g. `dfe 2 limit 0.5`"));
            return None;
        }
        return Some((0, None));
    };
    if taps.si.fract() != 0.0 {
        findings.errors.push(
            Diagnostic::error("out-of-range", taps.span, "a number of taps is a whole number")
                .help("`dfe` takes 1 to 64"),
        );
        return None;
    }
    Some((taps.si as usize, limit.map(|v| v.si)))
}
