//! What conducts to ground from a voltage on: parts and the clamp of a chip, as straight lines.

use crate::units::{Ampere, Ohm, Second, Volt};

/// Least slope of a straight line, so that two of them meet at one point.
pub const LEAST_SLOPE: Ohm = Ohm(1e-3);
/// How long the current must be at or below the holding current before a part lets go. An assumption: as it turns on, its
/// own capacitance empties into it within a picosecond, and it would let go at once.
pub const LETS_GO_AFTER: Second = Second(1e-9);

/// A conductor to ground: no current up to a voltage, from there straight lines that rise. It never conducts backwards.
#[derive(Debug, Clone, PartialEq)]
pub struct Conductor {
    /// Its straight lines, the one without current first.
    pub(super) pieces: Vec<Piece>,
    /// For one that snaps back: its lines hold once it has turned on.
    pub(super) snap: Option<SnapBack>,
}

/// A straight line i = slope · v + offset up to a voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Piece {
    pub(super) to: f64,
    pub(super) slope: f64,
    pub(super) offset: f64,
}

/// How a part snaps back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SnapBack {
    /// The voltage at which it turns on.
    pub trigger: Volt,
    /// The current at or below which it lets go.
    pub holding: Ampere,
    /// Time constant of the voltage it has above its line once it turns on; `None` for none.
    pub turn_on: Option<Second>,
}

impl Conductor {
    /// No current up to `from`, then straight through the `points` of rising voltage and current, and on with `slope`. A
    /// slope below [`LEAST_SLOPE`] counts as that, and a point that asks for one is not reached.
    pub fn through(from: Volt, points: &[(Volt, Ampere)], slope: Ohm) -> Conductor {
        let mut pieces = vec![Piece { to: from.0, slope: 0.0, offset: 0.0 }];
        let (mut volts, mut amperes) = (from.0, 0.0);
        let mut piece = |to: f64, slope: f64| {
            let slope = 1.0 / slope.max(LEAST_SLOPE.0);
            pieces.push(Piece { to, slope, offset: amperes - slope * volts });
            // Where the line is not as flat as the next point would have it, the curve has no jump there all the same.
            (volts, amperes) = (to, amperes + slope * (to - volts));
            (volts, amperes)
        };
        let mut at = (from.0, 0.0);
        for (to, current) in points {
            at = piece(to.0, (to.0 - at.0) / (current.0 - at.1));
        }
        piece(f64::INFINITY, slope.0);
        Conductor { pieces, snap: None }
    }

    /// A straight line from `from` on.
    pub fn from(from: Volt, slope: Ohm) -> Conductor {
        Self::through(from, &[], slope)
    }

    /// The same, but without current until it has reached its trigger voltage.
    pub fn snaps_back(self, snap: SnapBack) -> Conductor {
        Conductor { snap: Some(snap), ..self }
    }

    /// Its voltage at a current above 0, turned on.
    pub(super) fn voltage(&self, current: Ampere) -> Volt {
        let at = |piece: &Piece| (current.0 - piece.offset) / piece.slope;
        let piece = self.pieces[1..].iter().find(|piece| at(piece) <= piece.to);
        Volt(piece.map_or(self.pieces[0].to, at))
    }

    /// Where it begins to conduct, and the slope of its line there.
    pub(super) fn first_line(&self) -> (Volt, Ohm) {
        let slope = self.pieces.get(1).map_or(0.0, |piece| 1.0 / piece.slope);
        (Volt(self.pieces[0].to), Ohm(slope))
    }
}

/// A conductor as it stands at an instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct State {
    /// When it turned on; `None` while one that snaps back is off.
    pub(super) on: Option<f64>,
    /// Since when its current is at or below the holding current.
    pub(super) quiet: Option<f64>,
    /// By how much its lines stand higher while it turns on.
    pub(super) lift: f64,
    /// The line it is on.
    pub(super) piece: usize,
}

impl State {
    pub(super) fn at_rest(conductor: &Conductor) -> State {
        State { on: conductor.snap.is_none().then_some(0.0), quiet: None, lift: 0.0, piece: 0 }
    }

    /// Slope, offset and ends of the line it is on.
    pub(super) fn line(&self, conductor: &Conductor) -> (f64, f64, [f64; 2]) {
        if self.on.is_none() {
            return (0.0, 0.0, [f64::NEG_INFINITY, f64::INFINITY]);
        }
        let Piece { to, slope, offset } = conductor.pieces[self.piece];
        let from = match self.piece {
            0 => f64::NEG_INFINITY,
            above => conductor.pieces[above - 1].to,
        };
        (slope, offset - slope * self.lift, [from + self.lift, to + self.lift])
    }

    /// Sets how high its lines stand at the time `t`.
    pub(super) fn settle(&mut self, conductor: &Conductor, t: f64) {
        if let (Some(on), Some(SnapBack { trigger, turn_on: Some(turn_on), .. })) = (self.on, conductor.snap) {
            self.lift = (trigger.0 - conductor.pieces[0].to) * (-(t - on) / turn_on.0).exp();
        }
    }

    /// Turns it on or off at the end of a step, at its voltage and current then. Whether it switched.
    pub(super) fn switch(&mut self, conductor: &Conductor, t: f64, volts: f64, amperes: f64) -> bool {
        let Some(snap) = conductor.snap else {
            return false;
        };
        match self.on {
            None if volts >= snap.trigger.0 => {
                let lift = if snap.turn_on.is_some() { snap.trigger.0 - conductor.pieces[0].to } else { 0.0 };
                *self = State { on: Some(t), quiet: None, lift, piece: usize::from(lift == 0.0) };
                true
            }
            None => false,
            Some(_) if amperes > snap.holding.0 => {
                self.quiet = None;
                false
            }
            Some(_) => {
                let since = *self.quiet.get_or_insert(t);
                if t - since < LETS_GO_AFTER.0 {
                    return false;
                }
                *self = State { on: None, quiet: None, lift: 0.0, piece: 0 };
                true
            }
        }
    }
}
