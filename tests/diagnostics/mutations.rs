//! Sheets with something broken in them: a message or a result, never a panic, within bounded time.

use std::sync::Arc;
use std::time::{Duration, Instant};

use crate::support::random::Random;
use crate::support::{files, read_text};
use lanecap::budget::Figures;
use lanecap::result::size;
use lanecap::sheet::MAX_ERRORS;
use lanecap::text::{Format, render};

const SHEETS: usize = 20_000;
/// One sheet in so many is computed in time as well.
const TIMED: usize = 200;
/// Far above what any sheet of this size takes: a hang, not a slow machine.
const HANG: Duration = Duration::from_secs(20);

const EXTREMES: [&str; 16] = [
    "0",
    "-1",
    "1",
    "4096",
    "4097",
    "1e308",
    "1e-308",
    "1e400",
    "1e-400",
    "0.0000001",
    "99999999999999999999",
    "1.5",
    "1e99999999999",
    "-0",
    "3.",
    "1e12",
];

fn mutate(text: &str, random: &mut Random) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..1 + random.index(3) {
        let at = random.index(lines.len());
        let other = random.index(lines.len());
        match random.index(7) {
            0 => {
                lines.remove(at);
            }
            1 => lines.insert(at, lines[other].clone()),
            2 => lines.swap(at, other),
            3 => replace_number(&mut lines[at], random),
            4 => replace_number(&mut lines[other], random),
            5 => flip(&mut lines[at], random),
            _ => {
                let cut = random.index(lines[at].len() + 1);
                if lines[at].is_char_boundary(cut) {
                    lines[at].truncate(cut);
                }
            }
        }
        if lines.is_empty() {
            lines.push(String::new());
        }
    }
    lines.join("\n")
}

fn replace_number(line: &mut String, random: &mut Random) {
    let starts: Vec<usize> = line
        .char_indices()
        .filter(|(i, c)| c.is_ascii_digit() && !line[..*i].ends_with(|b: char| b.is_alphanumeric() || b == '.'))
        .map(|(i, _)| i)
        .collect();
    if starts.is_empty() {
        return;
    }
    let start = *random.pick(&starts);
    let length = line[start..].find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(line.len() - start);
    line.replace_range(start..start + length, random.pick::<&str>(&EXTREMES));
}

fn flip(line: &mut String, random: &mut Random) {
    let mut bytes = std::mem::take(line).into_bytes();
    if !bytes.is_empty() {
        let at = random.index(bytes.len());
        bytes[at] ^= 1 << random.index(8);
    }
    *line = String::from_utf8_lossy(&bytes).into_owned();
}

/// Whether no number of a table is none.
fn is_finite(table: &str) -> bool {
    !table.contains("NaN") && table.split_whitespace().all(|word| !matches!(word, "inf" | "-inf" | "+inf"))
}

#[test]
fn broken_sheets_end_in_a_message_or_a_result() {
    let sheets: Vec<String> =
        files("fixtures/sheets/ok", "lanes").iter().map(|path| std::fs::read_to_string(path).unwrap()).collect();
    let (mut refused, mut computed) = (0, 0);
    for seed in 0..SHEETS {
        let begun = Instant::now();
        let mut random = Random(seed as u64);
        let original = random.pick(&sheets).clone();
        let text = mutate(&original, &mut random);
        let (gathered, port) = read_text(&text);
        match port {
            Ok(mut port) => {
                let all: Vec<usize> = (0..port.names().len()).collect();
                // The time domain and the settings of tolerances take longer: of some sheets only.
                let figures = if seed % TIMED == 0 { Figures::All } else { Figures::Nyquist };
                if seed % TIMED != 0 {
                    port.lines.iter_mut().for_each(|line| line.head.values = Arc::default());
                }
                match size(&port, &all, figures, &gathered.sources, &|| ()) {
                    Ok(report) => {
                        computed += 1;
                        let table = render(&report, Format::Table);
                        assert!(is_finite(&table), "seed {seed}: {table}");
                    }
                    Err(errors) => assert!(!errors.is_empty(), "seed {seed}"),
                }
            }
            Err(errors) => {
                assert!(!errors.is_empty() && errors.len() <= MAX_ERRORS, "seed {seed}");
                assert!(errors.iter().all(|e| !e.message.is_empty() && !e.message.contains("NaN")), "seed {seed}");
                refused += 1;
            }
        }
        assert!(begun.elapsed() < HANG, "seed {seed}");
    }
    assert!(refused > SHEETS / 10 && computed > SHEETS / 10, "{refused} refused, {computed} computed");
}
