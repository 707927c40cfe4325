//! What left the ends of the lines, and what arrives of it.

use super::circuit::Line;

/// How far a line reaches back in steps of one length.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reach {
    pub(super) ends: [usize; 2],
    pub(super) admittance: f64,
    delay: f64,
    step: f64,
    /// Whole steps from the one before what arrives to the one that is taken.
    steps: usize,
    /// Of a line shorter than the step: the share of the step after what arrives has left; else 0.
    pub(super) within: f64,
    /// Weights of the four steps around what arrives.
    weights: [f64; 4],
}

impl Reach {
    pub(super) fn of(line: &Line, step: f64) -> Reach {
        let delay = line.delay;
        let steps = (delay / step).ceil();
        let after = steps - delay / step;
        let weights = weights([-1.0, 0.0, 1.0, 2.0], after);
        let (ends, admittance) = (line.ends, 1.0 / line.impedance);
        let within = (1.0 - delay / step).max(0.0);
        Reach { ends, admittance, delay, step, steps: steps as usize, within, weights }
    }

    /// The conductance between its ends: what leaves one arrives at the other within the step.
    pub(super) fn between(&self) -> f64 {
        2.0 * self.within * self.admittance / (1.0 - self.within * self.within)
    }

    /// All that arrives at both ends, from what was known of it before the step and the voltages at its end.
    pub(super) fn arrived(&self, known: [f64; 2], volts: [f64; 2]) -> [f64; 2] {
        if self.within == 0.0 {
            return known;
        }
        let share = 2.0 * self.within / (1.0 - self.within * self.within);
        [known[0] + share * (volts[1] - self.within * volts[0]), known[1] + share * (volts[0] - self.within * volts[1])]
    }
}

/// The waves v + Z·i that left both ends of every line, at every step.
#[derive(Debug, Clone)]
pub(super) struct Delayed {
    times: Vec<f64>,
    /// How many steps of one length came last, and their length.
    alike: (usize, f64),
    /// Of both ends of each line, in the order of the steps.
    waves: Vec<Vec<[f64; 2]>>,
    /// The last step found before a delayed instant, of each line.
    at: Vec<usize>,
}

/// Room for the steps of most discharges.
const STEPS: usize = 1 << 14;

impl Delayed {
    /// Nothing has left yet; in the `room` of a run before, where there was one.
    pub(super) fn new(lines: usize, room: Option<Delayed>) -> Delayed {
        let (mut times, mut waves) =
            room.map_or((Vec::with_capacity(STEPS), Vec::new()), |room| (room.times, room.waves));
        times.clear();
        times.push(0.0);
        waves.resize_with(lines, || Vec::with_capacity(STEPS));
        for waves in &mut waves {
            waves.clear();
            waves.push([0.0; 2]);
        }
        Delayed { times, alike: (0, 0.0), waves, at: vec![0; lines] }
    }

    /// A further step of this length is done.
    pub(super) fn step(&mut self, t: f64, step: f64) {
        self.times.push(t);
        self.alike = (if self.alike.1 == step { self.alike.0 + 1 } else { 1 }, step);
    }

    /// What leaves both ends at the step just done.
    pub(super) fn leave(&mut self, line: usize, waves: [f64; 2]) {
        self.waves[line].push(waves);
    }

    /// What arrives at both ends of a line at `t`: what left the other one a delay before, by the cubic through the four
    /// steps around it, and straight between the last two, where a cubic would have no step beyond: what goes to and fro
    /// would grow.
    pub(super) fn arrive(&mut self, line: usize, reach: &Reach, t: f64) -> [f64; 2] {
        let waves = &self.waves[line];
        // Of a line shorter than the step what was known before it: the rest leaves within it, straight from there.
        if reach.within > 0.0 {
            let [a, b] = waves.last().copied().unwrap_or_default();
            let share = 1.0 / (1.0 + reach.within);
            return [share * (b - reach.within * a), share * (a - reach.within * b)];
        }
        // Among steps of one length the weights are those of the line.
        if self.alike.0 >= reach.steps && self.alike.1 == reach.step && reach.steps >= 3 {
            let before = waves.len() - reach.steps - 1;
            return waves.get(before..before + 4).map_or([0.0; 2], |four| weighted(four, &reach.weights));
        }
        let sent = t - reach.delay;
        if sent <= 0.0 {
            return [0.0; 2];
        }
        let (times, last) = (&self.times, self.times.len() - 1);
        let at = &mut self.at[line];
        while *at + 1 < last && times[*at + 1] <= sent {
            *at += 1;
        }
        if *at + 1 == last {
            let share = (sent - times[*at]) / (times[last] - times[*at]);
            return [1, 0].map(|end| waves[*at][end] + share * (waves[last][end] - waves[*at][end]));
        }
        let first = at.saturating_sub(1).min(last.saturating_sub(3));
        match (times.get(first..first + 4), waves.get(first..first + 4)) {
            (Some(&[a, b, c, d]), Some(four)) => weighted(four, &weights([a, b, c, d], sent)),
            _ => [0.0; 2],
        }
    }
}

/// What left the other end.
fn weighted(waves: &[[f64; 2]], weights: &[f64; 4]) -> [f64; 2] {
    let mut sums = [0.0; 2];
    for ([first, second], weight) in waves.iter().zip(weights) {
        sums[0] += weight * second;
        sums[1] += weight * first;
    }
    sums
}

/// Weights of the cubic through four instants.
fn weights([a, b, c, d]: [f64; 4], t: f64) -> [f64; 4] {
    let (ab, ac, ad, bc, bd, cd) = (a - b, a - c, a - d, b - c, b - d, c - d);
    let (p, q, r, s) = (t - a, t - b, t - c, t - d);
    [q * r * s / (ab * ac * ad), -p * r * s / (ab * bc * bd), p * q * s / (ac * bc * cd), -p * q * r / (ad * bd * cd)]
}
