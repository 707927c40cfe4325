//! What a reader is shown.

use crate::support::{read_file, root};
use lanecap::budget::Figures;
use lanecap::curve::{ChartData, charted_sensitivity};
use lanecap::model::Line;
use lanecap::picture::{png, svg};
use lanecap::result::{RangeReport, sensitivity, sweep};
use lanecap::study::{Over, holding, usual_range};
use lanecap::text::{Format, render_range, render_sensitivity, render_sweep};

const LINE: &str = "camera link";

fn demo<T>(work: impl FnOnce(&lanecap::Design, &Line, &lanecap::diag::Sources) -> T) -> T {
    let (gathered, design) = read_file(&root().join("fixtures/sheets/ok/demo.lanes"));
    let design = design.unwrap();
    let line = design.lines.iter().find(|line| line.head.name == LINE).unwrap();
    work(&design, line, &gathered.sources)
}

fn over(line: &Line, address: &str, from: f64, to: f64) -> Over {
    Over { of: line.addressed(&address.parse().unwrap()).unwrap().clone(), from, to }
}

#[test]
fn what_buys_more_as_a_table() {
    let report = demo(|design, _, _| sensitivity(design, &[0], &|| ()).unwrap());
    insta::assert_snapshot!(render_sensitivity(&report, Format::Table));
}

#[test]
fn a_sweep_as_a_table() {
    let report = demo(|design, line, sources| {
        let over = vec![over(line, "6.length", 5e-3, 45e-3)];
        sweep(design, line, (over, 8), Figures::Nyquist, sources, &|| ()).unwrap()
    });
    insta::assert_snapshot!(render_sweep(&report, Format::Table));
}

#[test]
fn a_range_as_a_table() {
    let report = demo(|design, line, _| {
        let of = line.addressed(&"4.length".parse().unwrap()).unwrap().clone();
        let (from, to) = usual_range(line, &of).unwrap();
        let found = holding(line, &Over { of: of.clone(), from, to }, false).unwrap().unwrap();
        RangeReport::new(design, line, of, found)
    });
    insta::assert_snapshot!(render_range(&report, Format::Table));
}

fn drawn(data: &ChartData) -> String {
    let drawn = svg(data);
    assert!(drawn.starts_with("<svg") && drawn.ends_with("</svg>\n"), "{drawn}");
    assert!(!drawn.contains("NaN") && !drawn.contains("inf"));
    assert!(png(data).unwrap().starts_with(b"\x89PNG"));
    drawn
}

#[test]
fn each_has_a_picture() {
    let bars = demo(|_, line, _| charted_sensitivity(line).unwrap().unwrap());
    let text = drawn(&bars);
    assert!(text.contains("what buys more") && text.contains("receiver 8"), "{text}");
    let [curve, map] = demo(|design, line, sources| {
        let [length, pad] = [over(line, "6.length", 5e-3, 45e-3), over(line, "8.pad", 0.0, 0.5e-12)];
        [vec![length.clone()], vec![length, pad]]
            .map(|over| sweep(design, line, (over, 8), Figures::Nyquist, sources, &|| ()).unwrap().chart())
    });
    let text = drawn(&curve);
    assert!(
        text.contains("the budget over length of trace 6")
            && text.contains("stated 32 mm")
            && text.contains("fitted 0.4 pF")
    );
    let text = drawn(&map);
    // A level, with its unit.
    assert!(
        text.contains("the budget over length of trace 6 and pad of receiver 8") && text.contains("0.6 pF"),
        "{text}"
    );
}

/// Nothing fitted, nothing allowed, no bound: gaps, and no number that is none.
#[test]
fn pictures_of_what_has_no_budget() {
    let sheet = "lane \"l\" { rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB
        path { driver 50 ohm; connector 0.1 pF; protector; receiver 50 ohm } }";
    let (gathered, design) = crate::support::read_text(sheet);
    let design = design.unwrap();
    let line = &design.lines[0];
    let connector = over(line, "2.capacitance", 0.0, 4e-12);
    let impedance = over(line, "4.impedance", 20.0, 100.0);
    for over in [vec![connector.clone()], vec![connector, impedance]] {
        let report = sweep(&design, line, (over, 10), Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        assert!(report.points.iter().any(|point| point.line.budget().capacitance.is_none()));
        drawn(&report.chart());
    }
    let free = crate::support::read_text("bus \"b\" { pull_up 2 kohm; inputs 10 pF }").1.unwrap();
    assert!(drawn(&charted_sensitivity(&free.lines[0]).unwrap().unwrap()).contains("nothing taken out buys more"));
}

