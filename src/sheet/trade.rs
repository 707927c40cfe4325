//! Words of data sheets and laminates, and ours for them.

use crate::diag::nearest;

/// Their words in lower case, what they are called here, and what to say.
const WORDS: [(&str, &str, &str); 10] = [
    ("v_rwm", "standoff", "`standoff`"),
    ("vrwm", "standoff", "`standoff`"),
    ("clamping", "clamp", "`clamp`, with its current: `clamp 12 V at 16 A`"),
    ("esd", "contact", "`contact` or `air`, by the kind of discharge"),
    ("hbm", "human_body", "`human_body`, on the chip: `human_body 2 kV`"),
    ("er", "permittivity", "`permittivity`"),
    ("dk", "permittivity", "`permittivity`"),
    ("df", "loss_tangent", "`loss_tangent`"),
    ("impedance", "reference", "`reference`"),
    ("insertion_loss_added", "added_loss", "`added_loss`"),
];

/// Which of the `known` words is meant by another: what a sheet calls a word of the trade, or else the nearest; with the
/// help that says so.
pub(crate) fn meant<'k>(text: &str, known: impl Iterator<Item = &'k str> + Clone) -> Option<(&'k str, String)> {
    let lower = text.to_lowercase();
    let trade = WORDS.into_iter().find(|(word, ..)| *word == lower);
    if let Some((word, say)) = trade.and_then(|(_, own, say)| Some((known.clone().find(|word| *word == own)?, say))) {
        return Some((word, format!("a sheet calls it {say}")));
    }
    let near = nearest(text, known)?;
    Some((near, format!("did you mean `{near}`?")))
}
