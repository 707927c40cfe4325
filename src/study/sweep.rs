//! A line over the values of one or two of its addresses.

use crate::model::AddressedValue;

/// A value that is swept.
#[derive(Debug, Clone, PartialEq)]
pub struct Over {
    /// Which.
    pub of: AddressedValue,
    /// The first value, in SI.
    pub from: f64,
    /// The last one.
    pub to: f64,
}

impl Over {
    /// The values from the first to the last in so many even steps, both included.
    pub fn values(&self, steps: u32) -> Vec<f64> {
        let all = f64::from(steps.max(1));
        let at = |step: u32| (self.from * (all - f64::from(step)) + self.to * f64::from(step)) / all;
        // Both ends to the last bit.
        let inner = (1..steps).map(at);
        std::iter::once(self.from).chain(inner).chain([self.to]).collect()
    }
}

/// The values of each address at every setting: the first address moves slowest.
pub fn settings(over: &[Over], steps: u32) -> Vec<Vec<f64>> {
    let mut all: Vec<Vec<f64>> = vec![Vec::new()];
    for one in over {
        let values = one.values(steps);
        let longer = |at: &Vec<f64>| {
            let with = |value: &f64| at.iter().copied().chain([*value]).collect::<Vec<f64>>();
            values.iter().map(with).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(longer).collect();
    }
    all
}
