//! The table of what the signal meets: absent, fitted and at the budget.

use super::view::{Grid, shared_scale};
use crate::result::{Changes, LaneReport, Metrics};
use crate::units::decimal::{Scale, pair, short, significant};
use crate::words::limits::Capacitances;

/// One line at one capacitance.
struct State<'a> {
    lane: &'a LaneReport,
    name: &'static str,
    metrics: &'a Metrics,
    changes: Option<&'a Changes>,
}

/// A metric that has a column.
struct Column {
    title: &'static str,
    /// Power of ten from the SI value to the unit in the title.
    power: i32,
    /// The limit that bounds the same number.
    limit: &'static str,
    get: fn(&State) -> Option<f64>,
    /// What stands where there is no number.
    without: &'static str,
    always: bool,
}

const COLUMNS: [Column; 8] = [
    Column {
        title: "insertion loss [dB]",
        power: 0,
        limit: "insertion_loss",
        get: |state| state.metrics.insertion_loss_db,
        without: "nothing passes",
        always: true,
    },
    Column {
        title: "return loss [dB]",
        power: 0,
        limit: "return_loss",
        get: |state| state.metrics.return_loss_db,
        without: "no reflection",
        always: true,
    },
    Column {
        title: "eye penalty* [%]",
        power: 2,
        limit: "eye_penalty",
        get: |state| state.changes.map(|changes| changes.eye_penalty),
        without: "-",
        always: true,
    },
    Column {
        title: "eye height [%]",
        power: 2,
        limit: "eye_height",
        get: |state| state.metrics.eye_height,
        without: "-",
        always: false,
    },
    Column {
        title: "worst eye penalty [%]",
        power: 2,
        limit: "worst_eye_penalty",
        get: |state| state.changes.and_then(|changes| changes.worst_eye_penalty),
        without: "-",
        always: false,
    },
    Column {
        title: "rise [ps]",
        power: 12,
        limit: "rise_time",
        get: |state| state.metrics.rise_s,
        without: "-",
        always: false,
    },
    Column {
        title: "added rise [ps]",
        power: 12,
        limit: "added_rise",
        get: |state| state.changes.and_then(|changes| changes.added_rise_s),
        without: "-",
        always: false,
    },
    Column {
        title: "impedance dip [ohm]",
        power: 0,
        limit: "impedance_dip",
        get: |state| state.metrics.impedance_dip_ohm,
        without: "-",
        always: false,
    },
];

/// The tables, a row for each state of each line: at the Nyquist frequency, and in time where anything is known of it.
pub(crate) fn grids(lanes: &[LaneReport], capacitances: &[Capacitances], scale: Scale) -> Vec<Grid> {
    if lanes.is_empty() {
        return Vec::new();
    }
    let states: Vec<(State, &Capacitances)> = lanes
        .iter()
        .zip(capacitances)
        .flat_map(|(lane, c)| states(lane).into_iter().map(move |state| (state, c)))
        .collect();
    let known = |column: &&Column| states.iter().any(|(state, _)| (column.get)(state).is_some());
    let at_nyquist: Vec<&Column> = COLUMNS.iter().filter(|column| column.always).collect();
    let in_time: Vec<&Column> = COLUMNS.iter().filter(|column| !column.always).filter(known).collect();
    let mut grids = vec![grid("The signal at the Nyquist frequency", &states, &at_nyquist, scale, true)];
    if !in_time.is_empty() {
        grids.push(grid("The signal in time, worst pattern", &states, &in_time, scale, false));
    }
    grids
}

fn grid(
    title: &'static str,
    states: &[(State, &Capacitances)],
    columns: &[&Column],
    scale: Scale,
    with_rate: bool,
) -> Grid {
    let rate = shared_scale(states.iter().map(|(state, _)| state.lane.symbol_rate_bd));
    let nyquist = shared_scale(states.iter().map(|(state, _)| state.lane.nyquist_hz));
    let mut header = vec!["line".to_owned()];
    if with_rate {
        header.extend([format!("rate [{}Bd]", rate.prefix), format!("Nyquist [{}Hz]", nyquist.prefix)]);
    }
    header.extend(["protector".to_owned(), format!("C [{}F]", scale.prefix)]);
    header.extend(columns.iter().map(|column| column.title.to_owned()));
    let row = |(state, c): &(State, &Capacitances)| {
        let mut row = vec![state.lane.name.clone()];
        if with_rate {
            row.push(significant(state.lane.symbol_rate_bd / rate.factor, 6));
            row.push(significant(state.lane.nyquist_hz / nyquist.factor, 6));
        }
        row.extend([state.name.to_owned(), capacitance(state, c)]);
        row.extend(columns.iter().map(|column| cell(column, state)));
        row
    };
    Grid { title, header, rows: states.iter().map(row).collect() }
}

fn states(lane: &LaneReport) -> Vec<State<'_>> {
    let state = |name, metrics, changes| State { lane, name, metrics, changes };
    let fitted = lane.fitted.as_ref().map(|f| state("fitted", &f.metrics, Some(&f.changes)));
    let at_budget = lane.at_budget.as_ref().map(|b| state("at budget", &b.metrics, Some(&b.changes)));
    let absent = state("absent", &lane.absent, None);
    std::iter::once(absent).chain(fitted).chain(at_budget).collect()
}

fn capacitance(state: &State, c: &Capacitances) -> String {
    match state.name {
        "fitted" => c.fitted(),
        "at budget" => state.lane.at_budget.as_ref().map(|b| c.largest(b.capacitance_f)),
        _ => None,
    }
    .unwrap_or_else(|| "-".to_owned())
}

fn cell(column: &Column, state: &State) -> String {
    match (column.get)(state) {
        Some(value) => {
            let number = bound(column.limit, state).map_or_else(|| short(value), |bound| pair(value, bound).0);
            number.times_ten_to(column.power).to_string()
        }
        None => column.without.to_owned(),
    }
}

/// The bound at Nyquist that the number must not seem to cross. At the budget a number may lie on it to within the
/// solver's last digits, which are of no interest.
fn bound(limit: &str, state: &State) -> Option<f64> {
    match state.name {
        "fitted" => {
            let headroom = &state.lane.fitted.as_ref()?.headroom;
            headroom.iter().find(|h| h.limit == limit && h.at_hz.is_none())?.bound
        }
        "absent" => state.lane.budget.limits.iter().find(|l| l.limit == limit)?.bound,
        _ => None,
    }
}
