//! An antenna feed.

use super::asks::{Reader, range};
use super::lane::lumped;
use super::limits::StatedLimit;
use super::{Context, Findings, limits, path};
use crate::diag::{Diagnostic, Span};
use crate::figures::{FREQUENCY, LineKind};
use crate::model::{Antenna, Band, Bounds, Element, Feed, FeedLimit, Limit, Mask, Over, Path};
use crate::sheet::ast::{Block, Text};
use crate::sheet::entries::Entries;
use crate::sheet::schema::FEED;
use crate::units::{Hertz, Ohm, Watt};

/// A feed, and the errors found; the feed is there where it can be computed.
pub(crate) fn lower(block: &Block<'_>, name: Text<'_>, context: &Context<'_, '_>) -> (Option<Feed>, Vec<Diagnostic>) {
    let mut findings = Findings::default();
    let feed = assemble(block, name, context, &mut findings);
    (feed.filter(|_| findings.errors.is_empty()), findings.errors)
}

fn assemble(block: &Block<'_>, name: Text<'_>, context: &Context<'_, '_>, findings: &mut Findings) -> Option<Feed> {
    let entries = Entries::of(&FEED, &block.items, &mut findings.errors);
    let what = format!("feed \"{}\"", name.text);
    let errors = &mut findings.errors;
    for (word, help) in [
        ("band", "add e.g. `band 1559 MHz to 1610 MHz`"),
        ("reference", "add e.g. `reference 50 ohm`"),
        ("path", "add `path { antenna …; protector; radio … }`"),
    ] {
        entries.require(word, name.span, &what, help, errors);
    }
    let reader = Reader { schema: &FEED, entries: &entries };
    let count = reader.count("count", errors);
    let band = entries.line("band").and_then(|line| Some((range(line, FREQUENCY, errors)?, line.span)));
    let reference = reader.number("reference", errors);
    let power = reader.line("power", errors).and_then(|values| {
        let level = values.number("level").map(|v| 1e-3 * 10f64.powf(v.si / 10.0));
        values.number("watt").map(|v| v.si).or(level).map(Watt)
    });
    let line_voltage = reader.line_voltage(errors);
    let port = reader.name("port", errors);
    let asks = reader.asks(errors);
    let limits = limits::lower_own(&entries, LineKind::Feed, context, errors);
    let limits = limits.map(|stated| stated.into_iter().filter_map(StatedLimit::of_feed).collect::<Vec<_>>());
    let path = entries.block("path").and_then(|path| {
        let surroundings = path::Surroundings {
            context,
            block: "feed",
            // Where the band is missing the path is still checked, at any frequency.
            nyquist: band.map_or(1e9, |((low, high), _)| 0.5 * (low + high)),
            differential: false,
            line_voltage,
        };
        path::lower(path, name, &surroundings, findings)
    });
    let limits = limits.unwrap_or_else(|| default_limits(&what, name, findings));
    let ((low, high), band_span) = band?;
    let feed = Feed {
        name: name.text.to_owned(),
        span: name.span,
        port,
        count: count?,
        band: Band { low: Hertz(low), high: Hertz(high) },
        reference: Ohm(reference?.si),
        power,
        line_voltage,
        asks,
        path: path?,
        limits,
        defaults: Vec::new(),
        warnings: Vec::new(),
    };
    check_antenna(&feed, band_span, findings);
    warn(&feed, findings);
    Some(Feed {
        defaults: std::mem::take(&mut findings.defaults),
        warnings: std::mem::take(&mut findings.warnings),
        ..feed
    })
}

/// The limits of a feed that states none.
fn default_limits(what: &str, name: Text<'_>, findings: &mut Findings) -> Vec<Limit<FeedLimit>> {
    findings.default_used(
        "default-limits",
        name.span,
        format!("{what} states no limits: return_loss >= 10 dB (common practice, no source)"),
    );
    vec![Limit { of: FeedLimit::ReturnLoss(Over::Level(10.0)), span: None }]
}

/// What a table does not reach, and a detuning without a resonance.
fn check_antenna(feed: &Feed, band_span: Span, findings: &mut Findings) {
    let Some(antenna) = feed.path.antenna() else { return };
    if let Antenna::Table(table) = antenna {
        let Some(span) = table.reach() else { return };
        let outside = |low: Hertz, high: Hertz| low < span.low || high > span.high;
        let reach = format!("the table \"{}\" reaches from {} to {}", table.name, span.low, span.high);
        let Band { low, high } = feed.band;
        if outside(low, high) {
            let message = format!("{reach}, not over the band {low} to {high}");
            findings.errors.push(
                Diagnostic::error("table-span", band_span, message).help("measure the antenna over the whole band"),
            );
            return;
        }
        for limit in &feed.limits {
            let Some((first, last)) = limit.of.mask().map(Mask::span) else { continue };
            if outside(first, last) {
                let message = format!("{reach}, not over this mask {first} to {last}");
                findings.errors.push(
                    Diagnostic::error("table-span", limit.span.unwrap_or(feed.span), message)
                        .help("measure the antenna over the whole mask"),
                );
            }
        }
    }
    if let (None, Some(limit)) =
        (antenna.resonator(), feed.limits.iter().find(|limit| matches!(limit.of, FeedLimit::Detuning(_))))
    {
        let which = if matches!(antenna, Antenna::Table(_)) { "a table" } else { "a plain resistance" };
        findings.errors.push(
            Diagnostic::error(
                "no-resonance",
                limit.span.unwrap_or(feed.span),
                format!("`detuning` needs a resonator, and this antenna is {which}"),
            )
            .help("state the antenna as `antenna parallel …` or `antenna series …`, or delete the limit"),
        );
    }
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
