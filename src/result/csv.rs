//! The result as comma-separated values: one row per line of the port, SI units.

use super::feed::{FeedChanges, FeedMetrics, FeedReport};
use super::outcome::{AtBudget, Budget, Changes, Fitted, LaneReport, Metrics};
use super::report::Report;
use super::slow::{BusMetrics, BusReport, RailReport};
use crate::diag::inert;

/// The header and a row for each line, with every single value of the JSON; its lists are left out. The columns that only
/// feeds have are there where the report has one.
///
/// Keys of `absent`, `fitted`, `at_budget` and `budget` carry that word before them. What does not apply is an empty
/// cell. A text that a spreadsheet might take for a formula is guarded with an apostrophe.
pub(crate) fn render(report: &Report) -> String {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    let header = header(report);
    // Writing to memory cannot fail, and all rows are equally long.
    let _ = writer.write_record(&header);
    let lanes = report.lanes.iter().map(|lane| Row::of(|row| row.lane(Some(lane))));
    let buses = report.buses.iter().map(|bus| Row::of(|row| row.bus(Some(bus))));
    let rails = report.rails.iter().map(|rail| Row::of(|row| row.rail(Some(rail))));
    let feeds = report.feeds.iter().map(|feed| Row::of(|row| row.feed(Some(feed))));
    for row in lanes.chain(feeds).chain(buses).chain(rails) {
        let cell = |key: &String| row.0.iter().find(|(k, _)| k == key).map_or("", |(_, cell)| cell);
        let _ = writer.write_record(header.iter().map(cell));
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// The keys of every kind of line in the report, those of lanes where it has none at all.
fn header(report: &Report) -> Vec<String> {
    let mut rows = Vec::new();
    if !report.lanes.is_empty() || report.feeds.is_empty() && report.buses.is_empty() && report.rails.is_empty() {
        rows.push(Row::of(|row| row.lane(None)));
    }
    if !report.feeds.is_empty() {
        rows.push(Row::of(|row| row.feed(None)));
    }
    if !report.buses.is_empty() {
        rows.push(Row::of(|row| row.bus(None)));
    }
    if !report.rails.is_empty() {
        rows.push(Row::of(|row| row.rail(None)));
    }
    let mut header: Vec<String> = Vec::new();
    for (key, _) in rows.into_iter().flat_map(|row| row.0) {
        if !header.contains(&key) {
            header.push(key);
        }
    }
    header
}

/// Keys and cells in their order.
#[derive(Default)]
struct Row(Vec<(String, String)>);

impl Row {
    fn of(fill: impl FnOnce(&mut Row)) -> Row {
        let mut row = Row::default();
        fill(&mut row);
        row
    }

    /// Puts a cell under its key; a key that lanes and feeds share keeps its place.
    fn put(&mut self, prefix: &str, key: &str, cell: Option<String>) {
        let same = |k: &str| k.strip_prefix(prefix).is_some_and(|rest| rest == key);
        match self.0.iter_mut().find(|(k, _)| same(k)) {
            Some((_, known)) => {
                if let Some(cell) = cell {
                    *known = cell;
                }
            }
            None => self.0.push((format!("{prefix}{key}"), cell.unwrap_or_default())),
        }
    }

    fn text(&mut self, prefix: &str, key: &str, text: Option<&str>) {
        self.put(prefix, key, text.map(guarded));
    }

    fn numbers(&mut self, prefix: &str, numbers: &[(&str, Option<f64>)]) {
        for (key, number) in numbers {
            let finite = number.filter(|number| number.is_finite());
            self.put(prefix, key, finite.map(|number| format!("{number:?}")));
        }
    }

    fn lane(&mut self, lane: Option<&LaneReport>) {
        self.text("", "name", lane.map(|l| l.name.as_str()));
        self.text("", "port", lane.and_then(|l| l.port.as_deref()));
        self.put("", "count", lane.map(|l| l.count.to_string()));
        self.text("", "modulation", lane.map(|l| l.modulation));
        self.numbers(
            "",
            &[
                ("symbol_rate_bd", lane.map(|l| l.symbol_rate_bd)),
                ("nyquist_hz", lane.map(|l| l.nyquist_hz)),
                ("reference_ohm", lane.map(|l| l.reference_ohm)),
            ],
        );
        self.put("", "differential", lane.map(|l| l.differential.to_string()));
        self.text("", "port_plane", lane.map(|l| l.port_plane.as_str()));
        self.text("", "outer_end", lane.map(|l| l.outer_end));
        self.metrics("absent_", lane.map(|l| &l.absent));
        self.fitted(lane.and_then(|l| l.fitted.as_ref()));
        self.at_budget(lane.and_then(|l| l.at_budget.as_ref()));
        self.budget(lane.map(|l| &l.budget));
    }

    fn metrics(&mut self, prefix: &str, metrics: Option<&Metrics>) {
        self.numbers(
            prefix,
            &[
                ("insertion_loss_db", metrics.and_then(|m| m.insertion_loss_db)),
                ("return_loss_db", metrics.and_then(|m| m.return_loss_db)),
                ("reflection", metrics.map(|m| m.reflection)),
                ("return_loss_inner_db", metrics.and_then(|m| m.return_loss_inner_db)),
                ("nyquist_amplitude", metrics.map(|m| m.nyquist_amplitude)),
                ("eye_height", metrics.and_then(|m| m.eye_height)),
                ("eye_width_ui", metrics.and_then(|m| m.eye_width_ui)),
                ("rise_s", metrics.and_then(|m| m.rise_s)),
                ("impedance_dip_ohm", metrics.and_then(|m| m.impedance_dip_ohm)),
            ],
        );
    }

    fn changes(&mut self, prefix: &str, changes: Option<&Changes>) {
        self.numbers(
            prefix,
            &[
                ("added_loss_db", changes.and_then(|c| c.added_loss_db)),
                ("eye_penalty", changes.map(|c| c.eye_penalty)),
                ("worst_eye_penalty", changes.and_then(|c| c.worst_eye_penalty)),
                ("added_rise_s", changes.and_then(|c| c.added_rise_s)),
                ("mode_conversion_db", changes.and_then(|c| c.mode_conversion_db)),
                ("skew_s", changes.and_then(|c| c.skew_s)),
                ("droop", changes.and_then(|c| c.droop)),
            ],
        );
    }

    fn fitted(&mut self, fitted: Option<&Fitted>) {
        self.numbers("fitted_", &[("capacitance_f", fitted.map(|f| f.capacitance_f))]);
        self.metrics("fitted_", fitted.map(|f| &f.metrics));
        self.changes("fitted_", fitted.map(|f| &f.changes));
        self.put("fitted_", "holds", fitted.map(|f| f.holds.to_string()));
        self.text("fitted_", "part", fitted.and_then(|f| f.part.as_deref()));
    }

    fn at_budget(&mut self, at: Option<&AtBudget>) {
        self.numbers("at_budget_", &[("capacitance_f", at.map(|b| b.capacitance_f))]);
        self.metrics("at_budget_", at.map(|b| &b.metrics));
        self.changes("at_budget_", at.map(|b| &b.changes));
    }

    /// What a feed has beside the keys of a lane; those it shares stand in the lane's places.
    fn feed(&mut self, feed: Option<&FeedReport>) {
        self.text("", "name", feed.map(|f| f.name.as_str()));
        self.text("", "port", feed.and_then(|f| f.port.as_deref()));
        self.put("", "count", feed.map(|f| f.count.to_string()));
        self.numbers(
            "",
            &[
                ("reference_ohm", feed.map(|f| f.reference_ohm)),
                ("band_low_hz", feed.map(|f| f.band_hz[0])),
                ("band_high_hz", feed.map(|f| f.band_hz[1])),
            ],
        );
        self.match_over_band("absent_", feed.map(|f| &f.absent));
        let fitted = feed.and_then(|f| f.fitted.as_ref());
        self.numbers("fitted_", &[("capacitance_f", fitted.map(|f| f.capacitance_f))]);
        self.match_over_band("fitted_", fitted.map(|f| &f.metrics));
        self.feed_changes("fitted_", fitted.map(|f| &f.changes));
        self.put("fitted_", "holds", fitted.map(|f| f.holds.to_string()));
        self.text("fitted_", "part", fitted.and_then(|f| f.part.as_deref()));
        let at = feed.and_then(|f| f.at_budget.as_ref());
        self.numbers("at_budget_", &[("capacitance_f", at.map(|b| b.capacitance_f))]);
        self.match_over_band("at_budget_", at.map(|b| &b.metrics));
        self.feed_changes("at_budget_", at.map(|b| &b.changes));
        self.budget(feed.map(|f| &f.budget));
        let bound = feed.and_then(|f| f.bode_fano_return_loss_db);
        self.numbers("", &[("bode_fano_return_loss_db", bound)]);
    }

    fn match_over_band(&mut self, prefix: &str, metrics: Option<&FeedMetrics>) {
        self.numbers(
            prefix,
            &[
                ("return_loss_db", metrics.and_then(|m| m.return_loss_db)),
                ("reflection", metrics.map(|m| m.reflection)),
                ("vswr", metrics.and_then(|m| m.vswr)),
                ("mismatch_loss_db", metrics.and_then(|m| m.mismatch_loss_db)),
                ("transducer_loss_db", metrics.and_then(|m| m.transducer_loss_db)),
                ("resonance_hz", metrics.and_then(|m| m.resonance_hz)),
            ],
        );
    }

    fn feed_changes(&mut self, prefix: &str, changes: Option<&FeedChanges>) {
        let retune = changes.and_then(|c| c.retune.as_ref());
        self.numbers(
            prefix,
            &[
                ("added_loss_db", changes.and_then(|c| c.added_loss_db)),
                ("detuning_hz", changes.and_then(|c| c.detuning_hz)),
                ("retune_shunt_inductance_h", retune.map(|r| r.shunt_inductance_h)),
                ("retune_series_inductance_h", retune.map(|r| r.series_inductance_h)),
                ("retune_nearest_e24_h", retune.map(|r| r.nearest_e24_h)),
                ("retune_return_loss_db", retune.and_then(|r| r.return_loss_db)),
                ("retune_detuning_hz", retune.and_then(|r| r.detuning_hz)),
            ],
        );
        self.put(prefix, "retune_holds", retune.map(|r| r.holds.to_string()));
    }

    fn budget(&mut self, budget: Option<&Budget>) {
        self.text("budget_", "verdict", budget.map(|b| b.verdict));
        self.numbers(
            "budget_",
            &[("capacitance_f", budget.and_then(|b| b.capacitance_f)), ("lowest_f", budget.and_then(|b| b.lowest_f))],
        );
        self.text("budget_", "lowest_set_by", budget.and_then(|b| b.lowest_set_by));
        self.numbers(
            "budget_",
            &[
                ("across_pair_f", budget.and_then(|b| b.across_pair_f)),
                ("shop_for_f", budget.and_then(|b| b.shop_for_f)),
                ("without_footprint_f", budget.and_then(|b| b.without_footprint_f)),
            ],
        );
        self.text("budget_", "set_by", budget.and_then(|b| b.set_by));
        self.numbers("budget_", &[("set_at_hz", budget.and_then(|b| b.set_at_hz))]);
    }
}

impl Row {
    fn bus(&mut self, bus: Option<&BusReport>) {
        self.text("", "name", bus.map(|b| b.name.as_str()));
        self.text("", "port", bus.and_then(|b| b.port.as_deref()));
        self.put("", "count", bus.map(|b| b.count.to_string()));
        self.numbers(
            "",
            &[
                ("bit_rate_bps", bus.and_then(|b| b.bit_rate_bps)),
                ("resistance_ohm", bus.and_then(|b| b.resistance_ohm)),
                ("other_capacitance_f", bus.map(|b| b.other_capacitance_f)),
            ],
        );
        self.put("", "nodes", bus.map(|b| b.nodes.to_string()));
        self.bus_metrics("absent_", bus.map(|b| &b.absent));
        let fitted = bus.and_then(|b| b.fitted.as_ref());
        self.numbers("fitted_", &[("capacitance_f", fitted.map(|f| f.capacitance_f))]);
        self.bus_metrics("fitted_", fitted.map(|f| &f.metrics));
        self.put("fitted_", "holds", fitted.map(|f| f.holds.to_string()));
        self.text("fitted_", "part", fitted.and_then(|f| f.part.as_deref()));
        let at = bus.and_then(|b| b.at_budget.as_ref());
        self.numbers("at_budget_", &[("capacitance_f", at.map(|b| b.capacitance_f))]);
        self.bus_metrics("at_budget_", at.map(|b| &b.metrics));
        self.budget(bus.map(|b| &b.budget));
    }

    fn bus_metrics(&mut self, prefix: &str, metrics: Option<&BusMetrics>) {
        self.numbers(
            prefix,
            &[
                ("total_capacitance_f", metrics.map(|m| m.total_capacitance_f)),
                ("rise_s", metrics.and_then(|m| m.rise_s)),
                ("time_constant_s", metrics.and_then(|m| m.time_constant_s)),
                ("bandwidth_hz", metrics.and_then(|m| m.bandwidth_hz)),
            ],
        );
    }

    fn rail(&mut self, rail: Option<&RailReport>) {
        self.text("", "name", rail.map(|r| r.name.as_str()));
        self.text("", "port", rail.and_then(|r| r.port.as_deref()));
        self.put("", "count", rail.map(|r| r.count.to_string()));
        let volts = rail.and_then(|r| r.line_voltage_v);
        self.numbers(
            "",
            &[
                ("line_voltage_low_v", volts.map(|v| v.0)),
                ("line_voltage_high_v", volts.map(|v| v.1)),
                ("current_a", rail.and_then(|r| r.current_a)),
            ],
        );
        self.text("", "part", rail.and_then(|r| r.part.as_deref()));
        let failed = |r: &RailReport| r.checks.iter().filter(|check| check.verdict == "fails").count();
        self.put("", "checks_failed", rail.map(|r| failed(r).to_string()));
    }
}

/// The text made inert, and kept from being a formula.
pub(crate) fn guarded(text: &str) -> String {
    let guard = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    format!("{}{}", if guard { "'" } else { "" }, inert(text))
}
