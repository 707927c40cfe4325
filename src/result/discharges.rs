//! What discharges leave on many lines at once.

use rayon::prelude::*;

use super::many::{LineDone, chosen};
use crate::model::{Design, Line, SetValue};
use crate::transient::{Contact, Discharged, LineDischarge, Surge, SurgeOutcome};
use crate::units::Volt;

/// What the reader of a discharge must keep in mind.
pub const DISCHARGE_CAUTIONS: [&str; 4] = [
    "An estimate: straight lines for what conducts, lines without loss, the source of a standard's annex, a neighbour at \
     rest.",
    "Verify the protection on the built board, by IEC 61000-4-2 or by the standard of the product.",
    "Air discharge is not computed: only the rating of the part is checked for it.",
    "Mains, telecom and powered-Ethernet lines, and anything that can hurt someone, are protected by local codes and \
     licensed practice, not by this result.",
];

/// What discharges leave on the lines of a port.
#[derive(Debug, Clone)]
pub struct DischargeReport {
    /// Title of the sheet.
    pub title: Option<String>,
    /// The values that are others than the sheet's.
    pub set: Vec<SetValue>,
    /// The lines, kind by kind.
    pub lines: Vec<DischargedLine>,
    /// What the reader must keep in mind.
    pub cautions: Vec<&'static str>,
}

/// A line with what discharges leave on it.
#[derive(Debug, Clone)]
pub struct DischargedLine {
    /// Its name.
    pub name: String,
    /// Level of the contact discharge.
    pub contact: Option<Volt>,
    /// The surge.
    pub surge: Option<Surge>,
    /// What they leave, or why nothing is computed.
    pub found: Result<LineDischarge, NoDischarge>,
}

/// Why no discharge is computed on a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoDischarge {
    /// It meets none.
    NoExposure,
    /// It meets an air discharge alone.
    AirAlone,
    /// Its way from the connector to the pin is not stated.
    NoPath,
}

impl NoDischarge {
    /// In words.
    pub fn text(self) -> &'static str {
        match self {
            NoDischarge::NoExposure => "the line states no `exposure`",
            NoDischarge::AirAlone => "the line states an air discharge alone",
            NoDischarge::NoPath => "the line states no `path`",
        }
    }
}

impl DischargedLine {
    /// The contact discharge, where it could be computed.
    pub fn struck(&self) -> Option<&Contact> {
        self.found.as_ref().ok()?.struck()
    }

    /// The surge, where it could be computed.
    pub fn surged(&self) -> Option<&SurgeOutcome> {
        self.found.as_ref().ok()?.surged()
    }

    /// Why the contact discharge could not be computed.
    pub fn not_struck(&self) -> Option<String> {
        match &self.found {
            Err(why) => Some(why.text().to_owned()),
            Ok(found) => Some(found.contact.as_ref()?.as_ref().err()?.to_string()),
        }
    }

    /// Why the surge could not be computed.
    pub fn not_surged(&self) -> Option<String> {
        Some(self.found.as_ref().ok()?.surge.as_ref()?.as_ref().err()?.to_string())
    }
}

/// Whether the figures of a polarity stood still as the step was halved.
pub(crate) fn settled(of: &Discharged) -> bool {
    of.stated.settled && of.worst.settled
}

/// Discharges on the lines at these places of [`Design::lines`]: those that state a contact discharge, an air discharge or a
/// surge; with a `level`, a contact discharge of it on every line with a path. Where lines are `named`, all of them.
///
/// `done` is called once for each line.
pub fn discharges(
    design: &Design,
    indices: &[usize],
    level: Option<Volt>,
    named: bool,
    done: LineDone<'_>,
) -> DischargeReport {
    let lines: Vec<Option<DischargedLine>> = chosen(design, indices)
        .par_iter()
        .map(|line| {
            let found = discharged(line, level);
            done();
            Some(found).filter(|line| named || line.found.as_ref().err() != Some(&NoDischarge::NoExposure))
        })
        .collect();
    DischargeReport {
        title: design.title.clone(),
        set: design.set.clone(),
        lines: lines.into_iter().flatten().collect(),
        cautions: DISCHARGE_CAUTIONS.to_vec(),
    }
}

fn discharged(line: &Line, level: Option<Volt>) -> DischargedLine {
    let mut line = line.clone();
    let has_path = line.path().is_some();
    let demands = &mut line.head.demands;
    if has_path {
        demands.contact = level.or(demands.contact);
    }
    let surge = Surge::of(demands);
    let (contact, air) = (demands.contact, demands.air);
    let found = LineDischarge::of(&line).ok_or(match (contact.is_some() || surge.is_some(), air) {
        (true, _) => NoDischarge::NoPath,
        (false, Some(_)) => NoDischarge::AirAlone,
        (false, None) => NoDischarge::NoExposure,
    });
    DischargedLine { name: line.head.name, contact, surge, found }
}
