//! The straight lines of all conductors solved together.

use super::Conductor;
use super::conductor::State;

/// Corners passed in one solution before it is given up, for each conductor.
const CORNERS: usize = 64;
/// After a quarter of them a corner that is passed by less than this share of the largest voltage counts as met: with
/// conductances far apart it cannot be told on which side of it the voltage is.
const ROUND_OFF: f64 = 1e-12;

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
    /// The equations of these, i/slope + z · i, as L·D·Lᵀ: below the diagonal L, on it 1/D.
    rows: Vec<f64>,
    /// By how much the current of each of these lowers every conductor, a row a conductor.
    lowers: Vec<f64>,
    /// Their currents.
    drawn: Vec<f64>,
    target: Vec<f64>,
}

impl Solver {
    /// From the voltages `v` to those that solve v + z · i(v) = open, from corner to corner along a straight line
    /// (J. Katzenelson, *Bell System Technical Journal* 44(8), 1965, 1605–1620, from memory). Leaves the lines in `states`.
    /// Whether it came to an end.
    pub(super) fn solve(&mut self, ports: &Ports, states: &mut [State], open: &[f64], v: &mut [f64]) -> bool {
        let alike = |(a, b): (&State, &State)| a.on == b.on && a.piece == b.piece && a.lift == b.lift;
        let known = self.states.len() == states.len() && self.states.iter().zip(&*states).all(alike);
        if !known || self.step != ports.step {
            self.know(ports, states);
        }
        let corners = CORNERS * states.len().max(1);
        for corner in 0..corners {
            self.aim(open);
            let slack =
                if corner < corners / 4 { 0.0 } else { ROUND_OFF * open.iter().fold(0.0, |a, b| b.abs().max(a)) };
            // The nearest corner on the way.
            let mut nearest: Option<(f64, usize, bool, f64)> = None;
            for (k, ((_, _, [low, high]), to)) in self.lines.iter().zip(&self.target).enumerate() {
                let (end, up) = if *to > high + slack {
                    (*high, true)
                } else if *to < low - slack {
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

    /// The conductors that carry a current in the last solution, and that current.
    pub(super) fn currents(&self) -> impl Iterator<Item = (usize, f64)> {
        self.active.iter().map(|(k, _)| *k).zip(self.drawn.iter().copied())
    }

    /// The voltages at which the circuit stands if every conductor stays on its line.
    fn aim(&mut self, open: &[f64]) {
        let m = self.active.len();
        self.drawn.clear();
        self.drawn.extend(self.active.iter().map(|(k, meets)| open[*k] - meets));
        self.target.clear();
        self.target.extend_from_slice(open);
        if m == 0 {
            return;
        }
        for (row, cells) in self.rows.chunks_exact(m).enumerate() {
            let known: f64 = cells[..row].iter().zip(&self.drawn).map(|(cell, above)| cell * above).sum();
            self.drawn[row] -= known;
        }
        for row in (0..m).rev() {
            let below: f64 = (row + 1..m).map(|k| self.rows[k * m + row] * self.drawn[k]).sum();
            self.drawn[row] = self.drawn[row] * self.rows[row * m + row] - below;
        }
        for (target, lowers) in self.target.iter_mut().zip(self.lowers.chunks_exact(m)) {
            *target -= lowers.iter().zip(&self.drawn).map(|(lowers, current)| lowers * current).sum::<f64>();
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
        self.lowers.clear();
        for row in ports.z.chunks_exact(n.max(1)) {
            self.lowers.extend(self.active.iter().map(|(k, _)| row[*k]));
        }
        self.factor();
    }

    /// Without pivots, since z is positive semidefinite.
    fn factor(&mut self) {
        let m = self.active.len();
        self.rows.clear();
        for (row, (k, _)) in self.active.iter().enumerate() {
            self.rows.extend_from_slice(&self.lowers[k * m..(k + 1) * m]);
            self.rows[row * m + row] += 1.0 / self.lines[*k].0;
        }
        for pivot in 0..m {
            let inverse = 1.0 / self.rows[pivot * m + pivot];
            for row in pivot + 1..m {
                let share = self.rows[row * m + pivot] * inverse;
                for column in pivot + 1..=row {
                    self.rows[row * m + column] -= share * self.rows[column * m + pivot];
                }
            }
            for row in pivot + 1..m {
                self.rows[row * m + pivot] *= inverse;
            }
            self.rows[pivot * m + pivot] = inverse;
        }
    }
}
