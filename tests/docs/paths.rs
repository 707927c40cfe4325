//! A file that a document names is there.

use crate::support::{files, root};

/// The paths in backquotes that begin with a folder of the project.
fn named(text: &str) -> Vec<&str> {
    let quoted = text.split('`').skip(1).step_by(2);
    let folders = ["src/", "tests/", "fixtures/", "docs/"];
    let path = |word: &&str| folders.iter().any(|f| word.starts_with(f)) && !word.contains(char::is_whitespace);
    quoted.filter(path).filter(|word| !word.contains(['*', '<', '{'])).collect()
}

#[test]
fn documents_name_files_that_are_there() {
    let mut documents = files("docs", "md");
    documents.extend(["README.md", "DEVELOPERS.md"].map(|name| root().join(name)));
    let (mut missing, mut seen) = (Vec::new(), 0);
    for document in documents {
        let text = std::fs::read_to_string(&document).unwrap();
        for path in named(&text) {
            seen += 1;
            if !root().join(path).exists() {
                missing.push(format!("{}: {path}", document.display()));
            }
        }
    }
    assert!(seen > 60, "only {seen} paths were read");
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}
