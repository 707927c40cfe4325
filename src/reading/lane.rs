//! A lane.

use super::lumped::lumped;
use super::stated_limit::StatedLimit;
use super::{Context, Findings, Reader, Surroundings, addressed, limits, path, unseen};
use crate::diag::{Diagnostic, Span};
use crate::figures::LineKind;
use crate::model::{
    Address, Bounds, Chip, Element, Head, Lane, LaneLimit, Limit, Loss, Modulation, Note, Over, Owner, Path,
    PathElement, ValueName,
};
use crate::sheet::ast::Row;
use crate::sheet::read::Arguments;
use crate::sheet::schema::{Form, LANE};
use crate::units::{Baud, Ohm};

/// A lane; `None` after an error that leaves it without a use.
pub(crate) fn lower(
    reader: &Reader<'_, '_, '_>,
    head: &Head,
    context: &Context<'_, '_>,
    findings: &mut Findings,
) -> Option<Lane> {
    let entries = reader.entries;
    let what = format!("lane \"{}\"", head.name);
    let errors = &mut findings.errors;
    entries.require("rate", head.span, &what, "add e.g. `rate 5 Gb/s nrz`", errors);
    entries.require("reference", head.span, &what, "add e.g. `reference 90 ohm differential`", errors);
    entries.require("path", head.span, &what, "add `path { driver …; protector; receiver … }`", errors);
    let limits = limits::lower_own(entries, LineKind::Lane, StatedLimit::of_lane, context, findings);
    let errors = &mut findings.errors;
    let reference = reader.line("reference", errors);
    let rate = entries.line("rate").and_then(|line| rate(line, findings));
    let differential = reference.as_ref().is_some_and(|v| v.word("differential").is_some());
    let path = entries.block("path").and_then(|path| {
        let surroundings = Surroundings {
            context,
            kind: LineKind::Lane,
            // Where the rate is missing the path is still checked, at any frequency.
            nyquist: context
                .nyquist
                .get(head.name.as_str())
                .copied()
                .unwrap_or_else(|| rate.map_or(1e9, |(_, rate)| rate / 2.0)),
            differential,
            voltages: head.voltages(),
        };
        path::lower(path, &head.name, &surroundings, findings)
    });
    let mut limits = limits.unwrap_or_else(|| default_limits(&what, head.span, findings));
    let path = path?;
    limits.extend(path.needs());
    let (modulation, symbol_rate) = rate?;
    let stated = reference?.number("impedance")?;
    let reference = Ohm(stated.si);
    let lane = Lane { modulation, symbol_rate: Baud(symbol_rate), reference, differential, path, limits };
    let single = lane.single_ended_note();
    findings.defaults.extend(single.map(|note| Note { span: Some(stated.span), ..note }));
    warn(&lane, findings);
    unseen::warn_lane(&lane, findings);
    Some(lane)
}

/// Line code and symbol rate in baud.
fn rate(line: &Row<'_>, findings: &mut Findings) -> Option<(Modulation, f64)> {
    let Form::Arguments { slots, named } = LANE.line("rate")?.form else {
        return None;
    };
    let mut arguments = Arguments::new(line, &mut findings.errors);
    let values = arguments.values(slots, named)?;
    if let [first, second, ..] = values.words() {
        findings.errors.push(
            Diagnostic::error("two-alternatives", second.span, "a lane has one line code")
                .also(first.span, "the other one")
                .help("delete one of them"),
        );
        return None;
    }
    let codes = [Modulation::Nrz, Modulation::Pam3, Modulation::Pam4, Modulation::Pam5, Modulation::Pam16];
    let stated = values.words().first().and_then(|word| codes.into_iter().find(|m| m.word() == word.text));
    let modulation = stated.unwrap_or_else(|| {
        findings.default_used("default-modulation", line.span, "no line code stated: nrz");
        Modulation::Nrz
    });
    let address = Address { owner: Owner::Line, value: ValueName::Rate };
    let own = values.first_number().map(|rate| addressed::of_row(address, rate, None, &mut findings.errors));
    findings.values.extend(own);
    if let Some(symbols) = values.number("symbols") {
        return Some((modulation, symbols.si));
    }
    let bits = values.number("bits")?;
    match modulation {
        Modulation::Nrz => Some((modulation, bits.si)),
        Modulation::Pam4 => Some((modulation, bits.si / 2.0)),
        _ => {
            let message = format!("the rate of {} is stated in Bd", modulation.word());
            findings.errors.push(
                Diagnostic::error("rate-unit", bits.span, message)
                    .help("how many bits a symbol carries differs from standard to standard: state the symbol rate, e.g. `12.8 GBd`"),
            );
            None
        }
    }
}

