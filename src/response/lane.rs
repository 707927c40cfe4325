//! The time domain of a lane.

use super::{
    Case, ChainSample, Ctle, Feedback, NotSettled, Profile, Sample, Signal, Source, Taps, TimeDomain, droop,
    eye_opening, profile_reflection,
};
use crate::figures::IMPEDANCE_DIP;
use crate::model;
use crate::model::{Bounds, DEFAULT_RISE_UI, Lane, ProfileRead};
use crate::network::{Chain, ReferencePlane};
use crate::units::{Hertz, Ohm, Second};

/// Unit of the grid of a profile under an edge of its own, in rise times.
const SYMBOL_PER_RISE: f64 = 4.0;

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
    /// The same as the limit on it reads the profile.
    pub limited_dip: Option<f64>,
    /// Longest stretch of the profile below the impedance that a limit names, in second; `None` without such a limit, and
    /// where the profile does not rise above it again.
    pub impedance_excursion: Option<f64>,
}

/// A lane's time domain, its spectrum kept for every capacitance asked of it.
pub struct LaneTime {
    domain: TimeDomain<Chain>,
    /// The same chain under edges that limits on the profile state.
    edges: Vec<TimeDomain<Chain>>,
    chain: Chain,
    /// How the limits on the profile read it.
    dip: ProfileRead,
    excursion: Option<(Ohm, Option<Second>)>,
    reference_plane: ReferencePlane,
    whole_delay: f64,
    port_delay: f64,
    reference: f64,
}

impl LaneTime {
    /// The time domain of `lane`, whose circuit is `chain`.
    pub fn new(lane: &Lane, chain: &Chain) -> LaneTime {
        let chain = chain.for_data(Second(1.0 / lane.symbol_rate.0));
        let limits = || lane.limits.iter().map(|limit| &limit.of);
        LaneTime {
            reference_plane: chain.reference_plane(),
            whole_delay: Chain::line_delay(chain.sections()).0,
            port_delay: Chain::line_delay(chain.sections_inward()).0,
            reference: lane.reference.0,
            domain: TimeDomain::new(chain.clone(), signal(lane)),
            edges: Vec::new(),
            chain,
            dip: limits().find(|limit| limit.figure() == &IMPEDANCE_DIP).map_or(ProfileRead::default(), Bounds::read),
            excursion: limits().find_map(|limit| Some((limit.below()?, limit.read().rise))),
        }
    }

    /// Where the reflection is seen.
    pub fn reference_plane(&self) -> ReferencePlane {
        self.reference_plane
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
            limited_dip: None,
            impedance_excursion: None,
        };
        (self.as_limited(case, metrics, &mut fault), fault)
    }

    /// The metrics with the figures of the profile as the limits on it read it.
    fn as_limited(&mut self, case: Case, metrics: TimeMetrics, fault: &mut Option<NotSettled>) -> TimeMetrics {
        let own = self.dip == ProfileRead::default();
        let mut note = |error: NotSettled| *fault = fault.or(Some(error));
        let read = self.dip;
        let limited_dip = if own { metrics.impedance_dip } else { self.dip(case, &read).map_err(&mut note).ok() };
        let excursion = self.excursion.map(|(below, rise)| self.excursion(case, below, rise));
        let impedance_excursion =
            excursion.and_then(|stays| stays.map_err(&mut note).ok()).filter(|stays| stays.is_finite());
        TimeMetrics { limited_dip, impedance_excursion, ..metrics }
    }

    /// The time domain under an edge of this 10–90 % time, its grid made for that edge.
    fn under(&mut self, rise: Option<Second>) -> &mut TimeDomain<Chain> {
        let own = self.domain.signal().rise_s;
        let Some(rise) = rise.map(|rise| rise.0).filter(|rise| *rise != own) else {
            return &mut self.domain;
        };
        let known = self.edges.iter().position(|edge| edge.signal().rise_s == rise);
        let at = known.unwrap_or_else(|| {
            let signal = Signal { symbol_s: SYMBOL_PER_RISE * rise, rise_s: rise, ..self.domain.signal().clone() };
            self.edges.push(TimeDomain::new(self.chain.clone(), signal));
            self.edges.len() - 1
        });
        &mut self.edges[at]
    }

    /// The eye height minus `bound`, for a search of where they meet.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn eye_margin(&mut self, case: Case, bound: f64) -> Result<f64, NotSettled> {
        self.domain.eye_margin(case, bound)
    }

    /// The rise time in second; `None` where the path does not pass direct current.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn rise(&mut self, case: Case) -> Result<Option<f64>, NotSettled> {
        self.domain.rise_s(case, self.whole_delay)
    }

    /// `bound` in second minus the rise time; `None` where the path does not pass direct current.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn rise_margin(&mut self, case: Case, bound: f64) -> Result<Option<f64>, NotSettled> {
        self.domain.rise_margin_s(case, self.whole_delay, bound)
    }

    /// The reflection profile at the reference plane, as it is read.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn profile(&mut self, case: Case, read: &ProfileRead) -> Result<Profile, NotSettled> {
        let delay = self.port_delay;
        self.under(read.rise).profile_until(case, delay, read.until.map_or(f64::INFINITY, |until| until.0))
    }

    /// The lowest impedance of the reflection profile in the sheet's own ohms.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn dip(&mut self, case: Case, read: &ProfileRead) -> Result<f64, NotSettled> {
        Ok(self.profile(case, read)?.dip_ohm(self.reference))
    }

    /// How long the reflection profile under an edge of `rise`, or else the driver's, stays below an impedance at a stretch,
    /// in second; infinite where it does not rise above it again.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn excursion(&mut self, case: Case, below: Ohm, rise: Option<Second>) -> Result<f64, NotSettled> {
        self.excursion_within(case, below, rise, f64::INFINITY)
    }

    /// `most` minus the excursion, in second, for a search of where they meet; −∞ for one beyond four of them.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn excursion_margin(
        &mut self,
        case: Case,
        below: Ohm,
        rise: Option<Second>,
        most: Second,
    ) -> Result<f64, NotSettled> {
        Ok(most.0 - self.excursion_within(case, below, rise, 4.0 * most.0)?)
    }

    fn excursion_within(
        &mut self,
        case: Case,
        below: Ohm,
        rise: Option<Second>,
        enough_s: f64,
    ) -> Result<f64, NotSettled> {
        let (delay, level) = (self.port_delay, profile_reflection(self.reference, below.0));
        self.under(rise).stay_s(case, delay, level, enough_s)
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
