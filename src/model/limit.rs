//! Limits of a line: what each kind of line can be held to, and nothing else.

use super::Mask;
use crate::diag::Span;
use crate::figures::{self as figure, Figure};
use crate::units::{Farad, Hertz, Ohm, Second, Volt};

/// One limit of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit<B> {
    /// What is bounded, and by what.
    pub of: B,
    /// Where the sheet states it; `None` for a default limit.
    pub span: Option<Span>,
}

/// What the limits of every kind of line have in common.
pub trait Bounds {
    /// The figure that is bounded.
    fn figure(&self) -> &'static Figure;

    /// The bound in the figure's unit; `None` for a mask.
    fn bound(&self) -> Option<f64>;

    /// The points of a mask; `None` for one bound.
    fn mask(&self) -> Option<&Mask> {
        None
    }

    /// The levels a rise time is measured between, where the limit states its own: shares of the step.
    fn levels(&self) -> Option<(f64, f64)> {
        None
    }

    /// The impedance that the limit holds a reflection profile against, in the sheet's own ohms.
    fn below(&self) -> Option<Ohm> {
        None
    }

    /// How the limit reads a reflection profile, where it states that.
    fn read(&self) -> ProfileRead {
        ProfileRead::default()
    }
}

/// How a limit reads the reflection profile.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ProfileRead {
    /// 10–90 % time of its edge; `None` is the driver's.
    pub rise: Option<Second>,
    /// How far it is read, round trip from the middle of the edge; `None` is to the inner end.
    pub until: Option<Second>,
}

/// One bound, or points over frequency.
#[derive(Debug, Clone, PartialEq)]
pub enum Over {
    /// One value: of a lane's loss at the Nyquist frequency, of a feed's match over its band.
    Level(f64),
    /// Points of a mask.
    Mask(Mask),
}

impl Over {
    fn bound(&self) -> Option<f64> {
        match self {
            Over::Level(level) => Some(*level),
            Over::Mask(_) => None,
        }
    }

    fn mask(&self) -> Option<&Mask> {
        match self {
            Over::Level(_) => None,
            Over::Mask(mask) => Some(mask),
        }
    }
}

/// The losses of a lane that are exact at one frequency, in dB.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Loss {
    /// IL(C) − IL(absent), at most.
    Added,
    /// −20 log10 |S21|, at most.
    Insertion,
    /// −20 log10 |S11| at the reference plane, at least.
    Return,
    /// −20 log10 |S22|, at least.
    ReturnInner,
}

impl Loss {
    /// Its figure.
    pub fn figure(self) -> &'static Figure {
        match self {
            Loss::Added => &figure::ADDED_LOSS,
            Loss::Insertion => &figure::INSERTION_LOSS,
            Loss::Return => &figure::RETURN_LOSS,
            Loss::ReturnInner => &figure::RETURN_LOSS_INNER,
        }
    }
}

/// A limit of a lane.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum LaneLimit {
    /// A loss at Nyquist, or over a mask.
    Loss(Loss, Over),
    /// 1 − |H(f_N; C)|/|H(f_N; absent)|, at most.
    EyePenalty(f64),
    /// 1 − EH(C)/EH(absent) of the worst pattern, at most.
    WorstEyePenalty(f64),
    /// EH of the worst pattern, of the ideal eye, at least.
    EyeHeight(f64),
    /// Worst-pattern eye opening at the receiver, at least: the receiver's `needs`.
    EyeOpening(Volt),
    /// 10–90 % time of the step, fitted − absent, at most.
    AddedRise(Second),
    /// Lowest impedance of the reflection profile in the sheet's own ohms, at least.
    ImpedanceDip(Ohm, ProfileRead),
    /// How long the reflection profile stays below an impedance at a stretch, at most.
    ImpedanceExcursion {
        /// The bound.
        most: Second,
        /// The impedance, in the sheet's own ohms.
        below: Ohm,
        /// 10–90 % time of the profile's edge; `None` is the driver's.
        rise: Option<Second>,
    },
    /// 20 log10 |S_cd21|, at most.
    ModeConversion(f64),
    /// 20 log10 |S_cd11| at the port plane, at most.
    ModeConversionReflected(f64),
}

impl LaneLimit {
    /// The limit on a figure; `None` where a lane has none on it, it takes no mask, or it takes more than a bound.
    pub fn new(of: &Figure, over: Over) -> Option<LaneLimit> {
        let losses = [Loss::Added, Loss::Insertion, Loss::Return, Loss::ReturnInner];
        if let Some(loss) = losses.into_iter().find(|loss| loss.figure() == of) {
            return Some(LaneLimit::Loss(loss, over));
        }
        let level = over.bound()?;
        let limits = [
            LaneLimit::EyePenalty(level),
            LaneLimit::WorstEyePenalty(level),
            LaneLimit::EyeHeight(level),
            LaneLimit::EyeOpening(Volt(level)),
            LaneLimit::AddedRise(Second(level)),
            LaneLimit::ImpedanceDip(Ohm(level), ProfileRead::default()),
            LaneLimit::ModeConversion(level),
            LaneLimit::ModeConversionReflected(level),
        ];
        limits.into_iter().find(|limit| limit.figure() == of)
    }
}

