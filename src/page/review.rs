//! What the page for a design review shows beside the report: pictures, workings, live coefficients, the port bill.

use std::fmt;

use rayon::prelude::*;

use super::chip::ChipHalf;
use super::live::Live;
use crate::budget::{Fault, Figures, LaneOutcome};
use crate::curve::{Show, chart_data, feed_chart_data, yield_chart_data};
use crate::diag::{Diagnostic, Severity, Sources};
use crate::model::{Design, Lane, Line};
use crate::network::Chain;
use crate::parts::Discharges;
use crate::picture::{Frame, Plot, plot, svg};
use crate::result::{
    LineDone, LineHead, PickReport, Report, SizedLine, Wanted, chosen, each_line, pick_with, report, size_line_with,
};
use crate::study::{Sampling, elements, gains};
use crate::text::explain::working_of;
use crate::text::sensitivity::first;
use crate::units::Farad;

/// All that the page shows.
#[derive(Debug, Clone)]
pub struct Review {
    /// The figures and the budgets.
    pub report: Report,
    /// The sheet's parts on the lines, and what each port needs; `None` for a sheet without parts.
    pub pick: Option<PickReport>,
    /// What is shown of each line: lanes, feeds, buses and rails in the order of the report.
    pub exhibits: Vec<Exhibit>,
    /// Warnings of the pictures that cannot be computed.
    pub left_out: Vec<Diagnostic>,
}

/// What is shown of one line beside its figures.
#[derive(Debug, Clone, Default)]
pub struct Exhibit {
    /// Its pictures.
    pub pictures: Vec<Captioned>,
    /// What buys most, in sentences.
    pub gains: Vec<String>,
    /// What its chip survives; `None` where nothing strikes it.
    pub chip: Option<ChipHalf>,
    /// What the page computes with as the reader moves the capacitance.
    pub live: Option<Live>,
    /// The working, as `explain` says it, without the cautions.
    pub working: String,
    /// The pictures that cannot be computed, each with the reason.
    pub left_out: Vec<LeftOut>,
}

/// A picture that cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOut {
    /// What it would show.
    pub caption: &'static str,
    /// Why it is not there.
    pub fault: Fault,
}

impl fmt::Display for LeftOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the picture \"{}\" is left out: {}", self.caption, self.fault)
    }
}

/// A picture of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Captioned {
    /// What it shows.
    pub caption: &'static str,
    /// The picture.
    pub svg: String,
}

/// How much of what buys more is told of each line.
const GAINS: usize = 3;

/// How often a review calls its [`LineDone`] for each line.
pub const REVIEW_ROUNDS: usize = 3;

