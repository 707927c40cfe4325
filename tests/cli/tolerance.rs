//! Lines with tolerances on the command line.

use super::{lanecap, run_with};

const SHEET: &str = "lane \"gauge link\" {\n rate 5 Gb/s nrz; reference 90 ohm differential\n limit return_loss >= 10 dB\n path {\n  \
                     driver 90 ohm ± 10 %\n  trace 90 ohm ± 10 % 12 mm permittivity 3.4\n  protector 0.75 pF ± 10 %\n  \
                     trace 90 ohm ± 10 % 30 mm permittivity 3.4\n  receiver 90 ohm\n }\n}\n";

fn run(args: &[&str]) -> (i32, String, String) {
    run_with(lanecap(args).write_stdin(SHEET))
}

/// What holds with the values of the sheet and breaks within their tolerances ends with 1.
#[test]
fn a_line_that_breaks_within_its_tolerances_ends_with_1() {
    let (status, table, _) = run(&["size", "-", "--nyquist"]);
    assert_eq!(status, 1, "{table}");
    assert!(table.contains("gauge link: holds as stated, at worst return_loss breaks by "), "{table}");
    let (status, table, _) = run(&["size", "-", "--nyquist", "--fitted", "0.3pF"]);
    assert_eq!(status, 0, "{table}");
}

#[test]
fn settings_are_asked_for() {
    let asked = |seed| run(&["size", "-", "--nyquist", "--samples", "200", "--seed", seed]).1;
    assert!(asked("7").contains("of 200 settings drawn at random (seed 7)"));
    assert_eq!(asked("7"), asked("7"));
    let (status, working, _) = run(&["explain", "-", "--samples", "150", "--seed", "3"]);
    assert!(status == 0 && working.contains("of 150 settings drawn with seed 3"), "{working}");
    let (status, page, _) = run(&["report", "-", "--samples", "150", "--seed", "3"]);
    assert!(status == 1 && page.contains("150 settings drawn at random within the tolerances, seed 3"));
    for wrong in ["0", "10000001", "many"] {
        assert_eq!(run(&["size", "-", "--samples", wrong]).0, 2);
    }
}

#[test]
fn the_yield_is_drawn_of_a_line_with_tolerances() {
    let (status, svg, _) = run(&["chart", "-", "--show", "yield", "--samples", "100"]);
    assert_eq!(status, 0);
    for said in ["share of settings", "worst case", "99.7 % allow", "as stated", "fitted", "100 settings"] {
        assert!(svg.contains(said), "{said}");
    }
    let (status, _, error) = run_with(&mut lanecap(&["chart", "--demo", "--show", "yield", "--line", "display link"]));
    assert!(status == 2 && error.contains("states none"), "{error}");
}
