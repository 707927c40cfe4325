//! The lines chosen by `--line`, and the capacitance put on them by `--fitted`.

use super::{ChosenArgs, Failure, TrialArgs};
use crate::diag::{nearest, shorten};
use crate::model::{Design, Line};
use crate::reading::listed;

impl ChosenArgs {
    /// The places of the lines in [`Design::lines`].
    ///
    /// # Errors
    /// As [`pick_lines`].
    pub(super) fn places(&self, design: &Design) -> Result<Vec<usize>, Failure> {
        pick_lines(&design.names(), &self.lines)
    }
}

impl TrialArgs {
    /// Puts the capacitance, where one is given, on every line.
    pub(super) fn fit(&self, design: &mut Design) {
        if let Some(capacitance) = self.fitted {
            design.fit(capacitance);
        }
    }
}

/// The indices of the wanted names, in the order of the sheet; all of them where none is wanted.
///
/// # Errors
/// A name the sheet does not have, with the nearest one it has.
pub fn pick_lines(names: &[&str], wanted: &[String]) -> Result<Vec<usize>, Failure> {
    if let Some(unknown) = wanted.iter().find(|wanted| !names.contains(&wanted.as_str())) {
        let failure = Failure::new(format!("the sheet has no line \"{}\"", shorten(unknown, 60)));
        return Err(match nearest(unknown, names.iter().copied()) {
            Some(near) => failure.help(format!("did you mean --line \"{}\"?", shorten(near, 60))),
            None => failure.help(listed(names)),
        });
    }
    let chosen = |name: &str| wanted.is_empty() || wanted.iter().any(|wanted| wanted == name);
    Ok((0..names.len()).filter(|index| chosen(names[*index])).collect())
}

/// The line named, or the only one; `verb` says what is to be done with it.
///
/// # Errors
/// An unknown name; several lines and none named.
pub(super) fn only_line<'a>(design: &'a Design, wanted: Option<&String>, verb: &str) -> Result<&'a Line, Failure> {
    let names = design.names();
    let indices = pick_lines(&names, wanted.map(std::slice::from_ref).unwrap_or_default())?;
    let only = match indices.as_slice() {
        [only] => design.lines.get(*only),
        _ => None,
    };
    match only {
        Some(line) => Ok(line),
        None => {
            let example =
                names.first().map_or(String::new(), |name| format!(", e.g. --line \"{}\"", shorten(name, 60)));
            let help = format!("name the one to {verb}{example}; {}", listed(&names));
            Err(Failure::new("the sheet has more than one line").help(help))
        }
    }
}
