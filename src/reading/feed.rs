//! An antenna feed.

use super::lumped::lumped;
use super::reader::range;
use super::stated_limit::StatedLimit;
use super::{Context, Findings, Reader, Surroundings, limits, path, unseen};
use crate::diag::Span;
use crate::figures::{FREQUENCY, LineKind};
use crate::model::{Band, Element, Feed, FeedLimit, Head, Limit, Over, Path};
use crate::units::{Ampere, Hertz, Ohm, Watt};

/// A feed; `None` after an error that leaves it without a use.
pub(crate) fn lower(
    reader: &Reader<'_, '_, '_>,
    head: &Head,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<Feed> {
    let entries = reader.entries;
    let what = format!("feed \"{}\"", head.name);
    let errors = &mut findings.errors;
    for (word, help) in [
        ("band", "add e.g. `band 1559 MHz to 1610 MHz`"),
        ("reference", "add e.g. `reference 50 ohm`"),
        ("path", "add `path { antenna …; protector; radio … }`"),
    ] {
        entries.require(word, head.span, &what, help, errors);
    }
    let band = entries.line("band").and_then(|line| range(line, FREQUENCY, errors));
    let reference = reader.number("reference", errors);
    let power = reader.line("power", errors).and_then(|values| {
        let level = values.number("level").map(|v| 1e-3 * 10f64.powf(v.si / 10.0));
        values.number("watt").map(|v| v.si).or(level).map(Watt)
    });
    let current = reader.number("current", errors).map(|v| Ampere(v.si));
    let limits = limits::lower_own(entries, LineKind::Feed, StatedLimit::of_feed, context, findings);
    let path = entries.block("path").and_then(|path| {
        let surroundings = Surroundings {
            context,
            kind: LineKind::Feed,
            // Where the band is missing the path is still checked, at any frequency.
            nyquist: band.map_or(1e9, |(low, high)| 0.5 * (low + high)),
            differential: false,
            voltages: head.voltages(),
        };
        path::lower(path, &head.name, &surroundings, findings)
    });
    let limits = limits.unwrap_or_else(|| default_limits(&what, head.span, findings));
    let (low, high) = band?;
    let band = Band { low: Hertz(low), high: Hertz(high) };
    let feed = Feed { band, reference: Ohm(reference?.si), power, current, path: path?, limits };
    if current.is_some() && !entries.may_hold("line_voltage") {
        let text = format!("{what} states a current and no line_voltage: whether its part stays on is not checked");
        findings.warn("no-line-voltage", head.span, text);
    }
    warn(&feed, findings);
    unseen::warn_feed(&feed, findings);
    Some(feed)
}

/// The limits of a feed that states none.
fn default_limits(what: &str, name: Span, findings: &mut Findings) -> Vec<Limit<FeedLimit>> {
    findings.default_used(
        "default-limits",
        name,
        format!("{what} states no limits: return_loss >= 10 dB (common practice, no source)"),
    );
    vec![Limit { of: FeedLimit::ReturnLoss(Over::Level(10.0)), span: None }]
}

fn warn(feed: &Feed, findings: &mut Findings) {
    let Path { elements } = &feed.path;
    for element in elements {
        match &element.element {
            Element::Radio(radio) if radio.impedance != feed.reference => findings.warn(
                "radio-impedance",
                element.span,
                format!(
                    "the match is seen in the feed's reference of {}: the radio's {} enters nothing but its pad",
                    feed.reference, radio.impedance
                ),
            ),
            Element::Plane => findings.warn(
                "plane-in-feed",
                element.span,
                "the match of a feed is seen by the radio: the plane changes nothing",
            ),
            _ => lumped(findings, element, feed.band.middle().0, "in the middle of the band"),
        }
    }
}
