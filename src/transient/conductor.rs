//! What conducts to ground from a voltage on: parts and the clamp of a chip, as straight lines.

use crate::units::{Ampere, Ohm, Second, Volt};

/// Least slope of a straight line, so that two of them meet at one point.
pub const LEAST_SLOPE: Ohm = Ohm(1e-3);
/// How long the current must be at or below the holding current before a part lets go. An assumption: as it turns on, its
/// own capacitance empties into it within a picosecond, and it would let go at once.
pub const LETS_GO_AFTER: Second = Second(1e-9);

/// A conductor to ground: no current up to a voltage, from there straight lines that rise; below ground, where it conducts
/// there, alike.
#[derive(Debug, Clone, PartialEq)]
pub struct Conductor {
    /// Its straight lines, rising.
    pub(super) pieces: Vec<Piece>,
    /// The one without current among them.
    pub(super) rest: usize,
    /// For one that snaps back: its lines on the sides that do hold once it has turned on there, and those of the other side
    /// while it is off.
    pub(super) snap: Option<SnapBack>,
    /// Which sides wait for the trigger: below ground and above it.
    pub(super) snaps: [bool; 2],
}

/// A straight line i = slope · v + offset from a voltage to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Piece {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) slope: f64,
    pub(super) offset: f64,
}

impl Piece {
    /// The same on the other side of ground.
    fn turned(self) -> Piece {
        Piece { from: -self.to, to: -self.from, slope: self.slope, offset: -self.offset }
    }
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
    /// slope below [`LEAST_SLOPE`] counts as that, and a point that asks for one is not reached. Below ground no current.
    pub fn through(from: Volt, points: &[(Volt, Ampere)], slope: Ohm) -> Conductor {
        let mut pieces = vec![Piece { from: f64::NEG_INFINITY, to: from.0, slope: 0.0, offset: 0.0 }];
        let (mut volts, mut amperes) = (from.0, 0.0);
        let mut piece = |to: f64, slope: f64| {
            let slope = 1.0 / slope.max(LEAST_SLOPE.0);
            pieces.push(Piece { from: volts, to, slope, offset: amperes - slope * volts });
            // Where the line is not as flat as the next point would have it, the curve has no jump there all the same.
            (volts, amperes) = (to, amperes + slope * (to - volts));
            (volts, amperes)
        };
        let mut at = (from.0, 0.0);
        for (to, current) in points {
            at = piece(to.0, (to.0 - at.0) / (current.0 - at.1));
        }
        piece(f64::INFINITY, slope.0);
        Conductor { pieces, rest: 0, snap: None, snaps: [false; 2] }
    }

    /// A straight line from `from` on.
    pub fn from(from: Volt, slope: Ohm) -> Conductor {
        Self::through(from, &[], slope)
    }

    /// The same, but without current above ground until it has reached its trigger voltage there.
    pub fn snaps_back(self, snap: SnapBack) -> Conductor {
        Conductor { snap: Some(snap), snaps: [self.snaps[0], true], ..self }
    }

    /// Below ground what the other one is above it: its lines, and its trigger where it snaps back.
    pub fn below(self, other: &Conductor) -> Conductor {
        let Conductor { pieces: above, rest, snap, snaps } = self;
        let turned = other.pieces[other.rest + 1..].iter().rev().map(|piece| piece.turned());
        let mut pieces: Vec<Piece> = turned.collect();
        let at_rest = pieces.len();
        pieces.extend_from_slice(&above[rest..]);
        pieces[at_rest].from = -other.pieces[other.rest].to;
        Conductor { pieces, rest: at_rest, snap: snap.or(other.snap), snaps: [other.snaps[1], snaps[1]] }
    }

    /// Below ground as above it.
    pub fn both_ways(self) -> Conductor {
        let above = self.clone();
        self.below(&above)
    }

    /// The same with above and below changed.
    pub fn upside_down(self) -> Conductor {
        let pieces: Vec<Piece> = self.pieces.iter().rev().map(|piece| piece.turned()).collect();
        let [below, above] = self.snaps;
        Conductor { rest: pieces.len() - 1 - self.rest, pieces, snap: self.snap, snaps: [above, below] }
    }

    /// Its lines with a current above ground, rising.
    pub(super) fn above(&self) -> &[Piece] {
        &self.pieces[self.rest + 1..]
    }

    /// Where its lines begin, above ground or below it, away from ground.
    pub(super) fn begins(&self, above: bool) -> f64 {
        if above { self.pieces[self.rest].to } else { -self.pieces[self.rest].from }
    }

    /// Its voltage at a current above 0, turned on.
    pub(super) fn voltage(&self, current: Ampere) -> Volt {
        let at = |piece: &Piece| (current.0 - piece.offset) / piece.slope;
        let piece = self.above().iter().find(|piece| at(piece) <= piece.to);
        Volt(piece.map_or(self.begins(true), at))
    }

