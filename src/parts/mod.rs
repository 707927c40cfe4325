//! Parts: whether one survives on a line and protects it, which is best for a line, and what a port's parts cost.
//!
//! A line says what it asks for ([`Duty`]), a part what it states ([`Part`](crate::model::Part)); [`checks`] compares the
//! two,
//! [`recommend`] picks one part for a line, [`bill`] the cheapest packages for all lines of a port.

mod bill;
mod check;
mod choice;
mod discharges;
mod duty;
mod pick;

pub use bill::{Bill, BillLine, BillPart, Fit, Packages, Share, bill};
pub use check::{
    Check, Checks, Fitted, Verdict, capacitance_check, checks, clamping_voltage, contact_current_30ns,
    contact_first_peak, line_checks,
};
pub(crate) use check::{apart, discharge_checks, fails_already, left_at_pin};
pub use choice::{Candidate, Choice, Stopped, closest, cost_per_line, passes, recommend, smallest_margin};
pub(crate) use discharges::Discharges;
pub use duty::{Duty, Footprint, Supply};
pub(crate) use pick::pick_line_with;
pub use pick::{LinePick, PartPick, bill_of_recommended, pick_line, port_bill};
