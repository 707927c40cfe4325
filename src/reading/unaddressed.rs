//! What is said where a line has no value of an address.

use crate::diag::{nearest, shorten};
use crate::model::{AddressedValue, Owner, Path, PathElement};

/// Lines of addresses shown at most.
const MOST: usize = 40;

/// What is near to `text` among the addresses of `values`, and all of them, those of one element in a line, the nearest first;
/// `path` is that of their line.
pub(crate) fn without_address(text: &str, values: &[AddressedValue], path: Option<&Path>) -> String {
    let names: Vec<String> = values.iter().map(|value| value.address.to_string()).collect();
    if names.is_empty() {
        return "no value of it has an address".to_owned();
    }
    let asked = text.split_once('.').and_then(|(number, word)| Some((number.parse::<usize>().ok()?, word)));
    let elements = path.map_or(&[][..], |path| &path.elements);
    let count = elements.iter().map(|place| place.number).max().unwrap_or(0);
    let place = asked.and_then(|(number, _)| elements.iter().find(|place| place.number == number));
    let beyond = asked.filter(|(number, _)| path.is_some() && (*number == 0 || *number > count));
    let of_part = asked.zip(place).and_then(|((_, word), place)| of_its_part(place, word, values));
    let begun = || names.iter().find(|name| !text.is_empty() && name.starts_with(text)).map(String::as_str);
    let like = || nearest(text, names.iter().map(String::as_str)).or_else(begun).map(str::to_owned);
    let near = of_part.or_else(|| if beyond.is_some() { None } else { like() });
    let first = near.as_ref().and_then(|near| values.iter().find(|value| value.address.to_string() == *near));
    let mut groups: Vec<(&Owner, Vec<String>)> = Vec::new();
    let own = first.map(|value| &value.address.owner).or_else(|| {
        let of_place =
            |value: &&AddressedValue| Some(&value.address.owner) == place.map(|p| Owner::Element(p.number)).as_ref();
        values.iter().find(of_place).map(|value| &value.address.owner)
    });
    for owner in own.into_iter().chain(values.iter().map(|value| &value.address.owner)) {
        if groups.iter().all(|(known, _)| *known != owner) {
            let of_owner = values.iter().filter(|value| value.address.owner == *owner);
            let mut list: Vec<String> = of_owner.map(|value| value.address.to_string()).collect();
            list.sort_by_key(|name| Some(name) != near.as_ref());
            groups.push((owner, list));
        }
    }
    let mut said = match &near {
        Some(near) => format!("did you mean `{}`? Its addresses are", shorten(near, 60)),
        None => "its addresses are".to_owned(),
    };
    if beyond.is_some() {
        said = format!("the path has only {count} elements; {said}");
    }
    for (_, list) in groups.iter().take(MOST) {
        let list: Vec<String> = list.iter().map(|name| format!("`{}`", shorten(name, 60))).collect();
        said.push_str(&format!("\n      {}", list.join(", ")));
    }
    if groups.len() > MOST {
        said.push_str("\n      …");
    }
    said
}

/// The lines of a sheet, the first ten of many.
pub(crate) fn listed(names: &[&str]) -> String {
    let some: Vec<String> = names.iter().take(10).map(|name| format!("\"{}\"", shorten(name, 60))).collect();
    let more = if names.len() > 10 { ", …" } else { "" };
    format!("its lines are {}{more}", some.join(", "))
}

/// What a protector or a guard leaves to its part: the address of the part's own value.
fn of_its_part(place: &PathElement, word: &str, values: &[AddressedValue]) -> Option<String> {
    let part = place.stated.part()?;
    let is_of_part = |value: &&AddressedValue| {
        value.address.value.word() == word && matches!(&value.address.owner, Owner::Part(name) if *name == part.name)
    };
    values.iter().find(is_of_part).map(|value| value.address.to_string())
}
