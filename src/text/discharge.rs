//! What a reader is shown of discharges.

use super::grid::Grid;
use super::render::Format;
use super::section::Section;
use super::view::View;
use super::{markdown, table};
use crate::result::{DischargeReport, DischargedLine, discharge_csv, discharge_json, peak_of, settled};
use crate::transient::{Contact, Discharged, LineDischarge, PartInSurge, PinOutcome, Sign, StruckPart, SurgeOutcome};
use crate::units::decimal::estimate;
use crate::units::{Ampere, Joule, Second, Volt};
use crate::words::discharge::{assumed, contact_facts, found, surge_fact};
use crate::words::set;

/// Columns of the table.
const WIDTH: u16 = 100;
/// Stands for what has no value.
const NOTHING: &str = "-";

/// What discharges leave in one of the formats, ended by a line end. The table is at most 100 columns wide.
pub fn render_discharge(report: &DischargeReport, format: Format) -> String {
    match format {
        Format::Table => table::lay_out_within(&view(report), WIDTH),
        Format::Markdown => markdown::lay_out(&view(report)),
        Format::Json => discharge_json(report),
        Format::Csv => discharge_csv(report),
    }
}

fn view(report: &DischargeReport) -> View {
    let none = "No line states an `exposure` to a contact discharge or a surge; --level computes a contact discharge.";
    let footnotes = if report.lines.is_empty() {
        vec![none.to_owned()]
    } else {
        vec![
            "Each figure is of the polarity that leaves more of it, + or -. Highest: over the whole run. Into the chip: the \
             highest current into its own clamp. Equivalent: the pulse of 100 ns that leaves the same energy there. Worst \
             level: the one, up to the stated level, that leaves most. Conducts from: the level from which on the protector \
             conducts, of the polarity that asks for more."
                .to_owned(),
            "In the negative polarity voltages and currents are told without their sign.".to_owned(),
        ]
    };
    View {
        set: report.set.iter().map(set::sentence).collect(),
        title: Some(report.title.clone().unwrap_or_else(|| "What a discharge leaves at the chip".to_owned())),
        grids: if report.lines.is_empty() { Vec::new() } else { vec![overview(&report.lines)] },
        footnotes,
        sections: report.lines.iter().map(section).collect(),
        cautions: report.cautions.iter().map(|caution| (*caution).to_owned()).collect(),
    }
}

/// The worse of both polarities for each figure of every line.
fn overview(lines: &[DischargedLine]) -> Grid {
    let header = [
        "line",
        "level",
        "highest at pin",
        "after 5 ns",
        "into chip",
        "equivalent",
        "worst level",
        "leaves",
        "conducts from",
    ];
    let row = |line: &DischargedLine| {
        let mut row = vec![line.name.clone(), line.contact.map_or(NOTHING.to_owned(), |level| level.to_string())];
        match (&line.found, line.struck()) {
            (Ok(found), Some(contact)) => row.extend(worse(found, contact)),
            (Ok(_), None) => row.push(if line.contact.is_some() { "not stated" } else { NOTHING }.to_owned()),
            (Err(_), _) => row.push("not computed".to_owned()),
        }
        row.resize(header.len(), NOTHING.to_owned());
        row
    };
    Grid {
        title: "What a contact discharge at the connector leaves at the chip, the worse of both polarities",
        header: header.map(str::to_owned).to_vec(),
        rows: lines.iter().map(row).collect(),
    }
}

fn worse(line: &LineDischarge, contact: &Contact) -> [String; 7] {
    let stated = |figure: fn(&PinOutcome) -> f64, unit| {
        let (sign, most) = worse_of(contact, |of| figure(&of.stated.outcome.pin));
        format!("{} {}", estimate(most, None, unit), mark(sign))
    };
    let clamped = |said: String| if line.chip.clamp.is_some() { said } else { NOTHING.to_owned() };
    let [(sign, of), _] = contact.worse_first();
    let worst = of.worst.outcome.pin;
    let leaves = line.chip.clamp.map_or(format!("{:.3}", worst.peak), |_| format!("{:.3}", worst.equivalent));
    let (last, from) = worse_of(contact, |of| of.turns_on_from.map_or(f64::INFINITY, |level| level.0));
    let from = if from.is_finite() { found(Volt(from)) } else { "never".to_owned() };
    [
        stated(|pin| pin.peak.0, "V"),
        stated(|pin| pin.late_peak.0, "V"),
        clamped(stated(|pin| pin.peak_current.0, "A")),
        clamped(stated(|pin| pin.equivalent.0, "A")),
        found(of.worst_level),
        format!("{leaves} {}", mark(sign)),
        format!("{from} {}", mark(last)),
    ]
}

/// The polarity that has more of a figure, and how much.
fn worse_of(contact: &Contact, figure: impl Fn(&Discharged) -> f64) -> (Sign, f64) {
    let [positive, negative] = contact.both().map(|(sign, of)| (sign, figure(of)));
    if negative.1 > positive.1 { negative } else { positive }
}

fn mark(sign: Sign) -> &'static str {
    match sign {
        Sign::Positive => "+",
        Sign::Negative => "-",
    }
}

/// What the chip's clamp takes: the peak and the equivalent current, and the energy.
fn taken(line: &LineDischarge, pin: PinOutcome) -> [String; 3] {
    match line.chip.clamp {
        Some(_) => [format!("{:.3}", pin.peak_current), format!("{:.3}", pin.equivalent), format!("{:.3}", pin.energy)],
        None => [NOTHING; 3].map(str::to_owned),
    }
}

