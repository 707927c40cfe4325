//! Both halves of a line: what its signal tolerates, and beside it what its chip survives.

use maud::{Markup, PreEscaped, html};

use super::inert;
use crate::curve::{ChartData, DischargeCurves, NotDrawn, Picture, discharge_chart_data};
use crate::model::Line;
use crate::picture::svg;
use crate::transient::{LATE, LineDischarge, NotStruck, PinOutcome, Sign, SurgeOutcome};
use crate::units::decimal::estimate;
use crate::units::{Volt, engineering};

/// The caption of the picture.
const CAPTION: &str = "What a contact discharge leaves at the chip, over time and over its level: an estimate";

/// What the chip of a line survives: an estimate.
#[derive(Debug, Clone)]
pub struct ChipHalf {
    /// Of a contact discharge, with its picture; `None` where the line meets none.
    pub contact: Option<Result<Struck, NotDrawn>>,
    /// Of a surge; `None` where the line meets none, or has no path.
    pub surge: Option<Result<SurgeOutcome, NotStruck>>,
    /// The voltage its pin withstands in a surge, where it is stated.
    pub withstands_surge: Option<Volt>,
}

/// What a contact discharge leaves at a chip.
#[derive(Debug, Clone)]
pub struct Struck {
    /// The numbers.
    pub curves: Box<DischargeCurves>,
    /// The picture.
    pub svg: String,
}

impl ChipHalf {
    /// Of a line, from what a discharge leaves on it; `None` where it meets neither a contact discharge nor a surge.
    pub(crate) fn of(line: &Line, found: Option<&LineDischarge>) -> Option<ChipHalf> {
        let demands = &line.head.demands;
        let contact = demands.contact.map(|_| match found.and_then(|found| found.contact.as_ref()) {
            Some(Ok(contact)) => discharge_chart_data(line, contact).map_err(NotDrawn::NotStruck).and_then(struck),
            Some(Err(why)) => Err(NotDrawn::NotStruck(why.clone())),
            None => Err(NotDrawn::NoPath),
        });
        let surge = found.and_then(|found| found.surge.clone());
        (contact.is_some() || surge.is_some()).then_some(ChipHalf {
            contact,
            surge,
            withstands_surge: demands.withstands_surge,
        })
    }
}

fn struck(data: ChartData) -> Result<Struck, NotDrawn> {
    let svg = svg(&data);
    match data.picture {
        Picture::Discharge(curves) => Ok(Struck { curves, svg }),
        _ => Err(NotDrawn::NoContact),
    }
}

/// Both halves side by side, and the picture below them.
pub(super) fn halves(tolerates: &[(&'static str, String)], chip: &ChipHalf) -> Markup {
    html! {
        div.halves {
            div {
                h3 { "What the signal tolerates" }
                @if tolerates.is_empty() { p { "No limit on the capacitance." } } @else {
                    (table("What the signal tolerates", &html! {
                        tbody { @for (name, value) in tolerates { tr { th scope="row" { (name) } td { (inert(value)) } } } }
                    }))
                }
            }
            div {
                h3 { "What the chip survives (estimate)" }
                @match &chip.contact {
                    Some(Ok(struck)) => { (contact(&struck.curves)) }
                    Some(Err(why)) => p { "The contact discharge is not computed: " (inert(&not_drawn(why))) "." },
                    None => {}
                }
                @match &chip.surge {
                    Some(Ok(found)) => p { (surge(found, chip.withstands_surge)) },
                    Some(Err(why)) => p { "The surge is not computed: " (inert(&why.to_string())) "." },
                    None => {}
                }
            }
        }
        @if let Some(Ok(struck)) = &chip.contact {
            figure {
                div tabindex="0" role="group" aria-label=(CAPTION) { (PreEscaped(&struck.svg)) }
                figcaption { (CAPTION) }
            }
        }
    }
}

fn not_drawn(why: &NotDrawn) -> String {
    match why {
        NotDrawn::NoPath => "no path is stated".to_owned(),
        NotDrawn::NoContact => "none is stated".to_owned(),
        NotDrawn::NotStruck(why) => why.to_string(),
    }
}

/// A quantity of the pin: its name, unit, values at the stated and at the worst level, each with the sign of its polarity,
/// and what the chip survives.
type Row = (String, &'static str, [(f64, &'static str); 2], Option<f64>);

