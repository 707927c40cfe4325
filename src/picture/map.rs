//! The budget over two values, with lines of equal budget.

use std::collections::VecDeque;

use super::axis::Axis;
use super::canvas::{Colour, Drawing, Stroke};
use super::page::{area, page, remark};
use super::panel::Panel;
use super::place::Rect;
use super::style::{AMBER, BLUE, HEIGHT, MARK, PLUM, TEAL, WIDTH, capacitances};
use super::swept::{axis, named_axis};
use crate::curve::{ChartData, SweptAt, SweptMap};

/// Lines of equal budget, about.
const LEVELS: usize = 6;
/// Length below which a line of equal budget has no name of its own.
const SHORT: f64 = 60.0;
/// Room to the right of the frame, for half of the last tick.
const RIGHT: f64 = 30.0;
const LINE: Stroke = Stroke::new(Colour::INK, 1.2, &[]);

type Point = (f64, f64);

pub(crate) fn draw(data: &ChartData, map: &SweptMap) -> Drawing {
    let [slow, fast] = &map.over;
    let mut drawing = page(data, &format!("the budget over {} and {}", named_axis(slow), named_axis(fast)));
    let area = Rect { right: WIDTH - RIGHT, ..area(66.0, HEIGHT - 64.0) };
    let mut panel = Panel::new(area, axis(slow), axis(fast), false);
    let budgets = map.at.iter().filter_map(|at| at.budget_f);
    let (least, most) = budgets.fold((f64::INFINITY, 0.0), |(low, high): (f64, f64), c| (low.min(c), high.max(c)));
    cells(&panel, &mut drawing, map, (least, most));
    panel.frame(&mut drawing, true);
    if most > least {
        let scale = Axis::new("budget", "F", least, most, false);
        let unit = scale.label.trim_start_matches("budget [").trim_end_matches(']').to_owned();
        let levels = scale.ticks(LEVELS).into_iter();
        let mut lines: Vec<(f64, String, Stroke)> =
            levels.map(|(level, text)| (level, format!("{} {unit}", text.unwrap_or_default()), LINE)).collect();
        if let Some(fitted) = data.fitted_f {
            let c = capacitances(data);
            let name = format!("fitted {} {}", c.fitted().unwrap_or_default(), c.unit());
            lines.push((fitted, name, Stroke::new(BLUE, 2.0, &[2.0, 2.5])));
        }
        let mut names = Vec::new();
        for (level, name, stroke) in lines {
            let chains = chained(contour(map, level));
            for chain in &chains {
                panel.curve(&mut drawing, chain, stroke);
            }
            names.extend(named(&panel, &chains).into_iter().map(|chain| (chain, name.clone(), stroke.colour)));
        }
        // What is written last may find no room: the fitted one first.
        for (chain, name, colour) in names.into_iter().rev() {
            panel.note_on(&mut drawing, &chain, &name, colour);
        }
    }
    let within = |range: (f64, f64), value: f64| (range.0..=range.1).contains(&value);
    if let Some((x, y)) = slow.nominal.zip(fast.nominal)
        && within(panel.x.range(), x)
        && within(panel.y.range(), y)
    {
        panel.upright(&mut drawing, x, MARK);
        let (low, high) = panel.x.range();
        panel.curve(&mut drawing, &[(low, y), (high, y)], MARK);
        let near = panel.place((x, y));
        panel.note(&mut drawing, near, "as stated", Colour::INK);
    }
    let has = |of: &dyn Fn(&SweptAt) -> bool| map.at.iter().any(of);
    let told = [
        (has(&|at| at.budget_f.is_none() && at.lowest_f.is_none()), "grey: no capacitance is allowed"),
        (has(&|at| at.budget_f.is_none() && at.lowest_f.is_some()), "amber: any capacitance is allowed"),
        (has(&|at| at.holds == Some(false)), "plum: what is fitted breaks a limit"),
    ];
    let said: String = told.iter().filter(|own| own.0).map(|own| format!("  ·  {}", own.1)).collect();
    remark(&mut drawing, &format!("lines of equal budget; the more of it, the darker{said}"));
    drawing
}

