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
    /// The step that z is of.
    pub(super) step: f64,
}

/// Solves for the conductors of a circuit; keeps what it knows between steps.
#[derive(Debug, Clone, Default)]
pub(super) struct Solver {
    /// For which step and states the rest is known.
    step: f64,
    states: Vec<State>,
    /// Slope, offset and ends of the line that each conductor is on.
    lines: Vec<(f64, f64, [f64; 2])>,
    /// The conductors on lines with a slope, each with the voltage where its line meets no current.
    active: Vec<(usize, f64)>,
    /// The equations of these: rows of coefficients, each followed by a row of the inverse.
    rows: Vec<f64>,
    /// By how much each active conductor's open voltage above its line lowers every conductor, a row a conductor.
    lowers: Vec<f64>,
    above: Vec<f64>,
    target: Vec<f64>,
}

impl Solver {
    /// From the voltages `v` to those that solve v + z · i(v) = open, from corner to corner along a straight line
    /// (J. Katzenelson, *Bell System Technical Journal* 44(8), 1965, 1605–1620, from memory). Leaves the lines in `states`.
    /// Whether it came to an end.
    pub(super) fn solve(&mut self, ports: &Ports, states: &mut [State], open: &[f64], v: &mut [f64]) -> bool {
        let alike =
            |(a, b): (&State, &State)| a.on.is_some() == b.on.is_some() && a.piece == b.piece && a.lift == b.lift;
        let known = self.states.len() == states.len() && self.states.iter().zip(&*states).all(alike);
        if !known || self.step != ports.step {
            self.know(ports, states);
        }
        for _ in 0..CORNERS * states.len().max(1) {
            self.aim(open);
            // The nearest corner on the way.
            let mut nearest: Option<(f64, usize, bool, f64)> = None;
            for (k, ((_, _, [low, high]), to)) in self.lines.iter().zip(&self.target).enumerate() {
                let (end, up) = if to > high {
                    (*high, true)
                } else if to < low {
                    (*low, false)
                } else {
                    continue;
                };
                let from = v[k];
                let share = if *to == from { 0.0 } else { ((end - from) / (to - from)).clamp(0.0, 1.0) };
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
            self.know(ports, states);
        }
        false
    }

    /// The current of a conductor at its voltage, on the line of the last solution.
    pub(super) fn current(&self, conductor: usize, volts: f64) -> f64 {
        let (slope, offset, _) = self.lines[conductor];
        slope * volts + offset
    }

    /// The voltages at which the circuit stands if every conductor stays on its line.
    fn aim(&mut self, open: &[f64]) {
        self.above.clear();
        self.above.extend(self.active.iter().map(|(k, meets)| open[*k] - meets));
        self.target.clear();
        self.target.extend_from_slice(open);
        if self.above.is_empty() {
            return;
        }
        for (target, lowers) in self.target.iter_mut().zip(self.lowers.chunks_exact(self.above.len())) {
            *target -= lowers.iter().zip(&self.above).map(|(lowers, above)| lowers * above).sum::<f64>();
        }
    }

    /// The lines of these states, and what follows from them.
    fn know(&mut self, ports: &Ports, states: &[State]) {
        let n = states.len();
        self.step = ports.step;
        self.states.clear();
        self.states.extend_from_slice(states);
        self.lines.clear();
        self.lines.extend(states.iter().zip(ports.conductors).map(|(state, (_, conductor))| state.line(conductor)));
        self.active.clear();
        let lines = self.lines.iter().enumerate();
        self.active.extend(lines.filter(|(_, line)| line.0 > 0.0).map(|(k, line)| (k, -line.1 / line.0)));
        self.invert(ports.z, n);
        let m = self.active.len();
        self.lowers.clear();
        for row in 0..n {
            for column in 0..m {
                let inverse = |k: usize| self.rows[k * 2 * m + m + column];
                let lowers =
                    self.active.iter().enumerate().map(|(k, (other, _))| ports.z[row * n + other] * inverse(k));
                self.lowers.push(lowers.sum());
            }
        }
    }

    /// Inverts i/slope + z · i of the active conductors, without pivots, since z is positive semidefinite.
    fn invert(&mut self, z: &[f64], n: usize) {
        let m = self.active.len();
        let width = 2 * m;
        self.rows.clear();
        for (row, (k, _)) in self.active.iter().enumerate() {
            for (column, (other, _)) in self.active.iter().enumerate() {
                self.rows.push(z[k * n + other] + if row == column { 1.0 / self.lines[*k].0 } else { 0.0 });
            }
            self.rows.extend((0..m).map(|column| if row == column { 1.0 } else { 0.0 }));
        }
        for pivot in 0..m {
            let lead = self.rows[pivot * width + pivot];
            self.rows[pivot * width..(pivot + 1) * width].iter_mut().for_each(|cell| *cell /= lead);
            for row in (0..m).filter(|row| *row != pivot) {
                let factor = self.rows[row * width + pivot];
                for column in pivot..width {
                    self.rows[row * width + column] -= factor * self.rows[pivot * width + column];
                }
            }
        }
    }
}
