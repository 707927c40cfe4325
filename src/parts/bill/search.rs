//! The cheapest packages of one group.
//!
//! Lanes are placed one after the other, class by class. All that matters of what is placed is its price and the room
//! left in the packages bought, so partial bills with equal room are merged and the cheaper kept. A partial bill is
//! dropped when its price, plus the least price that the lanes to come can have, cannot beat a bill already known.

use std::collections::HashMap;

use super::Fit;
use super::bound::Bound;
use super::reduce::{Class, Group};
use super::room::Room;

/// Steps (partial bill times part) after which a port is too large to search to the end: about a second.
const STEPS: usize = 2_000_000;
/// Partial bills kept per lane while the first bill is looked for.
const NARROW: usize = 48;
/// Partial bills kept per lane at most.
const WIDE: usize = 40_000;

/// A bill of one group.
pub(super) struct Found {
    /// Lanes by class and part.
    pub(super) lanes: Vec<Vec<u32>>,
    /// Whether no cheaper one exists.
    pub(super) proven: bool,
}

/// A partial bill.
struct Partial {
    room: Vec<Room>,
    price: u128,
    /// Least price of any whole bill that begins like this one.
    bound: f64,
    /// Index of the last step in the trail.
    step: usize,
}

/// How a partial bill came about: the step before, and the part of the last lane.
struct Step {
    before: usize,
    part: usize,
}

/// The cheapest bill of a group.
pub(super) fn cheapest(group: &Group) -> Found {
    let bound = Bound::new(group);
    let steps: usize =
        group.classes.iter().map(|c| c.count as usize * c.fits.iter().filter(|f| **f != Fit::No).count()).sum();
    let width = (STEPS / steps.max(1)).clamp(1, WIDE);
    let first = search(group, &bound, width.min(NARROW), f64::INFINITY);
    if cannot_beat(first.dropped, first.price) {
        return Found { lanes: first.lanes, proven: true };
    }
    let second = search(group, &bound, width, first.price);
    let proven = cannot_beat(second.dropped, first.price.min(second.price));
    let better = if second.price < first.price { second } else { first };
    Found { lanes: better.lanes, proven }
}

/// Whether a bill of at least `bound` is no cheaper than `known`; prices are whole, and rounding is allowed for.
fn cannot_beat(bound: f64, known: f64) -> bool {
    bound > known - 0.5 + known * 1e-13
}

/// What one search found.
struct Outcome {
    /// Lanes by class and part.
    lanes: Vec<Vec<u32>>,
    /// Their price; infinite where nothing beats what is known.
    price: f64,
    /// Least bound of what was dropped for want of width.
    dropped: f64,
}

/// Searches with at most `width` partial bills per lane for one cheaper than `known`.
fn search(group: &Group, bound: &Bound, width: usize, known: f64) -> Outcome {
    let mut trail: Vec<Step> = Vec::new();
    let mut partials =
        vec![Partial { room: vec![Room::default(); group.parts.len()], price: 0, bound: 0.0, step: usize::MAX }];
    let mut dropped = f64::INFINITY;
    for (class_index, class) in group.classes.iter().enumerate() {
        for placed in 1..=class.count {
            let left = class.count - placed;
            partials = place_lane(group, bound, &partials, (class_index, class, left), known, &mut trail);
            if partials.len() > width {
                partials.sort_by(|a, b| a.bound.total_cmp(&b.bound));
                dropped = partials[width..].iter().map(|p| p.bound).fold(dropped, f64::min);
                partials.truncate(width);
            }
        }
    }
    let best = partials.iter().min_by_key(|p| p.price);
    Outcome {
        lanes: best.map_or_else(Vec::new, |p| unwind(group, &trail, p.step)),
        price: best.map_or(f64::INFINITY, |p| p.price as f64),
        dropped,
    }
}

/// Every way to place one more lane of a class of which `left` lanes are then still to come.
fn place_lane(
    group: &Group,
    bound: &Bound,
    partials: &[Partial],
    (class_index, class, left): (usize, &Class, u32),
    known: f64,
    trail: &mut Vec<Step>,
) -> Vec<Partial> {
    let rest = bound.rest(class_index, left);
    let mut next: Vec<Partial> = Vec::new();
    let mut seen: HashMap<Vec<Room>, usize> = HashMap::new();
    for partial in partials {
        for (part, fit) in class.fits.iter().enumerate().filter(|(_, f)| **f != Fit::No) {
            let mut room = partial.room.clone();
            let bought = room[part].take(*fit, group.parts[part].channels);
            rest.trim(&mut room);
            let price = partial.price + u128::from(bought) * group.parts[part].price;
            let least = price as f64 + rest.least(&room);
            if cannot_beat(least, known) {
                continue;
            }
            let before = partial.step;
            match seen.get(&room).map(|i| &mut next[*i]) {
                Some(same) if same.price <= price => {}
                Some(same) => {
                    same.price = price;
                    same.bound = least;
                    trail[same.step] = Step { before, part };
                }
                None => {
                    seen.insert(room.clone(), next.len());
                    let step = trail.len();
                    trail.push(Step { before, part });
                    next.push(Partial { room, price, bound: least, step });
                }
            }
        }
    }
    next
}

fn unwind(group: &Group, trail: &[Step], last: usize) -> Vec<Vec<u32>> {
    let mut lanes = vec![vec![0; group.parts.len()]; group.classes.len()];
    let mut at = last;
    for (class, given) in group.classes.iter().zip(&mut lanes).rev() {
        for _ in 0..class.count {
            let Some(step) = trail.get(at) else { return lanes };
            given[step.part] += 1;
            at = step.before;
        }
    }
    lanes
}
