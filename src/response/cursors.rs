//! The values a pulse has at the sampling instants, and the pattern that is worst for them.

/// A pulse sampled once per unit interval at one phase: h_k is what a symbol sent k unit intervals earlier adds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cursors {
    /// h_−1, h_−2, …: of symbols sent later.
    pub before: Vec<f64>,
    /// h_0.
    pub main: f64,
    /// h_1, h_2, …: of symbols sent earlier, less what feedback cancels.
    pub after: Vec<f64>,
}

/// The pattern that leaves the top symbol lowest.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstPattern {
    /// Levels in the order they are sent, a digit each (hexadecimal), 0 the lowest.
    pub symbols: String,
    /// Index of the symbol that is judged.
    pub main: usize,
    /// Eye height left by this pattern and its opposite, relative to the ideal eye.
    pub opening: f64,
}

impl Cursors {
    /// Worst-pattern eye height h_0 − (M−1) Σ|h_k| for `levels` M, relative to the ideal eye of 1.
    ///
    /// # References
    /// B. Casper, M. Haycock, R. Mooney, *VLSI Circuits Symp.* 2002 (peak distortion), extended to M levels.
    ///
    /// # Example
    /// ```
    /// let cursors = lanecap::response::Cursors { before: vec![0.08, -0.02], main: 0.8, after: vec![0.15, -0.06, 0.04] };
    /// assert!((cursors.eye_height(2) - 0.45).abs() < 1e-12);
    /// ```
    pub fn eye_height(&self, levels: u32) -> f64 {
        let interference: f64 = self.before.iter().chain(&self.after).map(|h| h.abs()).sum();
        self.main - f64::from(levels.saturating_sub(1)) * interference
    }

    /// The worst pattern of `levels` levels, of at most `longest` symbols to either side of the one judged,
    /// without those that matter less than 0.001 of the main cursor.
    pub fn worst_pattern(&self, levels: u32, longest: usize) -> WorstPattern {
        let kept = |side: &[f64]| leading(side, longest, self.main.abs() * 1e-3);
        let window = Cursors { before: kept(&self.before), main: self.main, after: kept(&self.after) };
        let top = levels.saturating_sub(1);
        let digit = |level: u32| char::from_digit(level, 36).unwrap_or('?');
        let against = |h: &f64| digit(if *h > 0.0 { 0 } else { top });
        let mut symbols: String = window.after.iter().rev().map(against).collect();
        let main = symbols.len();
        symbols.push(digit(top));
        symbols.extend(window.before.iter().map(against));
        WorstPattern { symbols, main, opening: window.eye_height(levels) }
    }
}

/// The leading values of `side`, at most `longest`, up to the last that is at least `least` in size.
fn leading(side: &[f64], longest: usize, least: f64) -> Vec<f64> {
    let side = &side[..longest.min(side.len())];
    let reach = side.iter().rposition(|h| h.abs() >= least).map_or(0, |i| i + 1);
    side[..reach].to_vec()
}
