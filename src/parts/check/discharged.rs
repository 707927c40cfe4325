//! What the computed discharge leaves at the pin, against what the chip survives: an estimate, no proof of immunity.

use super::{Check, Checks, Verdict};
use crate::model::{Chip, Demands, Note};
use crate::parts::Duty;
use crate::transient::{Contact, LineDischarge, NotStruck, PinOutcome, Settled, Sign};
use crate::units::{Volt, engineering};

/// The checks that give way to those of the computed contact discharge.
pub(super) const ESTIMATES: [&str; 2] = ["residual", "first peak"];
/// Share of its highest current that a clamp takes at the end where the discharge is not over.
const GOES_ON: f64 = 0.1;
/// A strike at the pin: its level, its polarity, what it leaves.
type Struck = (Volt, Sign, PinOutcome);
/// What a caution says that the computed levels hold where the protector conducts.
const BELOW_TRIGGER: &str = "below-trigger";
/// The checks that come before those of the discharge.
const BEFORE: [&str; 6] =
    ["lowest capacitance", "stand-off", "latch-up", "rating contact", "rating air", "rating surge"];

/// Puts the checks of the contact discharge in the place of the estimates where it is computed and the line states what it
/// is held against; else the estimates stay.
pub(super) fn judge(found: &mut Checks, duty: &Duty, is_fitted: bool, discharge: &LineDischarge) {
    let (chip, demands) = (&discharge.chip, &duty.demands);
    let judged = match &discharge.contact {
        None => return,
        Some(Err(why)) => open(demands, chip, &reason(why)).filter(|_| is_fitted).into_iter().collect(),
        Some(Ok(contact)) => {
            if demands.withstands.is_some() {
                found.checks.retain(|check| !ESTIMATES.contains(&check.check));
                let stays_off = never_on(contact).is_some();
                found.cautions.retain(|caution| caution.code != BELOW_TRIGGER || stays_off);
            }
            found.cautions.extend(unsettled(contact));
            let pin = pin(duty, chip, contact);
            let fails = pin.iter().any(|check| check.verdict == Verdict::Fails);
            let turn_on = never_on(contact).map(|why| {
                if !fails {
                    found.cautions.push(Note { code: "turn-on", text: why.clone(), span: None });
                }
                Check::words("turn-on", Some(!fails)).because(why)
            });
            pin.into_iter().chain(turn_on).collect::<Vec<_>>()
        }
    };
    insert(found, judged);
}

/// Checks behind those of the ratings.
pub(super) fn insert(found: &mut Checks, checks: Vec<Check>) {
    let behind = found.checks.iter().rposition(|check| BEFORE.contains(&check.check) && check.part.is_none());
    let at = behind.map_or(0, |at| at + 1);
    found.checks.splice(at..at, checks);
}

/// What a strike leaves at the pin, with its level and its polarity: the stated and the worst level first, settled, then
/// every other level.
fn outcomes(contact: &Contact) -> Vec<Struck> {
    let both = contact.both();
    let stated = both.map(|(sign, of)| (of.level, sign, of.stated.outcome.pin));
    let worst = both.map(|(sign, of)| (of.worst_level, sign, of.worst.outcome.pin));
    let others = both.into_iter().flat_map(|(sign, of)| {
        let other = |(level, _): &&(Volt, PinOutcome)| *level != of.level && *level != of.worst_level;
        of.levels.iter().filter(other).map(move |(level, pin)| (*level, sign, *pin))
    });
    stated.into_iter().chain(worst).chain(others).collect()
}

/// The greatest of a figure, with the first strike that leaves it.
fn greatest(outcomes: &[Struck], figure: impl Fn(&Struck) -> f64) -> (f64, Option<&Struck>) {
    let more = |found: (f64, Option<_>), next| {
        if figure(next) > found.0 { (figure(next), Some(next)) } else { found }
    };
    outcomes.iter().fold((f64::NEG_INFINITY, None), more)
}

/// The line's own voltage in the direction of a strike, 0 or above.
fn own(duty: &Duty, sign: Sign) -> f64 {
    let (low, high) = duty.extent().unwrap_or_default();
    f64::max(if sign == Sign::Positive { high } else { -low }, 0.0)
}

/// The voltage of a pin on top of the line's own, where no part has snapped back: until something conducts.
fn on_the_line(duty: &Duty, (_, sign, pin): &Struck, volts: Volt) -> f64 {
    pin.free_below.map_or(volts.0, |on| volts.0.max((volts.0 + own(duty, *sign)).min(on.0)))
}