fn rows(found: &DischargeCurves) -> Vec<Row> {
    let survives = &found.survives;
    let late = format!("highest voltage after {}", engineering(LATE.0, "s"));
    let most = |figure: fn(&PinOutcome) -> f64| {
        let [own, others] = signs(found);
        [0, 1].map(|level| {
            let value = figure(&found.pin[level]);
            let other = found.other.map(|(pin, _)| figure(&pin[level])).filter(|other| *other > value);
            other.map_or((value, own), |other| (other, others))
        })
    };
    let mut rows: Vec<Row> = vec![
        ("highest voltage".to_owned(), "V", most(|pin| pin.peak.0), survives.early_v.or(survives.late_v)),
        (late, "V", most(|pin| pin.late_peak.0), survives.late_v),
    ];
    if survives.clamps {
        let pulse = "current, as a pulse of 100 ns".to_owned();
        rows.push((pulse, "A", most(|pin| pin.equivalent.0), survives.pulse_a));
        rows.push(("highest current".to_owned(), "A", most(|pin| pin.peak_current.0), survives.peak_a));
    }
    rows
}

/// The signs of the polarity of the picture and of the other one; nothing where both are alike.
fn signs(found: &DischargeCurves) -> [&'static str; 2] {
    match found.polarity {
        Some(Sign::Positive) => [" +", " -"],
        Some(Sign::Negative) => [" -", " +"],
        None => [""; 2],
    }
}

/// The worst level, of both polarities where they differ.
fn worst_level(found: &DischargeCurves) -> String {
    let [own, others] = signs(found);
    let level = volts(found.worst_level_v);
    match found.other.filter(|(_, other)| *other != found.worst_level_v) {
        Some((_, other)) => format!("{level}{own}, {}{others}", volts(other)),
        None => level,
    }
}

/// A table that a narrow screen scrolls.
fn table(label: &str, rows: &Markup) -> Markup {
    html! { div.table tabindex="0" role="group" aria-label=(label) { table { (rows) } } }
}

fn contact(found: &DischargeCurves) -> Markup {
    let rows = html! {
        thead { tr {
            th scope="col" { "at the pin" }
            th scope="col" { "stated, " (volts(found.level_v)) }
            th scope="col" { "worst, " (worst_level(found)) }
            th scope="col" { "survives" }
        } }
        tbody {
            @for (name, unit, values, most) in rows(found) {
                tr {
                    th scope="row" { (name) }
                    @for (value, sign) in values {
                        @let beyond = most.is_some_and(|most| value > most);
                        td class=[beyond.then_some("bad")] { @if beyond { "✗ " } (estimate(value, most, unit)) (sign) }
                    }
                    td { (most.map_or("not stated".to_owned(), |most| engineering(most, unit))) }
                }
            }
        }
    };
    html! {
        (table("What a contact discharge leaves at the pin", &rows))
        p { (conducts_from(found)) }
        p.note { (polarity(found)) @if !found.settled { " These figures did not stand still as the step was halved." } }
    }
}

/// Three digits of an estimate.
fn volts(value: f64) -> String {
    format!("{:.3}", Volt(value))
}

fn conducts_from(found: &DischargeCurves) -> String {
    match found.turns_on_from_v {
        Some(Some(level)) => format!("The protector conducts from a discharge of {} on.", volts(level)),
        Some(None) => "The protector does not conduct up to the stated level.".to_owned(),
        None => "No protector stands inward of the port plane.".to_owned(),
    }
}

fn polarity(found: &DischargeCurves) -> String {
    let of = match found.polarity {
        Some(sign) => format!(
            "Each figure is of the polarity that leaves more of it, + or -; those of the negative one count as positive. The \
             picture shows the {} one",
            sign.word()
        ),
        None => "Either polarity".to_owned(),
    };
    let chip = if found.survives.clamps { "" } else { " No clamp of the chip is stated: its current is not known." };
    format!("{of}.{chip} The test on the built board decides.")
}

fn surge(found: &SurgeOutcome, withstands: Option<Volt>) -> String {
    let withstands = withstands.map_or(String::new(), |most| format!(", which withstands {most}"));
    let current = found.pin_peak_current.map_or(String::new(), |i| format!("; {i:.3} go into the chip"));
    format!("A surge leaves {:.3} at the pin{withstands}{current}.", found.pin_peak)
}
