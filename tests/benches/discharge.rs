//! What a discharge into one lane costs.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};

use lanecap::Design;
use lanecap::transient::{Bench, LineDischarge, Sign, struck};
use lanecap::units::{Second, Volt};

/// Ten elements inward of the port, two parts that snap back, and a chip.
const LANE: &str = r#"
part "fine" {
    capacitance 0.28 pF max at 0 V
    bidirectional; inductance 0.3 nH; standoff 3.6 V
    trigger 9 V; holding 1.6 V at 20 mA; clamp 6 V at 16 A; contact 15 kV; channels 1
}
part "outer" {
    capacitance 0.4 pF max at 0 V
    bidirectional; inductance 0.4 nH; standoff 12 V
    trigger 30 V; holding 5 V at 20 mA; clamp 12 V at 16 A; contact 15 kV; channels 1
}
lane "camera" {
    rate 5 Gb/s nrz
    reference 100 ohm differential
    limit return_loss >= 6 dB
    exposure contact 8 kV; exposure surge 10 A
    path {
        driver 100 ohm
        cable 100 ohm 1 m
        connector 0.2 pF 0.4 nH
        trace 100 ohm 5 mm
        guard part "outer" pad 0.1 pF
        series 2 ohm
        trace 100 ohm 20 mm
        via 0.2 pF 0.3 nH
        protector part "fine" pad 0.06 pF inductance 0.2 nH
        trace 100 ohm 12 mm
        series 100 nF
        trace 100 ohm 8 mm
        receiver 100 ohm pad 0.4 pF clamps 2.2 V 3 ohm
    }
}
"#;

fn discharges(c: &mut Criterion) {
    let Ok(design) = Design::parse(LANE) else { return };
    let Some(lane) = design.lines.first() else { return };
    let Ok(line) = struck(lane, Sign::Positive) else { return };
    let strike = line.strike(Volt(8e3));
    let Some(bench) = Bench::new(&line.circuit, Second(2e-12)) else { return };
    c.bench_function("one discharge at 2 ps", |b| b.iter(|| bench.run(black_box(&strike), None)));
    c.bench_function("24 levels of one polarity, to where they stand still", |b| {
        b.iter(|| line.up_to(black_box(Volt(8e3))))
    });
    c.bench_function("all exposures of a lane", |b| b.iter(|| LineDischarge::of(black_box(lane))));
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20).warm_up_time(std::time::Duration::from_millis(300))
        .measurement_time(std::time::Duration::from_secs(3));
    targets = discharges
}
criterion_main!(benches);
