//! What is sent and how it is equalised: edge, symbol, transmit taps, receiver filter.

use std::f64::consts::PI;

use num_complex::Complex64;

/// 10–90 % rise time of a Gaussian edge in units of its σ: twice the 90 % point of the normal distribution.
pub const GAUSSIAN_RISE: f64 = 2.563_103_131_089_201;

/// The data signal of a lane.
#[derive(Debug, Clone, PartialEq)]
pub struct Signal {
    /// Unit interval T in second.
    pub symbol_s: f64,
    /// 10–90 % rise time of the source's Gaussian edge in second; above zero.
    pub rise_s: f64,
    /// Levels M of a symbol.
    pub levels: u32,
    /// Transmit filter, where there is one.
    pub taps: Option<Taps>,
    /// Receiver filter, where there is one.
    pub ctle: Option<Ctle>,
    /// Decision feedback of the receiver.
    pub dfe: Feedback,
}

/// Decision feedback: taps that cancel the cursors after the main one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feedback {
    /// Number of taps.
    pub taps: usize,
    /// The largest size of a tap, of the main cursor; infinite where taps are unlimited.
    pub limit: f64,
}

impl Feedback {
    /// None.
    pub const NONE: Feedback = Feedback::of(0);

    /// Unlimited taps.
    pub const fn of(taps: usize) -> Feedback {
        Feedback { taps, limit: f64::INFINITY }
    }

    /// The tap against the cursor `h` beside the cursor `main`.
    pub(super) fn tap(&self, h: f64, main: f64) -> f64 {
        let most = if self.limit.is_finite() { self.limit * main.abs() } else { f64::INFINITY };
        h.max(-most).min(most)
    }
}

/// A transmit filter of three taps one unit interval apart; the absolute values sum to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taps {
    /// One unit interval early.
    pub pre: f64,
    /// In time.
    pub main: f64,
    /// One unit interval late.
    pub post: f64,
}

/// A receiver's continuous-time linear equaliser.
///
/// H(f) = (10^{g/20} + jf/f_z)/((1 + jf/f_p1)(1 + jf/f_p2)), IEEE Std 802.3 Annex 93A.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ctle {
    /// Gain g at zero frequency in dB: minus the stated peaking.
    pub gain_db: f64,
    /// f_z in hertz.
    pub zero_hz: f64,
    /// f_p1 and f_p2 in hertz.
    pub poles_hz: (f64, f64),
}

impl Ctle {
    /// The equaliser of a stated peaking in dB, with f_z = f_p1 = f_s/4 and f_p2 = f_s for the symbol rate f_s in baud.
    pub fn with_peaking(peaking_db: f64, symbol_rate_bd: f64) -> Ctle {
        Ctle { gain_db: -peaking_db, zero_hz: symbol_rate_bd / 4.0, poles_hz: (symbol_rate_bd / 4.0, symbol_rate_bd) }
    }

    /// H at `f_hz`.
    pub fn at(&self, f_hz: f64) -> Complex64 {
        let pole = |p| Complex64::new(1.0, f_hz / p);
        Complex64::new(10f64.powf(self.gain_db / 20.0), f_hz / self.zero_hz)
            / (pole(self.poles_hz.0) * pole(self.poles_hz.1))
    }
}

impl Taps {
    /// Transfer at `f_hz` with taps `symbol_s` apart.
    pub fn at(&self, f_hz: f64, symbol_s: f64) -> Complex64 {
        let early = Complex64::cis(2.0 * PI * f_hz * symbol_s);
        early * self.pre + self.main + early.conj() * self.post
    }
}

impl Signal {
    /// Plain data of `levels` levels: an edge of 0.3 unit intervals, no equaliser.
    pub fn new(symbol_rate_bd: f64, levels: u32) -> Signal {
        Signal {
            symbol_s: 1.0 / symbol_rate_bd,
            rise_s: 0.3 / symbol_rate_bd,
            levels,
            taps: None,
            ctle: None,
            dfe: Feedback::NONE,
        }
    }

    /// Standard deviation σ = t_r/2.563103 of the edge in second.
    pub fn sigma_s(&self) -> f64 {
        self.rise_s / GAUSSIAN_RISE
    }

    /// Edge filter exp(−(2πfσ)²/2) at `f_hz`.
    pub(super) fn edge(&self, f_hz: f64) -> f64 {
        let x = 2.0 * PI * f_hz * self.sigma_s();
        (-0.5 * x * x).exp()
    }

    /// Everything of the symbol pulse at `f_hz` but the chain and the factor T: sinc(fT), edge, taps, equaliser.
    pub(super) fn symbol(&self, f_hz: f64) -> Complex64 {
        let x = PI * f_hz * self.symbol_s;
        let sinc = if x == 0.0 { 1.0 } else { x.sin() / x };
        let mut shape = Complex64::new(sinc * self.edge(f_hz), 0.0);
        if let Some(taps) = &self.taps {
            shape *= taps.at(f_hz, self.symbol_s);
        }
        if let Some(ctle) = &self.ctle {
            shape *= ctle.at(f_hz);
        }
        shape
    }
}

/// Droop of a run of five equal symbols, as a ratio: 5T/τ, `ui` the time constant τ of what passes no direct current in
/// unit intervals. An infinite one does not droop.
pub fn droop(ui: f64) -> f64 {
    5.0 / ui
}
