//! Results written whole or not at all.

use std::fs;
use std::io::Write;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::Stdio;

use super::{lanecap, run};
use lanecap::cli::Output;

fn name(path: &Path) -> &str {
    path.to_str().expect("UTF-8")
}

fn starter(path: &Path) -> (i32, String, String) {
    run(&["starter", "-o", name(path)])
}

/// The files of a folder.
fn listing(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn a_file_gets_what_standard_output_would() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("new.lanes");
    assert_eq!(starter(&path), (0, String::new(), String::new()));
    let written = fs::read_to_string(&path).expect("the file");
    assert_eq!(written, run(&["starter"]).1);
    assert_eq!(listing(folder.path()), ["new.lanes"]);
    // As readable as any new file.
    let plain = folder.path().join("plain");
    fs::write(&plain, "").expect("a file");
    let mode = |path: &Path| fs::metadata(path).expect("the file").permissions().mode();
    assert_eq!(mode(&path), mode(&plain));
}

#[test]
fn an_existing_file_keeps_its_permissions_and_its_links() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.lanes");
    fs::write(&path, "old").expect("a file");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).expect("permissions");
    let link = folder.path().join("link");
    symlink("old.lanes", &link).expect("a link");
    assert_eq!(starter(&link).0, 0);
    assert!(fs::symlink_metadata(&link).expect("the link").is_symlink());
    assert!(fs::read_to_string(&path).expect("the file").contains("lane "));
    assert_eq!(fs::metadata(&path).expect("the file").permissions().mode() & 0o777, 0o640);
    // A link to a file that is not there yet.
    let ahead = folder.path().join("ahead");
    symlink("later.lanes", &ahead).expect("a link");
    assert_eq!(starter(&ahead).0, 0);
    assert!(folder.path().join("later.lanes").is_file());
    assert_eq!(listing(folder.path()), ["ahead", "later.lanes", "link", "old.lanes"]);
}

#[test]
fn what_cannot_be_written_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("file");
    fs::write(&file, "old").expect("a file");
    let circle = folder.path().join("circle");
    symlink("circle", &circle).expect("a link");
    for (path, why) in [
        (folder.path().to_owned(), "it is a folder, not a file"),
        (file.join("x"), "a part of the path is a file, not a folder"),
        (folder.path().join("none/x"), "there is no folder "),
        (folder.path().join("none/"), "it is the name of a folder"),
        (circle, ""),
        (Path::new("/dev/full").to_owned(), "no space left on the device"),
        (Path::new("/proc/x").to_owned(), ""),
    ] {
        let (status, out, err) = starter(&path);
        assert_eq!((status, out.as_str()), (2, ""), "{path:?}");
        let expected = format!("error: cannot write {}: {why}", name(&path));
        assert!(err.starts_with(&expected), "{err}");
    }
    assert_eq!(fs::read_to_string(&file).expect("the file"), "old");
    assert_eq!(listing(folder.path()), ["circle", "file"]);
}

#[test]
fn a_failed_run_leaves_the_old_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("result.txt");
    fs::write(&path, "old").expect("a file");
    let (status, _, _) = run(&["size", "/nowhere.lanes", "-o", name(&path)]);
    assert_eq!(status, 2);
    assert_eq!(fs::read_to_string(&path).expect("the file"), "old");
    assert_eq!(listing(folder.path()), ["result.txt"]);
    // The target is looked at before the sheet is.
    let (status, _, err) = run(&["size", "/nowhere.lanes", "-o", name(folder.path())]);
    assert_eq!(status, 2);
    assert!(err.starts_with("error: cannot write "), "{err}");
}

#[test]
fn the_sheet_itself_is_not_replaced() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("port.lanes");
    fs::write(&path, b"\xff").expect("a file");
    let link = folder.path().join("link");
    symlink(&path, &link).expect("a link");
    let (status, out, err) = run(&["check", name(&path), "-o", name(&link)]);
    assert_eq!((status, out.as_str()), (2, ""));
    assert!(err.contains("it is the sheet itself\n  = help: give another file after -o"), "{err}");
    assert_eq!(fs::read(&path).expect("the sheet"), b"\xff");
    let other = [folder.path().join("other").to_string_lossy().into_owned()];
    assert!(Output::open(Some(&path)).expect("the output").spare(&other).is_ok());
}

