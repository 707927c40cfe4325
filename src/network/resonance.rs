//! Frequencies at which a chain may do something narrow.

use std::f64::consts::TAU;

use super::{Chain, Section};
use crate::units::Hertz;

impl Chain {
    /// Quarter-wave resonances of its stubs, resonances of each inductance with each capacitance, and the shorts of its
    /// guards, from `low` to `high`, unsorted, at most `cap` of a stub. A grid of frequencies that includes them meets every notch of a stub.
    pub fn resonances(&self, low: Hertz, high: Hertz, cap: usize) -> Vec<f64> {
        let within = |f: &f64| low.0 < *f && *f < high.0;
        let branch = self.branch();
        let stubs = self.sections().iter().filter_map(|section| match section {
            Section::OpenStub { delay, .. } => Some(delay.0),
            Section::Guard { branch, .. } => Some(branch.stub_delay.0),
            _ => None,
        });
        let mut found = Vec::new();
        for delay in stubs.chain([branch.stub_delay.0]).filter(|delay| *delay > 0.0) {
            let first = (2.0 * delay * low.0 - 0.5).ceil().max(0.0);
            let odd = (0..cap).map(|n| (2.0 * (first + n as f64) + 1.0) / (4.0 * delay));
            found.extend(odd.take_while(|f| *f < high.0).filter(within));
        }
        let inductances = || {
            let own = self.sections().iter().filter_map(Section::inductance).map(|l| l.0);
            own.chain([branch.inductance.0]).filter(|l| *l > 0.0)
        };
        let capacitances = self.sections().iter().filter_map(Section::capacitance).map(|c| c.0);
        for c in capacitances.chain([branch.pad.0]).filter(|c| *c > 0.0) {
            found.extend(inductances().map(|l| 1.0 / (TAU * (l * c).sqrt())).filter(within));
        }
        // A guard is a short where its inductance, with its stub's, meets its own capacitance.
        let shorts = self.sections().iter().filter_map(|section| match section {
            Section::Guard { branch, capacitance } => {
                let inductance = branch.inductance.0 + branch.stub_impedance.0 * branch.stub_delay.0;
                Some(1.0 / (TAU * (inductance * capacitance.0).sqrt()))
            }
            _ => None,
        });
        found.extend(shorts.filter(within));
        found
    }
}
