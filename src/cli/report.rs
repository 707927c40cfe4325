//! `report`: the page for a design review.

use rayon::prelude::*;

use super::job::{Job, refuse, verdict};
use super::{Failure, Outcome, ReportArgs, pick_lines};
use crate::budget::Figures;
use crate::model::LineRef;
use crate::report::{page, pictures, size};

/// Computes the report with its charts and writes the page.
///
/// # Errors
/// Where the sheet cannot be read, a line is unknown or the page cannot be written.
pub(super) fn run(args: &ReportArgs) -> Result<Outcome, Failure> {
    let Some(Job {
        output,
        mut port,
        sources,
    }) = Job::begin(&args.sheet, &args.output)?
    else {
        return Ok(Outcome::Failed);
    };
    let chosen = pick_lines(&port.names(), &args.lines)?;
    if let Some(capacitance) = args.fitted {
        port.fit(capacitance);
    }
    let lanes: Vec<_> = chosen
        .iter()
        .filter_map(|index| match port.line(*index) {
            Some(LineRef::Lane(lane)) => Some(lane),
            _ => None,
        })
        .collect();
    let made = size(&port, &chosen, Figures::All, &sources).and_then(|report| {
        let drawn: Result<Vec<_>, _> = lanes.par_iter().map(|lane| pictures(lane)).collect();
        drawn.map(|drawn| (report, drawn)).map_err(|error| vec![*error])
    });
    match made {
        Ok((report, drawn)) => {
            output.write(&page(&report, &drawn))?;
            Ok(verdict(report.passes()))
        }
        Err(errors) => Ok(refuse(&sources, &errors)),
    }
}
