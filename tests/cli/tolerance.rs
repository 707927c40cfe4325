//! Lines with tolerances on the command line.

use super::{lanecap, run_with};

const SHEET: &str = "lane \"gauge link\" {\n rate 5 Gb/s nrz; reference 90 ohm differential\n limit return_loss >= 10 dB\n path {\n  \
                     driver 90 ohm ± 10 %\n  trace 90 ohm ± 10 % 12 mm permittivity 3.4\n  protector 0.75 pF ± 10 %\n  \
                     trace 90 ohm ± 10 % 30 mm permittivity 3.4\n  receiver 90 ohm\n }\n}\n";

fn run(args: &[&str]) -> (i32, String, String) {
    run_with(lanecap(args).write_stdin(SHEET))
}

/// What holds as stated and breaks within the tolerances ends with 1.
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

/// Far beyond every budget what is fitted is pointed at, and the curve keeps its width.
#[test]
fn what_is_fitted_far_beyond_does_not_squeeze_the_yield() {
    let drawn = |fitted: &str| run(&["chart", "-", "--show", "yield", "--samples", "100", "--fitted", fitted]).1;
    let (far, farther) = (drawn("5pF"), drawn("50pF"));
    assert!(far.contains("fitted 5 pF, beyond") && !drawn("0.75pF").contains("beyond"), "{far}");
    let alike = |svg: &str| svg.replace("fitted 50 pF", "fitted 5 pF");
    assert_eq!(alike(&farther), alike(&far));
}

/// `pick` judges the line as stated, and says so.
#[test]
fn pick_says_that_it_judges_as_stated() {
    let sheet = format!("part \"small diode\" {{ capacitance 0.2 pF; standoff 5 V; channels 1 }}\n{SHEET}");
    let said = "judged as stated; `size` tells the worst case within the tolerances";
    let pick = |sheet: &str| run_with(lanecap(&["pick", "-"]).write_stdin(sheet)).1;
    let words = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words(pick(&sheet)).contains(said));
    assert!(!words(pick(&sheet.replace(" ± 10 %", ""))).contains(said));
}
