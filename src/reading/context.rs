//! What the blocks of lines refer to by name.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::stated_limit::StatedLimit;
use crate::model::{Laminate, Part, ReflectionTable};
use crate::sheet::ast::Block;

/// What the lines of a sheet refer to.
#[derive(Default)]
pub(crate) struct Context<'s, 'a> {
    pub(crate) limits: BTreeMap<&'a str, LimitSet<'s, 'a>>,
    pub(crate) parts: BTreeMap<&'a str, Arc<Part>>,
    pub(crate) laminates: BTreeMap<&'a str, Arc<Laminate>>,
    pub(crate) tables: BTreeMap<&'a str, Arc<ReflectionTable>>,
    /// Blocks (word and name) that are there but cannot be used: their errors are reported already.
    pub(crate) faulty: Vec<(&'static str, &'a str)>,
}

/// The limits of a block, and the block.
pub(crate) struct LimitSet<'s, 'a> {
    pub(crate) limits: Vec<StatedLimit>,
    pub(crate) block: &'s Block<'a>,
}
