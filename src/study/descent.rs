//! From a bad setting to a worse one.

/// A first step along a direction, and the step below which nothing moves any more, as shares of the tolerance.
const FIRST: f64 = 0.25;
const LAST: f64 = 1e-4;
/// What one step is over the next.
const FINER: f64 = 3.0;
/// Most points of one search.
const MOST: usize = 4000;

/// Goes down from a point of the unit cube, one direction after the other, with ever smaller steps, until nothing gets lower
/// by a move of 1e-4 (Hooke, Jeeves, *J. ACM* 8(2), 1961; from memory). `ask` gives the height of a point.
///
/// # Errors
/// As `ask`.
pub(super) fn descend<E>(
    start: &[f64],
    height: f64,
    mut ask: impl FnMut(&[f64]) -> Result<f64, E>,
) -> Result<Vec<f64>, E> {
    let (mut point, mut height) = (start.to_vec(), height);
    let (mut step, mut asked) = (FIRST, 0);
    while asked < MOST {
        let mut moved = false;
        let before_all = point.clone();
        for direction in 0..point.len() {
            for sign in [1.0, -1.0] {
                let before = point[direction];
                let after = (before + sign * step).clamp(0.0, 1.0);
                if after == before {
                    continue;
                }
                point[direction] = after;
                asked += 1;
                let here = ask(&point)?;
                if here < height {
                    (height, moved) = (here, true);
                    break;
                }
                point[direction] = before;
            }
        }
        if moved {
            // As far again the same way, as long as that goes down: a valley that lies across the directions.
            let further: Vec<f64> = point.iter().zip(&before_all).map(|(p, b)| (2.0 * p - b).clamp(0.0, 1.0)).collect();
            asked += 1;
            let here = if further == point { f64::INFINITY } else { ask(&further)? };
            if here < height {
                (height, point) = (here, further);
            }
        } else {
            if step <= LAST {
                break;
            }
            step = (step / FINER).max(LAST);
        }
    }
    Ok(point)
}
