//! A bracketed root finder.

/// A root of `f` between `a` and `b`, by Brent's method.
///
/// Needs: `fa` and `fb`, the values there, differ in sign; 0 counts as below. Where `f` jumps, the jump is found. Infinite
/// values serve as signs: such a bracket is halved. The bracket is kept throughout. To about `relative` of the root's
/// size. At most 200 values.
///
/// # Errors
/// Whatever `f` returns.
///
/// # Example
/// ```
/// let root = lanecap::response::brent(|x: f64| Ok::<_, ()>(x * x - 2.0), 1.0, -1.0, 2.0, 2.0, 1e-14);
/// assert!((root.unwrap_or(0.0) - 2f64.sqrt()).abs() < 1e-13);
/// ```
///
/// # References
/// R. P. Brent, *Algorithms for Minimization without Derivatives*, Prentice-Hall 1973, ch. 4 (from memory).
pub fn brent<E>(
    mut f: impl FnMut(f64) -> Result<f64, E>,
    a: f64,
    fa: f64,
    b: f64,
    fb: f64,
    relative: f64,
) -> Result<f64, E> {
    let (mut a, mut fa, mut b, mut fb) = (a, fa, b, fb);
    let (mut c, mut fc) = (a, fa);
    let (mut step, mut before_last) = (b - a, b - a);
    for _ in 0..200 {
        if (fb > 0.0) == (fc > 0.0) {
            (c, fc) = (a, fa);
            (step, before_last) = (b - a, b - a);
        }
        if fc.abs() < fb.abs() {
            (a, fa, b, fb, c, fc) = (b, fb, c, fc, b, fb);
        }
        let tolerance = 2.0 * f64::EPSILON * b.abs() + 0.5 * relative * b.abs();
        let half = 0.5 * (c - b);
        if half.abs() <= tolerance || fb == 0.0 {
            break;
        }
        let finite = fa.is_finite() && fb.is_finite() && fc.is_finite();
        if finite && before_last.abs() >= tolerance && fa.abs() > fb.abs() {
            let s = fb / fa;
            let (mut p, mut q) = if a == c {
                (2.0 * half * s, 1.0 - s)
            } else {
                let (q, r) = (fa / fc, fb / fc);
                (s * (2.0 * half * q * (q - r) - (b - a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
            };
            if p > 0.0 {
                q = -q;
            } else {
                p = -p;
            }
            if 2.0 * p < (3.0 * half * q - (tolerance * q).abs()).min((before_last * q).abs()) {
                (before_last, step) = (step, p / q);
            } else {
                (step, before_last) = (half, half);
            }
        } else {
            (step, before_last) = (half, half);
        }
        (a, fa) = (b, fb);
        b += if step.abs() > tolerance { step } else { tolerance.copysign(half) };
        fb = f(b)?;
    }
    Ok(b)
}
