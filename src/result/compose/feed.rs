//! A feed and its outcome as they are reported.

use super::shared::{budget_report, check_reports, headroom, hertz, notes, part_name};
use crate::budget;
use crate::budget::FeedOutcome;
use crate::diag::Sources;
use crate::model::{Feed, Head};
use crate::parts::{Checks, Duty, checks};
use crate::result::feed::{FeedChanges, FeedMetrics, FeedReport, Retune};
use crate::result::outcome::{AtBudget, Fitted};

pub(crate) fn feed_report(head: &Head, feed: &Feed, outcome: &FeedOutcome, sources: &Sources) -> FeedReport {
    let checked = feed_checks(head, feed, outcome);
    FeedReport {
        name: head.name.clone(),
        port: head.port.clone(),
        count: head.count,
        reference_ohm: feed.reference.0,
        band_hz: [feed.band.low.0, feed.band.high.0],
        absent: feed_metrics(&outcome.sized.absent),
        fitted: outcome.sized.fitted.as_ref().map(|fitted| Fitted {
            capacitance_f: fitted.at.capacitance.0,
            metrics: feed_metrics(&fitted.at.figures),
            changes: feed_changes(&fitted.at.changes),
            holds: fitted.holds,
            headroom: fitted.headroom.iter().map(headroom).collect(),
            part: part_name(&feed.path),
            checks: check_reports(&checked.checks),
        }),
        at_budget: outcome.sized.at_budget.as_ref().map(|at| AtBudget {
            capacitance_f: at.capacitance.0,
            metrics: feed_metrics(&at.figures),
            changes: feed_changes(&at.changes),
        }),
        budget: budget_report(&feed.limits, &outcome.sized.budget, sources),
        bode_fano_return_loss_db: outcome.bode_fano,
        defaults: notes(&head.defaults, sources),
        warnings: notes(&head.warnings, sources).into_iter().chain(notes(&checked.cautions, sources)).collect(),
    }
}

/// The survival checks of the part a feed names, at the worst reflection with it.
fn feed_checks(head: &Head, feed: &Feed, outcome: &FeedOutcome) -> Checks {
    let part = feed.path.protector().and_then(|p| p.part.as_ref());
    let judged = outcome.sized.fitted.as_ref().map(|fitted| &fitted.at.figures);
    part.zip(judged)
        .map_or_else(Checks::default, |(part, judged)| checks(&Duty::of_feed(head, feed, judged.band.reflection), part))
}

fn feed_metrics(figures: &budget::FeedFigures) -> FeedMetrics {
    let metrics = &figures.band;
    FeedMetrics {
        return_loss_db: metrics.return_loss(),
        reflection: metrics.reflection,
        vswr: metrics.vswr(),
        mismatch_loss_db: metrics.mismatch_loss(),
        transducer_loss_db: metrics.transducer_loss,
        resonance_hz: hertz(figures.resonance),
    }
}

fn feed_changes(changes: &budget::FeedChanges) -> FeedChanges {
    FeedChanges {
        added_loss_db: changes.added_loss,
        detuning_hz: hertz(changes.detuning),
        retune: changes.retune.map(|retune| Retune {
            shunt_inductance_h: retune.shunt.0,
            series_inductance_h: retune.series.0,
            nearest_e24_h: retune.nearest.0,
            return_loss_db: retune.metrics.return_loss(),
            detuning_hz: hertz(retune.detuning),
            holds: retune.holds,
        }),
    }
}
