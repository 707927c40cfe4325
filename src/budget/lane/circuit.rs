//! The circuit that the limits of a lane are asked about.

use crate::budget::Fault;
use crate::model::{Lane, Mismatch};
use crate::network::{Chain, ChainPoint, Scattering};
use crate::response::{Case, LaneTime, NotSettled};

/// A lane's chain with what is known of it at the Nyquist frequency and in time.
pub(super) struct LaneCircuit<'a> {
    pub(super) lane: &'a Lane,
    pub(super) chain: Chain,
    pub(super) nyquist: ChainPoint,
    pub(super) bare_nyquist: ChainPoint,
    /// Whether its figures have those of the time domain.
    pub(super) timed: bool,
    pub(super) droop: Option<f64>,
    /// The first figure that did not settle and was left out.
    pub(super) not_settled: Option<NotSettled>,
    time: Option<LaneTime>,
}

impl<'a> LaneCircuit<'a> {
    /// The circuit of a lane, `timed` where its figures are wanted in time as well.
    pub(super) fn new(lane: &'a Lane, timed: bool) -> Result<Self, Fault> {
        let chain = Chain::new(lane);
        let points = chain.at_both(lane.nyquist());
        let passes = |point: &ChainPoint| point.is_finite() && point.absent.transfer.norm_sqr() > 0.0;
        if !points.iter().all(passes) {
            return Err(Fault::NotFinite(lane.nyquist()));
        }
        let [nyquist, bare_nyquist] = points;
        Ok(LaneCircuit { lane, chain, nyquist, bare_nyquist, timed, droop: None, not_settled: None, time: None })
    }

    /// The same lane without the footprint of its protector.
    pub(super) fn without_footprint(&self) -> Self {
        LaneCircuit {
            chain: self.chain.without_footprint(),
            nyquist: self.bare_nyquist,
            bare_nyquist: self.bare_nyquist,
            time: None,
            ..*self
        }
    }

    /// The time domain, made when it is first asked for.
    pub(super) fn time(&mut self) -> &mut LaneTime {
        self.time.get_or_insert_with(|| LaneTime::new(self.lane, &self.chain))
    }

    /// The scattering at Nyquist.
    pub(super) fn scattering(&self, case: Case) -> Result<Scattering, Fault> {
        let scattering = match case {
            Case::Absent => return Ok(self.nyquist.absent),
            Case::With(c) => self.nyquist.at(c),
        };
        if scattering.is_finite() { Ok(scattering) } else { Err(Fault::NotFinite(self.nyquist.frequency)) }
    }

    /// How unlike the part's lines are; `None` without such a part.
    pub(super) fn mismatch(&self) -> Option<Mismatch> {
        self.lane.path.protector()?.mismatch
    }
}
