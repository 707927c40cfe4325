//! Where a margin is not negative, of a limit without closed form: probed, bracketed, refined.

use super::brent;

/// Relative accuracy of every end.
const END: f64 = 1e-9;

/// How far beyond the last probe the margin may still change its sign.
const FAR: f64 = 1e9;

/// Probes per decade.
const PER_DECADE: i32 = 6;

/// A probe: capacitance and margin.
type Probe = (f64, f64);

/// Capacitances to look at first: zero, and three decades to either side of `scale` (1/(π f_N Z) of a lane, say), in farad.
pub fn probes(scale: f64) -> Vec<f64> {
    let spaced = (-3 * PER_DECADE..=3 * PER_DECADE).map(|i| scale * 10f64.powf(f64::from(i) / f64::from(PER_DECADE)));
    std::iter::once(0.0).chain(spaced).collect()
}

/// Where `margin(C)` is not negative, C ≥ 0, as closed intervals; an upper end of `None` is open.
///
/// `probes` rise from zero. The margin is also asked for an infinite capacitance, the limit of ever larger ones. Between
/// probes every valley of positive margins and every hill of negative ones is followed to its floor or top, so that a
/// crossing and its return are not missed. A margin that is not a number does not hold.
///
/// Needs: the margin is continuous, or jumps, with at most one valley or hill between three probes. Ends to 1e-9 of
/// themselves. At most one value for each probe, one at infinity, six beyond the last probe, 33 for each valley or hill that
/// leans towards zero, and 200 for each end.
///
/// # Errors
/// Whatever `margin` returns.
pub fn scan<E>(mut margin: impl FnMut(f64) -> Result<f64, E>, probes: &[f64]) -> Result<Vec<(f64, Option<f64>)>, E> {
    let mut margin = |c: f64| margin(c).map(|m| if m.is_nan() { f64::NEG_INFINITY } else { m });
    let mut known: Vec<Probe> = Vec::with_capacity(probes.len() + 8);
    for &c in probes {
        known.push((c, margin(c)?));
    }
    let at_infinity = margin(f64::INFINITY)? >= 0.0;
    let (mut last, mut growth) = (known.last().copied().unwrap_or((1e-12, 0.0)), 10.0);
    let far = FAR * last.0;
    while (last.1 >= 0.0) != at_infinity && last.0 < far {
        last = (last.0 * growth, margin(last.0 * growth)?);
        known.push(last);
        growth *= 10.0;
    }
    let mut refined = Vec::with_capacity(known.len() + 8);
    for (i, &probe) in known.iter().enumerate() {
        refined.push(probe);
        if let (Some(&before), Some(&after)) = (i.checked_sub(1).and_then(|j| known.get(j)), known.get(i + 1)) {
            if let Some(crossed) = follow(&mut margin, before, probe, after)? {
                refined.push(crossed);
            }
        }
    }
    refined.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut spans = Vec::new();
    let mut open = refined.first().filter(|p| p.1 >= 0.0).map(|p| p.0);
    for pair in refined.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        if (a.1 >= 0.0) == (b.1 >= 0.0) {
            continue;
        }
        // Zero counts as holding, and must not look like the other sign.
        let signed = |m: f64| if m >= 0.0 { m.max(f64::MIN_POSITIVE) } else { m };
        let end = brent(|c| margin(c).map(signed), a.0, signed(a.1), b.0, signed(b.1), END)?;
        match open.take() {
            Some(low) => spans.push((low, Some(end))),
            None => open = Some(end),
        }
    }
    spans.extend(open.map(|low| (low, None)));
    Ok(spans)
}

/// Follows an extreme at `here` that leans towards zero, by golden sections; the probe on the other side, as soon as one
/// gets there.
fn follow<E>(
    margin: &mut impl FnMut(f64) -> Result<f64, E>,
    before: Probe,
    here: Probe,
    after: Probe,
) -> Result<Option<Probe>, E> {
    let sign = if here.1 >= 0.0 { 1.0 } else { -1.0 };
    let [b, h, a] = [before, here, after].map(|p| p.1 * sign);
    let change = (b - h).max(a - h);
    let leans = b >= 0.0 && a >= 0.0 && b >= h && a >= h && change > 0.0 && h.is_finite();
    // A floor lower than this below three such points would need a bend the probes do not suggest.
    if !leans || h > 3.0 * change {
        return Ok(None);
    }
    const GOLDEN: f64 = 0.381_966_011_250_105_2;
    let (mut low, mut best, mut high) = (before.0, (here.0, h), after.0);
    while high - low > 1e-5 * high {
        let right = high - best.0 > best.0 - low;
        let c = if right { best.0 + GOLDEN * (high - best.0) } else { best.0 - GOLDEN * (best.0 - low) };
        let value = margin(c)?;
        let m = value * sign;
        if (value >= 0.0) != (sign > 0.0) {
            return Ok(Some((c, value)));
        }
        if m < best.1 {
            if right {
                low = best.0
            } else {
                high = best.0
            }
            best = (c, m);
        } else if right {
            high = c;
        } else {
            low = c;
        }
    }
    Ok(None)
}
