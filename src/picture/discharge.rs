//! What a contact discharge leaves at the chip: over time, and over its level.

use super::axis::Axis;
use super::canvas::{Drawing, Stroke};
use super::page::{area, beneath, page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::style::{AMBER, BLUE, GREEN, LIMIT, MARK, SLATE, several};
use crate::curve::{AtPin, ChartData, DischargeCurves, LevelCurve, Spot, Trail};
use crate::transient::{LATE, Sign};
use crate::units::{Volt, engineering};

/// Heights: of the voltages, of a row of currents below them, and of the panel over the level.
const VOLTS: [f64; 2] = [80.0, 262.0];
const AMPERES: f64 = 138.0;
const LEVELS: f64 = 148.0;
const BETWEEN: f64 = 16.0;
const FOOT: f64 = 58.0;
/// From the last panel over time to the one over the level.
const APART: f64 = 90.0;
/// Where the panel of the first nanoseconds ends, and where the other begins.
const FIRST_ENDS: f64 = 274.0;
const GAP: f64 = 58.0;
/// How much higher than the voltages at protector and pin that of the connector is shown, and how much higher than a curve
/// a limit.
const ABOVE: f64 = 3.0;
/// What of the generator's first peak is shown of a current at most: a part that nothing slows has none as it snaps back.
const PEAK_PER_VOLT: f64 = 1.1 * 3.73e-3;

/// The line of a peak over the level, and of the limit on it.
const PEAK: &[f64] = &[8.0, 3.0];

/// The line of what the chip stands over time: of the colour of its curve, since other curves may cross it.
const OF_CHIP: Stroke = Stroke::new(BLUE, 1.6, &[12.0, 3.0, 2.0, 3.0]);

/// A limit of the chip: its words and its value.
type Bound<'a> = Option<(&'a str, f64)>;

pub(crate) fn draw(data: &ChartData, found: &DischargeCurves) -> Drawing {
    let of = found.polarity.map_or("either polarity", Sign::word);
    let level = engineering(found.level_v, "V");
    let mut drawing = page(data, &format!("contact discharge of {level}, {of}, estimate"));
    beneath(&mut drawing, &facts(found));
    let has_levels = found.over_level.iter().all(|curve| curve.points.len() > 1);
    let survives = &found.survives;
    let named = |name, value: Option<f64>| value.map(|value| (name, value));
    let late_v = named("pin withstands", survives.late_v);
    // Without one of its own the first peak is held against that as well.
    let early_v = named("pin withstands", survives.early_v).or(late_v);
    let peak_a = named("chip survives", survives.peak_a).filter(|_| survives.clamps);
    let (chip, parts): (Vec<Trail>, Vec<Trail>) =
        found.amperes.iter().cloned().partition(|trail| trail.of == Spot::Chip);
    // What the chip survives stands beside its own current alone.
    let mut rows = vec![(parts, "into the parts", None), (chip, "into the chip", peak_a)];
    rows.retain(|(trails, ..)| !trails.is_empty());
    for (span, bound) in [(Span::First, early_v), (Span::Whole, late_v)] {
        voltages(&mut drawing, found, span, bound, rows.is_empty());
    }
    let mut bottom = VOLTS[1];
    let last = rows.len();
    for (row, (trails, what, bound)) in rows.iter().enumerate() {
        let heights = [bottom + BETWEEN, bottom + BETWEEN + AMPERES];
        for span in [Span::First, Span::Whole] {
            currents(&mut drawing, found, span, (trails, what, *bound), (heights, row + 1 == last));
        }
        bottom = heights[1];
    }
    if has_levels {
        let heights = [bottom + APART, bottom + APART + LEVELS];
        over_level(&mut drawing, found, heights);
        bottom = heights[1];
    }
    drawing.height = FOOT + bottom;
    let below = if found.polarity == Some(Sign::Negative) { "below ground is drawn upward  ·  " } else { "" };
    remark(
        &mut drawing,
        &format!("{below}straight lines for what conducts, lines without loss; the test on the built board decides"),
    );
    drawing
}

fn facts(found: &DischargeCurves) -> String {
    let [pin, worst] = &found.pin;
    let at_worst = |worst: String| match found.worst_level_v {
        level if level == found.level_v => String::new(),
        level => format!(" ({worst} at {})", volts(level)),
    };
    let mut facts = Vec::new();
    facts.push(format!("highest at the pin {}", volts(pin.peak.0)));
    if found.survives.clamps {
        let worst = at_worst(format!("{:.3}", worst.equivalent));
        facts.push(format!("into the chip {:.3}, as a pulse of 100 ns {:.3}{worst}", pin.peak_current, pin.equivalent));
    } else if let Some(first) = facts.first_mut() {
        first.push_str(&at_worst(volts(worst.peak.0)));
    }
    match found.turns_on_from_v {
        Some(Some(level)) => facts.push(format!("the protector conducts from {} on", volts(level))),
        Some(None) => facts.push("the protector never conducts".to_owned()),
        None => facts.push("no protector inward of the port plane".to_owned()),
    }
    if !found.settled {
        facts.push("not settled".to_owned());
    }
    facts.join("  ·  ")
}

