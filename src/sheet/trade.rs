//! Words of data sheets and laminates, and ours for them.

/// Their words in lower case, what they are called here, and what to say.
const WORDS: [(&str, &str, &str); 9] = [
    ("v_rwm", "standoff", "`standoff`"),
    ("vrwm", "standoff", "`standoff`"),
    ("clamping", "clamp", "`clamp`, with its current: `clamp 12 V at 16 A`"),
    ("esd", "contact", "`contact` or `air`, by the kind of discharge"),
    ("er", "permittivity", "`permittivity`"),
    ("dk", "permittivity", "`permittivity`"),
    ("df", "loss_tangent", "`loss_tangent`"),
    ("impedance", "reference", "`reference`"),
    ("insertion_loss_added", "added_loss", "`added_loss`"),
];

/// The word that a sheet has for one of the trade, and the help that says so.
pub(crate) fn own_word(text: &str) -> Option<(&'static str, String)> {
    let lower = text.to_lowercase();
    let (_, own, say) = WORDS.into_iter().find(|(word, ..)| *word == lower)?;
    Some((own, format!("a sheet calls it {say}")))
}