/// Sizes the lines at these places of [`Design::lines`], judges the sheet's parts on them and draws the pictures. A picture
/// that cannot be computed is left out.
///
/// `done` is called [`REVIEW_ROUNDS`] times for each line.
///
/// # Errors
/// The lines whose budgets go beyond what can be computed.
pub fn review(
    design: &Design,
    indices: &[usize],
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Review, Vec<Diagnostic>> {
    review_drawn(design, indices, Sampling::default(), sources, done)
}

/// The same, with settings drawn as asked of lines with tolerances.
///
/// # Errors
/// As [`review`].
pub fn review_drawn(
    design: &Design,
    indices: &[usize],
    sampling: Sampling,
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<Review, Vec<Diagnostic>> {
    let lines = chosen(design, indices);
    let discharges = Discharges::default();
    let sized = each_line(&lines, |line| {
        let sized = size_line_with(line, Wanted { figures: Figures::All, sampling }, sources, &discharges);
        done();
        sized
    })?;
    let both: Vec<(&Line, &SizedLine<'_>)> = lines.iter().copied().zip(&sized).collect();
    let exhibits: Vec<Exhibit> = both
        .par_iter()
        .map(|(line, sized)| {
            let mut exhibit = exhibit(line, sized);
            match yielded(line, sized.head()) {
                Some(Ok(picture)) => exhibit.pictures.push(picture),
                Some(Err(left_out)) => exhibit.left_out.push(left_out),
                None => {}
            }
            let chip = ChipHalf::of(line, sized.head().discharge.as_ref());
            // What cannot be computed now could not be sized before.
            let gains = gains(line).unwrap_or_default();
            let gains = first(&gains, budget(sized), &elements(line), GAINS);
            done();
            Exhibit { chip, gains, ..exhibit }
        })
        .collect();
    let left_out = lines.iter().zip(&exhibits).flat_map(|(line, exhibit)| {
        exhibit.left_out.iter().map(|left_out| Diagnostic {
            severity: Severity::Warning,
            ..Diagnostic::error(
                "picture-left-out",
                line.head.span,
                format!("{} \"{}\": {left_out}", line.word(), line.head.name),
            )
        })
    });
    let left_out = left_out.collect();
    let pick = match design.parts.as_slice() {
        [] => {
            indices.iter().for_each(|_| done());
            None
        }
        _ => Some(pick_with(design, indices, &discharges, done)?),
    };
    Ok(Review { report: report(design, sized), pick, exhibits, left_out })
}

/// The share of settings that allow a capacitance, where a line states tolerances.
fn yielded(line: &Line, head: &LineHead) -> Option<Result<Captioned, LeftOut>> {
    let caption = "Share of settings within the tolerances that allow a capacitance, with the worst case";
    let data = yield_chart_data(line, head.tolerance.as_deref()?);
    Some(data.map(|data| Captioned { caption, svg: svg(&data) }).map_err(|fault| LeftOut { caption, fault }))
}

/// The budget of a line.
fn budget(line: &SizedLine<'_>) -> Option<Farad> {
    match line {
        SizedLine::Lane(_, result) => result.budget().capacitance,
        SizedLine::Feed(_, result) => result.budget().capacitance,
        SizedLine::Bus(_, result) => result.budget().capacitance,
        SizedLine::Rail(_) => None,
    }
}

fn exhibit(line: &Line, sized: &SizedLine<'_>) -> Exhibit {
    let name = &line.head.name;
    let working = working_of(line, sized, &[]);
    match sized {
        SizedLine::Lane(lane, result) => lane_exhibit(name, lane, &result.outcome, working),
        SizedLine::Feed(feed, result) => {
            let mut exhibit = Exhibit { working, ..Exhibit::default() };
            let caption = "Return loss over the band, with its limits and the frequencies of least reflection";
            match feed_chart_data(name, feed, &result.outcome) {
                Ok(data) => exhibit.pictures.push(Captioned { caption, svg: svg(&data) }),
                Err(fault) => exhibit.left_out.push(LeftOut { caption, fault }),
            }
            exhibit
        }
        SizedLine::Bus(..) | SizedLine::Rail(_) => Exhibit { working, ..Exhibit::default() },
    }
}

fn lane_exhibit(name: &str, lane: &Lane, outcome: &LaneOutcome, working: String) -> Exhibit {
    let caption = |show| match show {
        Show::Loss => "Insertion loss over frequency, with its limits and the Nyquist frequency",
        Show::Reflection => "Return loss over frequency at the port plane and from the inner end, with its limits",
        Show::Penalty => "Margin of every limit, and the eye penalty, over the protector's capacitance",
        Show::Eye => "Worst-pattern eye, absent and fitted",
        Show::Impedance => "Reflection profile from the port plane in",
    };
    let mut exhibit = Exhibit { working, ..Exhibit::default() };
    let mut frames: Vec<Vec<Frame>> = Vec::with_capacity(Show::ALL.len());
    for show in Show::ALL {
        let caption = caption(show);
        match chart_data(name, lane, outcome, show) {
            Ok(data) => {
                let Plot { svg, frames: placed } = plot(&data);
                exhibit.pictures.push(Captioned { caption, svg });
                frames.push(placed);
            }
            Err(fault) => exhibit.left_out.push(LeftOut { caption, fault }),
        }
    }
    exhibit.live = Live::of(lane, &Chain::new(lane), outcome, &frames);
    exhibit
}
