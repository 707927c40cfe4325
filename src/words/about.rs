//! What a line is, in sentences.

use super::named::named;
use crate::budget::Retune;
use crate::network::ReferencePlane;
use crate::result::{BusResult, FeedResult, LaneResult, LineHead};
use crate::units::{engineering, significant};

/// What is said of one kind of line alone.
pub(crate) trait Described {
    /// What it is, in a sentence.
    fn about(&self) -> String;

    /// Further sentences.
    fn facts(&self) -> Vec<String> {
        Vec::new()
    }

    /// Height of the worst-pattern eye absent, where it is known.
    fn eye_height(&self) -> Option<f64> {
        None
    }
}

/// The port a line belongs to, or nothing.
fn of_port(head: &LineHead) -> String {
    head.port.as_ref().map_or(String::new(), |port| format!(" of the port {}", named(port)))
}

/// How many lines there are, and of which port.
pub(crate) fn counted(head: &LineHead, one: &str, more: &str) -> String {
    format!("{} {}{}", head.count, if head.count == 1 { one } else { more }, of_port(head))
}

impl Described for LaneResult {
    fn about(&self) -> String {
        let lane = &self.about;
        let (one, more) = if lane.differential {
            ("differential pair", "differential pairs")
        } else {
            ("single-ended line", "single-ended lines")
        };
        let differential = if lane.differential { " differential" } else { "" };
        let seen = match self.outcome.reference_plane {
            ReferencePlane::OuterEnd => "at the outer end".to_owned(),
            plane => plane.to_string(),
        };
        format!(
            "{}, {} at {}, Nyquist {}; reference {}{differential}; return loss seen {seen}; outer end: {}.",
            counted(&self.head, one, more),
            lane.modulation.word(),
            engineering(lane.symbol_rate.0, "Bd"),
            engineering(lane.symbol_rate.nyquist().0, "Hz"),
            engineering(lane.reference.0, "ohm"),
            lane.outer_end(),
        )
    }

    fn eye_height(&self) -> Option<f64> {
        self.outcome.sized.absent.time.eye_height
    }
}

impl Described for FeedResult {
    fn about(&self) -> String {
        let band = self.about.band;
        format!(
            "{}, {} to {}; the match is seen by the radio in {}.",
            counted(&self.head, "antenna feed", "antenna feeds"),
            engineering(band.low.0, "Hz"),
            engineering(band.high.0, "Hz"),
            engineering(self.about.reference.0, "ohm")
        )
    }

    /// Coils that tune it back, and what no match can exceed.
    fn facts(&self) -> Vec<String> {
        let sized = &self.outcome.sized;
        let fitted = sized.fitted.as_ref().and_then(|fitted| fitted.at.changes.retune);
        let at_budget = sized.at_budget.as_ref().and_then(|at| at.changes.retune);
        let bound = self.outcome.bode_fano.map(|db| {
            format!(
                "No lossless match can hold more than {} dB of return loss all over the band (Bode and Fano).",
                significant(db, 4)
            )
        });
        let fitted = fitted.map(|coil| retuned(&coil, "the fitted capacitance"));
        let at_budget = at_budget.map(|coil| retuned(&coil, "the budget"));
        [fitted, at_budget, bound].into_iter().flatten().collect()
    }
}

fn retuned(retune: &Retune, place: &str) -> String {
    let holds = if retune.holds { "every limit holds" } else { "a limit breaks" };
    let match_left = retune
        .metrics
        .return_loss()
        .map_or("no reflection".to_owned(), |db| format!("a return loss of {} dB", significant(db, 2)));
    format!(
        "To tune back {place} (estimate): {} to ground at the protector, nearest E24 value {}, with which {holds}, at \
         {match_left}; a direct voltage on the line needs a DC block; or {} in series, half to either side.",
        format_args!("{:.2}", retune.shunt),
        engineering(retune.nearest.0, "H"),
        format_args!("{:.2}", retune.series),
    )
}

impl Described for BusResult {
    fn about(&self) -> String {
        let bus = &self.about;
        let rate = bus.rate.map_or(String::new(), |rate| format!(", {}", engineering(rate, "b/s")));
        let charged = match bus.resistance {
            Some(r) => format!("charged through {}", engineering(r.0, "ohm")),
            None => "no resistance stated".to_owned(),
        };
        format!(
            "{}{rate}; {charged}; wiring and inputs {}; protectors that share the budget: {}.",
            counted(&self.head, "line", "lines"),
            engineering(bus.other_capacitance.0, "F"),
            bus.nodes
        )
    }

    fn facts(&self) -> Vec<String> {
        let shared = self.about.nodes > 1 && self.budget().capacitance.is_some();
        let shared = shared.then(|| format!("Each of the {} protectors may have that much.", self.about.nodes));
        shared.into_iter().collect()
    }
}
