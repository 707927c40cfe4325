//! The points of a line that show.

use super::place::{Rect, Xy};

/// Farthest that a point left out lies from the line that is drawn, in points.
const HIDDEN: f64 = 0.25;
/// Points to a column of a curve above which it is reduced.
const PER_COLUMN: usize = 4;

/// The line without the points that do not show: none lies farther than [`HIDDEN`] from what is drawn.
///
/// # References
/// Douglas and Peucker, *Algorithms for the reduction of the number of points required to represent a digitized line or
/// its caricature*, 1973 (from memory).
pub(crate) fn thinned(points: &[Xy]) -> Vec<Xy> {
    let Some(last) = points.len().checked_sub(1) else {
        return Vec::new();
    };
    let mut shows = vec![false; points.len()];
    (shows[0], shows[last]) = (true, true);
    let mut stretches = vec![(0, last)];
    while let Some((from, to)) = stretches.pop() {
        let away = |i: usize| distance(points[i], points[from], points[to]);
        let farthest = (from + 1..to).max_by(|a, b| away(*a).total_cmp(&away(*b)));
        if let Some(i) = farthest.filter(|i| away(*i) > HIDDEN * HIDDEN) {
            shows[i] = true;
            stretches.extend([(from, i), (i, to)]);
        }
    }
    points.iter().zip(shows).filter_map(|(point, shows)| shows.then_some(*point)).collect()
}

/// From a point to the stretch between two others, squared.
fn distance((x, y): Xy, (x0, y0): Xy, (x1, y1): Xy) -> f64 {
    let (dx, dy) = (x1 - x0, y1 - y0);
    let along = ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy);
    // Both ends may be the same point.
    let along = if along.is_nan() { 0.0 } else { along.clamp(0.0, 1.0) };
    (x - x0 - along * dx).powi(2) + (y - y0 - along * dy).powi(2)
}

/// A curve of many points reduced to what shows: of each column its first, lowest, highest and last point.
pub(crate) fn by_column(points: &[Xy]) -> Vec<Xy> {
    let mut kept = Vec::with_capacity(points.len().min(4000));
    for column in points.chunk_by(|a, b| a.0.floor() == b.0.floor()) {
        if column.len() <= PER_COLUMN {
            kept.extend_from_slice(column);
            continue;
        }
        let last = column.len() - 1;
        let extreme = |sign: f64| {
            let by = |a: &usize, b: &usize| (sign * column[*a].1).total_cmp(&(sign * column[*b].1));
            (0..=last).min_by(by).unwrap_or(0)
        };
        let mut indices = [0, extreme(1.0), extreme(-1.0), last];
        indices.sort_unstable();
        kept.extend(indices.map(|i| column[i]));
    }
    kept.dedup();
    kept
}

/// The runs of a polyline within `area`.
pub(crate) fn clipped(points: &[Xy], area: &Rect) -> Vec<Vec<Xy>> {
    let mut runs: Vec<Vec<Xy>> = Vec::new();
    let mut run: Vec<Xy> = Vec::new();
    for pair in points.windows(2) {
        let Some((from, to)) = within(pair[0], pair[1], area) else {
            continue;
        };
        if run.last() != Some(&from) {
            runs.push(std::mem::take(&mut run));
            run.push(from);
        }
        run.push(to);
    }
    runs.push(run);
    runs.retain(|run| run.len() > 1);
    runs
}

/// The stretch of a segment within `area` (Liang and Barsky 1984).
fn within(from: Xy, to: Xy, area: &Rect) -> Option<(Xy, Xy)> {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let (mut enter, mut leave) = (0.0f64, 1.0f64);
    let sides =
        [(-dx, from.0 - area.left), (dx, area.right - from.0), (-dy, from.1 - area.top), (dy, area.bottom - from.1)];
    for (direction, distance) in sides {
        if direction == 0.0 {
            if distance < 0.0 {
                return None;
            }
        } else if direction < 0.0 {
            enter = enter.max(distance / direction);
        } else {
            leave = leave.min(distance / direction);
        }
    }
    let at = |share: f64| (from.0 + share * dx, from.1 + share * dy);
    let ends = |share: f64, exact: Xy, whole: f64| if share == whole { exact } else { at(share) };
    (enter <= leave).then(|| (ends(enter, from, 0.0), ends(leave, to, 1.0)))
}
