//! The worst-pattern eye over records that are doubled until it settles.

use super::eye::eye_height_near;
use super::spectrum::FIRST_RECORD;
use super::{Case, Eye, NotSettled, Pulse, Source, TimeDomain};

/// What a doubling of the record may move the eye height by, relative to the ideal eye. What is left after it is smaller by
/// the order of the method, eight times and more: below 1e-5.
const EYE_SETTLED: f64 = 4e-5;

impl<S: Source> TimeDomain<S> {
    /// The worst-pattern eye, the record doubled until its height moves by at most 4e-5, and the pulse it is of.
    ///
    /// # Errors
    /// [`NotSettled`] when the longest record does not suffice: a chain that rings or creeps for thousands of symbols.
    pub fn eye(&mut self, case: Case) -> Result<(Eye, Pulse), NotSettled> {
        let (levels, dfe) = (self.signal().levels, self.signal().dfe);
        self.settle(
            "eye height",
            FIRST_RECORD,
            |lane, record| {
                let pulse = lane.pulse(case, record);
                (pulse.eye(levels, dfe), pulse)
            },
            |before, after| (after.0.height - before.0.height).abs(),
            |_| EYE_SETTLED,
        )
    }

    /// The eye height minus `bound`: exact near zero, elsewhere to a tenth of itself.
    ///
    /// For a search of the capacitance where the height meets the bound.
    ///
    /// # Errors
    /// As [`TimeDomain::eye`].
    pub fn eye_margin(&mut self, case: Case, bound: f64) -> Result<f64, NotSettled> {
        let (levels, dfe, per_symbol) = (self.signal().levels, self.signal().dfe, self.per_symbol());
        let mut samples = std::mem::take(&mut self.spare);
        let height = self.settle(
            "eye height",
            FIRST_RECORD,
            |lane, record| {
                let len = record * per_symbol;
                samples.resize(samples.len().max(len), 0.0);
                lane.pulse_into(case, record, &mut samples[..len]);
                eye_height_near(bound, &samples[..len], per_symbol, levels, dfe)
            },
            |before, after| (after - before).abs(),
            |after| EYE_SETTLED.max((after - bound).abs() / 16.0),
        );
        self.spare = samples;
        Ok(height? - bound)
    }
}
