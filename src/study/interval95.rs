//! The interval a share lies in that was counted.

/// What lies outside on either side: 2.5 %.
const OUTSIDE: f64 = 0.025;

/// The 95 % interval of the share of which `held` of `samples` were counted (Clopper, Pearson, *Biometrika* 26(4), 1934):
/// the quantiles of the beta distributions of (k, n − k + 1) and (k + 1, n − k).
///
/// ```
/// let (low, high) = lanecap::study::clopper_pearson(5, 10);
/// assert!((low - 0.187086).abs() < 1e-6 && (high - 0.812914).abs() < 1e-6);
/// ```
pub fn clopper_pearson(held: u64, samples: u64) -> (f64, f64) {
    let (k, n) = (held.min(samples) as f64, samples as f64);
    let low = if held == 0 { 0.0 } else { quantile(k, n - k + 1.0, OUTSIDE) };
    let high = if held >= samples { 1.0 } else { quantile(k + 1.0, n - k, 1.0 - OUTSIDE) };
    (low, high)
}

/// The x at which the regularised incomplete beta function is `level`, by bisection.
fn quantile(a: f64, b: f64, level: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    // The middle stops moving after as many steps as a number has bits, and some more near 0.
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if incomplete_beta(a, b, middle) < level { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The regularised incomplete beta function I_x(a, b), by its continued fraction (DLMF 8.17.22) with the method of Lentz.
fn incomplete_beta(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 || x >= 1.0 {
        return x.clamp(0.0, 1.0);
    }
    // The fraction converges fast below the mean alone.
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - incomplete_beta(b, a, 1.0 - x);
    }
    let front = (a * x.ln() + b * (-x).ln_1p() + ln_gamma(a + b) - ln_gamma(a) - ln_gamma(b)).exp() / a;
    const TINY: f64 = 1e-300;
    let kept = |value: f64| if value.abs() < TINY { TINY } else { value };
    let (mut c, mut d) = (1.0, 1.0 / kept(1.0 - (a + b) * x / (a + 1.0)));
    let mut fraction = d;
    for m in 1..10_000 {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut last = 1.0;
        for term in [even, odd] {
            d = 1.0 / kept(1.0 + term * d);
            c = kept(1.0 + term / c);
            last = c * d;
            fraction *= last;
        }
        if (last - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    front * fraction
}

/// ln Γ(x) of x > 0: Stirling's series (DLMF 5.11.1) from 16 up, by the recurrence below.
fn ln_gamma(x: f64) -> f64 {
    if x < 16.0 {
        return ln_gamma(x + 1.0) - x.ln();
    }
    let square = 1.0 / (x * x);
    let series = (1.0 / 12.0 - square * (1.0 / 360.0 - square * (1.0 / 1260.0 - square * (1.0 / 1680.0)))) / x;
    (x - 0.5) * x.ln() - x + 0.5 * std::f64::consts::TAU.ln() + series
}
