//! What the files of a crate name of each other.

use std::collections::{BTreeMap, BTreeSet};

use super::tokens::tokens;

/// A module by its names from the crate down; none for the crate itself.
pub(super) type Module = Vec<String>;

/// A name brought in.
struct Use {
    path: Vec<String>,
    /// What it is called here; `None` for all there is.
    name: Option<String>,
    public: bool,
    /// Whether it stands outside every brace.
    at_top: bool,
}

/// What one file defines, brings in, and names.
#[derive(Default)]
struct File {
    items: BTreeSet<String>,
    uses: Vec<Use>,
    paths: Vec<Vec<String>>,
    /// Every word but those of a `use` and of a `mod`.
    words: BTreeSet<String>,
}

impl File {
    fn read(text: &str) -> File {
        const ITEMS: [&str; 8] = ["struct", "enum", "trait", "fn", "const", "static", "type", "macro_rules"];
        let all = tokens(text);
        let at = |i: usize| all.get(i).map_or("", String::as_str);
        let mut file = File::default();
        let (mut i, mut depth) = (0, 0);
        while i < all.len() {
            let before = if i == 0 { "" } else { at(i - 1) };
            if at(i) == "use" && at(i + 1) != "<" {
                let mut found = Vec::new();
                i = tree(&all, i + 1, &[], &mut found);
                let public = before == "pub" || before == ")";
                let named = found.into_iter().map(|(path, name)| Use { path, name, public, at_top: depth == 0 });
                file.uses.extend(named);
                continue;
            }
            match at(i) {
                "{" => depth += 1,
                "}" => depth -= 1,
                word if ITEMS.contains(&word) && depth == 0 => {
                    let skipped = ["mut", "!"].contains(&at(i + 1));
                    file.items.insert(at(i + if skipped { 2 } else { 1 }).to_string());
                }
                _ => {}
            }
            if is_name(at(i)) {
                if before != "mod" {
                    file.words.insert(at(i).to_string());
                }
                if before != "::" && at(i + 1) == "::" {
                    let rest = (i + 2..).step_by(2).take_while(|j| at(j - 1) == "::" && is_name(at(*j)));
                    let path = std::iter::once(i).chain(rest).map(|j| at(j).to_string());
                    file.paths.push(path.collect());
                }
            }
            i += 1;
        }
        file
    }
}

fn is_name(token: &str) -> bool {
    token.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// Reads one branch of a `use` at token `i`, behind `before`; returns where it ends.
fn tree(all: &[String], mut i: usize, before: &[String], found: &mut Vec<(Vec<String>, Option<String>)>) -> usize {
    let at = |i: usize| all.get(i).map_or("", String::as_str);
    let mut path = before.to_vec();
    loop {
        match at(i) {
            "::" => i += 1,
            "{" => {
                i += 1;
                while at(i) != "}" {
                    i = tree(all, i, &path, found);
                    i += usize::from(at(i) == ",");
                }
                return i + 1;
            }
            "*" => {
                found.push((path, None));
                return i + 1;
            }
            name => {
                assert!(is_name(name), "a `use` with {name:?}");
                if name != "self" || path.is_empty() {
                    path.push(name.to_string());
                }
                i += 1;
                if at(i) == "::" {
                    continue;
                }
                let renamed = at(i) == "as";
                let name = if renamed { at(i + 1).to_string() } else { path[path.len() - 1].clone() };
                found.push((path, Some(name)));
                return i + if renamed { 2 } else { 0 };
            }
        }
    }
}

/// The files of a crate, by module.
pub(super) struct Crate(BTreeMap<Module, File>);

impl Crate {
    /// Of files given as path below `src`, and text.
    pub(super) fn read<'a>(files: impl IntoIterator<Item = (&'a str, &'a str)>) -> Crate {
        let file = |(path, text): (&str, &str)| {
            let names = path.trim_end_matches(".rs").split('/').filter(|name| !["mod", "lib"].contains(name));
            (names.map(String::from).collect(), File::read(text))
        };
        Crate(files.into_iter().map(file).collect())
    }

    pub(super) fn modules(&self) -> impl Iterator<Item = &Module> {
        self.0.keys()
    }

    /// A path as named in `module`, from the crate down; `None` where it leads out.
    fn absolute(&self, module: &Module, path: &[String]) -> Option<Vec<String>> {
        let supers = path.iter().take_while(|name| *name == "super").count();
        let (base, rest) = match path.first()?.as_str() {
            "crate" => (Vec::new(), &path[1..]),
            "self" => (module.clone(), &path[1..]),
            "super" => (module[..module.len().checked_sub(supers)?].to_vec(), &path[supers..]),
            child if self.0.contains_key(&[&module[..], &[child.to_string()]].concat()) => (module.clone(), path),
            _ => return None,
        };
        Some([&base[..], rest].concat())
    }

    /// The modules that define what a path from the crate down leads to, through every re-export.
    fn defining(&self, path: &[String], seen: &mut BTreeSet<Vec<String>>) -> BTreeSet<Module> {
        let is_module = |n: &usize| self.0.contains_key(&path[..*n]);
        let known = (0..=path.len()).take_while(|n| is_module(n)).last().unwrap_or(0);
        let (module, rest) = (path[..known].to_vec(), &path[known..]);
        let Some(file) = self.0.get(&module) else { return BTreeSet::new() };
        let Some(item) = rest.first().filter(|item| !file.items.contains(*item)) else {
            return BTreeSet::from([module]);
        };
        if !seen.insert(path[..=known].to_vec()) {
            return BTreeSet::new();
        }
        let mut found = BTreeSet::new();
        for used in file.uses.iter().filter(|used| used.at_top) {
            let Some(there) = self.absolute(&module, &used.path) else { continue };
            match &used.name {
                Some(name) if name == item => found.extend(self.defining(&[&there, &rest[1..]].concat(), seen)),
                None => found.extend(self.defining(&[&there, rest].concat(), seen)),
                _ => {}
            }
        }
        found
    }

    /// The modules that `module` uses: neither itself nor the one it lies in.
    pub(super) fn used(&self, module: &Module) -> BTreeSet<Module> {
        let file = &self.0[module];
        let mut found = BTreeSet::new();
        let mut add = |path: &[String]| found.extend(self.defining(path, &mut BTreeSet::new()));
        let mut brought = BTreeMap::new();
        for used in &file.uses {
            let Some(there) = self.absolute(module, &used.path) else { continue };
            match &used.name {
                Some(name) => {
                    if !used.public || file.words.contains(name) {
                        add(&there);
                    }
                    brought.insert(name, there);
                }
                None => file.words.iter().for_each(|word| add(&[&there[..], std::slice::from_ref(word)].concat())),
            }
        }
        for path in &file.paths {
            let through = brought.get(&path[0]).filter(|there| self.0.contains_key(*there));
            let named = through.map(|there| [there, &path[1..]].concat());
            if let Some(there) = named.or_else(|| self.absolute(module, path)) {
                add(&there);
            }
        }
        found.remove(module);
        if let Some((_, parent)) = module.split_last() {
            found.remove(parent);
        }
        found
    }
}
