//! How long the settings of one lane take: ten elements, sixteen values that vary, three limits at the Nyquist frequency.
//! fixtures/reference/settings.py does the same in numpy.

// A bench may stop at what it did not expect.
#![allow(clippy::panic)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};

use lanecap::diag::Span;
use lanecap::figures::{CAPACITANCE, IMPEDANCE, INDUCTANCE, LENGTH};
use lanecap::model::*;
use lanecap::study::{Fast, Sampling, Varying, tolerate};
use lanecap::units::*;

fn line(medium: Medium, impedance: f64, length: f64, per_metre: f64, loss_tangent: f64) -> Stated {
    let losses = vec![LineAttenuation { loss: Attenuation::PerMetre(per_metre), frequency: Hertz(2.5e9) }];
    let make =
        LineImpedance { permittivity: Some(3.4), losses, loss_tangent: Some(loss_tangent), ..Ohm(impedance).into() };
    Stated::Line(StatedLine { medium, length: StatedLength::Length(Metre(length)), make: LineMake::Impedance(make) })
}

/// Each value that varies, with its share.
const VALUES: &[(&str, f64, f64)] = &[
    ("1.impedance", 90.0, 0.1),
    ("2.impedance", 92.0, 0.05),
    ("2.length", 0.3, 0.02),
    ("3.capacitance", 0.12e-12, 0.2),
    ("3.inductance", 0.35e-9, 0.2),
    ("4.impedance", 88.0, 0.1),
    ("4.length", 6e-3, 0.05),
    ("5.pad", 0.06e-12, 0.3),
    ("5.inductance", 0.2e-9, 0.3),
    ("5.capacitance", 0.25e-12, 0.25),
    ("6.impedance", 91.0, 0.1),
    ("6.length", 32e-3, 0.05),
    ("7.capacitance", 0.2e-12, 0.2),
    ("8.impedance", 89.0, 0.1),
    ("10.impedance", 90.0, 0.1),
    ("10.pad", 0.25e-12, 0.2),
];

fn lane() -> Line {
    let at = |loss, level| LaneLimit::Loss(loss, Over::Level(level));
    let protector = StatedProtector {
        capacitance: Some(Farad::pico(0.25)),
        pad: Farad::pico(0.06),
        inductance: Henry::nano(0.2),
        ..StatedProtector::default()
    };
    let via = StatedVia {
        make: ViaMake::Lumped { capacitance: Farad::pico(0.2), inductance: Some(Henry::nano(0.4)) },
        stub: None,
    };
    let mut built = lanecap::Lane::builder()
        .rate(Baud::giga(5.0), Modulation::Nrz)
        .reference(Ohm(90.0))
        .differential()
        .limit(at(Loss::Added, 0.5))
        .limit(at(Loss::Return, 10.0))
        .limit(LaneLimit::EyePenalty(0.1))
        .path(|p| {
            p.driver(Ohm(90.0))
                .stated(line(Medium::Cable, 92.0, 0.3, 2.0, 0.0004))
                .element(Element::Connector { capacitance: Farad::pico(0.12), inductance: Some(Henry::nano(0.35)) })
                .stated(line(Medium::Trace, 88.0, 6e-3, 20.0, 0.012))
                .stated(Stated::Protector(protector))
                .stated(line(Medium::Trace, 91.0, 32e-3, 20.0, 0.012))
                .stated(Stated::Via(via))
                .stated(line(Medium::Trace, 89.0, 10e-3, 20.0, 0.012))
                .element(Element::Series(Immittance::Capacitance(Farad::nano(100.0))))
                .element(Element::Receiver(Receiver { pad: Farad::pico(0.25), ..Ohm(90.0).into() }))
        })
        .line(Head::new("gauge link"))
        .expect("a good lane");
    let value = |&(address, nominal, share): &(&str, f64, f64)| {
        let address: Address = address.parse().expect("an address");
        let range = match address.value {
            ValueName::Impedance => IMPEDANCE,
            ValueName::Length => LENGTH,
            ValueName::Inductance => INDUCTANCE,
            _ => CAPACITANCE,
        };
        let tolerance = Tolerance {
            low: nominal * (1.0 - share),
            high: nominal * (1.0 + share),
            together: None,
            relative: true,
            stated: true,
            span: Span::default(),
        };
        AddressedValue {
            address,
            nominal: Some(nominal),
            range,
            tolerance: Some(Box::new(tolerance)),
            span: Span::default(),
        }
    };
    built.head.values = VALUES.iter().map(value).collect();
    built
}

fn settings(criterion: &mut Criterion) {
    let line = lane();
    let varying = Varying::of(&line).expect("values that vary");
    let mut fast = Fast::of(&line, &varying).expect("a lane at one frequency");
    let values: Vec<f64> = varying.at(&varying.nominal()).collect();
    criterion.bench_function("one setting of ten elements", |b| {
        b.iter(|| {
            fast.set(black_box(&values));
            black_box(fast.left().len())
        })
    });
    fast.set(&values);
    criterion.bench_function("the quadratics of one setting", |b| b.iter(|| black_box(fast.left().len())));
    let mut group = criterion.benchmark_group("worst case and yield");
    group.sample_size(10);
    for samples in [10_000, 1_000_000] {
        let sampling = Sampling { samples: Some(samples), ..Sampling::default() };
        group.bench_function(format!("{samples} settings"), |b| b.iter(|| tolerate(black_box(&line), sampling)));
    }
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(std::time::Duration::from_millis(300))
        .measurement_time(std::time::Duration::from_secs(1));
    targets = settings
}
criterion_main!(benches);