fn at(level: Volt, sign: Sign) -> String {
    format!("{level:.3}, {}", sign.word())
}

/// What a contact discharge leaves at the pin at most: the current of a 100 ns pulse in ampere, without a clamp of the chip
/// the voltage in volt, with its unit.
pub(crate) fn left_at_pin(discharge: &LineDischarge) -> Option<(f64, &'static str)> {
    let outcomes = outcomes(discharge.struck()?);
    Some(match discharge.chip.clamp {
        Some(_) => (greatest(&outcomes, |(.., pin)| pin.equivalent.0).0, "A"),
        None => (greatest(&outcomes, |(.., pin)| pin.peak.0).0, "V"),
    })
}

/// The pin of the chip: its voltage after the first peak and in it, the current into its clamp over 100 ns and at its peak.
fn pin(duty: &Duty, chip: &Chip, contact: &Contact) -> Vec<Check> {
    let (outcomes, demands) = (outcomes(contact), &duty.demands);
    let mut checks: Vec<Check> = Vec::new();
    // In the direction of the strike, and where it swings the other way.
    let mut held = |name, required: f64, figure: fn(&PinOutcome) -> [f64; 2], unit, beside: &str| {
        let ahead = |struck: &Struck| {
            let most = figure(&struck.2)[0];
            if unit == "V" { on_the_line(duty, struck, Volt(most)) } else { most }
        };
        let (most, strike) = greatest(&outcomes, ahead);
        let (swing, swings) = greatest(&outcomes, |(.., pin)| figure(pin)[1]);
        let where_at = |strike: Option<&Struck>| strike.map_or(String::new(), |(level, sign, _)| at(*level, *sign));
        let with_own = strike.filter(|strike| most > figure(&strike.2)[0]).map(|(_, sign, _)| own(duty, *sign));
        let with_own = with_own.map_or(String::new(), |own| format!(", with the line's own {}", engineering(own, "V")));
        let (most, at) = if swing > most {
            (swing, where_at(swings) + ", the other way")
        } else {
            (most, where_at(strike) + &with_own)
        };
        checks.push(Check::at_most(name, required, Some(most), unit).because(format!("at {at}{beside}")));
    };
    let (withstands, peak) = (demands.withstands.map(|v| v.0), demands.withstands_peak.map(|v| v.0));
    if let Some(withstands) = withstands {
        held("pin voltage", withstands, |pin| [pin.late_peak.0, pin.late_swing.0], "V", "");
        held("pin voltage peak", peak.unwrap_or(withstands), |pin| [pin.peak.0, pin.swing.0], "V", "");
    }
    if let (Some(survives), Some(_)) = (chip.survives, chip.clamp) {
        let rating =
            survives.human_body.map_or(String::new(), |v| format!("; of a human-body rating of {v}, an estimate"));
        held("pin current", survives.current.0, |pin| [pin.equivalent.0, 0.0], "A", &rating);
        let peak = survives.peak.unwrap_or(survives.current);
        held("pin current peak", peak.0, |pin| [pin.peak_current.0, 0.0], "A", "");
    }
    if chip.clamp.is_some() && chip.survives.is_none() && withstands.is_none() {
        checks.push(Check::words("pin current", None).because("the chip states neither `survives` nor `withstands`"));
    }
    leave_open(&mut checks, duty, chip, contact, &outcomes);
    if chip.clamp.is_none() {
        for check in checks.iter_mut().filter(|check| check.verdict != Verdict::Passes) {
            let why = check.why.take().unwrap_or_default();
            check.why = Some(format!("{why}; the chip states no `clamps`, so that its pin is open and rings"));
        }
    }
    checks
}

