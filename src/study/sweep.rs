//! A line over the values of one or two of its addresses.

use std::fmt;

use crate::model::{AddressedValue, Line};
use crate::resolve::SetFault;

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

/// A line at one setting.
#[derive(Debug, Clone)]
pub struct Setting {
    /// The value of each address.
    pub at: Vec<f64>,
    /// The line with these.
    pub line: Line,
}

/// A setting of which no line can be made.
#[derive(Debug, Clone, PartialEq)]
pub struct NoSetting {
    /// The value of each address.
    pub at: Vec<f64>,
    /// Why.
    pub fault: Box<SetFault>,
}

impl fmt::Display for NoSetting {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.fault)
    }
}

impl std::error::Error for NoSetting {}

/// The line at every setting: the first address moves slowest.
///
/// # Errors
/// The first setting of which no line can be made.
pub fn settings(line: &Line, over: &[Over], steps: u32) -> Result<Vec<Setting>, NoSetting> {
    let mut all: Vec<Vec<f64>> = vec![Vec::new()];
    for one in over {
        let values = one.values(steps);
        let longer = |at: &Vec<f64>| {
            let with = |value: &f64| at.iter().copied().chain([*value]).collect::<Vec<f64>>();
            values.iter().map(with).collect::<Vec<_>>()
        };
        all = all.iter().flat_map(longer).collect();
    }
    let made = |at: Vec<f64>| {
        let values = over.iter().zip(&at).map(|(one, value)| (&one.of.address, *value));
        match line.with_values(values) {
            Ok(line) => Ok(Setting { at, line }),
            Err(fault) => Err(NoSetting { at, fault: Box::new(fault) }),
        }
    };
    all.into_iter().map(made).collect()
}
