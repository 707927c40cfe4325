//! The examples of the documents are sheets.

use crate::support::{files, read_text};

/// The contents of the blocks fenced as `lanes`, each with its line number.
fn examples(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut open: Option<(usize, String)> = None;
    for (number, line) in text.lines().enumerate() {
        match &mut open {
            None if line == "```lanes" => open = Some((number + 1, String::new())),
            None => {}
            Some(_) if line == "```" => found.extend(open.take()),
            Some((_, sheet)) => {
                sheet.push_str(line);
                sheet.push('\n');
            }
        }
    }
    found
}

#[test]
fn each_example_is_a_good_sheet() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for path in files("docs", "md") {
        for (line, sheet) in examples(&std::fs::read_to_string(&path).unwrap()) {
            seen += 1;
            if let Err(errors) = read_text(&sheet).1 {
                let messages: Vec<_> = errors.iter().map(|e| format!("{}: {}", e.code, e.message)).collect();
                wrong.push(format!("{}:{line}: {}", path.display(), messages.join("; ")));
            }
        }
    }
    assert!(seen >= 5, "only {seen} examples were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
