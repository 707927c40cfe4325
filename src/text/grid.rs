//! A table of text.

/// A table of text. The first column holds names, which are shown as they are or shortened.
pub(crate) struct Grid {
    pub(crate) title: &'static str,
    pub(crate) header: Vec<String>,
    pub(crate) rows: Vec<Vec<String>>,
}

impl Grid {
    /// Whether its first column holds addresses, which are to be typed in again.
    pub(crate) fn has_addresses(&self) -> bool {
        self.header.first().is_some_and(|title| title == "value")
    }

    /// Whether a column says why, which is broken between words and never cut.
    pub(crate) fn has_reasons(&self, index: usize) -> bool {
        self.header.get(index).is_some_and(|title| title == "breaks")
    }

    /// Whether each row ends in the verdict of its line.
    pub(crate) fn has_verdicts(&self) -> bool {
        self.header.last().is_some_and(|title| title == "verdict")
    }
}
