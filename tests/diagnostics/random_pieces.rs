//! Whatever a text is, it says in pieces what it says read from its start to its end.

use lanecap::Design;
use lanecap::sheet::parse_by;
use rayon::ThreadPoolBuilder;

use crate::support::files;
use crate::support::random::Random;

const TEXTS: usize = 300;

/// What may mislead a reader that begins in the middle.
const ODD: [&str; 32] = [
    "\n",
    "\r\n",
    "\r",
    "{",
    "}",
    "\"",
    "#",
    ";",
    "\t",
    "\0",
    "\u{feff}",
    "\u{85}",
    "\u{2028}",
    "µ",
    "\\",
    "include \"shared/none.lanes\"\n",
    "\ninclude \"a{b\" {\n",
    "# lane \"x\" { }\n",
    "# \"open\n",
    "\nlane \"a } b # c ; d\" {\n",
    "\nlane \"a\n{\n",
    "\nlane\n{\n",
    "\nlane2 {\n",
    "lane {",
    "\npart { {\n",
    "\ntable \"t\" { 1 { 2 {\n",
    "\nport \"p\" { lane \"q\" {\n",
    "} lane \"a\" {",
    "\nlimits \"}\" # {\n",
    "\nantenna \"a\" { } feed \"b\" { } }\n",
    "5 Gb/s ± 3",
    "a { a { a { a { a { a { a { a { a {",
];

/// Some of the blocks of good sheets, one after the other, with a few mistakes.
fn text(blocks: &[String], random: &mut Random) -> String {
    let mut text: String = (0..4 + random.index(12)).map(|_| random.pick(blocks).as_str()).collect();
    for _ in 0..random.index(4) {
        let at = text.start_before(random.index(text.len() + 1));
        match random.index(4) {
            0 => {
                let end = text.start_before((at + random.index(40)).min(text.len()));
                text.replace_range(at..end.max(at), "");
            }
            1 => text.insert_str(at, &"long_name".repeat(random.index(400))),
            _ => text.insert_str(at, ODD[random.index(ODD.len())]),
        }
    }
    match random.index(8) {
        0 => text.replace('\n', "\r\n"),
        1 => format!("\u{feff}{text}"),
        2 => text.replacen("}\n", "\n", 1),
        _ => text,
    }
}

trait Boundary {
    fn start_before(&self, at: usize) -> usize;
}

impl Boundary for String {
    /// The last start of a character that is not beyond `at`.
    fn start_before(&self, at: usize) -> usize {
        (0..=at).rev().find(|at| self.is_char_boundary(*at)).unwrap_or_default()
    }
}

/// What the good sheets hold, cut before each block of the top level.
fn blocks() -> Vec<String> {
    let mut blocks = Vec::new();
    for path in files("fixtures/sheets/ok", "lanes") {
        let sheet = std::fs::read_to_string(path).unwrap();
        let mut block = String::new();
        for line in sheet.split_inclusive('\n') {
            block.push_str(line);
            if line.starts_with('}') {
                blocks.push(std::mem::take(&mut block));
            }
        }
    }
    blocks
}

#[test]
fn a_text_is_read_alike_in_pieces_of_any_size() {
    let blocks = blocks();
    assert!(blocks.len() > 50, "{}", blocks.len());
    let random = &mut Random(17);
    let pool = ThreadPoolBuilder::new().num_threads(3).build().unwrap();
    let mut faulty = 0;
    for _ in 0..TEXTS {
        let text = text(&blocks, random);
        let least = 1 + random.index(text.len());
        let whole = parse_by(0, &text, usize::MAX);
        let pieces = pool.install(|| parse_by(0, &text, least));
        assert!(format!("{whole:?}") == format!("{pieces:?}"), "pieces of {least} bytes of\n{text}");
        // No more than a message may come of it.
        let _ = Design::parse(&text);
        faulty += usize::from(!whole.1.is_empty());
    }
    assert!((TEXTS / 5..TEXTS * 4 / 5).contains(&faulty), "{faulty} of {TEXTS} are faulty");
}
