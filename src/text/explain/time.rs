//! The time domain: edge, cursors, worst pattern, rise, reflection profile.

use super::decision;
use super::write::{heading, say, state_row};
use crate::budget::{Fitted, LaneChanges, LaneFigures};
use crate::model::{Element, Lane, ProfileRead};
use crate::network::Chain;
use crate::response::{Case, Feedback, LaneTime, signal, skew_estimate, volts_per_eye};
use crate::result::{LaneResult, State};
use crate::units::decimal::engineering as si;
use crate::units::decimal::working::{picofarad, real};

/// Cursors shown before and after the main one.
const BEFORE: usize = 3;
const AFTER: usize = 8;
/// Symbols shown of the worst pattern.
const PATTERN: usize = 24;

pub(crate) fn working(text: &mut String, lane: &Lane, chain: &Chain, result: &LaneResult) {
    heading(text, "8  Time domain", '-');
    let signal = signal(lane);
    let (symbol, rise, sigma) = (si(signal.symbol_s, "s"), si(signal.rise_s, "s"), si(signal.sigma_s(), "s"));
    say!(text, "  T = 1/f_s = {symbol}; Gaussian edge, 10-90 % in {rise}, sigma = t_r/2.563103 = {sigma}");
    if let Some(taps) = signal.taps {
        say!(text, "  transmit taps {} {} {}", real(taps.pre), real(taps.main), real(taps.post));
    }
    if let Some(ctle) = signal.ctle {
        let (g, f_z) = (real(ctle.gain_db), si(ctle.zero_hz, "Hz"));
        let (f_p1, f_p2) = (si(ctle.poles_hz.0, "Hz"), si(ctle.poles_hz.1, "Hz"));
        say!(
            text,
            "  CTLE (10^(g/20) + jf/f_z)/((1 + jf/f_p1)(1 + jf/f_p2)), g = {g} dB, f_z = {f_z}, f_p1 = {f_p1}, f_p2 = {f_p2}"
        );
    }
    let Feedback { taps, limit } = signal.dfe;
    if taps > 0 {
        let most = if limit.is_finite() { format!(", each by at most {} h_0", real(limit)) } else { String::new() };
        say!(text, "  decision feedback cancels the first {taps} cursors after the main one, at the best phase{most}");
    }
    let m = signal.levels;
    say!(
        text,
        "  Pulse of one symbol by inverse FFT of symbol, edge and H(f); cursors h_k = p(t + kT) at the best phase t;"
    );
    say!(
        text,
        "  worst-pattern eye height EH = h_0 - (M - 1) sum |h_k| - tail, M - 1 = {}, over the whole record.",
        m - 1
    );
    let mut time = LaneTime::new(lane, chain);
    for state in result.states() {
        pulse(text, &mut time, lane, &state);
    }
    if let Some(fitted) = result.fitted() {
        changes(text, lane, fitted);
    }
}

fn pulse(text: &mut String, time: &mut LaneTime, lane: &Lane, state: &State<LaneFigures, LaneChanges>) {
    state_row(text, state);
    let case = state.capacitance.map_or(Case::Absent, |c| Case::With(c.0));
    let signal = signal(lane);
    if let Ok((eye, pulse)) = time.domain().eye(case) {
        let cursors = pulse.cursors(eye.at_s, &eye.taps);
        let mut shown: Vec<String> = cursors.before.iter().take(BEFORE).rev().map(|h| format!("{h:.5}")).collect();
        shown.push(format!("[{:.5}]", cursors.main));
        shown.extend(cursors.after.iter().take(AFTER).map(|h| format!("{h:.5}")));
        say!(text, "    cursors around the main one: {}", shown.join(" "));
        let rest: f64 = cursors.before.iter().chain(&cursors.after).map(|h| h.abs()).sum();
        let (h_0, sum, tail) = (real(cursors.main), real(rest), real(eye.tail));
        let (eh, width, weight) = (real(eye.height), real(eye.width_ui), signal.levels - 1);
        say!(
            text,
            "    h_0 = {h_0}, sum |h_k| = {sum}; tail that comes round in a record of {} UI: {tail}",
            eye.record
        );
        say!(text, "    EH = h_0 - {weight} sum |h_k| - tail = {eh} of the ideal eye, width {width} UI");
        let worst = cursors.worst_pattern(signal.levels, PATTERN);
        let (symbols, main, open) = (&worst.symbols, worst.main + 1, real(worst.opening));
        say!(text, "    worst pattern {symbols} (its symbol {main} is judged): opening {open} within these symbols");
        if let Some(volts) = volts_per_eye(lane) {
            let (all, open) = (real(volts), real(eye.height * volts));
            say!(text, "    eye opening at the receiver: EH x {all} V = {open} V");
        }
    }
    if let Some(rise) = state.figures.time.rise {
        say!(text, "    10-90 % rise of the step at the receiver: {}", si(rise, "s"));
    }
    if let Some(dip) = state.figures.time.impedance_dip {
        let at = seen_at(lane, time, case).map(|(t, place)| format!(" {} after the edge enters{place}", si(t, "s")));
        say!(text, "    lowest impedance of the reflection profile: {} ohm{}", real(dip), at.unwrap_or_default());
    }
}

