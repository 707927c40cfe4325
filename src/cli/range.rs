//! `range`: the values of one address for which a line holds.

use super::address::{between, example};
use super::job::{Job, refuse};
use super::lines::only_line;
use super::{Failure, Outcome, RangeArgs};
use crate::budget::not_computable;
use crate::model::AddressedValue;
use crate::result::RangeReport;
use crate::study::{NoRange, Over, holding, is_budget, usual_range};
use crate::text::render_range;

/// Searches for the values and writes them.
///
/// # Errors
/// Where the sheet cannot be read, the line or the address is unknown, from where to where is not known, nothing is fitted, or
/// the result cannot be written.
pub(super) fn run(args: &RangeArgs) -> Result<Outcome, Failure> {
    let Some(Job { output, mut design, sources }) = Job::begin(&args.sheet, &args.output)? else {
        return Ok(Outcome::Failed);
    };
    args.trial.fit(&mut design);
    let line = only_line(&design, args.line.as_ref(), "search")?;
    let (of, stated) = between(line, &args.of, "--of")?;
    let all = stated.is_none() && is_budget(line, &of.address);
    let ends = stated.or_else(|| if all { Some((0.0, of.range.high)) } else { usual_range(line, of) });
    let Some((from, to)) = ends.filter(|(from, to)| from < to) else {
        return Err(no_range(NoRange::NoBounds, of));
    };
    let asked = Over { of: of.clone(), from, to };
    match holding(line, &asked, all) {
        Ok(Ok(found)) => {
            let report = RangeReport::new(&design, line, asked.of, found);
            output.write(&render_range(&report, args.format.into()))?;
            Ok(Outcome::Holds)
        }
        Ok(Err(no)) => Err(no_range(no, of)),
        Err(fault) => Ok(refuse(&sources, &[*not_computable(line, fault)])),
    }
}

fn no_range(why: NoRange, of: &AddressedValue) -> Failure {
    match why {
        NoRange::NoLimits => Failure::new("a rail has no limits").help("name a lane, a feed or a bus"),
        NoRange::NothingFitted => Failure::new("nothing is fitted on this line, so that no value can be judged")
            .help("state the protector's capacitance or a part, or give --fitted, e.g. --fitted 0.3pF"),
        NoRange::NoBounds => Failure::new(format!("from where to where `{}` is searched is not known", of.address))
            .help(example(of, "--of")),
    }
}
