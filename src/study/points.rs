//! The points of the unit cube that are looked at before a search.

use super::random::Random;

/// Directions up to which every vertex is looked at.
pub(super) const ALL_VERTICES: usize = 10;
/// The seed of vertices drawn at random.
const SEED: u64 = 0x5EED;

/// Every vertex.
pub(super) fn vertices(directions: usize) -> Vec<Vec<f64>> {
    let bit = |vertex: usize, direction: usize| if vertex >> direction & 1 == 1 { 1.0 } else { 0.0 };
    (0..1usize << directions).map(|vertex| (0..directions).map(|d| bit(vertex, d)).collect()).collect()
}

/// Vertices at random.
pub(super) fn some_vertices(directions: usize, count: usize) -> Vec<Vec<f64>> {
    let mut random = Random::of(SEED, 0);
    (0..count).map(|_| (0..directions).map(|_| if random.coin() { 1.0 } else { 0.0 }).collect()).collect()
}

/// Points inside that leave no large hole: the additive sequence of the generalised golden ratio, the root of
/// x^(d+1) = x + 1 (M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018; from memory).
pub(super) fn inner(directions: usize, count: usize) -> Vec<Vec<f64>> {
    let power = 1.0 / (directions as f64 + 1.0);
    let ratio = (0..64).fold(1.5f64, |ratio, _| (1.0 + ratio).powf(power));
    let steps: Vec<f64> = (1..=directions).map(|d| ratio.powi(-(d as i32))).collect();
    (1..=count).map(|n| steps.iter().map(|step| (0.5 + n as f64 * step).fract()).collect()).collect()
}

/// The points one direction away from a point, at both of its ends: two a direction, the lower end first.
pub(super) fn beside(point: &[f64]) -> Vec<Vec<f64>> {
    let end = |direction: usize, end: f64| {
        let mut moved = point.to_vec();
        moved[direction] = end;
        moved
    };
    (0..point.len()).flat_map(|direction| [end(direction, 0.0), end(direction, 1.0)]).collect()
}