/// Leaves open what the stated words or the computation do not tell.
fn leave_open(checks: &mut [Check], duty: &Duty, chip: &Chip, contact: &Contact, outcomes: &[Struck]) {
    let demands = &duty.demands;
    let unstated_peaks = [
        ("pin voltage peak", "V", demands.withstands_peak.is_none(), "in the first 5 ns", "the chip withstands"),
        (
            "pin current peak",
            "A",
            chip.survives.is_some_and(|s| s.peak.is_none()),
            "into the chip",
            "it survives for 100 ns",
        ),
    ];
    for (name, unit, unstated, when, of) in unstated_peaks {
        let unstated = checks.iter_mut().find(|check| check.check == name && unstated);
        if let Some(check) = unstated.filter(|check| check.verdict == Verdict::Fails) {
            let (most, longer) = [check.available, check.required].map(|v| engineering(v.unwrap_or(0.0), unit)).into();
            let at = check.why.take().unwrap_or_default();
            *check = open_check(check.clone()).because(format!(
                "{most} {when} {at}, is above the {longer} {of}; what it stands so long is not stated (`peak`)"
            ));
        }
    }
    let mut open = |is_it: fn(&str) -> bool, why: &str| {
        let passes = |check: &&mut Check| check.verdict == Verdict::Passes && is_it(check.check);
        checks.iter_mut().filter(passes).for_each(|check| *check = open_check(check.clone()).because(why));
    };
    // Without a word of its inductance the part shows no first peak.
    if contact.parts.iter().any(|part| part.protects && !part.is_inductive) {
        let why = "no inductance of the part, its via or its stub is stated: 0 counts";
        open(|check| check == "pin voltage peak", why);
    }
    if outcomes.iter().any(|(.., pin)| pin.last_current.0 > GOES_ON * pin.peak_current.0) {
        let why = "the chip's clamp still takes current at the end of the 200 ns that are followed";
        open(|check| check == "pin current", why);
    }
    if let Some(survives) = chip.survives {
        let (most, _) = greatest(outcomes, |(.., pin)| pin.equivalent_at_most.0);
        if most > survives.current.0 {
            let why = format!(
                "what is stored at the end of the 200 ns that are followed may make it as much as {}",
                engineering(most, "A")
            );
            open(|check| check == "pin current", &why);
        }
    }
    let may_reach = |sign: Sign, volts: f64| if volts > 0.0 { volts + own(duty, sign) } else { 0.0 };
    let (rises_to, _) = greatest(outcomes, |(_, sign, pin)| may_reach(*sign, pin.rises_to.0));
    if demands.withstands.is_some_and(|withstands| rises_to > withstands.0) {
        let why = "the pin still rises at the end of the 200 ns that are followed";
        open(|check| ["pin voltage", "pin voltage peak"].contains(&check), why);
    }
    if unsettled(contact).is_some() {
        open(|_| true, "the computed discharge does not settle");
    }
}

/// The same check, open.
pub(super) fn open_check(check: Check) -> Check {
    Check { required: None, margin: None, verdict: Verdict::NotStated, ..check }
}

/// That the protector never conducts at the stated level, if so.
fn never_on(contact: &Contact) -> Option<String> {
    let protector = contact.parts.iter().position(|part| part.protects)?;
    let off = |settled: &Settled| settled.outcome.parts.get(protector).is_some_and(|part| part.on_at.is_none());
    let which = match (off(&contact.positive.stated), off(&contact.negative.stated)) {
        (false, false) => return None,
        (true, true) => "in neither polarity",
        (true, false) => "not in the positive polarity",
        (false, true) => "not in the negative polarity",
    };
    let level = contact.positive.level;
    Some(format!("the protector does not turn on at {level}, {which}: the chip and the other parts take the discharge"))
}

/// What the chip's words ask for and cannot be told.
pub(super) fn open(demands: &Demands, chip: &Chip, why: &str) -> Option<Check> {
    let volts = demands.withstands.filter(|_| chip.clamp.is_some()).map(|v| ("pin voltage", v.0, "V"));
    let (name, required, unit) = chip.survives.map(|s| ("pin current", s.current.0, "A")).or(volts)?;
    Some(Check::open(name, Some(required), None, unit).because(why))
}

/// Why there is no computed discharge.
pub(super) fn reason(why: &NotStruck) -> String {
    format!("the discharge is not computed: {why}")
}

/// That a discharge did not settle.
fn unsettled(contact: &Contact) -> Option<Note> {
    let both = contact.both();
    let each = both.iter().flat_map(|(sign, of)| {
        [(of.level, &of.stated), (of.worst_level, &of.worst)]
            .map(|(level, settled)| (at(level, *sign), settled.settled))
    });
    let mut open: Vec<String> = each.filter(|(_, settled)| !settled).map(|(at, _)| at).collect();
    open.dedup();
    let text = "its figures there hang on the step of the computation";
    (!open.is_empty()).then(|| Note {
        code: "unsettled",
        text: format!("the discharge does not settle at {}: {text}", open.join(", at ")),
        span: None,
    })
}
