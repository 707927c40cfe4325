//! What the exposures of a line leave at its chip.

use super::build::{NotStruck, StruckLine, StruckPart, struck};
use super::curve::Sign;
use super::levels::Discharged;
use super::surge::{Surge, SurgeOutcome, surge};
use crate::model::{Chip, Line};
use crate::units::Volt;

/// What a contact discharge and a surge leave at the chip of a line.
#[derive(Debug, Clone)]
pub struct LineDischarge {
    /// What is stated of the chip; nothing where its path states nothing.
    pub chip: Chip,
    /// Of the contact discharge; `None` where the line meets none.
    pub contact: Option<Result<Contact, NotStruck>>,
    /// Of the surge; `None` where the line meets none.
    pub surge: Option<Result<SurgeOutcome, NotStruck>>,
}

/// A contact discharge in both polarities.
#[derive(Debug, Clone)]
pub struct Contact {
    /// The line is struck above ground.
    pub positive: Discharged,
    /// The line is struck below ground; voltages and currents of that direction count as positive.
    pub negative: Discharged,
    /// The parts from the outer end, as in [`Outcome::parts`](super::Outcome::parts).
    pub parts: Vec<StruckPart>,
}

impl Contact {
    /// Both polarities, the worse one at the chip first: by the equivalent current, without a clamp by the voltage.
    pub fn worse_first(&self) -> [(Sign, &Discharged); 2] {
        let severity = |of: &Discharged| {
            let pin = of.worst.outcome.pin;
            (pin.equivalent.0, pin.peak.0)
        };
        let both = [(Sign::Positive, &self.positive), (Sign::Negative, &self.negative)];
        if severity(&self.negative) > severity(&self.positive) { [both[1], both[0]] } else { both }
    }
}

impl LineDischarge {
    /// Of a line with an exposure and a path; `None` where it meets neither a contact discharge nor a surge, or has no path.
    ///
    /// An estimate; the test on the built board decides.
    pub fn of(line: &Line) -> Option<LineDischarge> {
        let (path, demands) = (line.path()?, &line.head.demands);
        let chip = path.inner_chip().copied().unwrap_or_default();
        let contact = demands.contact.map(|level| contact(line, level));
        let stated = demands.surge.map(|current| match demands.surge_through {
            Some(through) => Surge::Voltage(Volt(current.0 * through.0), through),
            None => Surge::Current(current),
        });
        let surge = stated.map(|stated| surge(path, stated));
        (contact.is_some() || surge.is_some()).then_some(LineDischarge { chip, contact, surge })
    }
}

fn contact(line: &Line, level: Volt) -> Result<Contact, NotStruck> {
    let discharged = |struck: &StruckLine| struck.up_to(level).ok_or(NotStruck::NotComputable);
    let (above, below) = (struck(line, Sign::Positive)?, struck(line, Sign::Negative)?);
    if above.circuit == below.circuit {
        // Alike in both polarities.
        let both = discharged(&above)?;
        return Ok(Contact { positive: both.clone(), negative: both, parts: above.parts });
    }
    let (positive, negative) = rayon::join(|| discharged(&above), || discharged(&below));
    Ok(Contact { positive: positive?, negative: negative?, parts: above.parts })
}
