//! A line sized at every value of one or two of its addresses.

use std::sync::Arc;

use rayon::prelude::*;

use super::cautions::CAUTIONS;
use super::feed::FeedResult;
use super::lane::LaneResult;
use super::line::tightest;
use super::many::LineDone;
use super::sized::{SizedLine, size_line_with};
use super::slow::BusResult;
use crate::budget::{Budget, Figures, Headroom};
use crate::curve::{Carries, ChartData, Picture, SweptAt, SweptAxis, SweptCurve, SweptMap, carried};
use crate::diag::Sources;
use crate::model::{Design, Line, SetValue};
use crate::parts::Discharges;
use crate::study::{Over, elements, settings};
use crate::units::Dimension;

/// A line over the values of its addresses.
#[derive(Debug, Clone)]
pub struct SweepReport {
    /// Title of the sheet.
    pub title: Option<String>,
    /// The values that are others than the sheet's.
    pub set: Vec<SetValue>,
    /// Name of the line.
    pub line: String,
    /// The word of its kind.
    pub kind: &'static str,
    /// Whether a value of the line states a `±`, of which nothing is asked here.
    pub toleranced: bool,
    /// What it carries as stated.
    pub carries: Carries,
    /// The word of each element of its path, with its number.
    pub elements: Vec<(usize, &'static str)>,
    /// What is swept, the first moving slowest.
    pub over: Vec<Over>,
    /// Steps of each.
    pub steps: u32,
    /// The line at every setting.
    pub points: Vec<SweptPoint>,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}

/// A line at one setting.
#[derive(Debug, Clone)]
pub struct SweptPoint {
    /// The value of each address, in SI.
    pub at: Vec<f64>,
    /// The line there.
    pub line: SweptLine,
}

/// A line with a budget, sized.
#[derive(Debug, Clone)]
pub enum SweptLine {
    /// A lane.
    Lane(Box<LaneResult>),
    /// An antenna feed.
    Feed(Box<FeedResult>),
    /// A slow bus.
    Bus(Box<BusResult>),
}

impl SweptLine {
    /// Its budget.
    pub fn budget(&self) -> &Budget {
        match self {
            SweptLine::Lane(line) => line.budget(),
            SweptLine::Feed(line) => line.budget(),
            SweptLine::Bus(line) => line.budget(),
        }
    }

    /// The distance of what is fitted to each limit; `None` with nothing fitted.
    pub fn headroom(&self) -> Option<&[Headroom]> {
        match self {
            SweptLine::Lane(line) => line.fitted().map(|fitted| fitted.headroom.as_slice()),
            SweptLine::Feed(line) => line.fitted().map(|fitted| fitted.headroom.as_slice()),
            SweptLine::Bus(line) => line.fitted().map(|fitted| fitted.headroom.as_slice()),
        }
    }

    /// The fitted capacitance in farad.
    fn fitted(&self) -> Option<f64> {
        Some(match self {
            SweptLine::Lane(line) => line.fitted()?.at.capacitance.0,
            SweptLine::Feed(line) => line.fitted()?.at.capacitance.0,
            SweptLine::Bus(line) => line.fitted()?.at.capacitance.0,
        })
    }

    /// What is left, as a picture shows it.
    fn left(&self) -> SweptAt {
        let budget = self.budget();
        SweptAt {
            lowest_f: budget.lowest.map(|c| c.0),
            budget_f: budget.capacitance.map(|c| c.0),
            headroom: self.tightest().and_then(|headroom| {
                let unit = if headroom.bound == 0.0 { 1.0 } else { headroom.bound.abs() };
                Some(headroom.margin? / unit)
            }),
            holds: self.headroom().map(|all| all.iter().all(|headroom| headroom.holds)),
        }
    }

    /// The tightest headroom of what is fitted, see [`super::LineResult::tightest`].
    pub fn tightest(&self) -> Option<&Headroom> {
        tightest(self.headroom()?)
    }
}

/// A setting at which the line cannot be sized.
#[derive(Debug, Clone, PartialEq)]
pub struct NotSwept {
    /// The value of each address; empty for a rail, which has no budget.
    pub at: Vec<f64>,
    /// Why.
    pub why: String,
}

/// Sizes a line of a design at every setting, each as [`super::size`] sizes a line with these values and `figures`.
///
/// # Errors
/// The first setting of which no line can be made or whose numbers go beyond what can be computed; a rail.
pub fn sweep(
    design: &Design,
    line: &Line,
    (over, steps): (Vec<Over>, u32),
    figures: Figures,
    sources: &Sources,
    done: LineDone<'_>,
) -> Result<SweepReport, NotSwept> {
    let discharges = Discharges::default();
    let sized = |at: Vec<f64>| {
        let values = over.iter().zip(&at).map(|(one, value)| (&one.of.address, *value));
        let mut line = match line.with_values(values) {
            Ok(line) => line,
            Err(fault) => return Err(NotSwept { at, why: fault.to_string() }),
        };
        // What its tolerances leave is not asked at every value.
        line.head.values = Arc::default();
        let sized = size_line_with(&line, figures.into(), sources, &discharges);
        done();
        let line = match sized {
            Ok(SizedLine::Lane(_, line)) => SweptLine::Lane(line),
            Ok(SizedLine::Feed(_, line)) => SweptLine::Feed(line),
            Ok(SizedLine::Bus(_, line)) => SweptLine::Bus(line),
            Ok(SizedLine::Rail(_)) => return Err(NotSwept { at: Vec::new(), why: "a rail has no budget".to_owned() }),
            Err(fault) => return Err(NotSwept { at, why: fault.message }),
        };
        Ok(SweptPoint { at, line })
    };
    let points: Vec<Result<SweptPoint, NotSwept>> = settings(&over, steps).into_par_iter().map(sized).collect();
    let points = points.into_iter().collect::<Result<Vec<_>, _>>()?;
    Ok(SweepReport {
        title: design.title.clone(),
        set: design.set.clone(),
        line: line.head.name.clone(),
        kind: line.word(),
        toleranced: line.head.has_tolerance(),
        carries: carried(line),
        elements: elements(line),
        over,
        steps,
        points,
        cautions: CAUTIONS.to_vec(),
    })
}

impl SweepReport {
    /// The numbers of its picture: curves over one value, a map over two.
    pub fn chart(&self) -> ChartData {
        let axis = |over: &Over| SweptAxis {
            address: Some(over.of.address.clone()),
            elements: self.elements.clone(),
            dimension: over.of.range.dimension,
            values: over.values(self.steps),
            nominal: over.of.nominal,
        };
        let at: Vec<SweptAt> = self.points.iter().map(|point| point.line.left()).collect();
        let picture = match self.over.as_slice() {
            [slow, fast] => Picture::Map(SweptMap { over: [axis(slow), axis(fast)], at }),
            over => Picture::Swept(SweptCurve { over: over.first().map_or_else(nothing, axis), at }),
        };
        let fitted = |point: &SweptPoint| point.line.fitted();
        let first = self.points.first().and_then(fitted);
        ChartData {
            line: self.line.clone(),
            carries: self.carries,
            budget_f: None,
            set_by: None,
            fitted_f: first.filter(|_| self.points.iter().all(|point| fitted(point) == first)),
            picture,
        }
    }
}

fn nothing() -> SweptAxis {
    SweptAxis { address: None, elements: Vec::new(), dimension: Dimension::Number, values: Vec::new(), nominal: None }
}