/// A voltage of an estimate.
fn volts(value: f64) -> String {
    format!("{:.3}", Volt(value))
}

/// The stretch of time that a panel shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Span {
    First,
    Whole,
}

impl Span {
    fn area(self, [top, bottom]: [f64; 2]) -> Rect {
        let whole = area(top, bottom);
        match self {
            Span::First => Rect { right: FIRST_ENDS, ..whole },
            Span::Whole => Rect { left: FIRST_ENDS + GAP, ..whole },
        }
    }

    /// From when to when its ordinate shows everything: beside the first nanoseconds what follows them.
    fn judged(self, [first, last]: [f64; 2]) -> [f64; 2] {
        match self {
            Span::First => [0.0, first],
            Span::Whole => [first, last],
        }
    }

    fn axis(self, [first, last]: [f64; 2]) -> Axis {
        match self {
            Span::First => Axis::new("time", "s", 0.0, first, false).rounded(5),
            Span::Whole => Axis::new("time", "s", 0.0, last, false).rounded(6),
        }
    }
}

/// Voltages, with what the pin withstands.
fn voltages(drawing: &mut Drawing, found: &DischargeCurves, span: Span, bound: Bound<'_>, foot: bool) {
    let judged = span.judged(found.ends_s);
    let of_pin = reach(found.volts.iter().filter(|trail| trail.of != Spot::Connector), judged);
    let all = reach(found.volts.iter(), judged);
    let high = all[1].min(ABOVE * of_pin[1]).max(of_pin[1]);
    let axis = ordinate("voltage", "V", [all[0].max(-high), high], bound);
    let mut panel = Panel::new(span.area(VOLTS), span.axis(found.ends_s), axis, false);
    panel.frame(drawing, foot);
    let [first, last] = found.ends_s.map(|end| engineering(end, "s"));
    let cut = if all[1] > panel.y.range().1 { format!(" (connector up to {})", volts(all[1])) } else { String::new() };
    panel.head(match span {
        Span::First => format!("the first {first}{cut}"),
        Span::Whole => format!("the first {last}; what is higher before {first} is cut off"),
    });
    curves(&mut panel, drawing, (&found.volts, "at the "), (bound, "V"), judged, span);
    panel.finish(drawing);
}

/// A row of currents, with what the chip survives.
fn currents(
    drawing: &mut Drawing,
    found: &DischargeCurves,
    span: Span,
    (trails, what, bound): (&[Trail], &str, Bound<'_>),
    (heights, foot): ([f64; 2], bool),
) {
    let judged = span.judged(found.ends_s);
    let [low, high] = reach(trails.iter(), judged);
    let most = PEAK_PER_VOLT * found.level_v;
    let axis = ordinate(what, "A", [low.max(-most), high.min(most)], bound);
    let mut panel = Panel::new(span.area(heights), span.axis(found.ends_s), axis, false);
    panel.frame(drawing, foot);
    curves(&mut panel, drawing, (trails, ""), (bound, "A"), judged, span);
    panel.finish(drawing);
}

/// Least and greatest value of some curves between two instants, 0 included.
fn reach<'a>(trails: impl Iterator<Item = &'a Trail>, [from, to]: [f64; 2]) -> [f64; 2] {
    let points = trails.flat_map(|trail| &trail.points).filter(|point| (from..=to).contains(&point.0));
    points.fold([0.0, 0.0], |[low, high], (_, value)| [f64::min(low, *value), f64::max(high, *value)])
}

/// An axis for these values, and for a limit that is not far above them.
fn ordinate(what: &str, unit: &str, [low, high]: [f64; 2], bound: Bound<'_>) -> Axis {
    let bound = bound.map(|(_, value)| value).filter(|value| *value <= ABOVE * high);
    let high = bound.map_or(high, |value| high.max(1.08 * value));
    // A swing that does not show is none.
    let low = if low > -0.02 * high { 0.0 } else { low };
    Axis::new(what, unit, low, high, false).rounded(7)
}

