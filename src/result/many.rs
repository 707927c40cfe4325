//! Sizing many lines at once.

use rayon::prelude::*;

use super::cautions::CAUTIONS;
use super::report::Report;
use super::sized::{SizedLine, Wanted, size_line_with};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Design, Line};
use crate::parts::Discharges;

/// Called once for each line that is done, from any thread, so that a long run can show how far it is.
pub type LineDone<'a> = &'a (dyn Fn() + Sync);

/// Sizes the lines at these places of [`Design::lines`] and reports on them, kind by kind in that order.
///
/// # Errors
/// The lines whose numbers go beyond what can be computed.
pub fn size(
    design: &Design,
    indices: &[usize],
    wanted: impl Into<Wanted>,
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Report, Vec<Diagnostic>> {
    let (wanted, discharges) = (wanted.into(), Discharges::default());
    let sized = each_line(&chosen(design, indices), |line| {
        let sized = size_line_with(line, wanted, sources, &discharges);
        done();
        sized
    })?;
    Ok(report(design, sized))
}

/// The lines at these places, kind by kind.
pub(crate) fn chosen<'a>(design: &'a Design, indices: &[usize]) -> Vec<&'a Line> {
    let mut lines: Vec<&Line> = indices.iter().filter_map(|index| design.lines.get(*index)).collect();
    lines.sort_by_key(|line| line.kind.line_kind());
    lines
}

/// What `make` makes of each of these, in their order.
///
/// # Errors
/// All errors of those it fails on.
pub(crate) fn each_line<'a, L: Sync, T: Send>(
    lines: &'a [L],
    make: impl Fn(&'a L) -> Result<T, Box<Diagnostic>> + Sync + Send,
) -> Result<Vec<T>, Vec<Diagnostic>> {
    let results: Vec<Result<T, Box<Diagnostic>>> = lines.par_iter().map(make).collect();
    let mut made = Vec::with_capacity(results.len());
    let mut errors = Vec::new();
    for result in results {
        match result {
            Ok(one) => made.push(one),
            Err(error) => errors.push(*error),
        }
    }
    if errors.is_empty() { Ok(made) } else { Err(errors) }
}

/// The results of lines put together.
pub(crate) fn report(design: &Design, lines: Vec<SizedLine<'_>>) -> Report {
    let mut report = Report {
        title: design.title.clone(),
        set: design.set.clone(),
        lanes: Vec::new(),
        feeds: Vec::new(),
        buses: Vec::new(),
        rails: Vec::new(),
        cautions: CAUTIONS.to_vec(),
    };
    for line in lines {
        match line {
            SizedLine::Lane(_, lane) => report.lanes.push(*lane),
            SizedLine::Feed(_, feed) => report.feeds.push(*feed),
            SizedLine::Bus(_, bus) => report.buses.push(*bus),
            SizedLine::Rail(rail) => report.rails.push(*rail),
        }
    }
    report
}
