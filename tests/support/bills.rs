//! Ports and parts for a bill: the same on every run.

use lanecap::parts::{BillLine, BillPart, Fit};

/// A package of so many channels at this cost.
pub(crate) fn part(channels: u32, cost: f64) -> BillPart {
    BillPart { channels, cost: Some(cost) }
}

pub(crate) fn line_of(count: u32, fits: Vec<Fit>) -> BillLine {
    BillLine { count, fits }
}

/// A small congruential generator of numbers below its argument, so that every run sees the same ports.
pub(crate) fn generator(seed: u64) -> impl FnMut(u64) -> u64 {
    let mut state = seed;
    move |below| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    }
}

/// A port as they are: the parts of less capacitance cost more and pass on more lines; some lines drop parts for
/// other reasons.
pub(crate) fn large_port(seed: u64, lines: usize, parts: usize) -> (Vec<BillLine>, Vec<BillPart>) {
    let mut next = generator(seed);
    let sizes = [1, 1, 2, 4, 4, 6, 8];
    let list: Vec<(u64, BillPart)> = (0..parts)
        .map(|_| {
            let capacitance = next(100);
            let channels = sizes[next(7) as usize];
            let cost = f64::from(channels).powf(0.8) * (200.0 - capacitance as f64 + next(40) as f64);
            (capacitance, part(channels, cost.round() / 100.0))
        })
        .collect();
    let lines = (0..lines)
        .map(|_| {
            let (budget, pair) = (next(120), next(2) == 0);
            let fits = list.iter().map(|(c, _)| Fit::new(*c <= budget && next(5) > 0, pair, false)).collect();
            line_of(1 + next(4) as u32, fits)
        })
        .collect();
    (lines, list.into_iter().map(|(_, p)| p).collect())
}