#[test]
fn pipes_and_devices_are_written_directly() {
    assert_eq!(starter(Path::new("/dev/null")), (0, String::new(), String::new()));
    let (status, out, _) = starter(Path::new("/dev/stdout"));
    assert!(status == 0 && out.contains("lane \"camera link\""), "{out}");
    let (status, out, err) = starter(Path::new("/dev/stderr"));
    assert!(status == 0 && out.is_empty() && err.contains("lane \"camera link\""), "{err}");
    let folder = tempfile::tempdir().expect("a folder");
    let pipe = folder.path().join("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status().expect("mkfifo");
    assert!(made.success());
    let reader = {
        let pipe = pipe.clone();
        std::thread::spawn(move || fs::read_to_string(pipe).expect("the pipe"))
    };
    assert_eq!(starter(&pipe).0, 0);
    assert!(reader.join().expect("the reader").contains("lane \"camera link\""));
    assert_eq!(listing(folder.path()), ["pipe"]);
}

#[test]
fn a_full_standard_output_is_an_error() {
    for args in [&["starter"][..], &["manual"], &["--help"]] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full").expect("the device");
        let output = std::process::Command::new(lanecap(&[]).get_program())
            .args(args)
            .stdout(Stdio::from(full))
            .output()
            .expect("a run");
        let err = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        assert!(err.starts_with("error: cannot write standard output: "), "{args:?}: {err}");
    }
}

#[test]
fn a_run_that_is_killed_at_work_leaves_no_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("page.html");
    for old in [None, Some("old")] {
        old.inspect(|old| fs::write(&path, old).expect("a file"));
        let before = listing(folder.path());
        let mut run = std::process::Command::new(env!("CARGO_BIN_EXE_lanecap"));
        run.args(["report", "-", "-o", name(&path)]);
        let mut child = run.stdin(Stdio::piped()).spawn().expect("a run");
        // More than a pipe holds: once it is written, the program is reading its sheet, and waits for the rest.
        let mut sheet = child.stdin.take().expect("a pipe");
        sheet.write_all("# nothing yet\n".repeat(100_000).as_bytes()).expect("read");
        assert_eq!(listing(folder.path()), before);
        child.kill().expect("running");
        child.wait().expect("ended");
        assert_eq!(listing(folder.path()), before);
        old.inspect(|old| assert_eq!(fs::read_to_string(&path).expect("the file"), *old));
    }
}

#[test]
fn a_dash_is_standard_output() {
    assert_eq!(run(&["starter", "-o", "-"]), run(&["starter"]));
}

#[test]
fn a_reader_that_goes_away_before_the_end_is_told() {
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_lanecap"))
        .args(["size", "--demo", "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("a run");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("its end");
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("its reader has gone away"));
}

#[test]
fn an_interrupted_run_leaves_no_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("out.json");
    fs::write(&path, "old").expect("a file");
    for (delay, signal) in
        (0..40).map(|k| (k, "KILL")).chain((0..30).map(|k| (k, ["INT", "TERM", "HUP"][k as usize % 3])))
    {
        let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_lanecap"))
            .args(["size", "--demo", "--nyquist", "--format", "json", "-o", name(&path)])
            .stderr(Stdio::null())
            .spawn()
            .expect("a run");
        std::thread::sleep(std::time::Duration::from_millis(delay));
        let id = child.id().to_string();
        let _ = std::process::Command::new("kill").args(["-s", signal, &id]).stderr(Stdio::null()).status();
        let _ = child.wait();
        assert_eq!(listing(folder.path()), ["out.json"], "{signal} after {delay} ms");
        let text = fs::read_to_string(&path).expect("the file");
        assert!(text == "old" || serde_json::from_str::<serde_json::Value>(&text).is_ok(), "half a file");
    }
}

#[test]
fn more_threads_than_the_system_has_are_no_failure() {
    let wild = lanecap(&["size", "--demo", "--nyquist"]).env("RAYON_NUM_THREADS", "1000000").output().expect("a run");
    assert_eq!(wild.status.code(), Some(run(&["size", "--demo", "--nyquist"]).0));
}
