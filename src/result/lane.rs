//! Lanes as results.

use super::keys::Keys;
use super::line::{LineResult, Note};
use super::outcome::Kind;
use super::remarks::{LineRemarks, stated};
use crate::budget::{BelowNyquist, Fault, Figures, LaneOutcome, size_lane};
use crate::diag::{Sources, Span};
use crate::figures::{ADDED_LOSS, EYE_HEIGHT, EYE_OPENING, EYE_PENALTY, WORST_EYE_PENALTY};
use crate::model::{Bounds, Head, Lane, Modulation};
use crate::parts::{Checks, Duty, Fitted, line_checks};
use crate::response::CLOSED;
use crate::transient::LineDischarge;
use crate::units::decimal::{pair, percent, short};
use crate::units::{Baud, Ohm};

/// A lane.
pub type LaneResult = LineResult<LaneAbout, LaneOutcome>;

/// What is stated of a lane alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaneAbout {
    /// Line code.
    pub modulation: Modulation,
    /// Symbol rate.
    pub symbol_rate: Baud,
    /// Reference impedance as stated.
    pub reference: Ohm,
    /// Whether it is a pair.
    pub differential: bool,
    /// Whether the driver is at the outer end, or else the receiver.
    pub driver_is_outer: bool,
}

impl LaneAbout {
    /// What is at the outer end.
    pub fn outer_end(&self) -> &'static str {
        if self.driver_is_outer { "driver" } else { "receiver" }
    }
}

impl Kind for LaneResult {
    fn stated<K: Keys>(this: Option<&Self>, to: &mut K) {
        let about = this.map(|lane| &lane.about);
        to.text("modulation", about.map(|lane| lane.modulation.word()));
        to.number("symbol_rate_bd", about.map(|lane| lane.symbol_rate.0));
        to.number("nyquist_hz", about.map(|lane| lane.symbol_rate.nyquist().0));
        to.number("reference_ohm", about.map(|lane| lane.reference.0));
        to.flag("differential", about.map(|lane| lane.differential));
        to.text("port_plane", this.map(|lane| lane.outcome.reference_plane.to_string()).as_deref());
        to.text("outer_end", about.map(LaneAbout::outer_end));
    }
}

/// Sizes a lane.
///
/// # Errors
/// Where its numbers go beyond what can be computed.
pub(super) fn size(
    head: &Head,
    lane: &Lane,
    figures: Figures,
    discharge: Option<LineDischarge>,
    sources: &Sources,
) -> Result<LaneResult, Fault> {
    let outcome = size_lane(lane, figures)?;
    let protector = lane.path.protector();
    let part = protector.and_then(|p| p.part.as_ref());
    let sized = &outcome.sized;
    let with = Fitted {
        part: part.map(AsRef::as_ref),
        path: Some(&lane.path),
        discharge: discharge.as_ref(),
        left_out: discharge.is_none(),
    };
    let checked = sized.fitted.as_ref().map_or_else(Checks::default, |fitted| {
        let duty = Duty::of_lane(head, lane, part.is_some() && protector.is_some_and(|p| p.across));
        line_checks(&duty.needing(&sized.budget.allowed, Some(fitted.at.capacitance)), with)
    });
    let remarks = LineRemarks { part, checked, discharge, found: findings(lane, &outcome, sources) };
    Ok(LineResult {
        head: remarks.head(head, sources),
        about: LaneAbout {
            modulation: lane.modulation,
            symbol_rate: lane.symbol_rate,
            reference: lane.reference,
            differential: lane.differential,
            driver_is_outer: lane.path.driver_is_outer(),
        },
        limits: stated(&lane.limits, sources),
        outcome,
    })
}

/// What only the computed figures tell.
fn findings(lane: &Lane, outcome: &LaneOutcome, sources: &Sources) -> Vec<Note> {
    let mut notes = Vec::new();
    let limit = |figure| lane.limits.iter().find(|limit| limit.of.figure() == figure);
    let mut note = |code, span: Option<Span>, text: String| {
        notes.push(Note { code, text, line: span.map(|span| sources.line(span)) });
    };
    if let Some(height) = outcome.sized.absent.time.eye_height.filter(|height| *height < CLOSED) {
        let closed =
            format!("the worst-pattern eye is closed before the protector (height {height:.4} of the ideal eye)");
        let word = WORST_EYE_PENALTY.word();
        let limited = limit(&WORST_EYE_PENALTY).is_some();
        let so = if limited { format!("no capacitance keeps {word}") } else { "no penalty is given".to_owned() };
        note("eye-closed", None, format!("{closed}: {so}"));
    }
    if let Some(fault) = outcome.not_settled {
        note("not-settled", None, format!("{fault}: left out"));
    }
    let fitted = outcome.sized.fitted.as_ref().map(|fitted| (&fitted.at.changes, "with the fitted capacitance"));
    let at_budget = outcome.sized.at_budget.as_ref().map(|at| (&at.changes, "at the budget"));
    let Some((changes, with)) = fitted.or(at_budget) else {
        return notes;
    };
    for BelowNyquist { figure, bound, value, at } in &outcome.below_nyquist {
        let (value, bound) = value.map_or(("nothing passes".to_owned(), short(*bound)), |value| {
            let (value, bound) = pair(value, *bound);
            (format!("{value} dB"), bound)
        });
        let (word, sign) = (figure.word(), figure.sense().sign());
        let text = format!(
            "{word} holds at Nyquist and breaks below it {with}: {value} at {at} against {sign} {bound} dB; a mask would \
             hold it there"
        );
        note("breaks-below-nyquist", limit(figure).and_then(|limit| limit.span), text);
    }
    let bound = limit(&EYE_PENALTY).and_then(|limit| limit.of.bound());
    let judged = [&WORST_EYE_PENALTY, &EYE_HEIGHT, &EYE_OPENING].into_iter().any(|figure| limit(figure).is_some());
    // An eye is known to a hundred-thousandth of itself.
    let disagrees = |worst: &f64, bound: f64| !judged && *worst > 2.0 * bound + 1e-5;
    if let Some((worst, bound)) = changes.time.worst_eye_penalty.zip(bound).filter(|(w, bound)| disagrees(w, *bound)) {
        let [worst, nyquist, bound] = [worst, changes.loss.eye_penalty, bound].map(percent);
        let text = format!(
            "the worst-pattern eye loses {worst} {with}, where eye_penalty, the loss of the fundamental, is {nyquist} and \
             may be {bound}: limit worst_eye_penalty or eye_height"
        );
        note("eye-disagrees", limit(&EYE_PENALTY).and_then(|limit| limit.span), text);
    }
    let open = lane.path.receiver().is_some_and(|receiver| receiver.impedance.is_none());
    if let (true, Some(limit), Some(lost)) = (open, limit(&ADDED_LOSS), changes.loss.lost_voltage) {
        let added = changes.loss.added_loss.map_or("no end".to_owned(), |db| format!("{} dB", short(db)));
        let text = format!(
            "added_loss is measured into the reference, and the receiver is open: at Nyquist {with} added_loss is {added}, \
             and the voltage at the receiver loses {} dB",
            short(lost)
        );
        note("loss-into-open", limit.span, text);
    }
    notes
}
