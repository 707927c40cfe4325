//! How long one lane takes.

#[path = "../support/bills.rs"]
mod bills;
#[path = "../support/port.rs"]
mod port;

use std::fs;
use std::hint::black_box;
use std::path::PathBuf;

use criterion::{Criterion, criterion_group, criterion_main};

use lanecap::budget::{Figures, size_lane};
use lanecap::diag::{Diagnostic, Paint, SourceFile, Sources, Span, render as show};
use lanecap::model::*;
use lanecap::network::Chain;
use lanecap::parts::bill;
use lanecap::reading::read;
use lanecap::result::size;
use lanecap::sheet::{LoadFault, Loaded, gather};
use lanecap::text::{Format, render};
use lanecap::units::*;

fn trace(kind: Medium, length: f64, permittivity: f64, conductor: f64, loss_tangent: f64) -> Element {
    let loss = LineLoss { reference: Hertz(2.5e9), conductor, loss_tangent };
    Element::Line(TransmissionLine { medium: kind, impedance: Ohm(90.0), length: Metre(length), permittivity, loss })
}

fn via(stub: Option<ViaStub>) -> Element {
    Element::Via(Via { barrel: Barrel::Lumped { capacitance: Farad(0.2e-12), inductance: Some(Henry(0.4e-9)) }, stub })
}

/// A pair of ten elements: cable, connector, traces, vias, a coupling capacitor and a protector with its footprint.
fn lane(limits: Vec<LaneLimit>) -> Lane {
    let stub = ViaStub { length: Metre(1e-3), permittivity: 4.0, side: StubSide::Inner };
    let protector = Protector {
        fitted: Some(Farad(0.3e-12)),
        part: None,
        bias: None,
        pad: Farad(0.06e-12),
        part_inductance: Henry(0.35e-9),
        part_resistance: Ohm(0.4),
        inductance: Henry(0.2e-9),
        across: false,
        resistance: Ohm(0.0),
        stub: Metre(0.5e-3),
        stub_permittivity: 3.4,
        neck: None,
        mismatch: None,
        spread: Some(0.2),
    };
    let elements = [
        Element::Driver(Driver {
            impedance: Ohm(90.0),
            pad: Farad(0.3e-12),
            rise: None,
            swing: None,
            taps: None,
            chip: Chip::default(),
        }),
        trace(Medium::Cable, 0.8, 2.2, 0.46, 0.0),
        Element::Connector { capacitance: Farad(0.12e-12), inductance: Some(Henry(0.35e-9)) },
        trace(Medium::Trace, 4e-3, 3.4, 0.0, 0.0),
        Element::Protector(protector),
        trace(Medium::Trace, 32e-3, 3.4, 1.2, 0.012),
        via(None),
        trace(Medium::Trace, 10e-3, 3.4, 1.2, 0.012),
        via(Some(stub)),
        Element::Series(Immittance::Capacitance(Farad(100e-9))),
        Element::Receiver(Receiver {
            impedance: Some(Ohm(90.0)),
            pad: Farad(0.25e-12),
            ctle: None,
            dfe: 0,
            dfe_limit: None,
            needs: None,
            chip: Chip::default(),
        }),
    ];
    Lane {
        modulation: Modulation::Nrz,
        symbol_rate: Baud(5e9),
        reference: Ohm(90.0),
        differential: true,
        path: Path {
            elements: (1..)
                .zip(elements)
                .map(|(number, element)| PathElement { element, stated: Stated::AsIs, number, span: Span::default() })
                .collect(),
        },
        limits: limits.into_iter().map(|of| Limit { of, span: None }).collect(),
    }
}

