//! The documentation says what the code does.

mod examples;
mod paths;
mod pictures;
mod vocabulary;

use crate::support::root;
use lanecap::sheet::schema::word_table;

const BEGIN: &str = "<!-- words -->\n";
const END: &str = "<!-- /words -->";

#[test]
fn the_word_table_is_the_schema() {
    let path = root().join("docs/sheet.md");
    let text = std::fs::read_to_string(&path).unwrap();
    let (before, rest) = text.split_once(BEGIN).expect("docs/sheet.md has the mark where the words begin");
    let (table, after) = rest.split_once(END).expect("docs/sheet.md has the mark where the words end");
    let wanted = format!("\n{}\n", word_table().trim());
    if table == wanted {
        return;
    }
    if std::env::var_os("UPDATE_DOCS").is_some() {
        std::fs::write(&path, format!("{before}{BEGIN}{wanted}{END}{after}")).unwrap();
        return;
    }
    panic!("docs/sheet.md is stale: run UPDATE_DOCS=1 cargo test docs");
}
