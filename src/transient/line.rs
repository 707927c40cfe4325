//! What the exposures of a line leave at its chip.

use super::build::{NotStruck, StruckLine, StruckPart, struck};
use super::curve::Sign;
use super::levels::Discharged;
use super::surge::{FEWER_INSTANTS, Surge, SurgeOutcome, is_alike_below, surge, surge_in};
use crate::model::{Chip, Line, Path};
use crate::units::Volt;

/// What a contact discharge and a surge leave at the chip of a line.
#[derive(Debug, Clone)]
pub struct LineDischarge {
    /// What is stated of the chip; nothing where its path states nothing.
    pub chip: Chip,
    /// Of the contact discharge; `None` where the line meets none.
    pub contact: Option<Result<Contact, NotStruck>>,
    /// Of the surge, positive; `None` where the line meets none.
    pub surge: Option<Result<SurgeOutcome, NotStruck>>,
    /// Further surges that are held against what is stated: the negative one, and weaker ones where a part snaps back, each with
    /// its share of the stated one.
    pub further_surges: Vec<(f64, Sign, SurgeOutcome)>,
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
    /// Both polarities.
    pub fn both(&self) -> [(Sign, &Discharged); 2] {
        [(Sign::Positive, &self.positive), (Sign::Negative, &self.negative)]
    }

    /// Both polarities, the worse one at the chip first: by the equivalent current, without a clamp by the voltage.
    pub fn worse_first(&self) -> [(Sign, &Discharged); 2] {
        let severity = |of: &Discharged| {
            let pin = of.worst.outcome.pin;
            (pin.equivalent.0, pin.peak.0)
        };
        let both = self.both();
        if severity(&self.negative) > severity(&self.positive) { [both[1], both[0]] } else { both }
    }
}

impl LineDischarge {
    /// The contact discharge, where it is computed.
    pub fn struck(&self) -> Option<&Contact> {
        self.contact.as_ref()?.as_ref().ok()
    }

    /// The stated surge, positive, where it is computed.
    pub fn surged(&self) -> Option<&SurgeOutcome> {
        self.surge.as_ref()?.as_ref().ok()
    }

    /// Every surge that is computed, the stated positive one first: its share of the stated one, its polarity, what it leaves.
    pub fn surges(&self) -> impl Iterator<Item = (f64, Sign, &SurgeOutcome)> {
        let further = self.further_surges.iter().map(|(share, sign, outcome)| (*share, *sign, outcome));
        self.surged().map(|outcome| (1.0, Sign::Positive, outcome)).into_iter().chain(further)
    }

    /// Of a line with an exposure and a path; `None` where it meets neither a contact discharge nor a surge, or has no path.
    ///
    /// An estimate; the test on the built board decides.
    pub fn of(line: &Line) -> Option<LineDischarge> {
        let (path, demands) = (line.path()?, &line.head.demands);
        let chip = path.inner_chip().copied().unwrap_or_default();
        let contact = demands.contact.map(|level| contact(line, level));
        let stated = Surge::of(demands);
        let positive = stated.map(|stated| surge(path, stated, Sign::Positive));
        let further_surges = match (&positive, stated) {
            (Some(Ok(positive)), Some(stated)) => further(path, stated, positive),
            _ => Vec::new(),
        };
        let asked = contact.is_some() || positive.is_some();
        asked.then_some(LineDischarge { chip, contact, surge: positive, further_surges })
    }
}

/// Levels of a surge looked at below the stated one where a part snaps back, and the least of them as a share of it.
const WEAKER: u32 = 16;
const WEAKEST: f64 = 0.05;

/// The surges beside the stated positive one: a part that snaps back may leave more of a weaker one.
fn further(path: &Path, stated: Surge, positive: &SurgeOutcome) -> Vec<(f64, Sign, SurgeOutcome)> {
    let snaps_back = positive.parts.iter().any(|(of, _)| of.part.strength.holding.is_some());
    let weaker = (0..WEAKER).filter(|_| snaps_back).map(|k| WEAKEST.powf(1.0 - f64::from(k) / f64::from(WEAKER)));
    let alike = is_alike_below(path);
    let of = |share: f64, sign: Sign| {
        if share < 1.0 {
            return surge_in(path, stated.share(share), sign, FEWER_INSTANTS).ok();
        }
        surge(path, stated, sign).ok()
    };
    let mut found = Vec::new();
    for share in weaker.chain([1.0]) {
        let above = if share < 1.0 { of(share, Sign::Positive) } else { Some(positive.clone()) };
        let below = if alike { above.clone() } else { of(share, Sign::Negative) };
        found.extend(above.filter(|_| share < 1.0).map(|outcome| (share, Sign::Positive, outcome)));
        found.extend(below.map(|outcome| (share, Sign::Negative, outcome)));
    }
    found
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
