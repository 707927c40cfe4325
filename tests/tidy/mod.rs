//! The house keeps its order: imports point one way, and only the command line touches the world, and files are read in one place.

mod circles;
mod paths;
mod tokens;

use std::path::Path;

use crate::support::{files, root};

/// The stages in the order the data takes. A stage uses those before it.
const STAGES: [&str; 22] = [
    "units",
    "figures",
    "diag",
    "sheet",
    "model",
    "resolve",
    "builder",
    "reading",
    "network",
    "response",
    "budget",
    "transient",
    "parts",
    "study",
    "curve",
    "result",
    "words",
    "picture",
    "text",
    "page",
    "load",
    "cli",
];

/// The stage a source file belongs to.
fn stage(path: &Path) -> Option<usize> {
    let inside = path.strip_prefix(root().join("src")).unwrap();
    let first = inside.components().next()?.as_os_str().to_string_lossy().into_owned();
    STAGES.iter().position(|stage| *stage == first.trim_end_matches(".rs"))
}

/// The stages that a file names behind `crate::`, with the line.
fn named_stages(text: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    for (number, line) in text.lines().enumerate() {
        let code = line.split("//").next().unwrap_or_default();
        for (at, _) in code.match_indices("crate::") {
            let rest = &code[at + "crate::".len()..];
            let names = rest.split(|c: char| !(c.is_alphanumeric() || c == '_')).take(1);
            found.extend(names.filter_map(|name| STAGES.iter().position(|s| *s == name)).map(|s| (s, number + 1)));
        }
        // `use crate::{a, b}` would hide stages from the line above.
        assert!(!code.contains("crate::{"), "name each stage on a line of its own: {line}");
    }
    found
}

#[test]
fn imports_point_one_way() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for path in files("src", "rs") {
        let Some(own) = stage(&path) else { continue };
        for (used, line) in named_stages(&std::fs::read_to_string(&path).unwrap()) {
            seen += 1;
            if used > own {
                wrong.push(format!("{}:{line} uses {}", path.display(), STAGES[used]));
            }
        }
    }
    assert!(seen > 50, "only {seen} imports were read");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_the_command_line_touches_the_world() {
    let worldly =
        ["std::fs", "std::io", "std::env", "std::process", "std::net", "std::time", "println!", "eprintln!", "print!("];
    let mut wrong = Vec::new();
    for path in files("src", "rs") {
        let Some(own) = stage(&path) else { continue };
        let allowed: &[&str] = match STAGES[own] {
            "cli" => continue,
            "load" => &["std::fs", "std::io"],
            _ => &[],
        };
        let text = std::fs::read_to_string(&path).unwrap().replace("std::{fmt, fs, io}", "std::fs, std::io");
        for (number, line) in text.lines().enumerate() {
            let code = line.split("//").next().unwrap_or_default();
            if worldly.iter().filter(|w| !allowed.contains(w)).any(|w| code.contains(w)) {
                wrong.push(format!("{}:{} {}", path.display(), number + 1, code.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_results_and_the_page_serialise() {
    for path in files("src", "rs") {
        let Some(own) = stage(&path) else { continue };
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(["result", "page", "cli"].contains(&STAGES[own]) || !text.contains("serde"), "{}", path.display());
    }
}

#[test]
fn what_is_read_is_resolved_elsewhere() {
    let physics = ["SPEED_OF_LIGHT", "DB_PER_NEPER", "DEFAULT_PERMITTIVITY", ".sqrt(", "consts::"];
    let (mut wrong, mut found) = (Vec::new(), 0);
    for path in files("src", "rs") {
        let own = stage(&path).map(|stage| STAGES[stage]);
        for (number, line) in std::fs::read_to_string(&path).unwrap().lines().enumerate() {
            let code = line.split("//").next().unwrap_or_default();
            let is_physics = physics.iter().any(|word| code.contains(word));
            found += usize::from(own == Some("resolve") && is_physics);
            if own == Some("reading") && is_physics || own == Some("resolve") && code.contains("Diagnostic") {
                wrong.push(format!("{}:{} {}", path.display(), number + 1, code.trim()));
            }
        }
    }
    assert!(found > 20, "only {found} rows of physics were read");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_top_level_holds_what_it_should() {
    let allowed =
        ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "src", "tests", "fixtures", "docs", "target"];
    for entry in std::fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || allowed.contains(&name.as_str()), "{name}");
    }
}
