//! Where a lumped element stands for something too long.

use super::Findings;
use crate::model::PathElement;
use crate::resolve::lumped_angle;
use crate::units::Hertz;

/// Warns where a connector or via is too long for a lumped element at a frequency.
pub(crate) fn lumped(findings: &mut Findings, element: &PathElement, frequency: f64, place: &str) {
    let Some(angle) = lumped_angle(&element.element, Hertz(frequency)).filter(|angle| *angle > 0.5) else {
        return;
    };
    let text = format!(
        "this {} is long for a lumped element {place}: omega sqrt(L C) = {angle:.2}, and the model is meant for 0.5 at most",
        element.element.word()
    );
    findings.warn("lumped-validity", element.span, text);
}
