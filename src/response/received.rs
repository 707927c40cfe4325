//! The spectrum of the pulse as received, ready for every further capacitance.
//!
//! At each frequency it is a Möbius function of C times what is sent. With r divided out, and what is sent multiplied in,
//! (p + qC)/(1 + sC) is left. The coefficients are worked out once for a record and stand in one array for each of their
//! parts, so that a further capacitance is one pass over the frequencies without a branch or a call.

use num_complex::Complex64;

use crate::network::Mobius;

/// Harmonics of a pulse as functions of the capacitance.
#[derive(Debug, Default)]
pub(super) struct Received {
    p: Parts,
    q: Parts,
    s: Parts,
}

/// Real and imaginary parts of a coefficient, at one frequency after the other.
#[derive(Debug, Default)]
struct Parts {
    re: Vec<f64>,
    im: Vec<f64>,
}

impl Parts {
    fn push(&mut self, value: Complex64) {
        self.re.push(value.re);
        self.im.push(value.im);
    }

    fn first(&self, count: usize) -> (&[f64], &[f64]) {
        (&self.re[..count], &self.im[..count])
    }
}

impl Received {
    /// The harmonics of the chain's `transfer` times what is `sent`, from zero frequency up.
    pub(super) fn new(harmonics: impl Iterator<Item = (Mobius, Complex64)>) -> Received {
        let mut received = Received::default();
        for (transfer, sent) in harmonics {
            let sent_over_r = sent / transfer.r;
            received.p.push(transfer.p * sent_over_r);
            received.q.push(transfer.q * sent_over_r);
            received.s.push(transfer.s / transfer.r);
        }
        received
    }

    /// Writes the harmonics with `c` farad, finite, into `bins`; those beyond the highest known are zero.
    pub(super) fn write(&self, c: f64, bins: &mut [Complex64]) {
        let count = bins.len().min(self.p.re.len());
        let (known, rest) = bins.split_at_mut(count);
        let ((p_re, p_im), (q_re, q_im), (s_re, s_im)) =
            (self.p.first(count), self.q.first(count), self.s.first(count));
        for (k, bin) in known.iter_mut().enumerate() {
            let over = (p_re[k] + q_re[k] * c, p_im[k] + q_im[k] * c);
            let under = (1.0 + s_re[k] * c, s_im[k] * c);
            let scale = 1.0 / (under.0 * under.0 + under.1 * under.1);
            bin.re = (over.0 * under.0 + over.1 * under.1) * scale;
            bin.im = (over.1 * under.0 - over.0 * under.1) * scale;
        }
        rest.fill(Complex64::ZERO);
    }
}
