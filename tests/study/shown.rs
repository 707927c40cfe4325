//! What a reader is told of the tolerances of a line.

use serde_json::Value;

use lanecap::budget::{Figures, allowed_by_line};
use lanecap::diag::Sources;
use lanecap::model::{Address, Design};
use lanecap::result::{Wanted, size};
use lanecap::study::Sampling;
use lanecap::text::{Format, render, working};
use lanecap::units::significant;

use crate::support::{files, read_file, read_text, root};

fn sheet(part: &str) -> String {
    format!(
        "title \"Tide-gauge logger\"\n{part}\nlane \"gauge link\" {{\n rate 5 Gb/s nrz; reference 90 ohm differential\n \
         limit added_loss <= 0.5 dB; limit return_loss >= 10 dB\n path {{\n  driver 90 ohm ± 10 %\n  \
         trace 90 ohm ± 10 % 12 mm permittivity 3.4\n  protector 0.7 pF ± 10 % pad 0.05 pF ± 20 %\n  \
         trace 90 ohm ± 10 % 30 mm permittivity 3.4\n  receiver 90 ohm\n }}\n}}\n"
    )
}

fn design(text: &str) -> (Design, Sources) {
    let (gathered, design) = read_text(text);
    (design.unwrap_or_else(|errors| panic!("{errors:?}")), gathered.sources)
}

fn json(design: &Design, sources: &Sources) -> Value {
    let all: Vec<usize> = (0..design.lines.len()).collect();
    let report = size(design, &all, Figures::Nyquist, sources, &|| ()).unwrap();
    serde_json::from_str(&render(&report, Format::Json)).unwrap()
}

/// What stands under `set`, typed in again, is the line whose own set ends there.
#[test]
fn a_setting_typed_in_again_gives_its_number() {
    for path in ["tolerances", "antenna_tolerances"] {
        let (gathered, design) = read_file(&root().join(format!("fixtures/sheets/ok/{path}.lanes")));
        let design = design.unwrap();
        let json = json(&design, &gathered.sources);
        for (kind, line) in
            ["lanes", "feeds", "buses"].iter().flat_map(|kind| json[kind].as_array().unwrap()).enumerate()
        {
            let worst = &line["tolerance"]["worst"];
            let own = design.lines.iter().find(|own| own.head.name == line["name"].as_str().unwrap()).unwrap();
            let setting = worst["setting"].as_array().unwrap();
            assert_eq!(setting.len(), line["tolerance"]["values"].as_array().unwrap().len());
            let read = |value: &Value| -> (Address, f64) {
                (value["address"].as_str().unwrap().parse().unwrap(), value["value"].as_f64().unwrap())
            };
            let values: Vec<(Address, f64)> = setting.iter().map(read).collect();
            let there = own.with_values(values.iter().map(|(address, value)| (address, *value))).unwrap();
            let set = allowed_by_line(&there).unwrap();
            let c = worst["capacitance_f"].as_f64().unwrap();
            assert!((set.lowest().unwrap().high / c - 1.0).abs() < 1e-12, "{path} {kind}: {set:?} and {c}");
        }
    }
}

/// A line without a `±` says so, and is otherwise what it was: its tables name neither a worst case nor a yield.
#[test]
fn a_line_without_tolerances_has_none() {
    let mut seen = 0;
    for path in files("fixtures/sheets/ok", "lanes") {
        let (gathered, design) = read_file(&path);
        let design = design.unwrap();
        if design.lines.iter().any(|line| line.head.has_tolerance()) {
            continue;
        }
        let json = json(&design, &gathered.sources);
        for line in ["lanes", "feeds", "buses"].iter().flat_map(|kind| json[kind].as_array().unwrap()) {
            assert_eq!(line.get("tolerance"), Some(&Value::Null), "{}", path.display());
            seen += 1;
        }
        let all: Vec<usize> = (0..design.lines.len()).collect();
        let report = size(&design, &all, Figures::Nyquist, &gathered.sources, &|| ()).unwrap();
        for format in [Format::Table, Format::Markdown] {
            let text = render(&report, format);
            assert!(!text.contains("worst case") && !text.contains("What the tolerances leave"), "{}", path.display());
        }
    }
    assert!(seen > 40, "only {seen} lines");
}

