//! The result of `size`.

use super::feed::FeedResult;
use super::keys::{Keyed, Keys};
use super::lane::LaneResult;
use super::line::LineResult;
use super::slow::{BusResult, RailResult};
use crate::model::SetValue;
use crate::units::Dimension;

/// Version of the layout of the JSON.
pub const SCHEMA: u32 = 1;

/// The result of `size`.
#[derive(Debug, Clone)]
pub struct Report {
    /// Title of the sheet.
    pub title: Option<String>,
    /// The values that are others than the sheet's.
    pub set: Vec<SetValue>,
    /// The lanes, in sheet order.
    pub lanes: Vec<LaneResult>,
    /// The antenna feeds.
    pub feeds: Vec<FeedResult>,
    /// The slow buses.
    pub buses: Vec<BusResult>,
    /// The power lines.
    pub rails: Vec<RailResult>,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}

impl Report {
    /// Whether every line passes.
    pub fn passes(&self) -> bool {
        self.lanes.iter().all(LineResult::passes)
            && self.feeds.iter().all(LineResult::passes)
            && self.buses.iter().all(LineResult::passes)
            && self.rails.iter().all(RailResult::passes)
    }
}

impl Keyed for Report {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        top(this.map(|report| (report.title.as_deref(), report.set.as_slice())), to);
        to.list("lanes", this.map(|report| &report.lanes));
        to.list("feeds", this.map(|report| &report.feeds));
        to.list("buses", this.map(|report| &report.buses));
        to.list("rails", this.map(|report| &report.rails));
        to.texts("cautions", this.map(|report| &report.cautions));
    }
}

/// What every result begins with: versions, the title of the sheet, and the values that are others than its own.
pub(super) fn top<K: Keys>(of: Option<(Option<&str>, &[SetValue])>, to: &mut K) {
    versions(to);
    to.text("title", of.and_then(|(title, _)| title));
    if let Some((_, set)) = of.filter(|(_, set)| !set.is_empty()) {
        to.list("set", Some(set));
    }
}

impl Keyed for SetValue {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("line", this.and_then(|set| set.line.as_deref()));
        to.text("address", this.map(|set| set.address.to_string()).as_deref());
        to.number("value", this.map(|set| set.value));
        to.text("unit", this.and_then(|set| unit(set.dimension)));
    }
}

/// The SI unit of a value; `None` for a bare number and a ratio.
pub(super) fn unit(of: Dimension) -> Option<&'static str> {
    Some(of.symbol()).filter(|symbol| !symbol.is_empty() && of != Dimension::Percent)
}

/// Version of the tool, and of the layout.
pub(super) fn versions<K: Keys>(to: &mut K) {
    to.text("lanecap", Some(env!("CARGO_PKG_VERSION")));
    to.count("schema", Some(SCHEMA));
}
