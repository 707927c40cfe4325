//! The known word nearest to a misspelt one.

/// Candidates of a like length that are compared.
const MOST: usize = 1_000;

/// The candidate nearest to `word` by edit distance, or `None` where none is near. Of thousands the first are compared.
///
/// ```
/// use lanecap::diag::nearest;
/// assert_eq!(nearest("recever", ["driver", "receiver"]), Some("receiver"));
/// assert_eq!(nearest("zebra", ["driver", "receiver"]), None);
/// ```
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = word.chars().count();
    if length > 64 {
        return None;
    }
    let allowed = (length / 3).clamp(1, 3);
    let lower = word.to_lowercase();
    let near = |candidate: &&str| candidate.chars().count().abs_diff(length) <= allowed;
    candidates
        .into_iter()
        .filter(near)
        .take(MOST)
        .map(|candidate| (strsim::damerau_levenshtein(&candidate.to_lowercase(), &lower), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}