fn speed(criterion: &mut Criterion) {
    let at = |loss, level| LaneLimit::Loss(loss, Over::Level(level));
    let nyquist = lane(vec![at(Loss::Added, 0.5), at(Loss::Return, 10.0), LaneLimit::EyePenalty(0.1)]);
    criterion.bench_function("the Nyquist limits of one lane", |b| {
        b.iter(|| size_lane(black_box(&nyquist), Figures::Nyquist))
    });
    criterion.bench_function("the half circuit of one lane", |b| b.iter(|| Chain::new(black_box(&nyquist))));
    let chain = Chain::new(&nyquist);
    criterion.bench_function("one frequency of one lane", |b| b.iter(|| chain.at(black_box(Hertz(2.5e9)))));
    let corner = |level, f| MaskPoint { level, frequency: Hertz(f) };
    let points = vec![corner(14.0, 0.1e9), corner(9.0, 1e9), corner(5.0, 2.5e9)];
    let mask = lane(vec![LaneLimit::Loss(Loss::Return, Over::Mask(Mask::new(points).expect("rising points")))]);
    criterion.bench_function("a mask of one lane", |b| b.iter(|| size_lane(black_box(&mask), Figures::Nyquist)));
}

/// A sheet of so many feeds, all different, with a fitted protector and both kinds of limit.
fn feed_sheet(feeds: usize) -> String {
    let feed = |k: usize| {
        format!(
            "feed \"antenna {k}\" {{\n band 1559 MHz to 1610 MHz; reference 50 ohm\n limit return_loss >= 10 dB\n \
             limit detuning <= {detuning} MHz\n path {{\n  antenna parallel 1575.42 MHz 50 ohm q {q}\n  \
             trace 50 ohm {length} mm permittivity 3.4\n  protector 0.15 pF pad 0.05 pF inductance 0.2 nH\n  \
             trace 50 ohm 14 mm permittivity 3.4\n  radio 50 ohm\n }}\n}}\n",
            detuning = 4.0 + k as f64 * 5e-3,
            q = 5.0 + k as f64 * 0.01,
            length = 2 + k % 20,
        )
    };
    (0..feeds).map(feed).collect()
}

fn parse_to_json(text: &str) -> String {
    let loaded = Loaded { identity: "-".into(), name: "-".into(), bytes: text.as_bytes().to_vec() };
    let gathered = gather(loaded, &mut |_, _| Err(LoadFault { message: String::new() }));
    let port = read(&gathered).expect("a good sheet");
    let all: Vec<usize> = (0..port.names().len()).collect();
    let report = size(&port, &all, Figures::Nyquist, &gathered.sources, &|| ()).expect("numbers within range");
    render(&report, Format::Json)
}

fn sheets(c: &mut Criterion) {
    // For the program itself: `lanecap size --nyquist --format json` on this file.
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("ten_thousand.lanes");
    fs::write(&file, port::sheet(10_000)).unwrap_or_else(|error| eprintln!("{}: {error}", file.display()));
    let mut group = c.benchmark_group("parse to JSON");
    group.sample_size(10);
    for lanes in [1_000, 10_000] {
        let text = port::sheet(lanes);
        group.bench_function(format!("{lanes} lanes"), |b| b.iter(|| black_box(parse_to_json(black_box(&text)))));
    }
    let text = feed_sheet(1_000);
    group.bench_function("1000 feeds", |b| b.iter(|| black_box(parse_to_json(black_box(&text)))));
    group.finish();
}

/// The bill of 40 lines and 30 parts, and of the same with 4096 lanes each.
fn bills(c: &mut Criterion) {
    let (mut lines, parts) = bills::large_port(1, 40, 30);
    c.bench_function("the bill of a large port", |b| b.iter(|| bill(black_box(&lines), &parts)));
    lines.iter_mut().for_each(|line| line.count = 4096);
    c.bench_function("the bill of a large port of many lanes", |b| b.iter(|| bill(black_box(&lines), &parts)));
}

/// One error in a row of 16 MiB.
fn errors(c: &mut Criterion) {
    let sources = Sources { files: vec![SourceFile::new("port.lanes", "x".repeat(16 << 20))] };
    let span = Span { file: 0, start: 15 << 20, end: (15 << 20) + 1 };
    let error = Diagnostic::error("some-code", span, "something is wrong");
    c.bench_function("an error in a very large row", |b| b.iter(|| show(black_box(&sources), &error, Paint::Plain)));
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(std::time::Duration::from_millis(300))
        .measurement_time(std::time::Duration::from_secs(1));
    targets = speed, sheets, bills, errors
}
criterion_main!(benches);
