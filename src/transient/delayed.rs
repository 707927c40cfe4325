//! What left the ends of the lines, and what arrives of it.

use super::circuit::Line;

/// The waves v + Z·i that left both ends of every line, at every step.
#[derive(Debug, Clone, Default)]
pub(super) struct Delayed {
    times: Vec<f64>,
    /// Of each end of each line, in the order of the steps.
    waves: Vec<[Vec<f64>; 2]>,
    /// The last step found before a delayed instant, of each line.
    at: Vec<usize>,
}

impl Delayed {
    /// Nothing has left yet.
    pub(super) fn begin(&mut self, lines: usize) {
        self.times.clear();
        self.times.push(0.0);
        self.waves.resize_with(lines, Default::default);
        for wave in self.waves.iter_mut().flatten() {
            wave.clear();
            wave.push(0.0);
        }
        self.at.clear();
        self.at.resize(lines, 0);
    }

    /// Forgets the steps after the first `steps`.
    pub(super) fn back_to(&mut self, steps: usize) {
        self.times.truncate(steps);
        self.waves.iter_mut().flatten().for_each(|wave| wave.truncate(steps));
        self.at.iter_mut().for_each(|at| *at = (*at).min(steps.saturating_sub(2)));
    }

    /// A further step is done.
    pub(super) fn step(&mut self, t: f64) {
        self.times.push(t);
    }

    /// What leaves one end at the step just done.
    pub(super) fn leave(&mut self, line: usize, end: usize, wave: f64) {
        self.waves[line][end].push(wave);
    }

    /// What arrives at both ends of a line at `t`: what left the other one a delay before, by the cubic through the four
    /// steps around it, and straight between the last two, where a cubic would have no step beyond: what goes to and fro
    /// would grow.
    pub(super) fn arrive(&mut self, line: usize, of: &Line, t: f64) -> [f64; 2] {
        let sent = t - of.delay;
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
            return [1, 0].map(|end| {
                let wave = &self.waves[line][end];
                wave[*at] + share * (wave[last] - wave[*at])
            });
        }
        let first = at.saturating_sub(1).min(last.saturating_sub(3));
        let Some(&[a, b, c, d]) = times.get(first..first + 4) else {
            return [0.0; 2];
        };
        let weights = weights([a, b, c, d], sent);
        [1, 0].map(|end| {
            let wave = &self.waves[line][end];
            (0..4).map(|k| weights[k] * wave[first + k]).sum()
        })
    }
}

/// Weights of the cubic through four instants.
fn weights([a, b, c, d]: [f64; 4], t: f64) -> [f64; 4] {
    let (ab, ac, ad, bc, bd, cd) = (a - b, a - c, a - d, b - c, b - d, c - d);
    let (p, q, r, s) = (t - a, t - b, t - c, t - d);
    [q * r * s / (ab * ac * ad), -p * r * s / (ab * bc * bd), p * q * s / (ac * bc * cd), -p * q * r / (ad * bd * cd)]
}
