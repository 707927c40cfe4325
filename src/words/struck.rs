//! Why a discharge is not computed, in words.

use super::named::named;
use crate::transient::{MissingWord, NotStruck};

/// What is missing, or stands in the way.
pub(crate) fn not_struck(why: &NotStruck) -> String {
    match why {
        NotStruck::NothingFitted => "no part is fitted in its path".to_owned(),
        NotStruck::Missing(part, MissingWord(word)) => format!("the part {} does not state `{word}`", named(part)),
        NotStruck::AcrossOnly(part) => format!("the part {} hangs across the pair alone", named(part)),
        NotStruck::NotComputable => "its circuit has a loop".to_owned(),
    }
}
