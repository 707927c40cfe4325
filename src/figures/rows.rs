//! How figures are read from a typed result.

use super::figure::Figure;

/// A figure and how it is read from a result; `None` where it does not apply.
pub struct Row<T: 'static>(pub &'static Figure, pub fn(&T) -> Option<f64>);

/// A result made of figures.
pub trait Rows: Sized + 'static {
    /// Its figures, in the order of the JSON.
    const ROWS: &'static [Row<Self>];

    /// A figure of it; `None` where it has none, or the figure does not apply.
    fn read(&self, figure: &Figure) -> Option<f64> {
        let row = Self::ROWS.iter().find(|row| row.0 == figure)?;
        (row.1)(self)
    }
}

impl Rows for () {
    const ROWS: &'static [Row<()>] = &[];
}