    /// Where it begins to conduct above ground or below it, away from ground, and the slope of its line there.
    pub(super) fn first_line(&self, above: bool) -> (Volt, Ohm) {
        let place = if above { Some(self.rest + 1) } else { self.rest.checked_sub(1) };
        let slope = place.and_then(|place| self.pieces.get(place)).map_or(0.0, |piece| 1.0 / piece.slope);
        (Volt(self.begins(above)), Ohm(slope))
    }

    /// The voltage above ground from which on it would conduct while it is off.
    pub(super) fn conducts_from(&self) -> f64 {
        let trigger = self.snap.filter(|_| self.snaps[1]).map(|snap| snap.trigger.0);
        trigger.unwrap_or(self.begins(true))
    }

    /// Whether it turns on at this voltage while it is off.
    pub(super) fn triggers(&self, volts: f64) -> bool {
        self.snap.is_some_and(|snap| self.snaps[usize::from(volts > 0.0)] && volts.abs() >= snap.trigger.0)
    }
}

/// That a conductor has turned on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct On {
    /// When.
    pub(super) at: f64,
    /// Above ground or below it.
    pub(super) above: bool,
}

/// A conductor as it stands at an instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct State {
    /// For one that snaps back, once it has turned on.
    pub(super) on: Option<On>,
    /// Since when its current is at or below the holding current.
    pub(super) quiet: Option<f64>,
    /// By how much its lines stand further from ground while it turns on.
    pub(super) lift: f64,
    /// The line it is on.
    pub(super) piece: usize,
}

impl State {
    /// Off, at this voltage.
    pub(super) fn off(conductor: &Conductor, volts: f64) -> State {
        let off = State { on: None, quiet: None, lift: 0.0, piece: conductor.rest };
        let [low, high] = off.line(conductor).2;
        let found =
            if volts < low || volts > high { conductor.pieces.iter().position(|p| volts <= p.to) } else { None };
        State { piece: found.unwrap_or(conductor.rest), ..off }
    }

    /// Turned on at the instant `t`, above ground or below it.
    pub(super) fn on(conductor: &Conductor, t: f64, above: bool, lift: f64) -> State {
        let rest = conductor.rest;
        let piece = match (lift == 0.0, above) {
            (false, _) => rest,
            (true, true) => rest + 1,
            (true, false) => rest.saturating_sub(1),
        };
        State { on: Some(On { at: t, above }), quiet: None, lift, piece }
    }

    /// Slope, offset and ends of the line it is on.
    pub(super) fn line(&self, conductor: &Conductor) -> (f64, f64, [f64; 2]) {
        let Piece { from, to, slope, offset } = conductor.pieces[self.piece];
        if self.piece == conductor.rest {
            let [below, above] = match self.on {
                None => conductor.snaps.map(|waits| !waits),
                Some(On { above, .. }) => [!above, above],
            };
            let from = if below { from - self.lift } else { f64::NEG_INFINITY };
            return (0.0, 0.0, [from, if above { to + self.lift } else { f64::INFINITY }]);
        }
        let lift = if self.piece > conductor.rest { self.lift } else { -self.lift };
        (slope, offset - slope * lift, [from + lift, to + lift])
    }

    /// Whether it conducts above ground, at this current.
    pub(super) fn conducts(&self, conductor: &Conductor, amperes: f64) -> bool {
        if conductor.snaps[1] { self.on.is_some_and(|on| on.above) } else { amperes > 0.0 }
    }

    /// Sets how high its lines stand at the time `t`.
    pub(super) fn settle(&mut self, conductor: &Conductor, t: f64) {
        if let (Some(on), Some(SnapBack { trigger, turn_on: Some(turn_on), .. })) = (self.on, conductor.snap) {
            self.lift = (trigger.0 - conductor.begins(on.above)) * (-(t - on.at) / turn_on.0).exp();
        }
    }

    /// Turns it on or off at the end of a step, at its voltage and current then. Whether it switched.
    pub(super) fn switch(&mut self, conductor: &Conductor, t: f64, volts: f64, amperes: f64) -> bool {
        let Some(snap) = conductor.snap else {
            return false;
        };
        let Some(on) = self.on else {
            let triggers = conductor.triggers(volts);
            if triggers {
                let above = volts > 0.0;
                let lift = if snap.turn_on.is_some() { snap.trigger.0 - conductor.begins(above) } else { 0.0 };
                *self = State::on(conductor, t, above, lift);
            }
            return triggers;
        };
        if (if on.above { amperes } else { -amperes }) > snap.holding.0 {
            self.quiet = None;
            return false;
        }
        let since = *self.quiet.get_or_insert(t);
        if t - since < LETS_GO_AFTER.0 {
            return false;
        }
        *self = State::off(conductor, volts);
        true
    }
}
