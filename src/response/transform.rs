//! The inverse real transform, with its plans and scratch kept for each thread.

use std::cell::RefCell;

use num_complex::Complex64;
use realfft::RealFftPlanner;

thread_local! {
    static PLANS: RefCell<(RealFftPlanner<f64>, Vec<Complex64>)> =
        RefCell::new((RealFftPlanner::new(), Vec::new()));
}

/// The real periodic signal Σ X_k e^{j2πki/N}, i < `len`, of the harmonics `bins` (k from 0 to len/2) and their conjugates.
///
/// `bins` is garbage afterwards.
pub(super) fn synthesise(bins: &mut [Complex64], len: usize) -> Vec<f64> {
    debug_assert_eq!(bins.len(), len / 2 + 1);
    let mut samples = vec![0.0; len];
    if let Some(first) = bins.first_mut() {
        first.im = 0.0;
    }
    if let Some(last) = bins.last_mut() {
        last.im = 0.0;
    }
    PLANS.with_borrow_mut(|(planner, scratch)| {
        let plan = planner.plan_fft_inverse(len);
        scratch.resize(plan.get_scratch_len().max(scratch.len()), Complex64::ZERO);
        let needed = plan.get_scratch_len();
        // The lengths agree and both ends are real, so the transform has nothing to refuse.
        let outcome = plan.process_with_scratch(bins, &mut samples, &mut scratch[..needed]);
        debug_assert!(outcome.is_ok());
    });
    samples
}