/// The limits of a lane that states none.
fn default_limits(what: &str, name: Span, findings: &mut Findings) -> Vec<Limit<LaneLimit>> {
    findings.default_used(
        "default-limits",
        name,
        format!(
            "{what} states no limits: added_loss <= 0.5 dB, return_loss >= 10 dB, eye_penalty <= 10 % (common practice, no source)"
        ),
    );
    [
        LaneLimit::Loss(Loss::Added, Over::Level(0.5)),
        LaneLimit::Loss(Loss::Return, Over::Level(10.0)),
        LaneLimit::EyePenalty(0.1),
    ]
    .map(|of| Limit { of, span: None })
    .into()
}

/// What only the whole lane shows.
fn warn(lane: &Lane, findings: &mut Findings) {
    findings.defaults.extend(lane.assumed());
    if let Some(first) = lane.path.elements.first().filter(|_| !lane.passes_direct_current()) {
        let text = "the path passes no direct current: no rise time, and the worst-pattern eye assumes uncoded data";
        findings.warn("no-direct-current", first.span, text);
    }
    let outer = lane.path.elements.first();
    if let Some(outer) = outer.filter(|outer| outer.element.chip().is_some_and(Chip::is_stated)) {
        let text = format!(
            "this {} is the outer end of the path: the chip that the protector protects is at the inner end, and what is stated of \
             this one is not used",
            outer.element.word()
        );
        findings.warn("chip-at-outer-end", outer.span, text);
    }
    let nyquist = lane.nyquist().0;
    let sees_edges = |limit: &Limit<LaneLimit>| match limit.of {
        LaneLimit::ImpedanceDip(..)
        | LaneLimit::ImpedanceExcursion { .. }
        | LaneLimit::WorstEyePenalty(_)
        | LaneLimit::EyeHeight(_)
        | LaneLimit::EyeOpening(_) => true,
        _ => limit.of.mask().is_some(),
    };
    let masked = lane.limits.iter().any(sees_edges);
    for element in &lane.path.elements {
        half_impedance(lane, element, findings);
        match &element.element {
            Element::Driver(driver) => {
                if let Some(rise) = driver.rise.filter(|rise| 0.35 / rise.0 > 1.5 * nyquist && !masked) {
                    let text = format!(
                        "the edge of {rise} reaches to {}, beyond the Nyquist frequency {}: the limits at Nyquist do not see it; \
                         add a mask",
                        crate::units::Hertz(0.35 / rise.0),
                        lane.nyquist()
                    );
                    findings.warn("edge-beyond-nyquist", element.span, text);
                }
            }
            Element::Connector { .. } | Element::Via(_) => {
                lumped(findings, element, nyquist, "at Nyquist");
            }
            Element::Plane if is_inward(&lane.path, element.number) => findings.warn(
                "plane-inside",
                element.span,
                "this port plane lies inward of the protector: the return loss seen from it does not depend on the protector",
            ),
            _ => {}
        }
    }
}

/// A pair's impedance that is half its reference was likely meant for one line of it.
fn half_impedance(lane: &Lane, element: &PathElement, findings: &mut Findings) {
    let impedance = match &element.element {
        Element::Driver(driver) => Some(driver.impedance),
        Element::Receiver(receiver) => receiver.impedance,
        Element::Line(line) => Some(line.impedance),
        _ => None,
    };
    let half = lane.half_reference().0;
    if let Some(impedance) = impedance.filter(|z| lane.differential && (z.0 / half - 1.0).abs() <= 0.05) {
        let word = element.element.word();
        findings.warn(
            "half-reference",
            element.span,
            format!("this {word} of {impedance} is about half the reference: in a differential lane its impedance is the one across the pair"),
        );
    }
}

fn is_inward(path: &Path, number: usize) -> bool {
    path.elements.iter().position(|e| e.number == number).is_some_and(|at| at > path.protector_index())
}