/// The curves of a panel and a limit while it counts, with their names: beside the one of the whole time, or that of the
/// limit within.
fn curves(
    panel: &mut Panel,
    drawing: &mut Drawing,
    (trails, at): (&[Trail], &str),
    (bound, unit): (Bound<'_>, &str),
    [from, to]: [f64; 2],
    span: Span,
) {
    let line = |value| [(from, value), (to, value)];
    if let Some((_, value)) = bound {
        panel.curve(drawing, &line(value), OF_CHIP);
    }
    for (index, trail) in trails.iter().enumerate() {
        let stroke = stroke(trail.of, index);
        panel.curve(drawing, &trail.points, stroke);
        if span == Span::Whole {
            panel.name(&trail.points, name(trail.of, at), stroke);
        }
    }
    let Some((word, value)) = bound else { return };
    let (_, high) = panel.y.range();
    let name = bound_name(word, value, high, unit);
    match span {
        Span::Whole => panel.name(&line(value), name, OF_CHIP),
        Span::First => {
            let (x, y) = panel.place(((from + to) / 2.0, value.min(high)));
            panel.note(drawing, (x, if value > high { y + 14.0 } else { y - 10.0 }), &name, BLUE);
        }
    }
}

/// A limit as it is stated; one above the panel has an arrow.
fn bound_name(word: &str, value: f64, high: f64, unit: &str) -> String {
    let beyond = if value > high { " ↑" } else { "" };
    format!("{word} {}{beyond}", engineering(value, unit))
}

fn name(of: Spot, at: &str) -> String {
    match of {
        Spot::Connector => format!("{at}connector, struck"),
        Spot::Protector(number) => format!("{at}protector {number}"),
        Spot::Guard(number) => format!("{at}guard {number}"),
        Spot::Chip if at.is_empty() => "chip".to_owned(),
        Spot::Chip => format!("{at}pin"),
    }
}

fn stroke(of: Spot, index: usize) -> Stroke {
    match of {
        Spot::Chip => Stroke::new(BLUE, 2.2, &[]),
        Spot::Protector(_) => Stroke::new(AMBER, 1.8, &[10.0, 4.0]),
        Spot::Connector => Stroke::new(SLATE, 1.4, &[4.0, 3.0]),
        // The first of several is the line of a limit.
        Spot::Guard(_) => several(1 + index % 3),
    }
}

/// What the pin sees over the level.
fn over_level(drawing: &mut Drawing, found: &DischargeCurves, [top, bottom]: [f64; 2]) {
    let survives = &found.survives;
    let named = |name, value: Option<f64>| value.map(|value| (name, value));
    let later = format!("{} limit", later());
    let (what, unit, bounds) = if survives.clamps {
        let bounds = [named("100 ns limit", survives.pulse_a), named("highest limit", survives.peak_a)];
        ("current into the chip", "A", bounds)
    } else {
        let bounds = [named(later.as_str(), survives.late_v), named("highest limit", survives.early_v)];
        ("voltage at the pin", "V", bounds)
    };
    let points = || found.over_level.iter().flat_map(|curve| &curve.points);
    let [low, high] = [f64::min, f64::max].map(|end| points().map(|p| p.0).fold(found.level_v, end));
    let most = points().map(|point| point.1).fold(0.0, f64::max);
    let shown = bounds.iter().flatten().map(|bound| bound.1).filter(|value| *value <= ABOVE * most);
    let most = shown.fold(most, |most, value| most.max(1.08 * value));
    let x = Axis::new("level of the discharge", "V", low, high, true);
    let mut panel = Panel::new(area(top, bottom), x, Axis::new(what, unit, 0.0, most, false).rounded(4), false);
    panel.frame(drawing, true);
    // As the curves that they bound.
    let strokes = [LIMIT, Stroke { dashes: PEAK, ..LIMIT }];
    for ((word, value), stroke) in bounds.into_iter().zip(strokes).filter_map(|(bound, stroke)| Some((bound?, stroke)))
    {
        let line = [(low, value), (high, value)];
        panel.curve(drawing, &line, stroke);
        panel.name(&line, bound_name(word, value, panel.y.range().1, unit), stroke);
    }
    for curve in found.over_level.iter().rev() {
        let stroke = of_level(curve, found.polarity);
        panel.curve(drawing, &curve.points, stroke);
        panel.name(&curve.points, level_name(curve), stroke);
    }
    let mut marks = vec![(found.level_v, "stated")];
    if found.worst_level_v == found.level_v {
        marks[0].1 = "stated and worst";
    } else {
        marks.push((found.worst_level_v, "worst"));
    }
    marks.extend(found.turns_on_from_v.flatten().map(|level| (level, "protector conducts from")));
    for (level, word) in marks {
        panel.mark(drawing, level, format!("{word} {}", volts(level)), MARK);
    }
    panel.finish(drawing);
}

/// Solid is what lasts, broken the highest; the worse polarity has the colour of the pin.
fn of_level(curve: &LevelCurve, worse: Option<Sign>) -> Stroke {
    let lasts = matches!(curve.of, AtPin::Equivalent | AtPin::LateVoltage);
    match (lasts, curve.polarity == worse) {
        (true, true) => Stroke::new(BLUE, 2.2, &[]),
        (false, true) => Stroke::new(BLUE, 1.6, PEAK),
        (true, false) => Stroke::new(GREEN, 1.9, &[2.0, 2.5]),
        (false, false) => Stroke::new(GREEN, 1.4, &[9.0, 3.0, 2.0, 3.0]),
    }
}

/// What the voltage after the first peak is called.
fn later() -> String {
    format!("after {}", engineering(LATE.0, "s"))
}

fn level_name(curve: &LevelCurve) -> String {
    let what = match curve.of {
        AtPin::Equivalent => "100 ns pulse".to_owned(),
        AtPin::LateVoltage => later(),
        AtPin::PeakCurrent | AtPin::PeakVoltage => "highest".to_owned(),
    };
    curve.polarity.map_or(what.clone(), |sign| format!("{what}, {}", sign.word()))
}
