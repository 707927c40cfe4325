//! What the blocks of lines refer to by name.

use std::collections::{BTreeMap, HashSet};
use std::sync::Arc;

use super::stated_limit::StatedLimit;
use crate::diag::Span;
use crate::model::{AddressedValue, Distribution, Laminate, Part, ReflectionTable};
use crate::sheet::ast::Block;

/// What the lines of a sheet refer to.
#[derive(Default)]
pub(crate) struct Context<'s, 'a> {
    pub(crate) limits: BTreeMap<&'a str, LimitSet<'s, 'a>>,
    pub(crate) parts: BTreeMap<&'a str, Arc<Part>>,
    pub(crate) laminates: BTreeMap<&'a str, Arc<Laminate>>,
    /// The values of parts and laminates that have an address, by word and name of the block.
    pub(crate) values: BTreeMap<(&'static str, &'a str), (Span, Vec<AddressedValue>)>,
    /// Of lanes whose rate is another than the sheet's, the Nyquist frequency that the sheet states, at which their path is
    /// resolved.
    pub(crate) nyquist: BTreeMap<&'a str, f64>,
    /// Whether values are kept by their addresses.
    pub(crate) addresses: bool,
    /// How values lie between their bounds, where the sheet says so.
    pub(crate) distribution: Option<Distribution>,
    pub(crate) tables: BTreeMap<&'a str, Arc<ReflectionTable>>,
    /// Blocks (word and name) that are there but cannot be used: their errors are reported already.
    pub(crate) faulty: HashSet<(&'static str, &'a str)>,
    /// Whether a file of the sheet is missing: what is not there may be in it.
    pub(crate) incomplete: bool,
}

impl Context<'_, '_> {
    /// Whether a name that cannot be found is no further error: its block has some, or may stand in a missing file.
    pub(crate) fn is_excused(&self, word: &'static str, name: &str) -> bool {
        self.incomplete || self.faulty.contains(&(word, name))
    }
}

/// The limits of a block, and the block.
pub(crate) struct LimitSet<'s, 'a> {
    pub(crate) limits: Vec<StatedLimit>,
    pub(crate) block: &'s Block<'a>,
}
