//! The inverse real transform, with its plans and buffers kept for each thread.

use std::cell::RefCell;

use num_complex::Complex64;
use realfft::RealFftPlanner;

/// Plans, and room for harmonics and for the transform.
struct Bench {
    planner: RealFftPlanner<f64>,
    bins: Vec<Complex64>,
    scratch: Vec<Complex64>,
}

thread_local! {
    static BENCH: RefCell<Bench> = RefCell::new(Bench {
        planner: RealFftPlanner::new(),
        bins: Vec::new(),
        scratch: Vec::new(),
    });
}

/// Fills `samples` with the real periodic signal Σ X_k e^{j2πki/N}, i < N, of the harmonics X_k, k from 0 to N/2, and their
/// conjugates. `write` writes all of them.
pub(super) fn synthesise(samples: &mut [f64], write: impl FnOnce(&mut [Complex64])) {
    let len = samples.len();
    BENCH.with_borrow_mut(|bench| {
        let plan = bench.planner.plan_fft_inverse(len);
        let room = |buffer: &mut Vec<Complex64>, len: usize| buffer.resize(buffer.len().max(len), Complex64::ZERO);
        room(&mut bench.bins, len / 2 + 1);
        room(&mut bench.scratch, plan.get_scratch_len());
        let bins = &mut bench.bins[..len / 2 + 1];
        write(bins);
        bins[0].im = 0.0;
        bins[len / 2].im = 0.0;
        // The lengths agree and both ends are real, so the transform has nothing to refuse.
        let outcome = plan.process_with_scratch(bins, samples, &mut bench.scratch[..plan.get_scratch_len()]);
        debug_assert!(outcome.is_ok());
    });
}
