//! Reading sheets.

use std::fs;
use std::path::Path;

use super::{lanecap, run, run_with};
use lanecap::cli::{SourceArgs, read_sheet};
use lanecap::load::read_include;
use lanecap::sheet::MAX_BYTES;

fn sheet(path: &Path) -> SourceArgs {
    SourceArgs { sheet: Some(path.to_owned()), demo: false }
}

#[test]
fn what_cannot_be_read_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("a file");
    fs::write(&file, "x").expect("a file");
    let name = |path: &Path| path.to_str().expect("UTF-8").to_owned();
    for (path, why) in [
        (name(&folder.path().join("none")), "there is no such file or folder"),
        (name(folder.path()), "it is a folder, not a file"),
        (name(&file.join("x")), "a part of the path is a file, not a folder"),
        ("/dev/zero".to_owned(), "it is larger than 16 MiB"),
    ] {
        let expected = format!("error: cannot read {path}: {why}\n");
        assert_eq!(run(&["check", &path]), (2, String::new(), expected));
    }
}

#[test]
fn the_largest_sheet_is_still_read() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("large.lanes");
    fs::write(&path, vec![b'#'; MAX_BYTES]).expect("a file");
    assert_eq!(read_sheet(&sheet(&path)).map(|read| read.file.bytes.len()), Ok(MAX_BYTES));
    fs::write(&path, vec![b'#'; MAX_BYTES + 1]).expect("a file");
    assert!(read_sheet(&sheet(&path)).is_err_and(|why| why.ends_with("it is larger than 16 MiB")));
}

#[test]
fn bytes_that_are_no_text_have_a_place() {
    let bad = b"title \"x\"\n# caf\xe9 \xff\n".to_vec();
    let (status, out, err) = run_with(lanecap(&["check", "-"]).write_stdin(bad.clone()));
    assert_eq!((status, out.as_str()), (2, "-: 1 error, no warnings\n"));
    assert!(err.contains("error[not-utf8]") && err.contains("┌─ -:2:6"), "{err}");
    let (status, out, err) = run_with(lanecap(&["check", "-", "--format", "json"]).write_stdin(bad.clone()));
    assert_eq!((status, err.as_str()), (2, ""));
    let value: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(value["diagnostics"][0]["line"], 2);
    for command in ["size", "explain"] {
        let (status, out, err) = run_with(lanecap(&[command, "-"]).write_stdin(bad.clone()));
        assert_eq!((status, out.as_str()), (2, ""), "{command}");
        assert!(err.contains("┌─ -:2:6"), "{err}");
    }
    // A file gets the diagnostics and their number.
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("found.txt");
    let (status, out, err) = run_with(lanecap(&["check", "-", "-o", path.to_str().expect("UTF-8")]).write_stdin(bad));
    assert_eq!((status, out.as_str(), err.as_str()), (2, "", ""));
    let found = fs::read_to_string(path).expect("the file");
    assert!(found.contains("┌─ -:2:6") && found.ends_with("\n-: 1 error, no warnings\n"), "{found}");
}

#[test]
fn includes_are_looked_for_beside_their_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let inner = folder.path().join("inner");
    fs::create_dir(&inner).expect("a folder");
    fs::write(folder.path().join("port.lanes"), "include \"inner/a.lanes\"").expect("a file");
    fs::write(inner.join("a.lanes"), "include \"b.lanes\"").expect("a file");
    fs::write(inner.join("b.lanes"), "# b").expect("a file");
    let root = read_sheet(&sheet(&folder.path().join("port.lanes"))).expect("the sheet");
    let a = read_include(&root.folder, "inner/a.lanes").expect("the first");
    let b = read_include(&a.folder, "b.lanes").expect("the second");
    assert_eq!(b.file.bytes, b"# b");
    assert!(b.file.name.ends_with("inner/b.lanes"), "{}", b.file.name);
    // Two names of one file.
    let again = read_include(&a.folder, "../inner/./b.lanes").expect("the same");
    assert_eq!(again.file.identity, b.file.identity);
    assert_ne!(a.file.identity, b.file.identity);
    for (path, why) in [
        ("none.lanes", "there is no such file or folder"),
        ("", "the name of the file is empty"),
        (".", "it is a folder, not a file"),
        ("/dev/zero", "it is no regular file"),
    ] {
        let said = read_include(&a.folder, path).expect_err(path);
        assert!(said.ends_with(why), "{path}: {said}");
    }
    // Standard input includes from the current directory.
    assert!(read_include(Path::new(""), "Cargo.toml").is_ok());
}