impl Bounds for LaneLimit {
    fn figure(&self) -> &'static Figure {
        match self {
            LaneLimit::Loss(loss, _) => loss.figure(),
            LaneLimit::EyePenalty(_) => &figure::EYE_PENALTY,
            LaneLimit::WorstEyePenalty(_) => &figure::WORST_EYE_PENALTY,
            LaneLimit::EyeHeight(_) => &figure::EYE_HEIGHT,
            LaneLimit::EyeOpening(_) => &figure::EYE_OPENING,
            LaneLimit::AddedRise(_) => &figure::ADDED_RISE,
            LaneLimit::ImpedanceDip(..) => &figure::IMPEDANCE_DIP,
            LaneLimit::ImpedanceExcursion { .. } => &figure::IMPEDANCE_EXCURSION,
            LaneLimit::ModeConversion(_) => &figure::MODE_CONVERSION,
            LaneLimit::ModeConversionReflected(_) => &figure::MODE_CONVERSION_REFLECTED,
        }
    }

    fn bound(&self) -> Option<f64> {
        match self {
            LaneLimit::Loss(_, over) => over.bound(),
            LaneLimit::EyePenalty(level)
            | LaneLimit::WorstEyePenalty(level)
            | LaneLimit::EyeHeight(level)
            | LaneLimit::ModeConversion(level)
            | LaneLimit::ModeConversionReflected(level) => Some(*level),
            LaneLimit::EyeOpening(Volt(level))
            | LaneLimit::AddedRise(Second(level))
            | LaneLimit::ImpedanceExcursion { most: Second(level), .. }
            | LaneLimit::ImpedanceDip(Ohm(level), _) => Some(*level),
        }
    }

    fn mask(&self) -> Option<&Mask> {
        match self {
            LaneLimit::Loss(_, over) => over.mask(),
            _ => None,
        }
    }

    fn below(&self) -> Option<Ohm> {
        match self {
            LaneLimit::ImpedanceExcursion { below, .. } => Some(*below),
            _ => None,
        }
    }

    fn read(&self) -> ProfileRead {
        match self {
            LaneLimit::ImpedanceDip(_, read) => *read,
            LaneLimit::ImpedanceExcursion { rise, .. } => ProfileRead { rise: *rise, until: None },
            _ => ProfileRead::default(),
        }
    }
}

/// A limit of a feed, over its band.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum FeedLimit {
    /// −20 log10 |Γ| in dB, at least.
    ReturnLoss(Over),
    /// (1 + |Γ|)/(1 − |Γ|), at most.
    Vswr(f64),
    /// −10 log10(1 − |Γ|²) in dB, at most.
    MismatchLoss(f64),
    /// Shift of the frequency of least |Γ|, at most, up or down.
    Detuning(Hertz),
}

impl FeedLimit {
    /// The limit on a figure; `None` where a feed has none on it, or it takes no mask.
    pub fn new(of: &Figure, over: Over) -> Option<FeedLimit> {
        use FeedLimit::*;
        if of == &figure::RETURN_LOSS {
            return Some(ReturnLoss(over));
        }
        let level = over.bound()?;
        [Vswr(level), MismatchLoss(level), Detuning(Hertz(level))].into_iter().find(|limit| limit.figure() == of)
    }
}

impl Bounds for FeedLimit {
    fn figure(&self) -> &'static Figure {
        match self {
            FeedLimit::ReturnLoss(_) => &figure::RETURN_LOSS,
            FeedLimit::Vswr(_) => &figure::VSWR,
            FeedLimit::MismatchLoss(_) => &figure::MISMATCH_LOSS,
            FeedLimit::Detuning(_) => &figure::DETUNING,
        }
    }

    fn bound(&self) -> Option<f64> {
        match self {
            FeedLimit::ReturnLoss(over) => over.bound(),
            FeedLimit::Vswr(level) | FeedLimit::MismatchLoss(level) | FeedLimit::Detuning(Hertz(level)) => Some(*level),
        }
    }

    fn mask(&self) -> Option<&Mask> {
        match self {
            FeedLimit::ReturnLoss(over) => over.mask(),
            _ => None,
        }
    }
}

/// A limit of a bus.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum BusLimit {
    /// Capacitance of the whole bus, at most.
    Total(Farad),
    /// Rise time, at most.
    Rise {
        /// The bound.
        most: Second,
        /// The levels it is measured between, shares of the step; `None` is 10 % to 90 %.
        levels: Option<(f64, f64)>,
    },
    /// Time constant, at most.
    TimeConstant(Second),
    /// −3 dB bandwidth, at least.
    Bandwidth(Hertz),
}

impl BusLimit {
    /// The limit on a figure; `None` where a bus has none on it. Levels belong to a rise alone.
    pub fn new(of: &Figure, over: Over, levels: Option<(f64, f64)>) -> Option<BusLimit> {
        use BusLimit::*;
        let level = over.bound()?;
        let limits = [
            Total(Farad(level)),
            Rise { most: Second(level), levels },
            TimeConstant(Second(level)),
            Bandwidth(Hertz(level)),
        ];
        limits.into_iter().find(|limit| limit.figure() == of)
    }

    /// Whether it needs the resistance that the bus charges through.
    pub fn needs_resistance(&self) -> bool {
        !matches!(self, BusLimit::Total(_))
    }
}

impl Bounds for BusLimit {
    fn figure(&self) -> &'static Figure {
        match self {
            BusLimit::Total(_) => &figure::TOTAL_CAPACITANCE,
            BusLimit::Rise { .. } => &figure::BUS_RISE,
            BusLimit::TimeConstant(_) => &figure::TIME_CONSTANT,
            BusLimit::Bandwidth(_) => &figure::BANDWIDTH,
        }
    }

    fn bound(&self) -> Option<f64> {
        Some(match self {
            BusLimit::Total(Farad(level))
            | BusLimit::Rise { most: Second(level), .. }
            | BusLimit::TimeConstant(Second(level))
            | BusLimit::Bandwidth(Hertz(level)) => *level,
        })
    }

    fn levels(&self) -> Option<(f64, f64)> {
        match self {
            BusLimit::Rise { levels, .. } => *levels,
            _ => None,
        }
    }
}
