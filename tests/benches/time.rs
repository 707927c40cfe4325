//! What the time domain of one lane costs, on a chain that costs nothing.

use std::f64::consts::PI;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use num_complex::Complex64;
use realfft::RealFftPlanner;

use lanecap::budget::Figures;
use lanecap::model::{Design, Lane};
use lanecap::network::{Chain, Mobius};
use lanecap::reading::read;
use lanecap::response::{Case, ChainSample, Feedback, LaneTime, Sample, Signal, TimeDomain};
use lanecap::response::{probes, scan};
use lanecap::result::size;
use lanecap::sheet::{Gathered, LoadFault, Loaded, gather};
use lanecap::text::{Format, render};

/// A capacitance behind a delay on a matched line.
fn chain(f: f64) -> ChainSample {
    let x = Complex64::new(0.0, PI * f * 45.0);
    let delay = Complex64::cis(-2.0 * PI * f * 4e-9);
    let sample = |absent: Complex64, p: Complex64, q: Complex64| Sample {
        absent,
        with: Mobius { p, q, r: Complex64::ONE, s: x },
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
    c.bench_function("eye of a pulse", |b| b.iter(|| black_box(&pulse).eye(2, Feedback::NONE)));
    c.bench_function("rise time of a further capacitance", |b| {
        b.iter(|| lane.rise_s(black_box(Case::With(0.5e-12)), 4e-9));
    });
    c.bench_function("profile of a further capacitance", |b| {
        b.iter(|| lane.profile(black_box(Case::With(0.5e-12)), 1e-9).map(|p| p.dip));
    });
}

/// A port from its sheet.
fn port(text: &str) -> (Gathered, Design) {
    let loaded = Loaded { identity: "-".into(), name: "-".into(), bytes: text.as_bytes().to_vec() };
    let gathered = gather(loaded, &mut |_, _| Err(LoadFault { message: String::new() }));
    let port = read(&gathered).expect("a good sheet");
    (gathered, port)
}

const DEMO: &str = include_str!("../../fixtures/sheets/ok/demo.lanes");

fn lanes(c: &mut Criterion) {
    let (_, demo) = port(DEMO);
    for (head, lane) in demo.lanes() {
        let chain = Chain::new(lane);
        c.bench_function(&format!("three eyes of the {}", head.name), |b| {
            b.iter(|| {
                let mut time = LaneTime::new(lane, &chain);
                [Case::Absent, Case::With(0.4e-12), Case::With(0.6e-12)]
                    .map(|case| time.domain().eye(black_box(case)).map(|eye| eye.0))
            });
        });
    }
    thousand(c);
    if let Some((_, lane)) = demo.lanes().next() {
        budget(c, lane);
    }
}

/// A thousand different lanes with their eyes, from text to JSON.
fn thousand(c: &mut Criterion) {
    let start = DEMO.find("lane \"camera link\"").expect("the first lane");
    let (head, rest) = DEMO.split_at(start);
    let (rest, _) = rest.split_at(rest.find("feed \"").expect("the first line that is no lane"));
    let lanes: String = (0..250)
        .map(|k| rest.replace("lane \"", &format!("lane \"{k} ")).replace("pad 0.0", &format!("pad 0.0{}", k % 10)))
        .collect();
    let text = format!("{head}{lanes}").replace(
        "limit return_loss >= 20 dB at 50 MHz, 14 dB at 240 MHz, 8 dB at 720 MHz",
        "limit return_loss >= 14 dB",
    );
    let mut group = c.benchmark_group("with eyes");
    group.sample_size(10);
    group.bench_function("1000 lanes, parse to JSON", |b| {
        b.iter(|| {
            let (gathered, port) = port(black_box(&text));
            let all: Vec<usize> = (0..port.lanes().count()).collect();
            let report = size(&port, &all, Figures::All, &gathered.sources, &|| ()).expect("numbers within range");
            render(&report, Format::Json)
        });
    });
    group.finish();
}

/// A budget set by the worst-pattern eye, beside the inverse transforms it takes, alone.
fn budget(c: &mut Criterion, lane: &Lane) {
    let chain = Chain::new(lane);
    let mut time = LaneTime::new(lane, &chain);
    let (absent, pulse) = time.domain().eye(Case::Absent).expect("settled");
    let per_symbol = pulse.per_symbol;
    let least = 0.95 * absent.height;
    let scale = 1.0 / (PI * lane.nyquist().0 * 45.0);
    let mut asked = Vec::new();
    let set = scan(
        |c| {
            asked.push(c);
            time.eye_margin(Case::With(c), least)
        },
        &probes(scale),
    );
    assert!(set.is_ok_and(|set| !set.is_empty()));
    c.bench_function("budget by the worst eye", |b| {
        b.iter(|| scan(|c| time.eye_margin(Case::With(black_box(c)), least), &probes(scale)));
    });
    // Every doubling of the record that those searches make: its length and nothing else.
    let mut lengths = Vec::new();
    for c in asked {
        let record = record(time.domain(), Case::With(c), least);
        let doublings = (5..).map(|power| 1usize << power).take_while(|n| *n <= record);
        lengths.extend(doublings.map(|n| n * per_symbol));
    }
    transforms(c, &lengths);
}

/// The record in unit intervals at which a search for an eye height of `least` stops doubling: one more moves the height by
/// at most 4e-5, or by a sixteenth of its distance to `least`.
fn record(domain: &mut TimeDomain<Chain>, case: Case, least: f64) -> usize {
    let (levels, dfe) = (domain.signal().levels, domain.signal().dfe);
    let mut height = |record: usize| domain.pulse(case, record).eye(levels, dfe).height;
    let (mut record, mut before) = (64, height(32));
    loop {
        let after = height(record);
        if (after - before).abs() <= (after - least).abs().max(16.0 * 4e-5) / 16.0 {
            return record;
        }
        (record, before) = (2 * record, after);
    }
}

/// Inverse real transforms of these lengths one after the other, in buffers that are kept; nothing fills or reads them.
///
/// A transform takes as long whatever the numbers are, so that they stay zero.
fn transforms(c: &mut Criterion, lengths: &[usize]) {
    let mut planner = RealFftPlanner::<f64>::new();
    let plans: Vec<_> = lengths.iter().map(|n| planner.plan_fft_inverse(*n)).collect();
    let longest = lengths.iter().max().copied().unwrap_or(0);
    let mut bins = vec![Complex64::ZERO; longest / 2 + 1];
    let mut samples = vec![0.0; longest];
    let needed = plans.iter().map(|plan| plan.get_scratch_len()).max().unwrap_or(0);
    let mut scratch = vec![Complex64::ZERO; needed];
    c.bench_function(&format!("its {} inverse transforms alone", lengths.len()), |b| {
        b.iter(|| {
            for (plan, &n) in plans.iter().zip(lengths) {
                let scratch = &mut scratch[..plan.get_scratch_len()];
                let done = plan.process_with_scratch(black_box(&mut bins[..n / 2 + 1]), &mut samples[..n], scratch);
                assert!(done.is_ok());
                black_box(&samples);
            }
        });
    });
}

criterion_group!(benches, time, lanes);
criterion_main!(benches);
