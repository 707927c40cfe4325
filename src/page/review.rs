//! What the page for a design review shows beside the report: pictures, workings, live coefficients, the port bill.

use super::live::Live;
use crate::budget::{Fault, Figures, LaneOutcome, not_computable};
use crate::curve::{Show, chart_data, feed_chart_data};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Design, Lane, Line};
use crate::network::Chain;
use crate::picture::{Frame, Plot, plot, svg};
use crate::result::{LineDone, PickReport, Report, SizedLine, chosen, each_line, pick, report, size_line};
use crate::text::explain::working_of;

/// All that the page shows.
#[derive(Debug, Clone)]
pub struct Review {
    /// The figures and the budgets.
    pub report: Report,
    /// The sheet's parts on the lines, and what each port needs; `None` for a sheet without parts.
    pub pick: Option<PickReport>,
    /// What is shown of each line: lanes, feeds, buses and rails in the order of the report.
    pub exhibits: Vec<Exhibit>,
}

/// What is shown of one line beside its figures.
#[derive(Debug, Clone, Default)]
pub struct Exhibit {
    /// Its pictures.
    pub pictures: Vec<Captioned>,
    /// What the page computes with as the reader moves the capacitance.
    pub live: Option<Live>,
    /// The working, as `explain` says it, without the cautions.
    pub working: String,
}

/// A picture of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Captioned {
    /// What it shows.
    pub caption: &'static str,
    /// The picture.
    pub svg: String,
}

/// How often a review calls its [`LineDone`] for each line.
pub const REVIEW_ROUNDS: usize = 3;

/// Sizes the lines at these places of [`Design::lines`], judges the sheet's parts on them and draws the pictures.
///
/// `done` is called [`REVIEW_ROUNDS`] times for each line.
///
/// # Errors
/// The lines whose numbers go beyond what can be computed.
pub fn review(
    design: &Design,
    indices: &[usize],
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Review, Vec<Diagnostic>> {
    let lines = chosen(design, indices);
    let sized = each_line(&lines, |line| {
        let sized = size_line(line, Figures::All, sources);
        done();
        sized
    })?;
    let both: Vec<(&Line, &SizedLine<'_>)> = lines.iter().copied().zip(&sized).collect();
    let exhibits = each_line(&both, |(line, sized)| {
        let exhibit = exhibit(&line.head.name, sized).map_err(|fault| not_computable(line, fault));
        done();
        exhibit
    })?;
    let pick = match design.parts.as_slice() {
        [] => {
            indices.iter().for_each(|_| done());
            None
        }
        _ => Some(pick(design, indices, done)?),
    };
    Ok(Review { report: report(design.title.clone(), sized), pick, exhibits })
}

fn exhibit(name: &str, line: &SizedLine<'_>) -> Result<Exhibit, Fault> {
    let working = working_of(line, &[]);
    Ok(match line {
        SizedLine::Lane(lane, result) => lane_exhibit(name, lane, &result.outcome, working)?,
        SizedLine::Feed(feed, result) => Exhibit {
            pictures: vec![Captioned {
                caption: "Return loss over the band, with its limits and the frequencies of least reflection",
                svg: svg(&feed_chart_data(name, feed, &result.outcome)?),
            }],
            live: None,
            working,
        },
        SizedLine::Bus(..) | SizedLine::Rail(_) => Exhibit { working, ..Exhibit::default() },
    })
}

fn lane_exhibit(name: &str, lane: &Lane, outcome: &LaneOutcome, working: String) -> Result<Exhibit, Fault> {
    let caption = |show| match show {
        Show::Loss => "Insertion loss over frequency, with its limits and the Nyquist frequency",
        Show::Reflection => "Return loss over frequency at the port plane and from the inner end, with its limits",
        Show::Penalty => "Margin of every limit, and the eye penalty, over the protector's capacitance",
        Show::Eye => "Worst-pattern eye, absent and fitted",
        Show::Impedance => "Reflection profile from the port plane in",
    };
    let mut pictures = Vec::with_capacity(Show::ALL.len());
    let mut frames: Vec<Vec<Frame>> = Vec::with_capacity(Show::ALL.len());
    for show in Show::ALL {
        let Plot { svg, frames: placed } = plot(&chart_data(name, lane, outcome, show)?);
        pictures.push(Captioned { caption: caption(show), svg });
        frames.push(placed);
    }
    Ok(Exhibit { pictures, live: Live::of(lane, &Chain::new(lane), outcome, &frames), working })
}
