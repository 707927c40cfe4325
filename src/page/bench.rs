//! Where the reader of the page tries a capacitance on a lane. Without scripts it stays hidden.

use maud::{Markup, PreEscaped, html};

use super::inert;
use super::live::Live;
use crate::figures::*;
use crate::result::{LaneReport, LimitReport};
use crate::units::decimal::short;
use crate::words::limits;

/// A figure at Nyquist that follows the capacitance.
struct Row {
    figure: &'static Figure,
    title: &'static str,
    unit: &'static str,
    /// Its value without protector; `None` for what a protector changes.
    absent: Option<fn(&LaneReport) -> Option<f64>>,
}

const fn row(
    figure: &'static Figure,
    title: &'static str,
    unit: &'static str,
    absent: fn(&LaneReport) -> Option<f64>,
) -> Row {
    Row { figure, title, unit, absent: Some(absent) }
}

static ROWS: [Row; 7] = [
    row(&INSERTION_LOSS, "insertion loss", "dB", |lane| lane.absent.insertion_loss_db),
    Row { figure: &ADDED_LOSS, title: "added loss", unit: "dB", absent: None },
    row(&RETURN_LOSS, "return loss", "dB", |lane| lane.absent.return_loss_db),
    row(&RETURN_LOSS_INNER, "return loss, inner end", "dB", |lane| lane.absent.return_loss_inner_db),
    row(&REFLECTED, "reflection |S11|", "", |lane| Some(lane.absent.reflection)),
    row(&NYQUIST_AMPLITUDE, "amplitude |H|", "", |lane| Some(lane.absent.nyquist_amplitude)),
    Row { figure: &EYE_PENALTY, title: "eye penalty*", unit: "%", absent: None },
];

pub(crate) fn bench(index: usize, live: &Live, lane: &LaneReport) -> Markup {
    let number = format!("capacitance-{}", index + 1);
    html! {
        div.live hidden="hidden" {
            h3 { "Try a capacitance" }
            div.dial {
                label for=(number) { "Protector, one line to ground [pF]" }
                input id=(number) type="number" min="0" step="any" inputmode="decimal" autocomplete="off";
                input type="range" min="0" step="any" aria-label=(format!("Protector of {} in picofarad", inert(&lane.name)));
                p.said role="status" {}
            }
            div.columns {
                (figures(lane))
                (states(lane))
            }
            p.note {
                "Worked out in this page from the chain's own coefficients, S = (p + qC)/(r + sC), and drawn into the charts \
                 below. * is the loss of the fundamental at Nyquist, no eye measurement. Masks and the figures in time are \
                 not worked out again: whether they hold is read from the capacitances that they allow."
            }
            script type="application/json" { (PreEscaped(live.json())) }
        }
    }
}

fn figures(lane: &LaneReport) -> Markup {
    html! {
        table {
            caption { "At the Nyquist frequency" }
            thead { tr { th scope="col" { "figure" } th scope="col" { "absent" } th scope="col" { "tried" } } }
            tbody {
                @for row in &ROWS {
                    tr {
                        th scope="row" { (row.title) }
                        td { (absent(row, lane)) }
                        td { data data-key=(row.figure.key) data-unit=(row.unit) data-without=(row.figure.without) value="" {} }
                    }
                }
            }
        }
    }
}

fn absent(row: &Row, lane: &LaneReport) -> String {
    let Some(absent) = row.absent else {
        return "-".to_owned();
    };
    let number = |value| format!("{} {}", short(value), row.unit).trim_end().to_owned();
    absent(lane).map_or(row.figure.without.to_owned(), number)
}

/// Each limit, and whether it holds.
fn states(lane: &LaneReport) -> Markup {
    html! {
        table {
            caption { "The limits" }
            thead { tr { th scope="col" { "limit" } th scope="col" { "bound" } th scope="col" { "tried" } th scope="col" { "state" } } }
            tbody {
                @for limit in &lane.budget.limits {
                    tr data-limit=(limit.limit) data-allows=(allowed(limit)) data-bound=[limit.bound] data-figure=[figure(limit)] {
                        th scope="row" { (breakable(&limits::title(limit.limit))) }
                        td { (limits::bound(limit)) }
                        td.value { "-" }
                        td.state {}
                    }
                }
            }
        }
    }
}

/// A word that a narrow screen may break behind each of its `_`.
fn breakable(word: &str) -> Markup {
    html! { @for (index, piece) in word.split('_').enumerate() { @if index > 0 { "_" wbr; } (piece) } }
}

/// The figure at Nyquist that a limit bounds.
fn figure(limit: &LimitReport) -> Option<&'static str> {
    let row = ROWS.iter().find(|row| row.figure.word() == limit.limit).filter(|_| limit.bound.is_some());
    row.map(|row| row.figure.key)
}

/// The allowed capacitances in farad as JSON.
fn allowed(limit: &LimitReport) -> String {
    serde_json::to_string(&limit.intervals_f).unwrap_or_default()
}