/// A part that holds with the values of the sheet and not within their tolerances.
#[test]
fn a_line_that_breaks_within_its_tolerances_says_by_how_much() {
    let (design, sources) = design(&sheet(""));
    let report = size(&design, &[0], Figures::Nyquist, &sources, &|| ()).unwrap();
    let tolerance = report.lanes[0].head.tolerance.as_ref().unwrap();
    assert!(report.lanes[0].fitted().unwrap().holds && !tolerance.worst.fitted.as_ref().unwrap().holds);
    assert!(!report.passes());
    let table = render(&report, Format::Table);
    assert!(table.contains("gauge link: holds as stated, at worst return_loss breaks by "), "{table}");
    for said in ["worst case", "yield", "What the tolerances leave", "at the worst", "1.impedance", "seed 1"] {
        assert!(table.contains(said), "{said} in {table}");
    }
    let csv = render(&report, Format::Csv);
    let rows: Vec<Vec<&str>> = csv.lines().map(|row| row.split(',').collect()).collect();
    let cell = |column: &str| rows[1][rows[0].iter().position(|name| *name == column).unwrap()];
    assert_eq!(cell("worst_holds"), "false");
    assert_eq!(cell("worst_verdict"), "bounded");
    assert_eq!(cell("worst_set_by"), tolerance.worst.set_by.unwrap().word());
    assert_eq!(cell("worst_capacitance_f").parse::<f64>().unwrap(), tolerance.worst.capacitance.unwrap().0);
    assert_eq!(cell("yield_share").parse::<f64>().unwrap(), tolerance.yielded.share().unwrap());
    assert_eq!(cell("yield_budget_997_f").parse::<f64>().unwrap(), tolerance.yielded.budget.unwrap().0);
    let working = working(&design.lines[0], &sources).unwrap();
    for said in ["Tolerances", "Allowed at all of", "worst margin of the fitted value", "95 % interval"] {
        assert!(working.contains(said), "{said} in {working}");
    }
}

/// The numbers of percents in a sentence.
fn percents(sentence: &str) -> Vec<f64> {
    let words: Vec<&str> = sentence.split_whitespace().collect();
    let numbers = words.windows(2).filter(|pair| pair[1].starts_with('%')).map(|pair| pair[0].parse().unwrap());
    numbers.collect()
}

/// A share of settings stands within its interval, as shown too, and is all of them only where it is.
#[test]
fn a_yield_is_never_rounded_out_of_its_interval() {
    let (mut near, mut all, mut none) = (0, 0, 0);
    for fitted in ["0.62 pF", "0.67 pF", "0.68 pF", "0.685 pF", "0.69 pF", "0.8 pF", "1.3 pF"] {
        let (design, sources) = design(&sheet("").replace("0.7 pF", fitted));
        let wanted = Wanted { figures: Figures::Nyquist, sampling: Sampling { samples: Some(40_000), seed: 1 } };
        let report = size(&design, &[0], wanted, &sources, &|| ()).unwrap();
        let yielded = &report.lanes[0].head.tolerance.as_ref().unwrap().yielded;
        let ((low, high), share) = (yielded.interval().unwrap(), yielded.share().unwrap());
        let table = render(&report, Format::Markdown);
        let said = table.lines().find(|line| line.contains("Yield: ")).unwrap();
        let shown = percents(said.split_once("Yield: ").unwrap().1);
        assert!(shown.len() == 4 && shown[1] == 95.0, "{said}");
        let (at, from, to) = (shown[0] / 100.0, shown[2] / 100.0, shown[3] / 100.0);
        let round_off = 1e-15;
        assert!(from <= at && at <= to && from <= low + round_off && at <= share + round_off, "{said}");
        assert!(to >= high - round_off, "{said}");
        for (shown, exact) in [(at, share), (from, low), (to, high)] {
            assert_eq!(shown == 1.0, exact == 1.0, "{said}");
        }
        near += u32::from(share > 0.9999 && share < 1.0);
        all += u32::from(share == 1.0);
        none += u32::from(share == 0.0);
        let cell = match share {
            1.0 => format!("> {} %", shown[2]),
            0.0 => format!("< {} %", shown[3]),
            _ => format!("{} %", shown[0]),
        };
        assert!(table.contains(&format!("| {} |", cell.replace('<', "\\<").replace('>', "\\>"))), "{cell}: {table}");
    }
    assert!(near > 0 && all > 0 && none > 0, "{near} near all, {all} all, {none} none");
}

