//! What discharges leave, computed once for lines that are alike.

use std::collections::HashMap;
use std::fmt::Write;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::model::Line;
use crate::transient::{LineDischarge, Sign, struck};

/// The discharges of many lines. Lines whose circuits and exposures are the same share one computation.
#[derive(Debug, Default)]
pub(crate) struct Discharges(Mutex<HashMap<String, Arc<OnceLock<Option<LineDischarge>>>>>);

impl Discharges {
    /// As [`LineDischarge::of`].
    pub(crate) fn of(&self, line: &Line) -> Option<LineDischarge> {
        let Some(key) = key(line) else {
            return LineDischarge::of(line);
        };
        let cell = {
            let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            Arc::clone(known.entry(key).or_default())
        };
        cell.get_or_init(|| LineDischarge::of(line)).clone()
    }
}

/// All that enters the computation; `None` where there is little to compute.
fn key(line: &Line) -> Option<String> {
    let (path, demands) = (line.path()?, &line.head.demands);
    demands.contact.or(demands.surge.map(|_| Default::default()))?;
    let circuits = [struck(line, Sign::Positive).ok()?, struck(line, Sign::Negative).ok()?];
    let mut key = format!("{:?}{:?}{:?}", demands.contact, demands.surge, demands.surge_through);
    // Writing to memory cannot fail.
    let _ = write!(key, "{circuits:?}{:?}", path.inner_chip());
    path.elements.iter().for_each(|place| key.push_str(place.element.word()));
    Some(key)
}
