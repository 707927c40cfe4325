//! Values by their addresses: read from a sheet, changed in a line, set on the command line, and typed into the sheet.

mod set;
mod tolerances;

use lanecap::model::{Address, AddressedValue, Design, Line, Owner, ValueName};

use crate::support::{files, read_file};

/// Every good sheet with its lines.
fn designs() -> Vec<(std::path::PathBuf, String, Design)> {
    let read = |path: std::path::PathBuf| {
        let text = std::fs::read_to_string(&path).unwrap();
        let (_, design) = read_file(&path);
        (path, text, design.unwrap())
    };
    files("fixtures/sheets/ok", "lanes").into_iter().map(read).collect()
}

/// What a line's circuit has, to the last bit.
fn circuit(line: &Line) -> String {
    let mut line = line.clone();
    line.head = lanecap::Head::new("");
    let mut text = String::new();
    for place in line.path().into_iter().flat_map(|path| &path.elements) {
        text.push_str(&format!("{:?}\n", place.element));
    }
    match &line.kind {
        lanecap::Kind::Lane(lane) => text.push_str(&format!("{:?}", lane.symbol_rate)),
        lanecap::Kind::Bus(bus) => {
            text.push_str(&format!("{:?} {:?} {:?} {:?}", bus.charging, bus.wiring, bus.inputs, bus.fitted))
        }
        _ => {}
    }
    // Where a part or a laminate stands in the sheet is no value.
    regex_free(&text)
}

/// The text without spans, which differ between two texts of one sheet.
fn regex_free(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("span: Span {") {
        out.push_str(before);
        rest = after.split_once('}').map_or("", |(_, rest)| rest);
    }
    out.push_str(rest);
    out
}

#[test]
fn an_address_is_read_as_it_is_written() {
    let owners = [
        Owner::Element(1),
        Owner::Element(40),
        Owner::Part("quad \" array".to_owned()),
        Owner::Part("a.b\".c=d/e".to_owned()),
        Owner::Laminate("core".to_owned()),
    ];
    for owner in owners {
        for value in ValueName::ALL {
            let address = Address { owner: owner.clone(), value: *value };
            assert_eq!(address.to_string().parse(), Ok(address));
        }
    }
    for wrong in
        ["", "7", "7.", "0.length", "7.lenght", "length", "-1.pad", "part pad.capacitance", "part \"x\".", "7 length"]
    {
        assert!(wrong.parse::<Address>().is_err(), "{wrong}");
    }
}

#[test]
fn values_at_their_nominal_change_no_bit() {
    let mut tried = 0;
    for (path, _, design) in designs() {
        for line in &design.lines {
            let stated: Vec<(&Address, f64)> =
                line.head.values.iter().filter_map(|value| Some((&value.address, value.nominal?))).collect();
            tried += stated.len();
            let same = line.with_values(stated).unwrap_or_else(|fault| panic!("{} {fault}", path.display()));
            assert_eq!(circuit(&same), circuit(line), "{} {}", path.display(), line.head.name);
        }
    }
    assert!(tried > 800, "{tried}");
}

/// A number beside a value, within its range and near it.
fn beside(value: &AddressedValue) -> f64 {
    let nominal = value.nominal.unwrap_or(0.0);
    let further = match nominal {
        0.0 => value.range.low.max(1e-13_f64.min(value.range.high)),
        nominal => nominal * 1.01,
    };
    if value.range.contains(further) { further } else { nominal * 0.99 }
}
