//! The straight lines of all conductors solved together.

use super::Conductor;
use super::conductor::State;

/// Corners passed in one solution before it is given up, for each conductor.
const CORNERS: usize = 64;

/// What the rest of a circuit is for its conductors at one step: v = open − z · i.
pub(super) struct Ports<'a> {
    pub(super) conductors: &'a [(usize, Conductor)],
    /// Row by row; symmetric, no element below 0.
    pub(super) z: &'a [f64],
}

/// The inverse of 1 + z · slopes for the lines that the conductors are on, kept as long as they stay.
#[derive(Debug, Clone, Default)]
pub(super) struct Inverse {
    inverse: Vec<f64>,
    work: Vec<f64>,
    offsets: Vec<f64>,
    target: Vec<f64>,
    /// Whether every conductor is on a line without current.
    idle: bool,
    valid: bool,
}

impl Inverse {
    /// Forgets what was inverted: other lines, or another step.
    pub(super) fn forget(&mut self) {
        self.valid = false;
    }

    /// From the voltages `v` to those that solve v + z · i(v) = open, from corner to corner along a straight line
    /// (J. Katzenelson, *Bell System Technical Journal* 44(8), 1965, 1605–1620, from memory). Leaves the lines in `states`.
    /// Whether it came to an end.
    pub(super) fn solve(&mut self, ports: &Ports, states: &mut [State], open: &[f64], v: &mut [f64]) -> bool {
        for _ in 0..CORNERS * states.len().max(1) {
            if !self.valid && !self.invert(ports, states) {
                return false;
            }
            self.aim(ports, states, open);
            // The nearest corner on the way.
            let mut nearest: Option<(f64, usize, bool)> = None;
            for (k, state) in states.iter().enumerate() {
                let [low, high] = state.line(&ports.conductors[k].1).2;
                let (from, to) = (v[k], self.target[k]);
                let (end, up) = if to > high {
                    (high, true)
                } else if to < low {
                    (low, false)
                } else {
                    continue;
                };
                let share = if to == from { 0.0 } else { ((end - from) / (to - from)).clamp(0.0, 1.0) };
                if nearest.is_none_or(|(least, ..)| share < least) {
                    nearest = Some((share, k, up));
                }
            }
            let Some((share, k, up)) = nearest else {
                v.copy_from_slice(&self.target);
                return v.iter().all(|volts| volts.is_finite());
            };
            for (from, to) in v.iter_mut().zip(&self.target) {
                *from += share * (to - *from);
            }
            let state = &mut states[k];
            let [low, high] = state.line(&ports.conductors[k].1).2;
            v[k] = if up { high } else { low };
            state.piece = if up { state.piece + 1 } else { state.piece.saturating_sub(1) };
            self.valid = false;
        }
        false
    }

    /// The voltages at which the circuit stands if every conductor stays on its line.
    fn aim(&mut self, ports: &Ports, states: &[State], open: &[f64]) {
        let n = states.len();
        self.target.clear();
        self.target.extend_from_slice(open);
        if self.idle {
            return;
        }
        self.offsets.clear();
        self.offsets.extend(states.iter().zip(ports.conductors).map(|(state, (_, c))| state.line(c).1));
        self.work.clear();
        for row in 0..n {
            let drop: f64 = (0..n).map(|k| ports.z[row * n + k] * self.offsets[k]).sum();
            self.work.push(open[row] - drop);
        }
        for row in 0..n {
            self.target[row] = (0..n).map(|k| self.inverse[row * n + k] * self.work[k]).sum();
        }
    }

    /// By Gauss and Jordan, the largest pivot first.
    fn invert(&mut self, ports: &Ports, states: &[State]) -> bool {
        let n = states.len();
        let slopes: Vec<f64> = states.iter().zip(ports.conductors).map(|(state, (_, c))| state.line(c).0).collect();
        self.idle = slopes.iter().all(|slope| *slope == 0.0);
        self.valid = true;
        let one = |row: usize, column: usize| if row == column { 1.0 } else { 0.0 };
        let cells = || (0..n * n).map(|k| (k / n, k % n));
        self.inverse = cells().map(|(row, column)| one(row, column)).collect();
        let mut m: Vec<f64> = cells().map(|(row, k)| one(row, k) + ports.z[row * n + k] * slopes[k]).collect();
        for column in 0..n {
            let size = |row: &usize| m[row * n + column].abs();
            let pivot = (column..n).max_by(|a, b| size(a).total_cmp(&size(b))).unwrap_or(column);
            if !(size(&pivot) > 0.0) {
                return false;
            }
            for k in 0..n {
                m.swap(pivot * n + k, column * n + k);
                self.inverse.swap(pivot * n + k, column * n + k);
            }
            let scale = 1.0 / m[column * n + column];
            for k in 0..n {
                m[column * n + k] *= scale;
                self.inverse[column * n + k] *= scale;
            }
            for row in (0..n).filter(|row| *row != column) {
                let factor = m[row * n + column];
                for k in 0..n {
                    m[row * n + k] -= factor * m[column * n + k];
                    self.inverse[row * n + k] -= factor * self.inverse[column * n + k];
                }
            }
        }
        true
    }
}
