//! No two files use each other, directly or by way of others.
//!
//! A file uses those that define what it names in a `use` or by a path. Re-exports are followed to where the item is
//! defined; they are no use themselves unless the file that re-exports names the item, too. What a child takes from the
//! module it lies in does not count, and a method called on a value is not seen.

use std::collections::{BTreeMap, BTreeSet};

use super::paths::{Crate, Module};
use crate::support::{files, root};

/// The circles there are, each by its modules. One that is gone has to go from here, too.
const KNOWN: [&str; 0] = [];

/// The circles of a crate, each by its modules.
fn circles(all: &Crate) -> BTreeSet<String> {
    let used: BTreeMap<&Module, BTreeSet<Module>> = all.modules().map(|module| (module, all.used(module))).collect();
    let reached = |from: &Module| {
        let mut reached = BTreeSet::new();
        let mut ahead: Vec<&Module> = used[from].iter().collect();
        while let Some(next) = ahead.pop() {
            if reached.insert(next) {
                ahead.extend(&used[next]);
            }
        }
        reached
    };
    let reached: BTreeMap<&Module, BTreeSet<&Module>> = used.keys().map(|module| (*module, reached(module))).collect();
    let mut circles = BTreeSet::new();
    for (module, there) in &reached {
        let back = |other: &&&Module| reached[**other].contains(module);
        let circle: Vec<String> = there.iter().filter(back).map(|module| module.join("::")).collect();
        circles.extend((!circle.is_empty()).then(|| circle.join(" ")));
    }
    circles
}

#[test]
fn no_circle_of_files() {
    let source = root().join("src");
    let read = |path: &std::path::PathBuf| {
        let name = path.strip_prefix(&source).unwrap().to_string_lossy().replace('\\', "/");
        (name, std::fs::read_to_string(path).unwrap())
    };
    let texts: Vec<(String, String)> = files("src", "rs").iter().map(read).collect();
    let texts = texts.iter().map(|(name, text)| (name.as_str(), text.as_str()));
    let all = Crate::read(texts.filter(|(name, _)| *name != "main.rs"));
    let count: usize = all.modules().map(|module| all.used(module).len()).sum();
    assert!(count > 500, "only {count} uses were read");
    let (found, known) = (circles(&all), KNOWN.map(String::from).into());
    let shown = |title: &str, circles: BTreeSet<&String>| {
        circles.into_iter().map(|circle| format!("{title}: {circle}\n")).collect::<String>()
    };
    let difference = shown("new circle", found.difference(&known).collect())
        + &shown("no circle any more", known.difference(&found).collect());
    assert!(difference.is_empty(), "\n{difference}");
}

/// The circles of a crate with the files `a.rs` and `b.rs`, and a `c` that passes `b` on.
fn of(a: &str, b: &str) -> Vec<String> {
    let c = "pub mod d;\npub use crate::b::{B as Passed, deep::{self, E}};\npub use d::*;";
    let files = [("lib.rs", "pub mod a; pub mod b; pub mod c;"), ("a.rs", a), ("b.rs", b), ("c/mod.rs", c)];
    let d = ("c/d.rs", "pub use super::super::b::Far;");
    circles(&Crate::read(files.into_iter().chain([d]))).into_iter().collect()
}

#[test]
fn every_way_to_name_a_file_is_read() {
    let b = "use crate::a::A;\npub struct B; pub struct Far; pub enum E { One } pub const fn f() {}";
    for a in [
        "use crate::b::B; pub struct A;",
        "use crate::{c, b::{f}};\npub struct A;",
        "use super::b; pub struct A(b::B);",
        "use super::{\n    b::{self as other, E},\n};\npub struct A;",
        "pub struct A(crate::b::B);",
        "pub struct A; fn g() { super::b::f() }",
        "use crate::c::Passed; pub struct A;",
        "use crate::c as passes; pub struct A(passes::Passed);",
        "use crate::c::Far as Near; pub struct A;",
        "use crate::b::*; pub struct A(B);",
        "pub use crate::b::B; pub struct A(B);",
        "use crate::b::E::*; pub struct A;",
        "pub struct A; fn g() { use super::b::f; f() }",
        "/* /* */ \" */ const Q: char = '\"'; fn g<'a>() -> crate::b::B { B } pub struct A;",
    ] {
        assert_eq!(of(a, b), ["a b"], "{a}");
    }
}

#[test]
fn what_is_no_use_is_not_read() {
    let b = "use crate::a::A;\npub struct B;";
    for a in [
        "pub struct A;",
        "pub use crate::b::B; pub struct A;",
        "pub struct A; // crate::b::B",
        "pub struct A; const T: &str = \"crate::b::B \\\" crate::b::B\";",
        "pub struct A; const T: &str = r#\"\" crate::b::B\"#;",
        "use std::b::B; pub struct A;",
    ] {
        assert!(of(a, b).is_empty(), "{a}");
    }
    // A child may use what its own module defines, its module may use the child.
    let nested = [("lib.rs", "mod m;"), ("m/mod.rs", "mod n; use n::N; pub struct M;"), ("m/n.rs", "use super::M;")];
    assert!(circles(&Crate::read(nested)).is_empty());
    let deeper = [("lib.rs", "mod m;"), ("m.rs", "mod n; use n::o::O; pub struct M;"), ("m/n.rs", "pub mod o;")];
    let deeper = deeper.into_iter().chain([("m/n/o.rs", "use super::super::M; pub struct O;")]);
    assert_eq!(circles(&Crate::read(deeper)).into_iter().collect::<Vec<_>>(), ["m m::n::o"]);
}
