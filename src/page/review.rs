//! What the page for a design review shows beside the report: pictures, workings, live coefficients, the port bill.

use rayon::prelude::*;

use super::live::Live;
use crate::budget::{Fault, Figures, LaneOutcome, not_computable};
use crate::curve::{Show, chart_data, feed_chart_data};
use crate::diag::{Diagnostic, Sources};
use crate::model::{Design, Lane, LineRef};
use crate::network::Chain;
use crate::picture::{Frame, Plot, plot, svg};
use crate::result::{LaneReport, LineDone, Outcomes, PickReport, Report, pick};
use crate::text::explain::explain;
use crate::text::explain::explain_feed;
use crate::text::explain::{explain_bus, explain_rail};

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

/// Sizes the lines at these places of [`Design::names`], judges the sheet's parts on them and draws the pictures.
///
/// `done` is called [`REVIEW_ROUNDS`] times for each line.
///
/// # Errors
/// The lines whose numbers go beyond what can be computed.
pub fn review(
    port: &Design,
    indices: &[usize],
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Review, Vec<Diagnostic>> {
    let sized = Outcomes::new(port, indices, Figures::All, done)?;
    let report = sized.report(port.title.clone(), sources);
    let of_lane = |(report, (lane, outcome)): (&LaneReport, &(&Lane, LaneOutcome))| {
        let exhibit = lane_exhibit(lane, outcome, report).map_err(|fault| not_computable(LineRef::Lane(lane), fault));
        done();
        exhibit
    };
    let lanes = report.lanes.par_iter().zip(&sized.lanes).map(of_lane);
    let lanes: Vec<Result<Exhibit, Box<Diagnostic>>> = lanes.collect();
    let mut exhibits = Vec::with_capacity(indices.len());
    let mut errors = Vec::new();
    for exhibit in lanes {
        match exhibit {
            Ok(exhibit) => exhibits.push(exhibit),
            Err(error) => errors.push(*error),
        }
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    let feeds = report.feeds.iter().zip(&sized.feeds);
    for (report, (feed, outcome)) in feeds {
        let data = feed_chart_data(feed, outcome).map_err(|fault| vec![*not_computable(LineRef::Feed(feed), fault)])?;
        done();
        exhibits.push(Exhibit {
            pictures: vec![Captioned {
                caption: "Return loss over the band, with its limits and the frequencies of least reflection",
                svg: svg(&data),
            }],
            live: None,
            working: explain_feed(feed, outcome, report, &[]),
        });
    }
    let alone = |working: String| {
        done();
        Exhibit { working, ..Exhibit::default() }
    };
    let buses = report.buses.iter().zip(&sized.buses);
    exhibits.extend(buses.map(|(report, bus)| alone(explain_bus(bus, report, &[]))));
    let rails = report.rails.iter().zip(&sized.rails);
    exhibits.extend(rails.map(|(report, rail)| alone(explain_rail(rail, report, &[]))));
    let pick = match port.parts.as_slice() {
        [] => {
            indices.iter().for_each(|_| done());
            None
        }
        _ => Some(pick(port, indices, done)?),
    };
    Ok(Review { report, pick, exhibits })
}

fn lane_exhibit(lane: &Lane, outcome: &LaneOutcome, report: &LaneReport) -> Result<Exhibit, Fault> {
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
        let Plot { svg, frames: placed } = plot(&chart_data(lane, outcome, show)?);
        pictures.push(Captioned { caption: caption(show), svg });
        frames.push(placed);
    }
    Ok(Exhibit {
        pictures,
        live: Live::of(lane, &Chain::new(lane), outcome, &frames),
        working: explain(lane, outcome, report, &[]),
    })
}
