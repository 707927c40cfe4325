//! Limits of a line.

use crate::diag::Span;
use crate::units::Hertz;

/// What a limit bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LimitKind {
    /// IL(C) − IL(absent) in dB, at most.
    AddedLoss,
    /// −20 log10 |S21| in dB, at most.
    InsertionLoss,
    /// −20 log10 |S11| at the port plane in dB, at least.
    ReturnLoss,
    /// −20 log10 |S22| in dB, at least.
    ReturnLossInner,
    /// 1 − |H(f_N; C)|/|H(f_N; absent)|, at most.
    EyePenalty,
    /// 1 − EH(C)/EH(absent) of the worst pattern, at most.
    WorstEyePenalty,
    /// EH of the worst pattern, of the ideal eye, at least.
    EyeHeight,
    /// 10–90 % time of the step, fitted − absent, in seconds, at most.
    AddedRise,
    /// Lowest impedance of the reflection profile in the sheet's own ohms, at least.
    ImpedanceDip,
    /// 20 log10 |S_cd21|, at most.
    ModeConversion,
    /// Worst-pattern eye opening at the receiver in volts, at least: the receiver's `needs`.
    EyeOpening,
    /// Capacitance of a whole bus in farad, at most.
    TotalCapacitance,
    /// Rise time of a bus in seconds, between the limit's own levels, at most.
    RiseTime,
    /// Time constant of a bus in seconds, at most.
    TimeConstant,
    /// −3 dB bandwidth of a bus in hertz, at least.
    Bandwidth,
    /// (1 + |Γ|)/(1 − |Γ|) over a feed's band, at most.
    Vswr,
    /// −10 log10(1 − |Γ|²) in dB over a feed's band, at most.
    MismatchLoss,
    /// Shift of the frequency of least |Γ| in hertz, at most, up or down.
    Detuning,
}

impl LimitKind {
    /// All kinds, in the order of the reference.
    pub const ALL: [LimitKind; 18] = [
        LimitKind::AddedLoss,
        LimitKind::InsertionLoss,
        LimitKind::ReturnLoss,
        LimitKind::ReturnLossInner,
        LimitKind::EyePenalty,
        LimitKind::WorstEyePenalty,
        LimitKind::EyeHeight,
        LimitKind::AddedRise,
        LimitKind::ImpedanceDip,
        LimitKind::ModeConversion,
        LimitKind::EyeOpening,
        LimitKind::TotalCapacitance,
        LimitKind::RiseTime,
        LimitKind::TimeConstant,
        LimitKind::Bandwidth,
        LimitKind::Vswr,
        LimitKind::MismatchLoss,
        LimitKind::Detuning,
    ];

