//! The tables of the figures of lanes, feeds and buses.

use super::grid::Grid;
use super::scale::shared_scale;
use super::states::{Column, Own, grid, scale_of};
use crate::figures::*;
use crate::result::{BusResult, FeedResult, LaneResult};
use crate::units::decimal::{Scale, significant};
use crate::words::limits::Capacitances;

/// What a lane's signal meets at the Nyquist frequency.
static AT_NYQUIST: [&Figure; 3] = [&INSERTION_LOSS, &RETURN_LOSS, &EYE_PENALTY];
/// Of losses and shares in time; the times between them are shown in one unit, that of the rise times.
static IN_TIME: [&Figure; 5] = [&EYE_HEIGHT, &RISE, &ADDED_RISE, &IMPEDANCE_DIP, &IMPEDANCE_EXCURSION];

/// The tables of lanes: at the Nyquist frequency, and in time where anything is known of it.
pub(crate) fn lanes(lanes: &[LaneResult], capacitances: (Scale, &[Capacitances])) -> Vec<Grid> {
    if lanes.is_empty() {
        return Vec::new();
    }
    let of_states = |value: fn(&LaneResult) -> f64| {
        shared_scale(lanes.iter().flat_map(move |lane| lane.states().map(move |_| value(lane))))
    };
    let rate = of_states(|lane| lane.about.symbol_rate.0);
    let nyquist = of_states(|lane| lane.about.symbol_rate.nyquist().0);
    let own = [
        Own {
            title: format!("rate [{}Bd]", rate.prefix),
            cell: &|lane: &LaneResult| significant(lane.about.symbol_rate.0 / rate.factor, 6),
        },
        Own {
            title: format!("Nyquist [{}Hz]", nyquist.prefix),
            cell: &|lane: &LaneResult| significant(lane.about.symbol_rate.nyquist().0 / nyquist.factor, 6),
        },
    ];
    // The penalty of the worst pattern stands beside the one at Nyquist.
    let worst = Some(Column::of(&WORST_EYE_PENALTY)).filter(|column| column.is_known(lanes));
    let columns: Vec<Column> = AT_NYQUIST.map(Column::of).into_iter().chain(worst).collect();
    let mut grids = vec![grid(("The signal at the Nyquist frequency", "line"), lanes, capacitances, &own, &columns)];
    let time = Some(scale_of(&RISE, lanes)).filter(|scale| scale.factor < 1.0).unwrap_or(Scale::of(1e-12));
    let in_time = IN_TIME.map(|figure| match figure.unit() {
        "s" => Column::scaled(figure, time),
        _ => Column::of(figure),
    });
    let known: Vec<Column> = in_time.into_iter().filter(|column| column.is_known(lanes)).collect();
    if !known.is_empty() {
        grids.push(grid(("The signal in time, worst pattern", "line"), lanes, capacitances, &[], &known));
    }
    grids
}

/// The table of the match over the band; none without feeds.
pub(crate) fn feeds(feeds: &[FeedResult], capacitances: (Scale, &[Capacitances])) -> Option<Grid> {
    if feeds.is_empty() {
        return None;
    }
    let ends = |feed: &FeedResult| [feed.about.band.low.0, feed.about.band.high.0];
    let band = shared_scale(feeds.iter().flat_map(ends));
    let own = Own {
        title: format!("band [{}Hz]", band.prefix),
        cell: &|feed: &FeedResult| ends(feed).map(|f| significant(f / band.factor, 6)).join("–"),
    };
    let columns = [
        Column::of(&RETURN_LOSS),
        Column::of(&VSWR),
        Column::of(&MISMATCH_LOSS),
        Column::of(&ADDED_LOSS).digits(4),
        Column::scaled(&RESONANCE, band).digits(7),
        Column::scaled(&DETUNING, Scale::of(1e6)).digits(4),
    ];
    Some(grid(("The match over the band, at its worst", "line"), feeds, capacitances, &[own], &columns))
}

/// The table of what buses charge; none without buses.
pub(crate) fn buses(buses: &[BusResult], capacitances: (Scale, &[Capacitances])) -> Option<Grid> {
    if buses.is_empty() {
        return None;
    }
    let columns = [
        Column::shared(&TOTAL_CAPACITANCE, buses),
        Column::shared(&BUS_RISE, buses),
        Column::scaled(&TIME_CONSTANT, scale_of(&BUS_RISE, buses)),
        Column::shared(&BANDWIDTH, buses),
    ];
    Some(grid(("Buses: what they charge", "bus"), buses, capacitances, &[], &columns))
}
