//! The points of a line that show.

use super::canvas::Xy;

/// Farthest that a point left out lies from the line that is drawn, in points.
const HIDDEN: f64 = 0.25;

/// The line without the points that do not show: none lies farther than [`HIDDEN`] from what is drawn.
///
/// # References
/// Douglas and Peucker, *Algorithms for the reduction of the number of points required to represent a digitized line or
/// its caricature*, 1973 (from memory).
pub(super) fn thinned(points: &[Xy]) -> Vec<Xy> {
    let Some(last) = points.len().checked_sub(1) else {
        return Vec::new();
    };
    let mut shows = vec![false; points.len()];
    (shows[0], shows[last]) = (true, true);
    let mut stretches = vec![(0, last)];
    while let Some((from, to)) = stretches.pop() {
        let away = |i: usize| distance(points[i], points[from], points[to]);
        let farthest = (from + 1..to).max_by(|a, b| away(*a).total_cmp(&away(*b)));
        if let Some(i) = farthest.filter(|i| away(*i) > HIDDEN) {
            shows[i] = true;
            stretches.extend([(from, i), (i, to)]);
        }
    }
    points
        .iter()
        .zip(shows)
        .filter_map(|(point, shows)| shows.then_some(*point))
        .collect()
}

/// From a point to the stretch between two others.
fn distance((x, y): Xy, (x0, y0): Xy, (x1, y1): Xy) -> f64 {
    let (dx, dy) = (x1 - x0, y1 - y0);
    let along = ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy);
    // Both ends may be the same point.
    let along = if along.is_nan() { 0.0 } else { along.clamp(0.0, 1.0) };
    (x - x0 - along * dx).hypot(y - y0 - along * dy)
}
