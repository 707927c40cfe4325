//! Where the reader of the page tries a capacitance on a lane. Without scripts it stays hidden.

use maud::{Markup, PreEscaped, html};

use super::inert;
use super::live::Live;
use crate::model::LimitKind;
use crate::result::{LaneReport, LimitReport};
use crate::units::decimal::short;
use crate::words::limits;

/// A figure at Nyquist that follows the capacitance.
struct Figure {
    /// Its key in the results.
    key: &'static str,
    title: &'static str,
    unit: &'static str,
    /// The limit that bounds it.
    limit: Option<LimitKind>,
    absent: fn(&LaneReport) -> Option<f64>,
    /// What stands where there is no number.
    without: &'static str,
}

const FIGURES: [Figure; 7] = [
    Figure {
        key: "insertion_loss_db",
        title: "insertion loss",
        unit: "dB",
        limit: Some(LimitKind::InsertionLoss),
        absent: |lane| lane.absent.insertion_loss_db,
        without: "nothing passes",
    },
    Figure {
        key: "added_loss_db",
        title: "added loss",
        unit: "dB",
        limit: Some(LimitKind::AddedLoss),
        absent: |_| None,
        without: "-",
    },
    Figure {
        key: "return_loss_db",
        title: "return loss",
        unit: "dB",
        limit: Some(LimitKind::ReturnLoss),
        absent: |lane| lane.absent.return_loss_db,
        without: "no reflection",
    },
    Figure {
        key: "return_loss_inner_db",
        title: "return loss, inner end",
        unit: "dB",
        limit: Some(LimitKind::ReturnLossInner),
        absent: |lane| lane.absent.return_loss_inner_db,
        without: "no reflection",
    },
    Figure {
        key: "reflection",
        title: "reflection |S11|",
        unit: "",
        limit: None,
        absent: |lane| Some(lane.absent.reflection),
        without: "-",
    },
    Figure {
        key: "nyquist_amplitude",
        title: "amplitude |H|",
        unit: "",
        limit: None,
        absent: |lane| Some(lane.absent.nyquist_amplitude),
        without: "-",
    },
    Figure {
        key: "eye_penalty",
        title: "eye penalty*",
        unit: "%",
        limit: Some(LimitKind::EyePenalty),
        absent: |_| None,
        without: "-",
    },
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
                @for figure in &FIGURES {
                    tr {
                        th scope="row" { (figure.title) }
                        td { (absent(figure, lane)) }
                        td { data data-key=(figure.key) data-unit=(figure.unit) data-without=(figure.without) value="" {} }
                    }
                }
            }
        }
    }
}

fn absent(figure: &Figure, lane: &LaneReport) -> String {
    let changes = matches!(figure.limit, Some(LimitKind::AddedLoss | LimitKind::EyePenalty));
    match (figure.absent)(lane) {
        Some(value) => format!("{} {}", short(value), figure.unit).trim_end().to_owned(),
        None if changes => "-".to_owned(),
        None => figure.without.to_owned(),
    }
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
    let bounds = |figure: &&Figure| figure.limit.is_some_and(|kind| kind.word() == limit.limit);
    let figure = FIGURES.iter().find(bounds).filter(|_| limit.bound.is_some());
    figure.map(|figure| figure.key)
}

/// The allowed capacitances in farad as JSON.
fn allowed(limit: &LimitReport) -> String {
    serde_json::to_string(&limit.intervals_f).unwrap_or_default()
}
