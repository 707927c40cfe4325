//! Results as typed data, and their JSON and CSV: one walk over their keys writes both.

#[cfg(feature = "cli")]
mod asked_keys;
mod cautions;
#[cfg(feature = "cli")]
pub(crate) mod csv;
mod diagnostics;
mod discharge;
#[cfg(feature = "cli")]
mod discharge_keys;
mod discharges;
mod feed;
pub(crate) mod json;
mod keys;
mod lane;
mod line;
mod many;
mod outcome;
mod pick;
#[cfg(feature = "cli")]
mod pick_keys;
mod range;
mod remarks;
mod report;
mod sensitivity;
mod sized;
mod slow;
mod sweep;
mod tolerance;

#[cfg(feature = "cli")]
pub(crate) use asked_keys::{range_csv, range_json, sensitivity_csv, sensitivity_json, sweep_csv, sweep_json};
pub use cautions::CAUTIONS;
pub use diagnostics::{counted_diagnostics_json, diagnostics_json};
#[cfg(feature = "cli")]
pub(crate) use discharge::peak_of;
#[cfg(feature = "cli")]
pub(crate) use discharge_keys::{discharge_csv, discharge_json};
#[cfg(feature = "cli")]
pub(crate) use discharges::settled;
pub use discharges::{DISCHARGE_CAUTIONS, DischargeReport, DischargedLine, NoDischarge, discharges};
pub use feed::{FeedAbout, FeedResult};
pub use lane::{LaneAbout, LaneResult};
pub(crate) use line::tightest;
pub use line::{LineHead, LineResult, Note, Protector, Sizes, State, Stated};
pub use many::{LineDone, size};
pub(crate) use many::{chosen, each_line, report};
pub(crate) use pick::pick_with;
pub use pick::{BillReport, LinePickReport, PackagesReport, PartPickReport, PickReport, ShareReport, pick};
#[cfg(feature = "cli")]
pub(crate) use pick_keys::{pick_csv, pick_json};
pub use range::RangeReport;
pub use report::{Report, SCHEMA};
pub use sensitivity::{SensitiveLine, SensitivityReport, sensitivity};
pub use sized::Wanted;
pub(crate) use sized::{SizedLine, size_line, size_line_with};
pub use slow::{BusAbout, BusResult, RailResult};
pub use sweep::{NotSwept, SweepReport, SweptLine, SweptPoint, sweep};