/// Segments that touch, one after the other.
fn chained(mut segments: Vec<[Point; 2]>) -> Vec<Vec<Point>> {
    let mut chains = Vec::new();
    while let Some([first, second]) = segments.pop() {
        let mut chain = VecDeque::from([first, second]);
        while let (Some(front), Some(back)) = (chain.front().copied(), chain.back().copied()) {
            let touches = |end: Point| segments.iter().position(|segment| segment.contains(&end));
            if let Some(next) = touches(back) {
                let [a, b] = segments.swap_remove(next);
                chain.push_back(if a == back { b } else { a });
            } else if let Some(next) = touches(front) {
                let [a, b] = segments.swap_remove(next);
                chain.push_front(if a == front { b } else { a });
            } else {
                break;
            }
        }
        chains.push(chain.into());
    }
    chains
}

/// The places of each chain that is not short, from its middle on outwards; of short ones alone those of the first.
fn named(panel: &Panel, chains: &[Vec<Point>]) -> Vec<Vec<Point>> {
    let placed = chains.iter().map(|chain| chain.iter().map(|point| panel.place(*point)).collect::<Vec<_>>());
    let (mut long, short): (Vec<Vec<Point>>, Vec<Vec<Point>>) = placed.partition(|chain| {
        chain.windows(2).map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1)).sum::<f64>() >= SHORT
    });
    if long.is_empty() {
        long.extend(short.into_iter().next());
    }
    let outwards = |chain: Vec<Point>| {
        let middle = chain.len() / 2;
        let mut indexed: Vec<(usize, Point)> = chain.into_iter().enumerate().collect();
        indexed.sort_by_key(|(index, _)| index.abs_diff(middle));
        indexed.into_iter().map(|(_, point)| point).collect()
    };
    long.into_iter().map(outwards).collect()
}

/// The ground around each setting.
fn cells(panel: &Panel, drawing: &mut Drawing, map: &SweptMap, (least, most): (f64, f64)) {
    let [slow, fast] = &map.over;
    let middle = |values: &[f64], index: usize| {
        let at = |index: usize| values.get(index).copied();
        let here = at(index).unwrap_or(0.0);
        let low = index.checked_sub(1).and_then(at).map_or(here, |other| (here + other) / 2.0);
        (low, at(index + 1).map_or(here, |other| (here + other) / 2.0))
    };
    for (i, _) in slow.values.iter().enumerate() {
        for (j, _) in fast.values.iter().enumerate() {
            let Some(at) = map.at.get(i * fast.values.len() + j) else { continue };
            let ((left, right), (low, high)) = (middle(&slow.values, i), middle(&fast.values, j));
            let ((left, bottom), (right, top)) = (panel.place((left, low)), panel.place((right, high)));
            let share = at.budget_f.map(|c| if most > least { (c - least) / (most - least) } else { 0.5 });
            let colour = match (share, at.holds) {
                (_, Some(false)) => PLUM.faint(0.1 + 0.25 * (1.0 - share.unwrap_or(0.0))),
                (Some(share), _) => TEAL.faint(0.08 + 0.5 * share),
                (None, _) if at.lowest_f.is_some() => AMBER.faint(0.2),
                (None, _) => Colour::INK.faint(0.15),
            };
            drawing.area(Rect { left, top, right, bottom }.corners(), colour);
        }
    }
}

/// Where the budget is `level`, cell by cell between four settings with a budget each.
fn contour(map: &SweptMap, level: f64) -> Vec<[Point; 2]> {
    let [slow, fast] = &map.over;
    let at = |i: usize, j: usize| {
        let (x, y) = (slow.values.get(i).copied()?, fast.values.get(j).copied()?);
        Some(((x, y), map.at.get(i * fast.values.len() + j)?.budget_f? - level))
    };
    let mut segments = Vec::new();
    for i in 0..slow.values.len() {
        for j in 0..fast.values.len() {
            let corners = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
            let [Some(a), Some(b), Some(c), Some(d)] = corners else { continue };
            let crossed = |one: (Point, f64), other: (Point, f64)| {
                // Alike from both cells of an edge.
                let ((p, u), (q, v)) = if one.0 <= other.0 { (one, other) } else { (other, one) };
                let share = u / (u - v);
                ((u >= 0.0) != (v >= 0.0)).then_some((p.0 + share * (q.0 - p.0), p.1 + share * (q.1 - p.1)))
            };
            let found: Vec<Point> =
                [crossed(a, b), crossed(b, c), crossed(c, d), crossed(d, a)].into_iter().flatten().collect();
            segments.extend(found.chunks_exact(2).map(|pair| [pair[0], pair[1]]));
        }
    }
    segments
}
