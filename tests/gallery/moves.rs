//! The commands of the worked example, and what it shows of their output.

use assert_cmd::Command;

#[test]
fn the_worked_example_says_what_the_tool_says() {
    let text = std::fs::read_to_string("docs/moves.md").unwrap();
    let (mut commands, mut lines, mut shown) = (0, 0, String::new());
    let mut inside = false;
    for line in text.lines() {
        match line {
            "```text" => inside = true,
            "```" => inside = false,
            _ if !inside => {}
            line => match line.strip_prefix("$ lanecap ") {
                Some(command) => {
                    commands += 1;
                    let output = Command::cargo_bin("lanecap")
                        .unwrap()
                        .args(words(command))
                        .env("COLUMNS", "118")
                        .output()
                        .unwrap();
                    assert!(output.stderr.is_empty(), "{command}: {}", String::from_utf8_lossy(&output.stderr));
                    shown = String::from_utf8(output.stdout).unwrap();
                }
                None => {
                    lines += 1;
                    assert!(shown.contains(line), "{line}\n\n{shown}");
                }
            },
        }
    }
    assert!(commands >= 6 && lines >= 18, "{commands} {lines}");
}

/// The words of a command, as a shell takes them.
fn words(command: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in command.chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            c => words.last_mut().unwrap().push(c),
        }
    }
    words
}
