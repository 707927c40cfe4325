//! The values of a line that have an address, with their tolerances.

use crate::diag::{Diagnostic, Span};
use crate::figures::{CAPACITANCE, INDUCTANCE, LENGTH, RESISTANCE, Range};
use crate::model::{Address, AddressedValue, Owner, Tolerance, ValueName};
use crate::sheet::ast::Text;
use crate::sheet::schema::TOGETHER;
use crate::sheet::values::{Value, Values};

use ValueName as V;

/// The values of an element that have an address: their names in its row, and in the address.
fn names(word: &str) -> &'static [(&'static str, ValueName)] {
    match word {
        "driver" => &[("impedance", V::Impedance), ("pad", V::Pad), ("rise", V::Rise), ("swing", V::Swing)],
        "receiver" => {
            &[("impedance", V::Impedance), ("pad", V::Pad), ("ctle", V::Ctle), ("zero", V::Zero), ("needs", V::Needs)]
        }
        "cable" | "trace" => &[
            ("impedance", V::Impedance),
            ("length", V::Length),
            ("delay", V::Delay),
            ("permittivity", V::Permittivity),
            ("loss_tangent", V::LossTangent),
            ("width", V::Width),
            ("height", V::Height),
            ("gap", V::Gap),
        ],
        "connector" => &[("capacitance", V::Capacitance), ("inductance", V::Inductance)],
        "via" => &[
            ("capacitance", V::Capacitance),
            ("inductance", V::Inductance),
            ("stub", V::Stub),
            ("permittivity", V::Permittivity),
            ("barrel", V::Barrel),
            ("drill", V::Drill),
            ("pad", V::Pad),
            ("antipad", V::Antipad),
        ],
        "series" | "shunt" => {
            &[("resistance", V::Resistance), ("inductance", V::Inductance), ("capacitance", V::Capacitance)]
        }
        "antenna" => {
            &[("impedance", V::Impedance), ("frequency", V::Frequency), ("resistance", V::Impedance), ("q", V::Quality)]
        }
        "radio" => &[("impedance", V::Impedance), ("pad", V::Pad)],
        "pin" => &[("pad", V::Pad)],
        "protector" => &[
            ("capacitance", V::Capacitance),
            ("pad", V::Pad),
            ("inductance", V::Inductance),
            ("resistance", V::Resistance),
            ("stub", V::Stub),
            ("neck.impedance", V::NeckImpedance),
            ("neck.length", V::NeckLength),
        ],
        "guard" => &[("pad", V::Pad), ("inductance", V::Inductance), ("stub", V::Stub)],
        _ => &[],
    }
}

/// The values of an element of which nothing is the default, so that they have an address where they are not stated.
fn unstated(word: &str, values: &Values<'_>) -> &'static [(ValueName, Range)] {
    const PAD: (ValueName, Range) = (V::Pad, CAPACITANCE);
    const L: (ValueName, Range) = (V::Inductance, INDUCTANCE);
    const STUB: (ValueName, Range) = (V::Stub, LENGTH);
    match word {
        "driver" | "receiver" | "radio" | "pin" => &[PAD],
        "connector" => &[L],
        "via" if values.number("barrel").is_some() => &[STUB],
        "via" => &[L, STUB],
        "protector" if values.text("part").is_some() => &[PAD, L, (V::Resistance, RESISTANCE), STUB],
        "protector" => &[(V::Capacitance, CAPACITANCE), PAD, L, (V::Resistance, RESISTANCE), STUB],
        "guard" => &[PAD, L, STUB],
        _ => &[],
    }
}

/// The values of an element, in the order of its row, then those it does not state.
pub(crate) fn of_element(
    number: usize,
    word: &str,
    values: &Values<'_>,
    row: Span,
    errors: &mut Vec<Diagnostic>,
) -> Vec<AddressedValue> {
    let mut found = Found::new(Owner::Element(number), values);
    for (name, value) in values.numbers() {
        if let Some((_, of)) = names(word).iter().find(|(own, _)| own == name) {
            found.push(*of, *value);
        }
    }
    for (name, pole) in [V::Pole, V::SecondPole].into_iter().zip(values.list("pole")) {
        found.push(name, *pole);
    }
    for (name, stated) in [V::Loss, V::SecondLoss].into_iter().zip(&values.losses) {
        found.push(name, stated.loss);
    }
    found.refuse_idle_group(values, errors);
    let mut list = found.list;
    for (name, range) in unstated(word, values) {
        if list.iter().all(|value| value.address.value != *name) {
            let address = Address { owner: Owner::Element(number), value: *name };
            list.push(AddressedValue { address, nominal: None, range: *range, tolerance: None, span: row });
        }
    }
    list
}

/// A value of a row that is a word and a number, with the group it deviates in.
pub(crate) fn of_row(
    address: Address,
    value: Value,
    together: Option<Text<'_>>,
    errors: &mut Vec<Diagnostic>,
) -> AddressedValue {
    let found = Found { owner: address.owner, together: together.map(|name| name.text.to_owned()), list: Vec::new() };
    if value.tolerance.is_none() {
        errors.extend(together.map(idle_group));
    }
    found.made(address.value, value)
}

/// What is gathered of one row.
struct Found {
    owner: Owner,
    together: Option<String>,
    list: Vec<AddressedValue>,
}

impl Found {
    fn new(owner: Owner, values: &Values<'_>) -> Found {
        Found { owner, together: values.text(TOGETHER).map(|name| name.text.to_owned()), list: Vec::new() }
    }

    fn push(&mut self, name: ValueName, value: Value) {
        self.list.push(self.made(name, value));
    }

    fn made(&self, name: ValueName, value: Value) -> AddressedValue {
        let tolerance = value.tolerance.map(|stated| {
            Box::new(Tolerance {
                low: value.si - stated.width,
                high: value.si + stated.width,
                together: self.together.clone(),
                relative: stated.relative,
                stated: true,
                span: stated.span,
            })
        });
        AddressedValue {
            address: Address { owner: self.owner.clone(), value: name },
            nominal: Some(value.si),
            range: value.range,
            tolerance,
            span: value.span,
        }
    }

    /// A group needs a value that deviates.
    fn refuse_idle_group(&self, values: &Values<'_>, errors: &mut Vec<Diagnostic>) {
        let idle = self.list.iter().all(|value| value.tolerance.is_none());
        errors.extend(values.text(TOGETHER).filter(|_| idle).map(idle_group));
    }
}

fn idle_group(name: Text<'_>) -> Diagnostic {
    Diagnostic::error("idle-group", name.span, "nothing in this line states a tolerance")
        .help(format!("state one, e.g. `± 10 %`, or delete `{TOGETHER}`"))
}
