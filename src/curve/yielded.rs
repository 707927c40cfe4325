//! What a picture shows of the tolerances of a line.

use super::data::{ChartData, Picture};
use super::sensitive::carried;
use super::share::ShareCurve;
use crate::budget::{Fault, Left, judge_line};
use crate::model::Line;
use crate::study::{Sampling, StudyFault, Tolerated, tolerate};

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
    let nominal_f = left.capacitance.map(|c| c.0);
    Ok(ChartData {
        line: line.head.name.clone(),
        carries: carried(line),
        budget_f: nominal_f,
        set_by: left.set_by.and_then(|(limit, _)| judged.get(limit)).map(|limit| limit.figure.word()),
        fitted_f: line.fitted().map(|c| c.0),
        picture: Picture::Yield(ShareCurve {
            points: yielded.shares.clone(),
            nominal_f,
            worst_f: tolerated.worst.capacitance.map(|c| c.0),
            budget_997_f: yielded.budget.map(|c| c.0),
            drawn: [yielded.samples, yielded.seed],
        }),
    })
}
