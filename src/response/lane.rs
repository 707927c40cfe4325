//! The time domain of a lane.

use super::{
    Case, ChainSample, Ctle, Feedback, NotSettled, Profile, Sample, Signal, Source, Taps, TimeDomain, droop,
    eye_opening,
};
use crate::model;
use crate::model::{DEFAULT_RISE_UI, Lane};
use crate::network::{Chain, ReferencePlane};
use crate::units::{Hertz, Second};

impl Source for Chain {
    fn at(&self, f_hz: f64) -> ChainSample {
        let point = Chain::at(self, Hertz(f_hz));
        ChainSample {
            transfer: Sample { absent: point.absent.transfer, with: point.transfer },
            reflection: Sample { absent: point.absent.s11, with: point.s11 },
        }
    }
}

/// Figures of the time domain; `None` where one does not apply or does not settle.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TimeMetrics {
    /// Worst-pattern eye height, of the ideal eye; negative when closed.
    pub eye_height: Option<f64>,
    /// Worst-pattern eye width in unit intervals.
    pub eye_width: Option<f64>,
    /// 10–90 % rise time of the step at the receiver in second.
    pub rise: Option<f64>,
    /// Lowest impedance of the reflection profile, in the sheet's own ohms.
    pub impedance_dip: Option<f64>,
}

/// A lane's time domain, its spectrum kept for every capacitance asked of it.
pub struct LaneTime {
    domain: TimeDomain<Chain>,
    reference_plane: ReferencePlane,
    whole_delay: f64,
    port_delay: f64,
    reference: f64,
}

impl LaneTime {
    /// The time domain of `lane`, whose circuit is `chain`.
    pub fn new(lane: &Lane, chain: &Chain) -> LaneTime {
        let chain = chain.for_data(Second(1.0 / lane.symbol_rate.0));
        LaneTime {
            reference_plane: chain.reference_plane(),
            whole_delay: Chain::line_delay(chain.sections()).0,
            port_delay: Chain::line_delay(chain.sections_inward()).0,
            reference: lane.reference.0,
            domain: TimeDomain::new(chain, signal(lane)),
        }
    }

    /// Where the reflection is seen.
    pub fn reference_plane(&self) -> ReferencePlane {
        self.reference_plane
    }

    /// When the lowest impedance is seen, in second after the middle of the edge; `None` where it does not settle.
    pub fn dip_at(&mut self, case: Case) -> Option<f64> {
        Some(self.domain.profile(case, self.port_delay).ok()?.dip.at_s)
    }

    /// The spectrum itself, for the pulse and its cursors.
    pub fn domain(&mut self) -> &mut TimeDomain<Chain> {
        &mut self.domain
    }

    /// Eye, rise and impedance dip; a figure that does not settle is `None`, and its fault is returned beside.
    pub fn metrics(&mut self, case: Case) -> (TimeMetrics, Option<NotSettled>) {
        let mut fault = None;
        let mut note = |error: NotSettled| fault = Some(error);
        let eye = self.domain.eye(case).map_err(&mut note).ok();
        let rise = self.domain.rise_s(case, self.whole_delay).map_err(&mut note).ok().flatten();
        let dip = self.domain.profile(case, self.port_delay).map_err(&mut note).ok();
        let metrics = TimeMetrics {
            eye_height: eye.as_ref().map(|(eye, _)| eye.height),
            eye_width: eye.as_ref().map(|(eye, _)| eye.width_ui),
            rise,
            impedance_dip: dip.map(|profile| profile.dip_ohm(self.reference)).filter(|dip| dip.is_finite()),
        };
        (metrics, fault)
    }

    /// The eye height minus `bound`, for a search of where they meet.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn eye_margin(&mut self, case: Case, bound: f64) -> Result<f64, NotSettled> {
        self.domain.eye_margin(case, bound)
    }

    /// `bound` in second minus the rise time; `None` where the path does not pass direct current.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn rise_margin(&mut self, case: Case, bound: f64) -> Result<Option<f64>, NotSettled> {
        self.domain.rise_margin_s(case, self.whole_delay, bound)
    }

    /// The reflection profile at the reference plane.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn profile(&mut self, case: Case) -> Result<Profile, NotSettled> {
        self.domain.profile(case, self.port_delay)
    }

    /// The lowest impedance of the reflection profile in the sheet's own ohms.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn dip(&mut self, case: Case) -> Result<f64, NotSettled> {
        Ok(self.profile(case)?.dip_ohm(self.reference))
    }
}

/// The data signal of a lane.
pub fn signal(lane: &Lane) -> Signal {
    let rate = lane.symbol_rate.0;
    let driver = lane.path.driver();
    let receiver = lane.path.receiver();
    let rise = driver.and_then(|d| d.rise).map_or(DEFAULT_RISE_UI / rate, |rise| rise.0);
    Signal {
        symbol_s: 1.0 / rate,
        rise_s: rise,
        levels: lane.modulation.levels(),
        taps: driver.and_then(|d| d.taps).map(|[pre, main, post]| Taps { pre, main, post }),
        ctle: receiver.and_then(|r| r.ctle).map(|ctle| equaliser(&ctle, rate)),
        dfe: receiver.map_or(Feedback::NONE, |r| Feedback { taps: r.dfe, limit: r.dfe_limit.unwrap_or(f64::INFINITY) }),
    }
}

fn equaliser(stated: &model::Ctle, rate: f64) -> Ctle {
    let standard = Ctle::with_peaking(stated.peaking, rate);
    let [first, second] = stated.poles;
    Ctle {
        zero_hz: stated.zero.map_or(standard.zero_hz, |f| f.0),
        poles_hz: (first.map_or(standard.poles_hz.0, |f| f.0), second.map_or(standard.poles_hz.1, |f| f.0)),
        ..standard
    }
}

/// Volts of eye opening at the receiver for an eye height of 1; `None` where the driver states no swing.
pub fn volts_per_eye(lane: &Lane) -> Option<f64> {
    let driver = lane.path.driver()?;
    let receiver = lane.path.receiver()?;
    let load = receiver.impedance.map(|z| z.0);
    Some(eye_opening(1.0, driver.swing?.0, driver.impedance.0, load, lane.modulation.levels()))
}

/// Droop over a run of five symbols of what passes no direct current in a lane, Σ 5T/τ; `None` where there is none.
pub fn lane_droop(lane: &Lane) -> Option<f64> {
    lane.couplings().map(|coupling| droop(coupling.ui)).reduce(|sum, one| sum + one)
}
