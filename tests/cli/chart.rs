//! `chart` from outside.

use super::{lanecap, run};

#[test]
fn svg_goes_to_standard_output() {
    let (status, out, err) = run(&["chart", "--demo", "--show", "loss", "--line", "camera link"]);
    assert_eq!((status, err.as_str()), (0, ""));
    assert!(out.starts_with("<svg ") && out.ends_with("</svg>\n"), "{out}");
}

#[test]
fn the_extension_chooses_the_form() {
    let folder = tempfile::tempdir().unwrap();
    for (name, start) in [("a.svg", &b"<svg "[..]), ("b.PNG", b"\x89PNG\r\n")] {
        let path = folder.path().join(name);
        let args = ["chart", "--demo", "--show", "penalty", "--line", "mast link", "-o", path.to_str().unwrap()];
        assert_eq!(run(&args), (0, String::new(), String::new()));
        assert!(std::fs::read(&path).unwrap().starts_with(start), "{name}");
    }
}

#[test]
fn other_extensions_are_refused_before_anything_is_read() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["a.jpg", "svg", "a.svg.gz"] {
        let path = folder.path().join(name);
        let (status, _, err) = run(&["chart", "no such sheet", "--show", "eye", "-o", path.to_str().unwrap()]);
        assert_eq!(status, 2);
        assert_eq!(err, "error: a chart is a .svg or .png file\n  = help: give -o a name that ends in .svg or .png\n");
        assert!(!path.exists());
    }
}

#[test]
fn one_line_is_drawn() {
    let (status, _, err) = run(&["chart", "--demo", "--show", "eye"]);
    assert_eq!(status, 2);
    assert!(err.contains("the sheet has more than one line") && err.contains("e.g. --line \"camera link\""), "{err}");
    let (status, ..) = run(&["chart", "--demo", "--show", "eye", "--line", "camera"]);
    assert_eq!(status, 2);
}

#[test]
fn another_capacitance_can_be_drawn() {
    let (status, out, _) = run(&["chart", "--demo", "--show", "loss", "--line", "camera link", "--fitted", "0.25pF"]);
    assert!(status == 0 && out.contains("fitted 0.25 pF"));
}

#[test]
fn a_device_takes_svg() {
    lanecap(&["chart", "--demo", "--show", "loss", "--line", "camera link", "-o", "/dev/stdout"]).assert().success();
}

fn sheet(name: &str) -> String {
    let path = crate::support::root().join("fixtures/sheets/ok").join(name);
    path.to_str().unwrap().to_owned()
}

#[test]
fn the_only_feed_needs_no_name() {
    let (status, out, err) = run(&["chart", &sheet("antenna_feed.lanes"), "--show", "match"]);
    assert_eq!((status, err.as_str()), (0, ""));
    assert!(out.contains("<title>navigation antenna: match over the band</title>"), "{out}");
    let (status, _, err) = run(&["chart", &sheet("positioning_antenna.lanes"), "--show", "match"]);
    assert_eq!(status, 2);
    assert!(err.contains("e.g. --line \"positioning antenna\""), "{err}");
}

#[test]
fn a_picture_the_line_does_not_have_is_refused() {
    let demo = ["chart", "--demo", "--line"];
    for (line, show, said) in [
        ("clock antenna", "eye", "drawn of lanes, and this line is an antenna feed"),
        ("camera link", "match", "drawn of antenna feeds, and this line is a lane"),
        ("service wires", "match", "charts are drawn of lanes and antenna feeds; this line is neither"),
        ("supply pin", "eye", "charts are drawn of lanes and antenna feeds; this line is neither"),
    ] {
        let (status, out, err) = run(&[&demo[..], &[line, "--show", show]].concat());
        assert_eq!((status, out.as_str()), (2, ""), "{line}");
        assert!(err.contains(said) && err.contains("help: "), "{line}: {err}");
    }
    let (status, out, err) = run(&["chart", &sheet("antenna_feed.lanes"), "--show", "eye"]);
    assert_eq!((status, out.as_str()), (2, ""));
    assert!(err.contains("drawn of lanes, and this line is an antenna feed") && err.contains("--show match"), "{err}");
}

/// DejaVu Sans has Latin, Greek and Cyrillic letters, no CJK and few emoji.
#[test]
fn an_image_says_which_letters_it_lacks() {
    let folder = tempfile::tempdir().unwrap();
    let demo = std::fs::read_to_string(sheet("demo.lanes")).unwrap();
    let said = |name: &str, file: &str| {
        let path = folder.path().join("named.lanes");
        std::fs::write(&path, demo.replace("camera link", name)).unwrap();
        let target = folder.path().join(file);
        let (sheet, target) = (path.to_str().unwrap(), target.to_str().unwrap());
        let (status, out, err) = run(&["chart", sheet, "--line", name, "--show", "loss", "-o", target]);
        assert_eq!((status, out.as_str()), (0, ""), "{err}");
        assert!(std::fs::metadata(target).unwrap().len() > 1000);
        err
    };
    assert_eq!(
        said("水位 µΩж水 🦀", "a.png"),
        "warning: the image shows boxes in place of 水 位 🦀, which its font does not have\n  \
         = help: an SVG shows them in the fonts of its reader: give -o a name that ends in .svg\n"
    );
    assert_eq!(said("水位 µΩж水 🦀", "a.svg"), "");
    assert_eq!(said("Überlauf µΩж", "b.png"), "");
}

#[test]
fn a_discharge_is_drawn_of_any_line_with_a_path() {
    let (status, out, err) =
        run(&["chart", &sheet("late_array.lanes"), "--show", "discharge", "--line", "level sensor, direct"]);
    assert_eq!((status, err.as_str()), (0, ""));
    assert!(out.contains("<title>level sensor, direct: contact discharge of 8 kV, either polarity, estimate</title>"));
    // A rail with a path is one as well.
    let (status, out, err) = run(&["chart", &sheet("input_24v.lanes"), "--show", "discharge", "--line", "24 V input"]);
    assert_eq!((status, err.as_str()), (0, ""));
    assert!(out.contains("24 V input: contact discharge of 8 kV"));
}

#[test]
fn a_discharge_that_cannot_be_drawn_says_why() {
    let demo = ["chart", "--demo", "--show", "discharge", "--line"];
    let (status, out, err) = run(&[&demo[..], &["supply pin"]].concat());
    assert_eq!((status, out.as_str()), (2, ""));
    assert!(err.contains("of a line with a path") && err.contains("help: "), "{err}");
    let (status, out, err) = run(&[&demo[..], &["camera link", "--fitted", "0.2pF"]].concat());
    assert_eq!((status, out.as_str()), (2, ""));
    assert!(err.contains("the discharge of this line is not computed: "), "{err}");
}
