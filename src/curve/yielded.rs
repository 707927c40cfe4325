//! What a picture shows of the tolerances of a line.

use super::data::{ChartData, Picture};
use super::sensitive::carried;
use super::share::{Ends, ShareCurve};
use crate::budget::{Fault, Left, Verdict, judge_line};
use crate::model::Line;
use crate::study::{Sampling, StudyFault, Tolerated, tolerate};
use crate::units::Farad;

/// The numbers of the picture of a line from the line alone; `None` where it states no tolerance.
///
/// # Errors
/// A setting at which the line cannot be computed.
pub fn charted_yield(line: &Line, sampling: Sampling) -> Result<Option<ChartData>, StudyFault> {
    let tolerated = tolerate(line, sampling)?;
    tolerated.map(|tolerated| yield_chart_data(line, &tolerated)).transpose().map_err(StudyFault::Limits)
}

/// The numbers of the picture of a line; `tolerated` is its own.
///
/// # Errors
/// [`Fault`] where its limits cannot be computed.
pub fn yield_chart_data(line: &Line, tolerated: &Tolerated) -> Result<ChartData, Fault> {
    let judged = judge_line(line)?;
    let left = Left::of(judged.iter().map(|limit| &limit.allowed));
    let yielded = &tolerated.yielded;
    let worst = &tolerated.worst;
    Ok(ChartData {
        line: line.head.name.clone(),
        carries: carried(line),
        budget_f: left.capacitance.map(|c| c.0),
        set_by: left.set_by.and_then(|(limit, _)| judged.get(limit)).map(|limit| limit.figure.word()),
        fitted_f: line.fitted().map(|c| c.0),
        picture: Picture::Yield(ShareCurve {
            points: yielded.shares.clone(),
            stated: ends(left.lowest, left.capacitance),
            worst: (worst.verdict != Verdict::Impossible).then(|| ends(worst.lowest, worst.capacitance)),
            most: ends(yielded.lowest, yielded.budget),
            drawn: [yielded.samples, yielded.seed],
            distribution: tolerated.varying.distribution,
        }),
    })
}

/// The ends of an interval; one at 0 has no lower end of its own.
fn ends(lowest: Option<Farad>, largest: Option<Farad>) -> Ends {
    Ends { low_f: lowest.map(|c| c.0).filter(|low| *low > 0.0), high_f: largest.map(|c| c.0) }
}