/// By how much what is fitted breaks at worst stands beside each limit, in the unit of the limit.
#[test]
fn the_worst_margin_stands_beside_its_limit() {
    let (design, sources) = design(&sheet(""));
    let report = size(&design, &[0], Figures::Nyquist, &sources, &|| ()).unwrap();
    let worst = &report.lanes[0].head.tolerance.as_ref().unwrap().worst;
    let table = render(&report, Format::Table);
    let limits = &worst.fitted.as_ref().unwrap().limits;
    for (limit, holds) in limits.iter().zip([true, false]) {
        let margin = limit.margin.unwrap();
        assert_eq!(limit.holds, holds);
        let row = table.lines().find(|row| {
            row.trim_start().starts_with(limit.figure.word()) && row.contains(if holds { "<=" } else { ">=" })
        });
        let sign = if holds { "+" } else { "" };
        let cell = format!("{sign}{} dB {}", significant(margin, 4), if holds { "holds" } else { "breaks" });
        assert!(row.unwrap().ends_with(&cell), "{cell} in {table}");
    }
    let by = format!("at worst return_loss breaks by {} dB", significant(-limits[1].margin.unwrap(), 4));
    assert!(table.contains(&by), "{by} in {table}");
    // No budget depends on what is fitted.
    let own = table.lines().find(|row| row.trim_start().starts_with("3.capacitance")).unwrap();
    assert!(own.ends_with(" -"), "{own}");
    let budget = format!("at the worst (budget {}", significant(worst.capacitance.unwrap().0 * 1e12, 3));
    assert!(table.contains(&budget), "{budget} in {table}");
}

/// An antenna that asks for some capacitance: both ends of what most settings allow, and what is missing without any.
#[test]
fn a_window_is_said_with_both_ends() {
    let feed = |least: &str| {
        design(&format!(
            "feed \"mast\" {{\n band 863 MHz to 870 MHz; reference 50 ohm\n limit return_loss >= {least} dB\n path {{\n  \
             antenna parallel 866 MHz ± 1 MHz 55 ohm ± 2 % q 9 ± 0.1\n  trace 50 ohm 12 mm loss_tangent 0.01\n  \
             protector pad 0.08 pF\n  series 8 nH ± 2 %\n  radio 50 ohm ± 2 % pad 0.2 pF\n }}\n}}\n"
        ))
    };
    for (least, verdict) in [
        ("9", "free up to the budget as stated, needs a protector at worst"),
        ("9.8", "needs a protector, as stated and at worst"),
    ] {
        let (design, sources) = feed(least);
        let report = size(&design, &[0], Figures::Nyquist, &sources, &|| ()).unwrap();
        let yielded = &report.feeds[0].head.tolerance.as_ref().unwrap().yielded;
        let (low, high) = (yielded.lowest.unwrap().0, yielded.budget.unwrap().0);
        let shown = render(&report, Format::Markdown);
        assert!(shown.contains(verdict), "{verdict} in {shown}");
        let said = shown.lines().find(|line| line.contains("99.7 % of ")).unwrap();
        let ends = said.split_once("allow ").unwrap().1.trim_end_matches(" pF.").split_once(" to ").unwrap();
        let ends: (f64, f64) = (ends.0.parse().unwrap(), ends.1.parse().unwrap());
        assert!(ends.0 * 1e-12 >= low * (1.0 - 1e-12) && ends.0 * 1e-12 <= low * 1.001, "{said}: {low}");
        assert!(ends.1 * 1e-12 <= high * (1.0 + 1e-12) && ends.1 * 1e-12 >= high * 0.999, "{said}: {high}");
    }
}

/// What is fitted by hand is exact: the tolerance of what the sheet fits is not that of another part.
#[test]
fn what_is_fitted_by_hand_does_not_vary() {
    let (mut design, sources) = design(&sheet(""));
    design.fit(lanecap::units::Farad(0.2e-12));
    let json = json(&design, &sources);
    let values = json["lanes"][0]["tolerance"]["values"].as_array().unwrap();
    assert!(values.iter().all(|value| value["address"] != "3.capacitance"));
    assert_eq!(json["lanes"][0]["tolerance"]["worst"]["fitted"]["holds"], true);
}

/// More settings of another seed, as they are asked for.
#[test]
fn settings_are_drawn_as_asked() {
    let (design, sources) = design(&sheet(""));
    let sampling = Sampling { samples: Some(321), seed: 9 };
    let wanted = Wanted { figures: Figures::Nyquist, sampling };
    let report = size(&design, &[0], wanted, &sources, &|| ()).unwrap();
    let json: Value = serde_json::from_str(&render(&report, Format::Json)).unwrap();
    let yielded = &json["lanes"][0]["tolerance"]["yield"];
    assert_eq!((yielded["samples"].as_u64(), yielded["seed"].as_u64()), (Some(321), Some(9)));
    let (held, share) = (yielded["held"].as_u64().unwrap(), yielded["held"].as_f64().unwrap() / 321.0);
    assert_eq!(yielded["share"].as_f64().unwrap(), share);
    let (low, high) = lanecap::study::clopper_pearson(held, 321);
    assert_eq!((yielded["share_low"].as_f64(), yielded["share_high"].as_f64()), (Some(low), Some(high)));
    assert!(low < share && share <= high);
    let shares = yielded["shares"].as_array().unwrap();
    assert!(shares.len() <= 65 && shares[0][0] == 0.0);
    assert!(shares.windows(2).all(|pair| pair[0][0].as_f64() < pair[1][0].as_f64()));
}
