//! What the values of a line do to its budget, for which of them it holds, and the commands that are asked for it.

mod cli;
mod range;
mod sensitivity;
mod shown;
mod sweep;

use std::fmt::Write;

use crate::support::random::Random;
use crate::support::read_text;
use lanecap::budget::{Budget, Figures};
use lanecap::model::{Design, Kind, Line};
use lanecap::{size_bus, size_feed, size_lane};

/// The design of a good sheet.
fn design(sheet: &str) -> Design {
    let (_, design) = read_text(sheet);
    design.unwrap_or_else(|errors| panic!("{errors:?}\n{sheet}"))
}

/// Its only line.
fn line(sheet: &str) -> Line {
    design(sheet).lines.remove(0)
}

/// The budget of a line, and whether it keeps its limits with what is fitted: as each kind is sized.
fn sized(line: &Line) -> (Budget, Option<bool>) {
    match &line.kind {
        Kind::Lane(lane) => {
            let sized = size_lane(lane, Figures::Nyquist).unwrap().sized;
            (sized.budget, sized.fitted.map(|fitted| fitted.holds))
        }
        Kind::Feed(feed) => {
            let sized = size_feed(feed).unwrap().sized;
            (sized.budget, sized.fitted.map(|fitted| fitted.holds))
        }
        Kind::Bus(bus) => {
            let sized = size_bus(bus);
            (sized.budget, sized.fitted.map(|fitted| fitted.holds))
        }
        _ => panic!("a rail"),
    }
}

/// The budget of a sheet in farad.
fn budget(sheet: &str) -> Option<f64> {
    sized(&line(sheet)).0.capacitance.map(|c| c.0)
}

#[track_caller]
fn near(found: f64, expected: f64, relative: f64) {
    let most = relative * expected.abs();
    assert!((found - expected).abs() <= most, "{found} is not {expected}: {}", found / expected - 1.0);
}

/// A lane of random elements as a sheet: element 1 is the driver, 2 a connector, 3 and 5 the traces beside the protector 4.
fn random_sheet(r: &mut Random) -> String {
    let differential = r.chance(0.5);
    let z = if differential { r.between(80.0, 110.0) } else { r.between(45.0, 55.0) };
    let word = if differential { " differential" } else { "" };
    let mut path = String::new();
    let near = |r: &mut Random| z * r.between(0.85, 1.18);
    let _ = writeln!(path, "driver {} ohm pad {} pF", near(r), r.between(0.02, 0.3));
    let _ = writeln!(path, "connector {} pF {} nH", r.between(0.05, 0.3), r.between(0.1, 0.6));
    let _ = writeln!(path, "trace {} ohm {} mm permittivity {}", near(r), r.between(2.0, 12.0), r.between(2.5, 4.4));
    let (pad, inductance) = (r.between(0.02, 0.1), r.between(0.05, 0.5));
    let fitted = r.decade(0.05, 0.8);
    let _ = writeln!(path, "protector {fitted} pF pad {pad} pF inductance {inductance} nH resistance 0.3 ohm");
    let (loss, at) = (r.between(0.05, 0.8), r.between(2.0, 5.0));
    let length = r.between(5.0, 60.0);
    let _ = writeln!(path, "trace {} ohm {length} mm permittivity 3.5 loss {loss} dB at {at} GHz", near(r));
    let _ = writeln!(path, "via {} pF {} nH", r.between(0.05, 0.3), r.between(0.05, 0.5));
    let _ = writeln!(path, "series {} ohm", r.between(0.2, 4.0));
    let _ = writeln!(path, "receiver {} ohm pad {} pF", near(r), r.between(0.05, 0.4));
    let limits = format!(
        "limit return_loss >= {} dB; limit added_loss <= {} dB; limit eye_penalty <= {} %",
        r.between(5.0, 12.0),
        r.between(0.3, 1.2),
        r.between(4.0, 15.0)
    );
    let rate = r.between(2.0, 9.0);
    format!("lane \"level link\" {{\nrate {rate} Gb/s nrz\nreference {z} ohm{word}\n{limits}\npath {{\n{path}}}\n}}\n")
}

/// The same sheet with another number for the one that follows `before` in the row of an element, counted from 1.
fn edited(sheet: &str, element: usize, before: &str, unit: &str, value: f64) -> String {
    let mut rows: Vec<String> = sheet.lines().map(str::to_owned).collect();
    let first = rows.iter().position(|row| row.starts_with("path {")).unwrap() + 1;
    let row = &mut rows[first + element - 1];
    let at = row.find(before).unwrap_or_else(|| panic!("{before} in {row}")) + before.len();
    let rest = &row[at..];
    let end = rest.find(&format!(" {unit}")).unwrap_or_else(|| panic!("{unit} in {rest}"));
    *row = format!("{}{value:?}{}", &row[..at], &rest[end..]);
    rows.join("\n") + "\n"
}
