//! The lines chosen by `--line`.

use super::Failure;
use crate::diag::{nearest, shorten};

/// The indices of the wanted names, in the order of the sheet; all of them where none is wanted.
///
/// # Errors
/// A name the sheet does not have, with the nearest one it has.
pub fn pick_lines(names: &[&str], wanted: &[String]) -> Result<Vec<usize>, Failure> {
    if let Some(unknown) = wanted.iter().find(|wanted| !names.contains(&wanted.as_str())) {
        let failure = Failure::new(format!("the sheet has no line \"{}\"", shorten(unknown, 60)));
        return Err(match nearest(unknown, names.iter().copied()) {
            Some(near) => failure.help(format!("did you mean --line \"{}\"?", shorten(near, 60))),
            None => {
                let some: Vec<String> = names
                    .iter()
                    .take(10)
                    .map(|name| format!("\"{}\"", shorten(name, 60)))
                    .collect();
                let more = if names.len() > 10 { ", …" } else { "" };
                failure.help(format!("its lines are {}{more}", some.join(", ")))
            }
        });
    }
    let chosen = |name: &str| wanted.is_empty() || wanted.iter().any(|wanted| wanted == name);
    Ok((0..names.len()).filter(|index| chosen(names[*index])).collect())
}