/// When the lowest impedance is seen, in second after the middle of the edge, and the element that makes it: the protector
/// where at least half of the dip is not there without it, else by the delay.
fn seen_at(lane: &Lane, time: &mut LaneTime, case: Case) -> Option<(f64, String)> {
    let with = time.profile(case, &ProfileRead::default()).ok()?.dip;
    let absent = time.profile(Case::Absent, &ProfileRead::default()).ok()?.reflection.at(with.at_s);
    if case != Case::Absent && with.reflection < 0.0 && absent > 0.5 * with.reflection {
        let number = lane.path.elements.get(lane.path.protector_index())?.number;
        return Some((with.at_s, format!(", made by element {number}, protector")));
    }
    Some((with.at_s, place(lane, time, with.at_s)))
}

/// The element that a reflection comes from, by the delay of the lines on the way there and back.
fn place(lane: &Lane, time: &LaneTime, at: f64) -> String {
    let elements = &lane.path.elements;
    let outermost = time.reference_plane().element();
    let from = elements.iter().position(|e| Some(e.number) == outermost).unwrap_or(0);
    let mut delay = 0.0;
    let mut nearest: Option<(f64, String)> = None;
    for element in &elements[from..] {
        let own = match &element.element {
            Element::Line(line) => line.length.0 * line.permittivity.sqrt() / crate::units::SPEED_OF_LIGHT,
            _ => 0.0,
        };
        // A line is met all along, the others at one place.
        let distance = if own > 0.0 {
            (delay - at / 2.0).max(at / 2.0 - delay - own).max(0.0) + own * 1e-3
        } else {
            (delay - at / 2.0).abs()
        };
        if nearest.as_ref().is_none_or(|(best, _)| distance < *best) {
            nearest = Some((distance, format!(", near element {}, {}", element.number, element.element.word())));
        }
        delay += own;
    }
    nearest.map_or(String::new(), |(_, text)| text)
}

fn changes(text: &mut String, lane: &Lane, fitted: &Fitted<LaneFigures, LaneChanges>) {
    let changes = &fitted.at.changes;
    if let Some(penalty) = changes.time.worst_eye_penalty {
        say!(text, "  worst-pattern 1 - EH/EH(absent): {}", decision::penalty(penalty));
    }
    if let Some(rise) = changes.time.added_rise {
        say!(text, "  added rise = {}", si(rise.0, "s"));
    }
    if let Some(droop) = changes.droop {
        say!(text, "  droop over five symbols = sum 5T/tau = {} %", real(droop * 100.0));
    }
    let mismatch = lane.path.protector().and_then(|p| p.mismatch);
    if let (Some(unlike), Some(mismatch)) = (changes.unlike, mismatch) {
        let difference = mismatch.at(fitted.at.capacitance.0);
        say!(text, "  lines of C +- dC/2, dC = {}: S_cd21 = (S21(C + dC/2) - S21(C - dC/2))/2", picofarad(difference));
        if let Some(conversion) = unlike.conversion {
            say!(text, "    mode conversion {} dB at f_N", real(conversion));
        }
        if let Some(reflected) = unlike.reflected {
            say!(text, "    reflected at the port plane, with S11 in the place of S21: {} dB", real(reflected));
        }
        let (skew, estimate) = (si(unlike.skew.0, "s"), si(skew_estimate(lane.half_reference().0, difference), "s"));
        say!(text, "    added skew {skew} (difference of the phase delays; about Z_ref dC/2 = {estimate})");
    }
}
