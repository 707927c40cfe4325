//! Where a lumped element stands for something too long.

use super::Findings;
use crate::model::{Element, PathElement};

/// Warns where a connector or via is too long for a lumped element at a frequency.
pub(crate) fn lumped(findings: &mut Findings, element: &PathElement, frequency: f64, place: &str) {
    let (capacitance, inductance) = match &element.element {
        Element::Connector { capacitance, inductance: Some(inductance) } => (capacitance.0, inductance.0),
        Element::Via(via) => (via.capacitance.0, via.inductance.map_or(0.0, |l| l.0)),
        _ => return,
    };
    let angle = std::f64::consts::TAU * frequency * (inductance * capacitance).sqrt();
    if angle > 0.5 {
        let text = format!(
            "this {} is long for a lumped element {place}: omega sqrt(L C) = {angle:.2}, and the model is meant for 0.5 at most",
            element.element.word()
        );
        findings.warn("lumped-validity", element.span, text);
    }
}
