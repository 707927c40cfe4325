//! Values that are others than the sheet's.

use crate::diag::shorten;
use crate::model::SetValue;
use crate::units::Dimension;
use crate::units::decimal::engineering_apart;

/// What is set, for the head of a result.
pub(crate) fn sentence(set: &SetValue) -> String {
    let line = set.line.as_ref().map_or(String::new(), |line| format!("{}/", shorten(line, 60)));
    let (value, stated) = match set.stated {
        Some(stated) => {
            let (value, stated) = shown(set.value, stated, set.dimension);
            (value, format!("the sheet states {stated}"))
        }
        None => (shown(set.value, set.value, set.dimension).0, "the sheet states none".to_owned()),
    };
    format!("With {line}{} = {value}: {stated}.", set.address)
}

fn shown(value: f64, beside: f64, dimension: Dimension) -> (String, String) {
    engineering_apart(value, beside, dimension.symbol())
}

/// What is set on a line, to stand behind its name.
pub(crate) fn behind_name(name: &str, set: &[SetValue]) -> String {
    let own = set.iter().filter(|set| set.line.as_deref().is_none_or(|line| line == name));
    let own = own.map(|set| format!(", {} = {}", set.address, shown(set.value, set.value, set.dimension).0));
    format!("{name}{}", own.collect::<String>())
}
