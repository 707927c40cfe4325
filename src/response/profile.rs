//! The reflection step at the reference plane and the impedance it shows.

use super::interpolate::between;
use super::optimum::valley;
use super::{Case, NotSettled, Source, Step, TimeDomain, brent};

/// What a doubling of the record may move the lowest reflection by.
const DIP_SETTLED: f64 = 1e-6;

/// What a doubling of the record may move the end of a stretch by that the window does not hold, relative to the stretch.
const STAY_SETTLED: f64 = 1e-5;

/// σ of the edge from its middle to where it has not begun.
const EDGE_START: f64 = 8.0;

/// The reflection profile seen from the reference plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// Reflected step ρ(t), t = 0 at the middle of the edge as it passes the reference plane.
    pub reflection: Step,
    /// Where the edge has not begun yet, in second.
    pub start_s: f64,
    /// End of the window in second: twice the delay to the inner end and two rise times, or where it was to end before.
    pub window_s: f64,
    /// Its lowest place.
    pub dip: Dip,
}

/// The lowest place of a profile within its window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dip {
    /// When it is seen, in second: twice the delay to the element that makes it.
    pub at_s: f64,
    /// Reflection there.
    pub reflection: f64,
}

/// The reflection that an impedance stands for, (Z − Z_ref)/(Z + Z_ref).
pub fn profile_reflection(reference_ohm: f64, impedance_ohm: f64) -> f64 {
    (impedance_ohm - reference_ohm) / (impedance_ohm + reference_ohm)
}

/// Impedance Z_ref (1 + ρ)/(1 − ρ) that a reflection stands for; infinite at ρ = 1.
pub fn profile_impedance(reference_ohm: f64, reflection: f64) -> f64 {
    reference_ohm * (1.0 + reflection) / (1.0 - reflection)
}

impl Profile {
    fn new(reflection: Step, start_s: f64, window_s: f64) -> Profile {
        let dip = lowest(&reflection, window_s);
        Profile { reflection, start_s, window_s, dip }
    }

    /// The longest time at a stretch below `reflection`, in second. A stretch begins within the window, from the start of
    /// the edge to its end, and is followed beyond it for half the record: infinite where it does not end there.
    pub fn below_s(&self, reflection: f64) -> f64 {
        let (ended, open) = self.stretches(reflection);
        open.map_or(ended, |since| ended.max(self.end_of(reflection) - since)) * self.reflection.step_s
    }

    /// In samples: the longest stretch that ends within the window, and the begin of one that does not.
    fn stretches(&self, reflection: f64) -> (f64, Option<f64>) {
        let step_s = self.reflection.step_s;
        let over = |at: f64| self.reflection.at(at * step_s) - reflection;
        let (first, last) = ((self.start_s / step_s).floor(), self.window_s / step_s);
        // The lowest place too: it may lie below between two samples that do not.
        let samples = (first as i64..=last.floor() as i64).map(|i| i as f64);
        let mut nodes: Vec<f64> = samples.chain([self.dip.at_s / step_s, last]).collect();
        nodes.sort_by(f64::total_cmp);
        let (mut longest, mut since) = (0.0f64, None);
        let mut before = (first, over(first));
        if before.1 < 0.0 {
            since = Some(first);
        }
        for at in nodes {
            let here = (at, over(at));
            if (here.1 < 0.0) != (before.1 < 0.0) {
                let crossed = crossing(over, before, here);
                match since.take() {
                    Some(since) => longest = longest.max(crossed - since),
                    None => since = Some(crossed),
                }
            }
            before = here;
        }
        (longest, since)
    }

    /// Where the profile, below at the end of the window, first rises to `reflection`, in samples; infinite where half the
    /// record does not show it. The other half is where its periods meet.
    fn end_of(&self, reflection: f64) -> f64 {
        let over = |at: f64| self.reflection.at(at * self.reflection.step_s) - reflection;
        let last = self.window_s / self.reflection.step_s;
        let mut before = (last, over(last));
        for i in last.floor() as i64 + 1..=self.reflection.middle() {
            let here = (i as f64, self.reflection.sample(i) - reflection);
            if here.1 >= 0.0 {
                return crossing(over, before, here);
            }
            before = here;
        }
        f64::INFINITY
    }

    /// Lowest impedance within the window, in the unit of `reference_ohm`.
    pub fn dip_ohm(&self, reference_ohm: f64) -> f64 {
        profile_impedance(reference_ohm, self.dip.reflection)
    }

    /// Times in second and impedances over the window, a sample apart, for a drawing.
    pub fn points(&self, reference_ohm: f64) -> impl Iterator<Item = (f64, f64)> + '_ {
        let count = (self.window_s / self.reflection.step_s).floor() as i64;
        (0..=count).map(move |i| {
            let t = i as f64 * self.reflection.step_s;
            (t, profile_impedance(reference_ohm, self.reflection.sample(i)))
        })
    }
}

