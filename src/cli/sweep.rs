//! `sweep`: the budget of a line over the values of one or two of its addresses.

use super::address::{between, example};
use super::chart::{picture_form, write_picture};
use super::job::Job;
use super::lines::only_line;
use super::progress::with_progress;
use super::{Failure, Outcome, SizeFormat, SweepArgs};
use crate::budget::Figures;
use crate::model::Line;
use crate::result::sweep;
use crate::study::Over;
use crate::text::render_sweep;
use crate::words::value::value;

/// Addresses that can be swept at once.
const MOST: usize = 2;

/// Sizes the line at every value and writes the result, as a picture where the name of the target asks for one.
///
/// # Errors
/// Where the sheet cannot be read, the line or an address is unknown, a value makes no line, or the result cannot be written.
pub(super) fn run(args: &SweepArgs) -> Result<Outcome, Failure> {
    let form = picture_form(args.output.output.as_deref());
    let Some(Job { output, mut design, sources }) = Job::begin(&args.sheet, &args.output)? else {
        return Ok(Outcome::Failed);
    };
    args.trial.fit(&mut design);
    let line = only_line(&design, args.line.as_ref(), "sweep")?;
    let over = args.over.iter().map(|text| over(line, text)).collect::<Result<Vec<_>, _>>()?;
    if over.len() > MOST {
        return Err(Failure::new("at most two addresses are swept at once").help("leave one --over out"));
    }
    if let [one, other] = over.as_slice()
        && one.of.address == other.of.address
    {
        return Err(Failure::new(format!("`{}` is swept twice", one.of.address)).help("name another address"));
    }
    let count = (args.steps as usize + 1).pow(over.len() as u32);
    let asked = over.clone();
    // Budget and headroom are the same with either.
    let shows_all = form.is_none() && matches!(args.format, SizeFormat::Json | SizeFormat::Csv);
    let figures = if shows_all { Figures::All } else { Figures::Nyquist };
    match with_progress(count, |done| sweep(&design, line, (over, args.steps), figures, &sources, done)) {
        Ok(report) => {
            match form {
                Some(form) => write_picture(output, form, report.chart(), &design.set)?,
                None => output.write(&render_sweep(&report, args.format.into()))?,
            }
            Ok(Outcome::Holds)
        }
        Err(no) => {
            let at = asked.iter().zip(&no.at);
            let at = at.map(|(over, at)| format!("`{}` = {}", over.of.address, value(*at, over.of.range.dimension)));
            let at = at.collect::<Vec<_>>().join(", ");
            Err(Failure::new(if at.is_empty() { no.why } else { format!("at {at}: {}", no.why) }))
        }
    }
}

fn over(line: &Line, text: &str) -> Result<Over, Failure> {
    let (of, values) = between(line, text, "--over")?;
    let Some((from, to)) = values else {
        return Err(Failure::new("--over lacks the values it goes over").help(example(of, "--over")));
    };
    Ok(Over { of: of.clone(), from, to })
}