    /// The word of the sheet and of the results.
    pub fn word(self) -> &'static str {
        match self {
            LimitKind::AddedLoss => "added_loss",
            LimitKind::InsertionLoss => "insertion_loss",
            LimitKind::ReturnLoss => "return_loss",
            LimitKind::ReturnLossInner => "return_loss_inner",
            LimitKind::EyePenalty => "eye_penalty",
            LimitKind::WorstEyePenalty => "worst_eye_penalty",
            LimitKind::EyeHeight => "eye_height",
            LimitKind::AddedRise => "added_rise",
            LimitKind::ImpedanceDip => "impedance_dip",
            LimitKind::ModeConversion => "mode_conversion",
            LimitKind::EyeOpening => "eye_opening",
            LimitKind::TotalCapacitance => "total_capacitance",
            LimitKind::RiseTime => "rise_time",
            LimitKind::TimeConstant => "time_constant",
            LimitKind::Bandwidth => "bandwidth",
            LimitKind::Vswr => "vswr",
            LimitKind::MismatchLoss => "mismatch_loss",
            LimitKind::Detuning => "detuning",
        }
    }

    /// Whether the metric must stay at or above the bound (`>=`) rather than at or below it (`<=`).
    pub fn is_floor(self) -> bool {
        matches!(
            self,
            LimitKind::ReturnLoss
                | LimitKind::ReturnLossInner
                | LimitKind::EyeHeight
                | LimitKind::ImpedanceDip
                | LimitKind::EyeOpening
                | LimitKind::Bandwidth
        )
    }

    /// The loss it bounds, where it is exact at one frequency.
    pub fn loss(self) -> Option<LossKind> {
        match self {
            LimitKind::AddedLoss => Some(LossKind::Added),
            LimitKind::InsertionLoss => Some(LossKind::Insertion),
            LimitKind::ReturnLoss => Some(LossKind::Return),
            LimitKind::ReturnLossInner => Some(LossKind::ReturnInner),
            LimitKind::EyePenalty => Some(LossKind::Fundamental),
            LimitKind::Vswr => Some(LossKind::StandingWave),
            LimitKind::MismatchLoss => Some(LossKind::Mismatch),
            _ => None,
        }
    }

    /// The unit of the bound: `""` for a share, shown in percent, `"1"` for a plain ratio.
    pub fn unit(self) -> &'static str {
        match self {
            LimitKind::EyePenalty | LimitKind::WorstEyePenalty | LimitKind::EyeHeight => "",
            LimitKind::AddedRise | LimitKind::RiseTime | LimitKind::TimeConstant => "s",
            LimitKind::TotalCapacitance => "F",
            LimitKind::ImpedanceDip => "ohm",
            LimitKind::EyeOpening => "V",
            LimitKind::Vswr => "1",
            LimitKind::Detuning | LimitKind::Bandwidth => "Hz",
            LimitKind::AddedLoss
            | LimitKind::InsertionLoss
            | LimitKind::ReturnLoss
            | LimitKind::ReturnLossInner
            | LimitKind::ModeConversion
            | LimitKind::MismatchLoss => "dB",
        }
    }
}

/// The limits that are exact at one frequency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LossKind {
    /// [`LimitKind::AddedLoss`].
    Added,
    /// [`LimitKind::InsertionLoss`].
    Insertion,
    /// [`LimitKind::ReturnLoss`].
    Return,
    /// [`LimitKind::ReturnLossInner`].
    ReturnInner,
    /// [`LimitKind::EyePenalty`].
    Fundamental,
    /// [`LimitKind::Vswr`].
    StandingWave,
    /// [`LimitKind::MismatchLoss`].
    Mismatch,
}

impl LossKind {
    /// Whether it bounds a reflection from above.
    pub fn is_reflection(self) -> bool {
        matches!(self, LossKind::Return | LossKind::ReturnInner | LossKind::StandingWave | LossKind::Mismatch)
    }
}

impl From<LossKind> for LimitKind {
    fn from(kind: LossKind) -> LimitKind {
        match kind {
            LossKind::Added => LimitKind::AddedLoss,
            LossKind::Insertion => LimitKind::InsertionLoss,
            LossKind::Return => LimitKind::ReturnLoss,
            LossKind::ReturnInner => LimitKind::ReturnLossInner,
            LossKind::Fundamental => LimitKind::EyePenalty,
            LossKind::StandingWave => LimitKind::Vswr,
            LossKind::Mismatch => LimitKind::MismatchLoss,
        }
    }
}

/// One limit of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// What is bounded.
    pub kind: LimitKind,
    /// The bound or mask, in dB or as a ratio.
    pub bound: Bound,
    /// For a rise time the levels it is measured between, shares of the step; `None` is 10 % to 90 %.
    pub levels: Option<(f64, f64)>,
    /// Where the sheet states it; `None` for a default limit.
    pub span: Option<Span>,
}

/// How a limit is stated.
#[derive(Debug, Clone, PartialEq)]
pub enum Bound {
    /// One value. Of a lane's loss or eye penalty it holds at the Nyquist frequency, of a feed's match over its band.
    Level(f64),
    /// Points of a mask, rising in frequency; two at one frequency are a step. Never empty.
    Mask(Vec<MaskPoint>),
}

/// A corner of a mask.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaskPoint {
    /// The bound there, in dB.
    pub level: f64,
    /// The frequency.
    pub frequency: Hertz,
}
