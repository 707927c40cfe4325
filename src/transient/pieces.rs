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

/// Solves for the conductors of a circuit; keeps its room between steps.
#[derive(Debug, Clone, Default)]
pub(super) struct Solver {
    /// The conductors on lines with a slope, each with its slope and offset.
    active: Vec<(usize, f64, f64)>,
    /// The equations of these: rows of coefficients, each ended by its right side.
    rows: Vec<f64>,
    target: Vec<f64>,
}

impl Solver {
    /// From the voltages `v` to those that solve v + z · i(v) = open, from corner to corner along a straight line
    /// (J. Katzenelson, *Bell System Technical Journal* 44(8), 1965, 1605–1620, from memory). Leaves the lines in `states`.
    /// Whether it came to an end.
    pub(super) fn solve(&mut self, ports: &Ports, states: &mut [State], open: &[f64], v: &mut [f64]) -> bool {
        for _ in 0..CORNERS * states.len().max(1) {
            self.aim(ports, states, open);
            // The nearest corner on the way.
            let mut nearest: Option<(f64, usize, bool, f64)> = None;
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
                    nearest = Some((share, k, up, end));
                }
            }
            let Some((share, k, up, end)) = nearest else {
                v.copy_from_slice(&self.target);
                return v.iter().all(|volts| volts.is_finite());
            };
            for (from, to) in v.iter_mut().zip(&self.target) {
                *from += share * (to - *from);
            }
            v[k] = end;
            let state = &mut states[k];
            state.piece = if up { state.piece + 1 } else { state.piece.saturating_sub(1) };
        }
        false
    }

    /// The voltages at which the circuit stands if every conductor stays on its line.
    fn aim(&mut self, ports: &Ports, states: &[State], open: &[f64]) {
        let n = states.len();
        let line = |(k, state): (usize, &State)| {
            let (slope, offset, _) = state.line(&ports.conductors[k].1);
            (slope > 0.0).then_some((k, slope, offset))
        };
        self.active.clear();
        self.active.extend(states.iter().enumerate().filter_map(line));
        self.target.clear();
        self.target.extend_from_slice(open);
        self.currents(ports, open);
        // What is left in the place of a slope is the current.
        for (k, current, _) in &self.active {
            for (row, target) in self.target.iter_mut().enumerate() {
                *target -= ports.z[row * n + k] * current;
            }
        }
    }

    /// Puts the current of every active conductor in the place of its slope: i/slope + z · i = open + offset/slope, by
    /// elimination without pivots, since z is positive semidefinite.
    fn currents(&mut self, ports: &Ports, open: &[f64]) {
        let (n, m) = (open.len(), self.active.len());
        if let [(k, slope, offset)] = self.active.as_mut_slice() {
            *slope = (open[*k] * *slope + *offset) / (1.0 + ports.z[*k * n + *k] * *slope);
            return;
        }
        self.rows.clear();
        for (row, (k, slope, offset)) in self.active.iter().enumerate() {
            let cells =
                self.active.iter().enumerate().map(|(column, (other, ..))| {
                    ports.z[k * n + other] + if row == column { 1.0 / slope } else { 0.0 }
                });
            self.rows.extend(cells);
            self.rows.push(open[*k] + offset / slope);
        }
        let width = m + 1;
        for pivot in 0..m {
            let (done, rest) = self.rows.split_at_mut((pivot + 1) * width);
            let lead = &done[pivot * width..];
            for row in rest.chunks_exact_mut(width) {
                let factor = row[pivot] / lead[pivot];
                row.iter_mut().zip(lead).skip(pivot).for_each(|(cell, above)| *cell -= factor * above);
            }
        }
        for row in (0..m).rev() {
            let cells = &self.rows[row * width..(row + 1) * width];
            let known: f64 = (row + 1..m).map(|k| cells[k] * self.active[k].1).sum();
            self.active[row].1 = (cells[m] - known) / cells[row];
        }
    }
}
