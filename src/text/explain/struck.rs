//! The circuit that is struck, node by node, and the straight lines of its parts.

use super::write::say;
use crate::model::{Chip, ChipClamp, Element, Line};
use crate::network::{Branch, Section, sections_of};
use crate::transient::{LineDischarge, NEGATIVE, PartLines, StraightLine, StruckPart, surroundings};
use crate::units::{Farad, Henry, Ohm, Volt};
use crate::words::named::named;

/// Nodes on the way in.
struct Walk {
    node: usize,
    said: Vec<String>,
}

impl Walk {
    /// What stands between this node and the next.
    fn through(&mut self, what: &str) {
        self.said.push(format!("n{} - {what} - n{}", self.node, self.node + 1));
        self.node += 1;
    }

    fn coil(&mut self, inductance: Henry) {
        if inductance.0 > 0.0 {
            self.through(&inductance.to_string());
        }
    }

    fn grounds(&mut self, what: &str) {
        self.said.push(format!("{what} at n{} to ground", self.node));
    }

    fn capacitance(&mut self, capacitance: Farad) {
        if capacitance.0 > 0.0 {
            self.grounds(&capacitance.to_string());
        }
    }

    fn pass(&mut self, section: &Section) {
        match *section {
            Section::SeriesResistance(r) if r.0 > 0.0 => self.through(&r.to_string()),
            Section::SeriesResistance(_) | Section::Guard { .. } => {}
            Section::SeriesInductance(l) => self.coil(l),
            Section::SeriesCapacitance(c) => self.through(&c.to_string()),
            Section::ShuntResistance(r) => self.said.push(format!("{r} to ground is left out")),
            Section::ShuntInductance(l) => self.grounds(&l.to_string()),
            Section::ShuntCapacitance(c) => self.capacitance(c),
            Section::Line(line) if line.delay().0 > 0.0 => {
                self.through(&format!("line of {}, {}", line.impedance(), line.delay()));
            }
            Section::Line(_) => {}
            Section::Tee { capacitance, inductance } => {
                self.coil(inductance / 2.0);
                self.capacitance(capacitance);
                self.coil(inductance / 2.0);
            }
            Section::Pi { capacitance, inductance } => {
                self.capacitance(capacitance / 2.0);
                self.coil(inductance);
                self.capacitance(capacitance / 2.0);
            }
            Section::OpenStub { impedance, delay } => {
                self.said.push(format!("open stub of {impedance}, {delay} at n{}", self.node));
            }
        }
    }

    fn branch(&mut self, what: &str, branch: &Branch) {
        let stub = match branch.stub_delay.0 > 0.0 {
            true => format!(", at the end of a stub of {}, {}", branch.stub_impedance, branch.stub_delay),
            false => String::new(),
        };
        self.said.push(format!("{what} at n{}{stub}, pad {}", self.node, branch.pad));
    }
}

/// The circuit from the struck node inward, an element a row.
pub(super) fn circuit(text: &mut String, line: &Line, found: &LineDischarge) {
    let Some(path) = line.path() else { return };
    let (across, reference) = surroundings(line);
    say!(text, "  Circuit of one line to ground, from the struck node n0 inward:");
    let mut walk = Walk { node: 0, said: Vec::new() };
    for (index, place) in path.elements.iter().enumerate().skip(path.port_plane_index()) {
        match &place.element {
            Element::Guard(guard) => walk.branch(&named(&guard.part.name), &Branch::of_guard(guard, reference)),
            Element::Protector(protector) => {
                let name = protector.part.as_ref().map_or(String::new(), |part| named(&part.name));
                walk.branch(&name, &Branch::new(protector, reference));
            }
            _ => sections_of(path, index, across, reference).iter().for_each(|section| walk.pass(section)),
        }
        let said = match (walk.said.is_empty(), &place.element) {
            (false, _) => walk.said.join(", "),
            (true, Element::Plane) => "the struck node".to_owned(),
            (true, _) => "nothing".to_owned(),
        };
        walk.said.clear();
        say!(text, "    {}. {}: {said}", place.number, place.element.word());
    }
    let pin = walk.node;
    match found.chip.clamp {
        Some(clamp) => say!(text, "    pin n{pin}: the chip's clamp, {}", clamp_lines(&found.chip, clamp)),
        None => say!(text, "    pin n{pin}: no clamp of the chip is stated"),
    }
}

/// The straight lines of a chip's clamp in both polarities.
pub(super) fn clamp_lines(chip: &Chip, clamp: ChipClamp) -> String {
    let of = |from: Volt| straight(&StraightLine { from, intercept: from, slope: clamp.resistance });
    format!("{} positive, {} negative", of(clamp.voltage), of(chip.negative.unwrap_or(NEGATIVE)))
}

fn straight(line: &StraightLine) -> String {
    format!("V = {} + {} I", line.intercept, line.slope)
}

/// A part with the number of its element.
pub(super) fn numbered(part: &StruckPart) -> String {
    format!("{} ({})", named(&part.part.name), part.element)
}

/// What hangs at the terminals of a part, in both polarities.
pub(super) fn part_rows(text: &mut String, part: &StruckPart, [positive, negative]: [PartLines; 2]) {
    let (r, l, c): (Ohm, Henry, Farad) = (positive.resistance, positive.inductance, positive.capacitance);
    say!(
        text,
        "  {}, element {}: R = {r}, L = {l} in series with its straight lines, C = {c} beside them",
        named(&part.part.name),
        part.element
    );
    line_rows(text, [&positive, &negative]);
}

/// The straight lines of a part in both polarities.
pub(super) fn line_rows(text: &mut String, both: [&PartLines; 2]) {
    for (word, lines) in ["positive", "negative"].into_iter().zip(both) {
        let rising = lines.lines.iter().enumerate();
        let rising: Vec<String> = rising
            .map(|(k, line)| match (k, lines.snap) {
                (0, Some(_)) => straight(line),
                _ => format!("from {} on {}", line.from, straight(line)),
            })
            .collect();
        let rising = rising.join(", ");
        let Some(snap) = lines.snap else {
            say!(text, "    {word}: {rising}");
            continue;
        };
        let trigger = snap.trigger;
        say!(text, "    {word}: off up to {trigger}, then {rising}, until I <= {}", snap.holding);
        if let (Some(turn_on), Some(line)) = (snap.turn_on, lines.lines.first()) {
            let above = trigger - line.from;
            say!(text, "      as it turns on at t0, {above} e^(-(t - t0)/{turn_on}) above that");
        }
    }
}
