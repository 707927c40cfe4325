//! Limits that do not look at what they seem to bound.

use super::Findings;
use super::stated_limit::StatedLimit;
use crate::diag::Span;
use crate::model::{Band, Bounds, DEFAULT_RISE_UI, Feed, FeedLimit, Lane, LaneLimit, Limit, Mask, Note, Over};
use crate::units::{Hertz, Second};

/// What a lane's limits do not see of its signal.
pub(crate) fn warn_lane(lane: &Lane, findings: &mut Findings) {
    below_nyquist(lane, findings);
    lane.limits.iter().for_each(|limit| until_before_protector(lane, limit, findings));
}

/// Masks on losses that all end below Nyquist, with no other limit on the signal beside them.
fn below_nyquist(lane: &Lane, findings: &mut Findings) {
    let ends = |limit: &Limit<LaneLimit>| match &limit.of {
        LaneLimit::Loss(_, Over::Mask(mask)) => Some((mask.span().1, limit.span)),
        _ => None,
    };
    // Conversion tells nothing of what the signal loses.
    let signal = lane
        .limits
        .iter()
        .filter(|limit| !matches!(limit.of, LaneLimit::ModeConversion(_) | LaneLimit::ModeConversionReflected(_)));
    let masks: Option<Vec<(Hertz, Option<Span>)>> = signal.map(ends).collect();
    let highest = masks.iter().flatten().copied().max_by(|a, b| a.0.0.total_cmp(&b.0.0));
    let Some((reach, span)) = highest.filter(|(reach, _)| *reach < lane.nyquist()) else { return };
    let text = format!(
        "no limit on a loss reaches the Nyquist frequency {}: the masks end at {reach} and do not see the signal above; \
         lengthen a mask, or add a limit at Nyquist or on the eye",
        lane.nyquist()
    );
    findings.warnings.push(Note { code: "limits-below-nyquist", text, span });
}

/// A dip that is read no further than to where the protector's own is not yet whole.
fn until_before_protector(lane: &Lane, limit: &Limit<LaneLimit>, findings: &mut Findings) {
    let read = limit.of.read();
    let (Some(until), Some(delay)) = (read.until, lane.path.delay_to_protector()) else { return };
    let own = lane.path.driver().and_then(|driver| driver.rise);
    let rise = read.rise.or(own).unwrap_or(Second(DEFAULT_RISE_UI / lane.symbol_rate.0));
    let seen = Second(2.0 * delay.0 + rise.0);
    if until < seen {
        let text = format!(
            "{} is read until {until}, and the protector is seen until {seen}, there and back and the edge of {rise}: the \
             limit may not see its dip",
            limit.of.figure().word()
        );
        findings.warnings.push(Note { code: "until-before-protector", text, span: limit.span });
    }
}

/// Masks of a feed that all lie outside its band, with no other limit beside them.
pub(crate) fn warn_feed(feed: &Feed, findings: &mut Findings) {
    let Band { low, high } = feed.band;
    let apart = |limit: &Limit<FeedLimit>| {
        let span = limit.of.mask().map(Mask::span);
        span.is_some_and(|(first, last)| last < low || high < first)
    };
    let Some(first) = feed.limits.first().filter(|_| feed.limits.iter().all(apart)) else { return };
    let text = format!(
        "no limit touches the band {low} to {high}: the match there is not judged; move the mask into the band, or state \
         one bound, which is held over the band"
    );
    findings.warnings.push(Note { code: "limits-outside-band", text, span: first.span });
}

/// The masks of a set that a line's own limits replace by something narrower.
pub(crate) fn replaced(set: &[StatedLimit], own: &[StatedLimit], at_one: Option<&str>, findings: &mut Findings) {
    for theirs in set {
        let (Over::Mask(mask), Some(ours)) = (&theirs.over, own.iter().find(|own| own.figure == theirs.figure)) else {
            continue;
        };
        let (low, high) = mask.span();
        let holds = match (&ours.over, at_one) {
            (Over::Mask(own), _) => {
                let (first, last) = own.span();
                let narrower = low < first || last < high;
                narrower.then(|| if first == last { format!("at {first}") } else { format!("from {first} to {last}") })
            }
            (Over::Level(_), Some(at)) => Some(at.to_owned()),
            (Over::Level(_), None) => None,
        };
        if let Some(holds) = holds {
            let text = format!(
                "this {} holds {holds} and takes the place of the set's mask from {low} to {high}: what the set asks for \
                 beyond is not held",
                ours.figure.word()
            );
            findings.warn("set-narrowed", ours.span, text);
        }
    }
}
