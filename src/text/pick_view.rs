//! What a reader is shown of a `pick`.

use super::checks::check_grid;
use super::grid::Grid;
use super::render::{Format, written};
use super::scale::{power, protector_scale};
use super::section::Section;
use super::view::View;
use crate::parts::{Check, Verdict};
use crate::result::{BillReport, LinePickReport, PartPickReport, PickReport, pick_csv, pick_json};
use crate::units::decimal::{Scale, short, signed_percent, significant};
use crate::words::limits::Capacitances;
use crate::words::named::named;
use crate::words::set;

/// How the parts were judged.
const FOOTNOTES: [&str; 4] = [
    "A part passes on a line only where it states everything the line asks for: \"not stated\" does not pass.",
    "A pair takes two channels: of one package, or of two packages of one part with an odd number of channels.",
    "A part stated across the pair alone takes one channel for a pair.",
    "The budget of a part is the line's with the inductance, resistance and mismatch of that part.",
];

/// How the parts were judged, on which lines as stated alone, and where a bill takes others than the recommended ones.
pub(crate) fn footnotes(report: &PickReport) -> Vec<String> {
    let of = |bill: &BillReport| {
        bill.port.as_ref().map_or("lines of no port".to_owned(), |port| format!("port {}", named(port)))
    };
    let whys =
        report.bills.iter().filter_map(|bill| Some(format!("The bill of the {}: {}.", of(bill), bill.why.as_ref()?)));
    let vary = report.lines.iter().filter(|line| line.varies).map(|line| {
        let name = named(&line.name);
        format!("{name} has tolerances and is judged as stated; `size` tells the worst case within the tolerances.")
    });
    FOOTNOTES.map(str::to_owned).into_iter().chain(vary).chain(whys).collect()
}

/// The result of `pick` in one of the formats, ended by a line end.
pub fn render_pick(report: &PickReport, format: Format) -> String {
    written(format, || view(report), || pick_json(report), || pick_csv(report))
}

fn view(report: &PickReport) -> View {
    let scale = scale(report);
    View {
        title: report.title.clone(),
        set: report.set.iter().map(set::sentence).collect(),
        grids: overview(report).into(),
        footnotes: footnotes(report),
        sections: report.lines.iter().map(|line| section(line, scale)).collect(),
        cautions: report.cautions.clone(),
    }
}

fn scale(report: &PickReport) -> Scale {
    protector_scale(report.lines.iter().flat_map(|line| {
        let parts = line.parts.iter().flat_map(|part| [part.capacitance_f, part.budget_f]).flatten();
        parts.chain(line.budget_f)
    }))
}

/// The part of each line, and what each port needs.
pub(crate) fn overview(report: &PickReport) -> [Grid; 2] {
    [recommended(&report.lines, scale(report)), bill(&report.bills)]
}

fn recommended(lines: &[LinePickReport], scale: Scale) -> Grid {
    let row = |line: &LinePickReport| {
        let chosen = line.parts.iter().find(|part| Some(&part.part) == line.recommended.as_ref());
        let passing = line.parts.iter().filter(|part| part.passes).count();
        vec![
            line.name.clone(),
            line.kind.to_owned(),
            line.port.clone().unwrap_or_else(|| "-".to_owned()),
            line.count.to_string(),
            chosen.map_or(line.budget_f, |part| part.budget_f).map_or("-".to_owned(), |c| capacitance(c, scale)),
            format!("{passing} of {}", line.parts.len()),
            chosen.map_or("none".to_owned(), |part| format!("{}{}", part.part, warned(part, " (", ")"))),
            cost(chosen.and_then(|part| part.cost_per_line)),
            chosen.and_then(smallest_margin).unwrap_or_else(|| "-".to_owned()),
        ]
    };
    Grid {
        title: "The part recommended for each line",
        header: vec![
            "line".to_owned(),
            "kind".to_owned(),
            "port".to_owned(),
            "count".to_owned(),
            format!("budget [{}F]", scale.prefix),
            "parts that pass".to_owned(),
            "recommended".to_owned(),
            "cost per line".to_owned(),
            "smallest margin".to_owned(),
        ],
        rows: lines.iter().map(row).collect(),
    }
}

/// A capacitance that must not be exceeded, never rounded up.
fn capacitance(value: f64, scale: Scale) -> String {
    Capacitances::new(scale, None, std::iter::empty()).largest(value)
}

/// The smallest margin of a part with the check that has it.
fn smallest_margin(part: &PartPickReport) -> Option<String> {
    Some(format!("{} {}", part.smallest_margin_check?, signed_percent(part.smallest_margin?)))
}

fn cost(cost: Option<f64>) -> String {
    cost.map_or("-".to_owned(), |cost| significant(cost, 4))
}

