//! The maximum of a function between two points.

/// Share of its position to which a smooth maximum is met to round-off.
pub const TO_ROUND_OFF: f64 = 2e-9;

const STEPS: usize = 80;

/// Position of the maximum of `f` between `low` and `high`, begun at `start`, by Brent's method without derivatives.
///
/// Needs: `f` is continuous with one hill between the two, which both have one sign and are not 0; smooth, it takes a
/// dozen values. To a share of `relative` of itself; less than [`TO_ROUND_OFF`] has no use. At most 81 values.
///
/// # Errors
/// Whatever `f` returns.
///
/// # References
/// R. P. Brent, *Algorithms for Minimization without Derivatives*, Prentice-Hall 1973, ch. 5 (from memory).
pub fn maximum<E>(
    relative: f64,
    low: f64,
    start: f64,
    high: f64,
    mut f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<f64, E> {
    let golden = (3.0 - 5f64.sqrt()) / 2.0;
    let (mut a, mut b) = (low, high);
    let mut x = start;
    let mut fx = -f(x)?;
    let (mut w, mut v, mut fw, mut fv) = (x, x, fx, fx);
    let (mut step, mut before) = (0.0f64, 0.0f64);
    for _ in 0..STEPS {
        let middle = 0.5 * (a + b);
        let tolerance = relative * x.abs();
        if (x - middle).abs() <= 2.0 * tolerance - 0.5 * (b - a) {
            break;
        }
        let r = (x - w) * (fx - fv);
        let q = (x - v) * (fx - fw);
        let p = (x - v) * q - (x - w) * r;
        let q = 2.0 * (q - r);
        let (p, q) = if q > 0.0 { (-p, q) } else { (p, -q) };
        let parabolic =
            before.abs() > tolerance && p.abs() < (0.5 * q * before).abs() && p > q * (a - x) && p < q * (b - x);
        if parabolic {
            before = step;
            step = p / q;
            if x + step - a < 2.0 * tolerance || b - x - step < 2.0 * tolerance {
                step = tolerance.copysign(middle - x);
            }
        } else {
            before = if x >= middle { a - x } else { b - x };
            step = golden * before;
        }
        let u = x + if step.abs() >= tolerance { step } else { tolerance.copysign(step) };
        let fu = -f(u)?;
        if fu <= fx {
            if u >= x {
                a = x
            } else {
                b = x
            }
            (v, fv, w, fw, x, fx) = (w, fw, x, fx, u, fu);
        } else {
            if u < x {
                a = u
            } else {
                b = u
            }
            if fu <= fw || w == x {
                (v, fv, w, fw) = (w, fw, u, fu);
            } else if fu <= fv || v == x || v == w {
                (v, fv) = (u, fu);
            }
        }
    }
    Ok(x)
}
