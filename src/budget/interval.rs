//! Sets of capacitances as unions of closed intervals.

/// All capacitances from `low` to `high` in farad, ends included; `high` may be infinite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Interval {
    /// Every capacitance.
    pub const ALL: Interval = Interval { low: 0.0, high: f64::INFINITY };

    /// Whether `c` lies within, the ends included.
    pub fn contains(&self, c: f64) -> bool {
        self.low <= c && c <= self.high
    }
}

/// Disjoint intervals, rising.
#[derive(Debug, Clone, PartialEq)]
pub struct IntervalSet {
    intervals: Vec<Interval>,
}

impl IntervalSet {
    /// Every capacitance.
    pub fn all() -> Self {
        IntervalSet { intervals: vec![Interval::ALL] }
    }

    /// No capacitance.
    pub fn none() -> Self {
        IntervalSet { intervals: Vec::new() }
    }

    /// The intervals, rising.
    pub fn intervals(&self) -> &[Interval] {
        &self.intervals
    }

    /// Lower and upper end of each, rising; an upper end of `None` is open.
    pub fn ends(&self) -> Vec<(f64, Option<f64>)> {
        self.intervals.iter().map(|i| (i.low, Some(i.high).filter(|high| high.is_finite()))).collect()
    }

    /// The interval that begins lowest.
    pub fn lowest(&self) -> Option<Interval> {
        self.intervals.first().copied()
    }

    /// Whether no capacitance is allowed.
    pub fn is_empty(&self) -> bool {
        self.intervals.is_empty()
    }

    /// Whether every capacitance is allowed.
    pub fn is_all(&self) -> bool {
        self.intervals == [Interval::ALL]
    }

    /// Whether `c` is allowed.
    pub fn contains(&self, c: f64) -> bool {
        self.intervals.iter().any(|i| i.contains(c))
    }

    /// Whether it lies within the one interval `other` is.
    pub(super) fn is_within(&self, other: &[Interval]) -> bool {
        let [other] = other else { return false };
        self.intervals.iter().all(|own| other.low <= own.low && own.high <= other.high)
    }

    /// What lies in both.
    pub fn intersect(&self, other: &[Interval]) -> IntervalSet {
        let mut intervals = Vec::with_capacity(self.intervals.len());
        intersect(&self.intervals, other, &mut intervals);
        IntervalSet { intervals }
    }
}

/// Appends to `both` what lies in both of these, each rising.
pub fn intersect(mine: &[Interval], theirs: &[Interval], both: &mut Vec<Interval>) {
    let (mut mine, mut theirs) = (mine.iter().peekable(), theirs.iter().peekable());
    while let (Some(a), Some(b)) = (mine.peek(), theirs.peek()) {
        let shared = Interval { low: a.low.max(b.low), high: a.high.min(b.high) };
        if shared.low <= shared.high {
            both.push(shared);
        }
        if a.high < b.high {
            mine.next();
        } else {
            theirs.next();
        }
    }
}

impl From<Vec<(f64, Option<f64>)>> for IntervalSet {
    fn from(intervals: Vec<(f64, Option<f64>)>) -> Self {
        let interval = |(low, high): (f64, Option<f64>)| Interval { low, high: high.unwrap_or(f64::INFINITY) };
        IntervalSet { intervals: intervals.into_iter().map(interval).collect() }
    }
}

impl From<&[Interval]> for IntervalSet {
    fn from(intervals: &[Interval]) -> Self {
        IntervalSet { intervals: intervals.to_vec() }
    }
}
