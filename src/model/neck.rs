//! The narrowed pieces of trace on both sides of the protector.

use super::{Element, Medium, Path, Stated, StatedLength, StatedLine, TransmissionLine};
use crate::units::{Farad, Metre, Ohm, SPEED_OF_LIGHT};

/// Why a neck cannot be cut from the traces beside its protector.
#[derive(Debug, Clone, PartialEq)]
pub struct NeckFault {
    /// Stable identifier in kebab case.
    pub code: &'static str,
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// What to do about it.
    pub help: String,
    /// Length of the longest neck that can be cut; `None` where none can.
    pub most: Option<Metre>,
    /// Index of the element it cannot be cut from, where there is one.
    pub beside: Option<usize>,
}

impl Path {
    /// The two pieces of the trace of this index, the outer one first, where the protector's neck is cut from it. Both have its
    /// permittivity and its loss per length.
    pub fn cut(&self, index: usize) -> Option<[TransmissionLine; 2]> {
        let neck = self.protector()?.neck.filter(|neck| neck.length > Metre::ZERO)?;
        let at = self.protector_index();
        let Element::Line(trace) = &self.elements.get(index)?.element else { return None };
        let narrow = TransmissionLine { impedance: neck.impedance, length: neck.length, ..trace.clone() };
        let rest = TransmissionLine { length: trace.length - neck.length, ..trace.clone() };
        match index {
            _ if index + 1 == at => Some([rest, narrow]),
            _ if index == at + 1 => Some([narrow, rest]),
            _ => None,
        }
    }

    /// What the protector's neck makes up for at low frequency: C + C_pad of 2τ(Z_n/Z0 − Z0/Z_n) = (C + C_pad)·Z0, τ the delay of
    /// one side, Z0 the `reference` of the circuit and `across` the factor on an impedance stated across a pair. Negative for a
    /// widened trace; `None` without a neck.
    ///
    /// # Validity
    /// A short neck and a small capacitance on a line of the impedance Z0 (common practice, no source; a short line as an
    /// inductance and a capacitance from Pozar, *Microwave Engineering*, stepped-impedance filters, from memory).
    pub fn neck_balances(&self, across: f64, reference: Ohm) -> Option<Farad> {
        let neck = self.protector()?.neck?;
        let at = self.protector_index();
        let narrow = [self.cut(at.checked_sub(1)?)?[1].clone(), self.cut(at + 1)?[0].clone()];
        let delays = narrow.map(|piece| piece.length.0 * piece.permittivity.sqrt() / SPEED_OF_LIGHT);
        let ratio = neck.impedance.0 * across / reference.0;
        Some(Farad((delays[0] + delays[1]) * (ratio - 1.0 / ratio) / reference.0))
    }

    /// Why the protector's neck cannot be; `None` where it can, and without one.
    pub fn neck_fault(&self) -> Option<NeckFault> {
        let neck = self.protector()?.neck?;
        let at = self.protector_index();
        let outer = self.of_trace(at.checked_sub(1), "outer");
        let (outer, inner) = match (outer, self.of_trace(Some(at + 1), "inner")) {
            (Err(fault), _) | (_, Err(fault)) => return Some(fault),
            (Ok(outer), Ok(inner)) => (outer, inner),
        };
        let (side, index, trace) = if outer <= inner { ("outer", at - 1, outer) } else { ("inner", at + 1, inner) };
        // Not a number is too long too.
        if neck.length <= trace {
            return None;
        }
        Some(NeckFault {
            code: "neck-too-long",
            message: format!("this neck of {} is cut from a trace of {trace} on its {side} side", neck.length),
            help: format!("at most {trace}, the length of the shorter of the two traces beside the protector"),
            most: Some(trace),
            beside: Some(index),
        })
    }

    /// Length of the trace of this index, which touches the protector on this side.
    fn of_trace(&self, index: Option<usize>, side: &str) -> Result<Metre, NeckFault> {
        let refused = |message: String, help: &str, beside: Option<usize>| {
            Err(NeckFault { code: "neck-without-trace", message, help: help.to_owned(), most: None, beside })
        };
        let cure = "put a `trace` stated by its length right beside the protector on both sides, or delete `neck`";
        let place = index.and_then(|index| self.elements.get(index));
        match place.map(|place| (&place.element, &place.stated)) {
            Some((Element::Line(line), Stated::AsIs)) if line.medium == Medium::Trace => Ok(line.length),
            Some((_, Stated::Line(StatedLine { medium: Medium::Trace, length, .. }))) => match length {
                StatedLength::Length(length) => Ok(*length),
                StatedLength::Delay(_) => refused(
                    format!("a neck is cut from a length, and the trace on its {side} side is stated by its delay"),
                    "state the length of this trace in place of its delay",
                    index,
                ),
            },
            Some((other, _)) => {
                let word = other.word();
                let message =
                    format!("a neck is cut from a trace on each side, and on its {side} side it touches a `{word}`");
                refused(message, cure, index)
            }
            None => refused(
                format!("a neck is cut from a trace on each side, and there is none on its {side} side"),
                cure,
                None,
            ),
        }
    }
}
