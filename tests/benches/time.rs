//! What the time domain of one lane costs, on a chain that costs nothing.

use std::f64::consts::PI;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use lanecap::network::Mobius;
use lanecap::response::{Case, ChainSample, Sample, Signal, TimeDomain};
use num_complex::Complex64;

/// A capacitance behind a delay on a matched line.
fn chain(f: f64) -> ChainSample {
    let x = Complex64::new(0.0, PI * f * 45.0);
    let delay = Complex64::cis(-2.0 * PI * f * 4e-9);
    let sample = |absent: Complex64, p: Complex64, q: Complex64| Sample {
        absent,
        with: Mobius {
            p,
            q,
            r: Complex64::ONE,
            s: x,
        },
    };
    ChainSample {
        transfer: sample(delay, delay, Complex64::ZERO),
        reflection: sample(Complex64::ZERO, Complex64::ZERO, -x),
    }
}

fn time(c: &mut Criterion) {
    let signal = || Signal::new(5e9, 2);
    c.bench_function("three eyes of a lane", |b| {
        b.iter(|| {
            let mut lane = TimeDomain::new(chain, signal());
            [Case::Absent, Case::With(0.4e-12), Case::With(0.6e-12)].map(|case| lane.eye(black_box(case)).map(|e| e.0))
        });
    });
    let mut lane = TimeDomain::new(chain, signal());
    c.bench_function("eye of a further capacitance", |b| {
        b.iter(|| lane.eye(black_box(Case::With(0.5e-12))).map(|e| e.0));
    });
    c.bench_function("pulse of a further capacitance", |b| {
        b.iter(|| lane.pulse(black_box(Case::With(0.5e-12)), 64));
    });
    let pulse = lane.pulse(Case::With(0.5e-12), 64);
    c.bench_function("eye of a pulse", |b| b.iter(|| black_box(&pulse).eye(2, 0)));
    c.bench_function("rise time of a further capacitance", |b| {
        b.iter(|| lane.rise_s(black_box(Case::With(0.5e-12)), 4e-9));
    });
    c.bench_function("profile of a further capacitance", |b| {
        b.iter(|| lane.profile(black_box(Case::With(0.5e-12)), 1e-9).map(|p| p.dip));
    });
}

criterion_group!(benches, time);
criterion_main!(benches);
