//! The share of settings of a line that allow a capacitance.

/// The share of settings that allow a capacitance.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareCurve {
    /// The share against farad.
    pub points: Vec<(f64, f64)>,
    /// The budget at the values of the sheet.
    pub nominal_f: Option<f64>,
    /// The budget of the worst case.
    pub worst_f: Option<f64>,
    /// The largest capacitance up to which 99.7 % of the settings allow each.
    pub budget_997_f: Option<f64>,
    /// How many settings were drawn, and with which seed.
    pub drawn: [u32; 2],
}