fn section(line: &DischargedLine) -> Section {
    let mut section = Section {
        name: line.name.clone(),
        verdict: verdict(line),
        passes: true,
        worst: None,
        facts: Vec::new(),
        tolerates: Vec::new(),
        grids: Vec::new(),
        reasons: Vec::new(),
        defaults: Vec::new(),
        warnings: Vec::new(),
    };
    let missing = |what: &str, why: String| format!("{what} is not computed: {why}.");
    let found = match &line.found {
        Ok(found) => found,
        Err(why) => {
            section.facts.push(format!("Nothing is computed: {}.", why.text()));
            return section;
        }
    };
    section.facts.extend(line.not_struck().map(|why| missing("The contact discharge", why)));
    if let Some(contact) = line.struck() {
        section.facts.extend(contact_facts(found, contact));
        section.grids.extend([pin_grid(found, contact), part_grid(contact)]);
        section.defaults = assumed(found, &contact.parts);
        section.warnings = contact.both().iter().filter(|(_, of)| !settled(of)).map(unsettled).collect();
    }
    section.facts.extend(line.not_surged().map(|why| missing("The surge", why)));
    if let (Some(stated), Some(outcome)) = (line.surge, line.surged()) {
        section.facts.push(surge_fact(stated, outcome));
        section.grids.push(surge_grid(outcome));
    }
    section
}

fn verdict(line: &DischargedLine) -> String {
    let Some((contact, (level, found))) = line.struck().zip(line.contact.zip(line.found.as_ref().ok())) else {
        let surged = line.surged().map(|surged| format!("a surge leaves {:.3} at the pin", surged.pin_peak));
        let nothing = if line.found.is_ok() { "not stated" } else { "not computed" };
        return surged.unwrap_or_else(|| nothing.to_owned());
    };
    let most = |figure: fn(&PinOutcome) -> f64| worse_of(contact, |of| figure(&of.stated.outcome.pin)).1;
    let (volts, into) = (most(|pin| pin.peak.0), most(|pin| pin.peak_current.0));
    let into = found.chip.clamp.map_or(String::new(), |_| format!(" and {} into the chip", estimate(into, None, "A")));
    format!("{level} leaves {} at the pin{into}", estimate(volts, None, "V"))
}

fn unsettled((sign, of): &(Sign, &Discharged)) -> String {
    format!(
        "the figures of {} in the {} polarity still move by more than 0.5 % as the step of the computation is halved",
        of.level,
        sign.word()
    )
}

/// The stated and the worst level in both polarities.
fn pin_grid(line: &LineDischarge, contact: &Contact) -> Grid {
    let header = ["polarity", "level", "highest", "at", "after 5 ns", "at 30 ns", "into chip", "equivalent", "energy"];
    let row = |sign: Sign, level: String, pin: PinOutcome| {
        let mut row = vec![sign.word().to_owned(), level, format!("{:.3}", pin.peak), format!("{:.3}", pin.peak_at)];
        row.extend([pin.late_peak, pin.plateau].map(|volts| format!("{volts:.3}")));
        row.extend(taken(line, pin));
        row
    };
    let rows = |(sign, of): (Sign, &Discharged)| {
        let (level, stated, worst) = (of.level, of.stated.outcome.pin, of.worst.outcome.pin);
        if of.worst_level == level {
            return vec![row(sign, format!("{level}, worst"), stated)];
        }
        vec![row(sign, level.to_string(), stated), row(sign, format!("{}, worst", found(of.worst_level)), worst)]
    };
    Grid {
        title: "At the pin",
        header: header.map(str::to_owned).to_vec(),
        rows: contact.both().into_iter().flat_map(rows).collect(),
    }
}

/// The parts at the stated level in both polarities.
fn part_grid(contact: &Contact) -> Grid {
    let header = ["part", "element", "polarity", "starts at", "highest current", "energy"];
    let rows = contact.parts.iter().enumerate().flat_map(|(k, part)| {
        contact.both().into_iter().filter_map(move |(sign, of)| {
            let outcome = of.stated.outcome.parts.get(k)?;
            let numbers = part_cells(outcome.on_at, peak_of(part, outcome), outcome.energy);
            Some(part_row(part, sign.word(), numbers))
        })
    });
    Grid { title: "Parts, at the stated level", header: header.map(str::to_owned).to_vec(), rows: rows.collect() }
}

fn part_row(part: &StruckPart, polarity: &str, numbers: [String; 3]) -> Vec<String> {
    let element = format!("{}, {}", part.element, if part.protects { "protector" } else { "guard" });
    let mut row = vec![part.part.name.clone(), element, polarity.to_owned()];
    row.extend(numbers);
    row
}

fn part_cells(on_at: Option<Second>, peak: Option<Ampere>, energy: Joule) -> [String; 3] {
    [
        on_at.map_or("never".to_owned(), |t| format!("{t:.3}")),
        peak.map_or("no value".to_owned(), |peak| format!("{peak:.3}")),
        format!("{energy:.3}"),
    ]
}

/// The parts in a surge.
fn surge_grid(outcome: &SurgeOutcome) -> Grid {
    let header = ["part", "element", "polarity", "starts at", "highest current", "energy"];
    let row = |(part, seen): &(StruckPart, PartInSurge)| {
        part_row(part, "positive", part_cells(seen.on_at, Some(seen.peak), seen.energy))
    };
    Grid {
        title: "Parts, in the surge",
        header: header.map(str::to_owned).to_vec(),
        rows: outcome.parts.iter().map(row).collect(),
    }
}