fn of_text<T>(text: &str, work: impl FnOnce(&lanecap::Design, &Line, &lanecap::diag::Sources) -> T) -> T {
    let (gathered, design) = crate::support::read_text(text);
    let design = design.unwrap();
    work(&design, &design.lines[0], &gathered.sources)
}

/// 2.2 pF beside 52 ohm: the trace that is asked for breaks and holds by its length, and the budget is met in no digit.
fn probe(trace: &str) -> String {
    format!(
        "lane \"gauge link\" {{ rate 5 Gb/s nrz; reference 50 ohm; limit return_loss >= 16 dB; limit added_loss <= 1 dB\n\
         path {{ driver 50 ohm; trace 52 ohm {trace} permittivity 3.6; protector; trace 52 ohm 20 mm permittivity 3.6\n\
         receiver 50 ohm pad 0.3 pF }} }}"
    )
}

#[test]
fn headroom_of_round_off_is_none() {
    let report = of_text(&probe("12 mm"), |design, _, _| sensitivity(design, &[0], &|| ()).unwrap());
    let found = &report.lines[0].found;
    let set_by = found.budget.set_by.unwrap();
    let margin = found.limits.iter().find(|limit| limit.figure == set_by).unwrap().margin.unwrap();
    assert!(margin.abs() < 1e-9, "{margin}");
    let text = render_sensitivity(&report, Format::Table);
    let row = text.lines().rfind(|row| row.trim_start().starts_with(set_by.word())).unwrap();
    assert!(row.contains("  0 dB (sets the budget)  "), "{text}");
}

#[test]
fn tolerances_that_are_left_out_are_said() {
    const SAID: &str = "As stated: within its tolerances the line may break sooner; `size` tells the worst case.";
    for (trace, is_said) in [("12 mm ± 1 mm", true), ("12 mm", false)] {
        let text = probe(trace).replace("protector", "protector 0.2 pF");
        let (range, swept) = of_text(&text, |design, line, sources| {
            let asked = over(line, "2.length", 5e-3, 45e-3);
            let found = holding(line, &asked, false).unwrap().unwrap();
            let report = RangeReport::new(design, line, asked.of.clone(), found);
            let swept = sweep(design, line, (vec![asked], 4), Figures::Nyquist, sources, &|| ()).unwrap();
            (render_range(&report, Format::Table), render_sweep(&swept, Format::Table))
        });
        for shown in [range, swept] {
            assert_eq!(shown.contains(SAID), is_said, "{shown}");
            assert!(!shown.contains("\n\n\n"), "{shown}");
        }
    }
}

/// The largest budget is never rounded up, and where it is what is asked for, not said twice.
#[test]
fn the_budget_of_a_range_is_that_of_size() {
    let shown = of_text(&probe("12 mm"), |design, line, _| {
        let of = line.addressed(&"3.capacitance".parse().unwrap()).unwrap().clone();
        let found = holding(line, &Over { of: of.clone(), from: 0.0, to: of.range.high }, true).unwrap().unwrap();
        let budget = found.best.unwrap().budget.0;
        (render_range(&RangeReport::new(design, line, of, found), Format::Table), budget)
    });
    let row = shown.0.lines().find(|row| row.contains("Largest budget: ")).unwrap();
    let told = row.trim().strip_prefix("Largest budget: ").unwrap().strip_suffix(" pF.").unwrap();
    let told: f64 = told.parse().unwrap();
    assert!(told * 1e-12 <= shown.1 && told * 1e-12 > shown.1 * 0.999, "{row}: {}", shown.1);
}
