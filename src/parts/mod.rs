//! Parts: whether one survives on a line and protects it, which is best for a line, and what a port's parts cost.
//!
//! A line says what it asks for ([`Demand`]), a part what it states ([`Rating`]); [`checks`] compares the two,
//! [`recommend`] picks one part for a line, [`bill`] the cheapest packages for all lines of a port.

mod bill;
mod check;
mod choice;
mod demand;
mod line;
mod pick;
mod rating;

pub use crate::model::{ClampPoint, Leakage, Needs, TemperatureRange};
pub use bill::{Bill, BillLine, BillPart, Fit, Packages, Share, bill};
pub use check::{
    Check, Checks, Verdict, capacitance_check, checks, clamping_voltage, contact_current_30ns, contact_first_peak,
};
pub use choice::{Candidate, Choice, Stopped, cost_per_line, passes, recommend, smallest_margin};
pub use demand::{Demand, Footprint};
pub use pick::{LinePick, PartPick, pick_line, port_bill};
pub use rating::Rating;
