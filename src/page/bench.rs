//! Where the reader of the page tries a capacitance on a lane. Without scripts it stays hidden.

use maud::{Markup, PreEscaped, html};

use super::inert;
use super::live::Live;
use crate::budget::{LaneFigures, LimitOutcome};
use crate::figures::*;
use crate::result::LaneResult;
use crate::units::decimal::short;
use crate::words::limits;

/// A figure at Nyquist that follows the capacitance, and what it is called here.
type Row = (&'static Figure, &'static str);

static ROWS: [Row; 7] = [
    (&INSERTION_LOSS, "insertion loss"),
    (&ADDED_LOSS, "added loss"),
    (&RETURN_LOSS, "return loss"),
    (&RETURN_LOSS_INNER, "return loss, inner end"),
    (&REFLECTED, "reflection |S11|"),
    (&NYQUIST_AMPLITUDE, "amplitude |H|"),
    (&EYE_PENALTY, "eye penalty*"),
];

/// The unit a figure is shown in.
fn unit(figure: &Figure) -> &'static str {
    match figure.unit() {
        "" => "%",
        "1" => "",
        unit => unit,
    }
}

/// `worst` is the worst case of a lane with tolerances.
pub(crate) fn bench(index: usize, live: &Live, lane: &LaneResult, worst: Option<&str>) -> Markup {
    let number = format!("capacitance-{}", index + 1);
    html! {
        div.live hidden="hidden" {
            h3 { "Try a capacitance" }
            div.dial {
                label for=(number) { "Protector, one line to ground [pF]" }
                input id=(number) type="number" min="0" step="any" inputmode="decimal" autocomplete="off";
                input type="range" min="0" step="any" aria-label=(format!("Protector of {} in picofarad", inert(&lane.head.name)));
                p.said role="status" data-worst=[worst] {}
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

fn figures(lane: &LaneResult) -> Markup {
    html! {
        table {
            caption { "At the Nyquist frequency" }
            thead { tr { th scope="col" { "figure" } th scope="col" { "absent" } th scope="col" { "tried" } } }
            tbody {
                @for (figure, title) in ROWS {
                    tr {
                        th scope="row" { (title) }
                        td { (absent(figure, &lane.outcome.sized.absent)) }
                        td { data data-key=(figure.key) data-unit=(unit(figure)) data-without=(figure.without) value="" {} }
                    }
                }
            }
        }
    }
}

/// A figure without protector; none of what a protector changes.
fn absent(figure: &Figure, of: &LaneFigures) -> String {
    if LaneFigures::ROWS.iter().all(|row| row.0 != figure) {
        return "-".to_owned();
    }
    let number = |value| format!("{} {}", short(value), unit(figure)).trim_end().to_owned();
    of.read(figure).map_or(figure.without.to_owned(), number)
}

/// Each limit, and whether it holds.
fn states(lane: &LaneResult) -> Markup {
    html! {
        table {
            caption { "The limits" }
            thead { tr { th scope="col" { "limit" } th scope="col" { "bound" } th scope="col" { "tried" } th scope="col" { "state" } } }
            tbody {
                @for (stated, limit) in lane.limits() {
                    tr data-limit=(limit.figure.word()) data-allows=(allowed(limit)) data-bound=[stated.bound] data-figure=[stated.bound.and(at_nyquist(limit.figure))] {
                        th scope="row" { (breakable(&limits::title(limit.figure))) }
                        td { (limits::bound(limit.figure, stated)) }
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

/// The key of a limited figure, where it is one at Nyquist.
fn at_nyquist(limited: &Figure) -> Option<&'static str> {
    ROWS.iter().find(|(figure, _)| *figure == limited).map(|(figure, _)| figure.key)
}

/// The allowed capacitances in farad as JSON.
fn allowed(limit: &LimitOutcome) -> String {
    serde_json::to_string(&limit.allowed.ends()).unwrap_or_default()
}