fn bill(bills: &[BillReport]) -> Grid {
    let mut rows = Vec::new();
    for bill in bills {
        let port = bill.port.clone().unwrap_or_else(|| "-".to_owned());
        for used in &bill.parts {
            let lines: Vec<String> =
                used.lines.iter().map(|share| format!("{} ({})", named(&share.name), share.channels)).collect();
            rows.push(vec![
                port.clone(),
                used.part.clone(),
                used.packages.to_string(),
                lines.join(", "),
                used.spare_channels.to_string(),
                cost(used.cost),
            ]);
        }
        let unserved: Vec<String> = bill.unserved.iter().map(|name| named(name)).collect();
        let said = if unserved.is_empty() { String::new() } else { format!("no part for {}", unserved.join(", ")) };
        let packages: u32 = bill.parts.iter().map(|used| used.packages).sum();
        rows.push(vec![port, "in all".to_owned(), packages.to_string(), said, String::new(), cost(bill.cost)]);
    }
    Grid {
        title: "The bill of each port",
        header: ["port", "part", "packages", "lines (channels)", "spare channels", "cost"].map(str::to_owned).to_vec(),
        rows,
    }
}

fn section(line: &LinePickReport, scale: Scale) -> Section {
    let chosen = line.parts.iter().find(|part| Some(&part.part) == line.recommended.as_ref());
    let verdict = match chosen {
        Some(part) => format!("take {}{}", named(&part.part), warned(part, ", ", "")),
        None if line.breaks => "breaks whatever is fitted".to_owned(),
        None => "no part passes".to_owned(),
    };
    let of_part = |part: &PartPickReport| {
        let whys = part.checks.iter().filter_map(Check::reason);
        whys.map(|why| format!("{}, {why}", named(&part.part))).collect::<Vec<_>>()
    };
    let guesses = line.parts.iter().flat_map(|part| &part.warnings);
    let mut grids = vec![every_part(line, scale)];
    if let Some(chosen) = chosen {
        grids.push(check_grid("Checks of the recommended part", &chosen.checks));
    }
    Section {
        name: line.name.clone(),
        verdict,
        passes: line.recommended.is_some(),
        worst: None,
        facts: vec![format!("Why: {}.", line.why)],
        tolerates: Vec::new(),
        grids,
        reasons: line.parts.iter().flat_map(of_part).collect(),
        defaults: Vec::new(),
        warnings: guesses.map(|note| note.text.clone()).collect(),
    }
}

/// How many warnings a part has, between these; nothing where it has none.
fn warned(part: &PartPickReport, before: &str, after: &str) -> String {
    match part.warnings.len() {
        0 => String::new(),
        1 => format!("{before}1 warning{after}"),
        more => format!("{before}{more} warnings{after}"),
    }
}

/// Every part with the outcome of each check.
fn every_part(line: &LinePickReport, scale: Scale) -> Grid {
    let mut names: Vec<String> = Vec::new();
    for check in line.parts.iter().flat_map(|part| &part.checks) {
        // A line that breaks whatever is fitted says so itself.
        let name = check.name();
        if !(names.contains(&name) || line.breaks && check.check == "capacitance") {
            names.push(name);
        }
    }
    let guessed = line.parts.iter().any(|part| !part.warnings.is_empty());
    let row = |part: &PartPickReport| {
        let mut row = vec![
            part.part.clone(),
            if part.passes { "passes" } else { "no" }.to_owned(),
            part.capacitance_f.map_or("-".to_owned(), |c| short(c).times_ten_to(power(&scale)).to_string()),
            part.budget_f.map_or("-".to_owned(), |c| capacitance(c, scale)),
            cost(part.cost_per_line),
        ];
        row.extend(names.iter().map(|name| outcome(part, name)));
        row.extend(guessed.then(|| part.warnings.len().to_string()));
        row
    };
    let unit = format!("[{}F]", scale.prefix);
    let mut header = vec![
        "part".to_owned(),
        "all".to_owned(),
        format!("C {unit}"),
        format!("budget {unit}"),
        "cost per line".to_owned(),
    ];
    header.extend(names.iter().cloned());
    header.extend(guessed.then(|| "warnings".to_owned()));
    Grid { title: "Every part and its margins", header, rows: line.parts.iter().map(row).collect() }
}

/// The worst outcome of the checks of one name.
fn outcome(part: &PartPickReport, name: &str) -> String {
    let rank = |check: &&Check| match check.verdict {
        Verdict::Fails => 0,
        Verdict::NotStated => 1,
        Verdict::Passes => 2,
    };
    let Some(check) = part.checks.iter().filter(|check| check.name() == name).min_by_key(rank) else {
        return "-".to_owned();
    };
    match (check.verdict, check.margin) {
        (Verdict::Fails, Some(margin)) => format!("fails {}", signed_percent(margin)),
        (Verdict::Passes, Some(margin)) => signed_percent(margin),
        (verdict, _) => verdict.word().to_owned(),
    }
}