/// Where `over` changes its sign between two places and its values there, less than a sample apart.
fn crossing(over: impl Fn(f64) -> f64, before: (f64, f64), here: (f64, f64)) -> f64 {
    let value = |u: f64| Ok::<_, std::convert::Infallible>(over(before.0 + u));
    let Ok(u) = brent(value, 0.0, before.1, here.0 - before.0, here.1, 1e-12);
    before.0 + u
}

/// Bends of a valley below this are rounding.
const ROUNDING: f64 = 1e-12;

/// The minimum over 0 … `window_s`, the ends included.
fn lowest(step: &Step, window_s: f64) -> Dip {
    let last = window_s / step.step_s;
    let values: Vec<f64> = (-1..=last.floor() as i64 + 1).map(|i| step.sample(i)).collect();
    let inside = &values[1..values.len() - 1];
    let mut best = (last, step.at(window_s));
    for (i, &value) in inside.iter().enumerate() {
        if value < best.1 {
            best = (i as f64, value);
        }
    }
    for (i, w) in values.windows(3).enumerate() {
        let bend = w[0] - 2.0 * w[1] + w[2];
        if w[1] > w[0] || w[1] > w[2] || bend < ROUNDING || w[1] - bend > best.1 {
            continue;
        }
        for cell in [i as i64 - 1, i as i64] {
            let end = (last - cell as f64).min(1.0);
            if cell < 0 || end <= 0.0 {
                continue;
            }
            let (u, value) = valley(|u| between(|j| step.sample(j), cell, u), end);
            if value < best.1 {
                best = (cell as f64 + u, value);
            }
        }
    }
    Dip { at_s: best.0 * step.step_s, reflection: best.1 }
}

impl<S: Source> TimeDomain<S> {
    /// The reflection profile at the reference plane, the record doubled until its lowest reflection moves by less than
    /// 1e-6.
    ///
    /// `delay_s` is the sum of the delays of the lines from the reference plane to the inner end.
    ///
    /// # Errors
    /// [`NotSettled`] when the longest record does not suffice.
    pub fn profile(&mut self, case: Case, delay_s: f64) -> Result<Profile, NotSettled> {
        self.profile_until(case, delay_s, f64::INFINITY)
    }

    /// The same, read until `until_s` in second after the middle of the edge where that comes before the end of its window.
    ///
    /// # Errors
    /// As [`TimeDomain::profile`].
    pub fn profile_until(&mut self, case: Case, delay_s: f64, until_s: f64) -> Result<Profile, NotSettled> {
        let start_s = -EDGE_START * self.signal().sigma_s();
        let window_s = (2.0 * delay_s + 2.0 * self.signal().rise_s).min(until_s);
        self.settle(
            "impedance dip",
            self.record_for(window_s),
            |lane, record| {
                let step = lane.step_of(record, start_s, |chain| chain.reflection, case);
                Profile::new(step, start_s, window_s)
            },
            |before, after| (after.dip.reflection - before.dip.reflection).abs(),
            |_| DIP_SETTLED,
        )
    }

    /// How long the profile stays below `reflection` at a stretch, in second, see [`Profile::below_s`], the record doubled
    /// until the end of a stretch beyond the window moves by less than 1e-5 of it.
    ///
    /// Infinite where no record shows an end that settles, and as soon as one shows that there is none within `enough_s`. A stretch near
    /// a quarter of `enough_s` is exact, elsewhere known to a sixteenth of its distance.
    ///
    /// # Errors
    /// [`NotSettled`] where the profile moves on.
    pub fn stay_s(&mut self, case: Case, delay_s: f64, reflection: f64, enough_s: f64) -> Result<f64, NotSettled> {
        let profile = self.profile(case, delay_s)?;
        if profile.stretches(reflection).1.is_none() {
            return Ok(profile.below_s(reflection));
        }
        let (start_s, window_s) = (profile.start_s, profile.window_s);
        if profile.reflection.settled < reflection && profile.below_s(reflection).is_infinite() {
            return Ok(f64::INFINITY);
        }
        let symbol_s = self.signal().symbol_s;
        let near = |stay: f64| match enough_s.is_finite() {
            true => STAY_SETTLED.max((1.0 - enough_s / (4.0 * stay)).abs() / 16.0),
            false => STAY_SETTLED,
        };
        let stay = self.settle(
            "impedance excursion",
            profile.reflection.samples().count() / self.per_symbol(),
            |lane, record| {
                let step = lane.step_of(record, start_s, |chain| chain.reflection, case);
                (Profile::new(step, start_s, window_s).below_s(reflection), 0.5 * record as f64 * symbol_s >= enough_s)
            },
            |before, after| match (before.0.is_finite(), after.0.is_finite()) {
                (true, true) => (after.0 - before.0).abs() / after.0,
                (false, false) if after.1 => 0.0,
                _ => f64::INFINITY,
            },
            |after| if after.0.is_finite() { near(after.0) } else { 0.0 },
        );
        // An end that the longest record does not settle is none that a limit may rely on.
        Ok(stay.map_or(f64::INFINITY, |(stay, _)| stay))
    }
}
