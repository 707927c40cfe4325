//! The working of one lane, so that every number can be checked by hand.

use super::write::{Last, finish, heading, say, titled};
use super::{circuit, decision, slow, time};
use crate::model::Lane;
use crate::network::Chain;
use crate::result::LaneResult;
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::real;

/// The working as text: symbols, half circuit, elements, chain, Möbius coefficients, limits, budget, figures.
///
/// `result` is what was found of the same lane.
pub(crate) fn explain(lane: &Lane, result: &LaneResult, last: &Last<'_>) -> String {
    let chain = Chain::new(lane);
    let mut text = titled(&result.head.name);
    symbols(&mut text, lane);
    circuit::of_line(&mut text, last.values);
    circuit::half_circuit(&mut text, lane, &chain);
    let frame = circuit::Frame {
        values: last.values,
        across: lane.across_factor(),
        reference: lane.half_reference(),
        frequency: lane.nyquist(),
    };
    circuit::elements(&mut text, &lane.path, &frame, "3  Elements at f_N, from the outer end in");
    circuit::chain(&mut text, lane, &chain);
    decision::limits(&mut text, lane, &result.outcome, &chain);
    decision::budget(&mut text, result.budget());
    decision::figures(&mut text, lane, &chain, result);
    time::working(&mut text, lane, &chain, result);
    slow::checks(&mut text, result.fitted().map_or(&[], |_| &result.head.checks));
    finish(&mut text, &result.head, last);
    text
}

fn symbols(text: &mut String, lane: &Lane) {
    heading(text, "1  Symbols", '-');
    let (rate, modulation) = (si(lane.symbol_rate.0, "Bd"), lane.modulation);
    say!(text, "  f_s = {rate}, {}, M = {} levels", modulation.word(), modulation.levels());
    say!(text, "  Nyquist frequency f_N = f_s/2 = {}", si(lane.nyquist().0, "Hz"));
    say!(text, "  omega = 2 pi f_N = {} rad/s", real(std::f64::consts::TAU * lane.nyquist().0));
}
