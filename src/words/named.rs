//! Names of the sheet inside sentences.

use crate::diag::shorten;

/// Columns a name may take inside a sentence.
const NAME: usize = 60;

/// A name inside a sentence.
pub(crate) fn named(name: &str) -> String {
    format!("\"{}\"", shorten(name, NAME))
}
