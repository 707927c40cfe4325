//! Discharges as a reader sees them: a sheet of every kind of line, in every format.

use std::sync::Arc;

use unicode_width::UnicodeWidthStr;

use super::hostile::names;
use crate::support::root;
use lanecap::Design;
use lanecap::diag::{inert, is_hostile};
use lanecap::load::FileRead;
use lanecap::load::load;
use lanecap::model::{Line, Part};
use lanecap::result::{DischargeReport, discharges, pick};
use lanecap::text::{Format, render_discharge, render_pick};
use lanecap::transient::{ContactDischarge, LineDischarge, StruckPart, SurgeWave};
use lanecap::units::{Ampere, Second, Volt, parse_unit};

const SHEET: &str = include_str!("discharge.lanes");
const FORMATS: [Format; 4] = [Format::Table, Format::Json, Format::Csv, Format::Markdown];

fn design() -> Design {
    Design::parse(SHEET).expect("a good sheet")
}

fn report(level: Option<Volt>, named: bool) -> DischargeReport {
    let design = design();
    let all: Vec<usize> = (0..design.lines.len()).collect();
    discharges(&design, &all, level, named, &|| ())
}

#[test]
fn the_table_as_a_whole() {
    insta::assert_snapshot!(render_discharge(&report(None, false), Format::Table));
}

#[test]
fn the_document_as_a_whole() {
    let design = design();
    let one = design.names().iter().position(|name| *name == "supply pin").expect("the rail");
    let report = discharges(&design, &[one], None, true, &|| ());
    insta::assert_snapshot!(render_discharge(&report, Format::Markdown));
}

#[test]
fn every_form_says_that_it_is_an_estimate() {
    for format in [Format::Table, Format::Json, Format::Markdown] {
        let text = render_discharge(&report(None, false), format).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains("An estimate: ") && text.contains("built board, by IEC 61000-4-2"), "{format:?}");
    }
}

#[test]
fn the_lines_that_meet_nothing_are_left_out() {
    let names = |report: &DischargeReport| report.lines.iter().map(|line| line.name.clone()).collect::<Vec<_>>();
    let met = names(&report(None, false));
    assert!(met.len() == 7 && !met.contains(&"debug link".to_owned()), "{met:?}");
    // Named, or struck because a level is asked for, it is there; what has no path still says so.
    assert_eq!(names(&report(None, true)).len(), 8);
    let all = report(Some(Volt(2e3)), false);
    assert_eq!(names(&all).len(), 8);
    for line in &all.lines {
        let wanted = if line.name == "service wires" { Volt(8e3) } else { Volt(2e3) };
        assert_eq!(line.contact, Some(wanted), "{}", line.name);
        assert_eq!(line.struck().is_some(), !["service wires", "display link"].contains(&line.name.as_str()));
        assert!(line.struck().is_none_or(|contact| contact.positive.level == Volt(2e3)));
    }
    let text = render_discharge(&report(None, true), Format::Table);
    assert!(text.contains("Nothing is computed: the line states no `exposure`."), "{text}");
    let nothing = DischargeReport { lines: vec![], ..report(None, false) };
    assert!(render_discharge(&nothing, Format::Table).contains("No line states an `exposure`"));
}

/// A report in which a line, and every part of it, has this name.
fn with_name(name: &str) -> DischargeReport {
    let mut report = report(None, false);
    report.title = Some(name.to_owned());
    let renamed = |part: &mut StruckPart| part.part = Arc::new(Part { name: name.to_owned(), ..(*part.part).clone() });
    for line in &mut report.lines {
        line.name = name.to_owned();
        let Ok(found) = &mut line.found else { continue };
        if let Some(Ok(contact)) = &mut found.contact {
            contact.parts.iter_mut().for_each(renamed);
        }
        if let Some(Ok(surge)) = &mut found.surge {
            surge.parts.iter_mut().for_each(|(part, _)| renamed(part));
        }
        if let Some(Err(lanecap::transient::NotStruck::Missing(part, _))) = &mut found.contact {
            *part = name.to_owned();
        }
    }
    report
}

#[test]
fn names_stay_names_and_tables_their_width() {
    for name in names() {
        let report = with_name(&name);
        for format in FORMATS {
            let text = render_discharge(&report, format);
            let bad = text.chars().find(|c| *c != '\n' && is_hostile(*c));
            assert_eq!(bad, None, "{format:?} of {name:?}");
        }
        for line in render_discharge(&report, Format::Table).lines() {
            assert!(line.width() <= 100, "{} columns for {name:?}: {line}", line.width());
        }
        let json: serde_json::Value = serde_json::from_str(&render_discharge(&report, Format::Json)).expect("JSON");
        assert_eq!(json["lines"][0]["name"], name.as_str());
        assert_eq!(json["lines"][0]["parts"][0]["part"], name.as_str());
        let csv = render_discharge(&report, Format::Csv);
        let row =
            csv::Reader::from_reader(csv.as_bytes()).records().next().expect("a row").expect("as long as the header");
        let guarded = name.starts_with(['=', '+', '-', '@', '\t', '\r']);
        assert_eq!(&row[0], format!("{}{}", if guarded { "'" } else { "" }, inert(&name)));
    }
    let text = render_discharge(&with_name("a|b `c` <b>x</b> [l](http://x) *s*"), Format::Markdown);
    let escaped = r"a\|b \`c\` \<b\>x\</b\> \[l\](http\://x) \*s\*";
    assert!(text.contains(&format!("\n| {escaped} | ")) && text.contains(&format!("\n## {escaped}: ")), "{text}");
    assert!(!text.contains("<b>"), "{text}");
}

/// The working of a line of the sheet.
fn explained(name: &str) -> String {
    let read = load(FileRead::without_path("sheet", SHEET.as_bytes().to_vec()));
    let design = read.design.expect("a good sheet");
    let line = design.lines.iter().find(|line| line.head.name == name).expect("the line");
    lanecap::text::working(line, &read.sources).expect("a working")
}

/// The SI value of `14 V` or `900 pH`.
fn si(number: &str, unit: &str) -> f64 {
    let unit = parse_unit(unit).expect(unit);
    unit.value_of(number).expect(number)
}

/// The rows of the working after one that begins with this, up to one that is no deeper.
fn block<'a>(text: &'a str, begins: &str) -> Vec<&'a str> {
    let mut lines = text.lines().skip_while(|line| !line.trim_start().starts_with(begins));
    let first = lines.next().expect(begins);
    let depth = |line: &str| line.len() - line.trim_start().len();
    let mut block = vec![first.trim()];
    block.extend(lines.take_while(|line| depth(line) > depth(first)).map(str::trim));
    block
}

/// What the rows of a sum add up to: each begins with its sign, a number and a unit.
fn sum(rows: &[&str]) -> f64 {
    let value = |row: &&str| {
        let words: Vec<&str> = row.split_whitespace().collect();
        match words[0] {
            "+" => si(words[1], words[2]),
            "-" => -si(words[1], words[2]),
            first => si(first, words[1]),
        }
    };
    rows.iter().map(value).sum()
}

/// Each number is rounded to three digits: half of the last one of each may be off.
fn near(a: f64, b: f64, terms: f64) {
    assert!((a - b).abs() <= 5.1e-3 * terms.max(b.abs()), "{a} is not {b}");
}

/// What the rows of a sum add up to without their signs.
fn sizes(rows: &[&str]) -> f64 {
    rows.iter().map(|row| sum(&[row]).abs()).sum()
}

#[test]
fn the_working_adds_up() {
    for name in ["camera link", "float switch", "mast link", "supply pin"] {
        let text = explained(name);
        let discharge = text.split_once("\nDischarge\n").expect("its section").1;
        let mut sums = 0;
        for part in discharge.split("polarity:\n").skip(1) {
            // Where the source's current goes.
            let rows = block(part, "source ");
            let words: Vec<&str> = rows[0].split_whitespace().collect();
            near(sum(&rows[1..]), si(words[1], words[2].trim_end_matches('=')), sizes(&rows[1..]));
            // The pin, where the chip conducts.
            if let Some(row) = part.lines().find(|line| line.contains("pin: V + R I = ")) {
                let words: Vec<&str> = row.split_whitespace().skip(6).collect();
                // 14 V + 1.2 ohm * 6.2 A = 21.4 V
                let [v, v_unit, "+", r, r_unit, "*", i, i_unit, "=", pin, unit] = words[..] else { panic!("{row}") };
                let volts = si(v, v_unit) + si(r, r_unit) * si(i, i_unit);
                near(volts, si(pin, unit), volts);
                sums += 1;
            }
            // A part that conducts: V0 + R I, with what stands below.
            for row in part.lines().filter(|line| line.contains("): V0 + R I = ")) {
                let (head, said) = row.trim().split_once(": V0 + R I = ").unwrap();
                let words: Vec<&str> = said.split_whitespace().collect();
                let [v, v_unit, "+", r, r_unit, "*", i, i_unit] = words[..] else { panic!("{row}") };
                let rows = block(part, &format!("{head}: V0"));
                let total = rows.last().unwrap().split_once(" = ").expect("the sum").1;
                let (number, unit) = total.split_once(' ').unwrap();
                let line = si(v, v_unit) + si(r, r_unit) * si(i, i_unit);
                near(line + sum(&rows[1..]), si(number, unit), line + sizes(&rows[1..]));
                sums += 1;
            }
        }
        assert!(sums >= 2 || name == "mast link" && sums >= 1, "{name}: {sums} sums in\n{discharge}");
    }
}

/// The formula with the numbers of the working is the source.
#[test]
fn the_working_has_the_source() {
    let text = explained("camera link");
    let between = |from: &str, to: &str| {
        let rest = text.split_once(from).expect(from).1;
        rest.split_once(to).expect(to).0.parse::<f64>().expect("a number")
    };
    let term = |t: f64, i: f64, k: f64, rise: f64, n: f64, fall: f64| {
        let x = (t / rise).powf(n);
        i / k * x / (1.0 + x) * (-t / fall).exp()
    };
    let (i1, i2) = (between("V0/4 kV (", " A/k1"), between(" ns) + ", " A/k2"));
    let (f1, f2) = (between("x1/(1 + x1) e^(-t/", " ns)"), between("x3/(1 + x3) e^(-t/", " ns)"));
    let (r1, r2) = (between("x1 = (t/", " ns)"), between("x3 = (t/", " ns)"));
    let (k1, k2) = (between("k1 = ", ","), between("k2 = ", "\n"));
    for t in [0.1, 0.7, 1.46, 4.0, 30.0, 60.0, 150.0] {
        let by_hand = 2.0 * (term(t, i1, k1, r1, 1.8, f1) + term(t, i2, k2, r2, 1.8, f2));
        let source = ContactDischarge { level: Volt(8e3) }.current(Second(t * 1e-9)).0;
        assert!((by_hand - source).abs() < 1e-6 * source, "{t} ns: {by_hand} against {source}");
    }
    assert!(text.contains("its peak: 29.84 A after 1.46 ns"), "{text}");
}

#[test]
fn the_working_names_every_piece() {
    let text = explained("camera link");
    for said in [
        "    2. connector: n0 - 300 pH - n1, 200 fF at n1 to ground, n1 - 300 pH - n2\n",
        "    4. trace: n2 - line of 45 ohm, 75.95 ps - n3\n",
        "    pin n3: the chip's clamp, V = 7 V + 600 mohm I positive, V = 6 V + 600 mohm I negative\n",
        "L = 500 pH in series with its straight lines, C = 300 fF beside them\n",
        "    positive: off up to 30 V, then V = 2 V + 250 mohm I, until I <= 20 mA\n",
        "Lines have no loss",
        "Terminations, resistances to ground",
        "its neighbour is at rest: impedances across the pair stand at half",
        "for 1 ns",
        "swings the other way",
    ] {
        assert!(text.contains(said), "no {said:?} in\n{text}");
    }
    let rail = explained("supply pin");
    // By hand: 28 V to 40 V at 16 A is 0.75 ohm, then 40 V - 0.3 ohm * 16 A = 35.2 V.
    assert!(
        rail.contains("    positive: from 28 V on V = 28 V + 750 mohm I, from 40 V on V = 35.2 V + 300 mohm I\n"),
        "{rail}"
    );
    assert!(rail.contains("    negative: from 700 mV on V = 700 mV + 300 mohm I\n"), "{rail}");
    assert!(rail.contains("Not stated: \"rail clamp\" conducts from 700 mV in the negative polarity"), "{rail}");
    assert!(explained("mast link").contains("The chip states no `clamps`: it draws no current."));
    assert!(explained("display link").contains("is not computed: the part \"unmeasured\" does not state `clamp`."));
    for none in ["radome cable", "debug link", "service wires"] {
        assert!(!explained(none).contains("\nDischarge\n"), "{none}");
    }
}

/// The words of the headers of a document's tables.
fn words_of_headers(document: &str) -> Vec<String> {
    let rows: Vec<&str> = document.lines().collect();
    let headers = rows.windows(2).filter(|pair| pair[1].starts_with("| ---")).map(|pair| pair[0].replace('\\', ""));
    headers.flat_map(|row| row.split(['|', ' ']).map(str::to_owned).collect::<Vec<_>>()).collect()
}

#[test]
fn no_table_breaks_a_word_of_its_header() {
    for sheet in ["demo", "outdoor_line", "sea_radio", "snap_and_chip"] {
        let text = std::fs::read_to_string(root().join(format!("fixtures/sheets/ok/{sheet}.lanes"))).unwrap();
        let design = Design::parse(&text).expect("a good sheet");
        let all: Vec<usize> = (0..design.lines.len()).collect();
        let struck = discharges(&design, &all, None, false, &|| ());
        let picked = pick(&design, &all, &|| ()).unwrap();
        let both = |format| render_discharge(&struck, format) + &render_pick(&picked, format);
        let table = both(Format::Table);
        let shown: Vec<&str> = table.split_whitespace().collect();
        // A name longer than a column's least width may be broken.
        let words = words_of_headers(&both(Format::Markdown)).into_iter().filter(|word| word.width() <= 24);
        let mut count = 0;
        for word in words.filter(|word| !word.is_empty()) {
            assert!(shown.contains(&word.as_str()), "{word:?} is broken in\n{table}");
            count += 1;
        }
        assert!(count > 50 && table.lines().all(|line| line.width() <= 118), "{sheet}: {count}");
    }
}

#[test]
fn the_first_table_has_the_worse_of_both_polarities() {
    let report = report(None, false);
    let text = render_discharge(&report, Format::Markdown);
    let mut lines = 0;
    for line in &report.lines {
        let (Some(contact), Ok(found)) = (line.struck(), &line.found) else { continue };
        let [a, b] = [&contact.positive, &contact.negative].map(|of| of.stated.outcome.pin);
        let worse = |a: f64, b: f64| if b > a { (b, r"\-") } else { (a, r"\+") };
        let mark = |(value, sign): (f64, &str), unit: &str| match unit {
            "V" => format!("{:.3} {}", Volt(value), sign.trim_start_matches('\\')),
            _ => format!("{:.3} {}", Ampere(value), sign.trim_start_matches('\\')),
        };
        let volts = [worse(a.peak.0, b.peak.0), worse(a.late_peak.0, b.late_peak.0)].map(|most| mark(most, "V"));
        let amperes = [worse(a.peak_current.0, b.peak_current.0), worse(a.equivalent.0, b.equivalent.0)];
        let amperes = amperes.map(|most| if found.chip.clamp.is_some() { mark(most, "A") } else { "-".to_owned() });
        let row = text.lines().find(|row| row.starts_with(&format!("| {} | ", line.name))).expect("its row");
        let cells: Vec<String> = row.split('|').map(|cell| cell.trim().replace('\\', "")).collect();
        assert_eq!(cells[3..7], [&volts[..], &amperes[..]].concat(), "{row}");
        lines += 1;
    }
    assert!(lines > 3, "{lines}");
}

/// The working of a line of a sheet of the fixtures, and the line.
fn explained_of(sheet: &str, name: &str) -> (String, Line) {
    let text = std::fs::read_to_string(root().join(format!("fixtures/sheets/ok/{sheet}.lanes"))).unwrap();
    let read = load(FileRead::without_path("sheet", text.into_bytes()));
    let design = read.design.expect("a good sheet");
    let line = design.lines.iter().find(|line| line.head.name == name).expect("the line");
    (lanecap::text::working(line, &read.sources).expect("a working"), line.clone())
}

#[test]
fn the_working_has_both_polarities_at_the_stated_and_the_worst_level() {
    let (text, line) = explained_of("outdoor_line", "gauge to building");
    let found = LineDischarge::of(&line).expect("a discharge");
    let contact = found.struck().expect("a contact discharge");
    for (sign, of) in contact.both() {
        assert!(of.worst_level < of.level);
        let stated = (of.level.to_string(), of.stated.outcome.pin);
        let worst = (format!("{:.3}, the worst level", of.worst_level), of.worst.outcome.pin);
        for (level, pin) in [stated, worst] {
            let row = format!("    {}, {level}: highest {:.3} after {:.3}\n", sign.word(), pin.peak, pin.peak_at);
            let rest = text.split_once(&row).unwrap_or_else(|| panic!("no {row:?} in\n{text}")).1;
            assert!(
                rest.starts_with(&format!("      after 5 ns at most {:.3}, mean {:.3}\n", pin.late_peak, pin.plateau))
            );
        }
    }
    let (sign, worst) = contact.worse_first()[0];
    let said = format!("after the start of {:.3}, {} polarity:", worst.worst_level, sign.word());
    assert_eq!(text.matches(&said).count(), 2, "{text}");
}

/// The formula with its numbers is the wave, and each straight line has the voltage that is said of it.
#[test]
fn the_working_of_a_surge_by_hand() {
    let (text, line) = explained_of("outdoor_line", "gauge to building");
    let surge = text.split_once("\nSurge\n").expect("its section").1;
    let between = |from: &str, to: &str| surge.split_once(from).expect(from).1.split_once(to).expect(to).0;
    let seconds = |text: &str| text.split_once(' ').map(|(number, unit)| si(number, unit)).expect(text);
    let (fall, rise) = (seconds(between("e^(-t/", ")/k")), seconds(between("x = (t/", ")^")));
    let n: f64 = between(")^", ", k = ").parse().unwrap();
    let k: f64 = between("k = ", " (IEC").parse().unwrap();
    for t in [0.1e-6, 0.5e-6, 1.2e-6, 10e-6, 50e-6, 200e-6_f64] {
        let x = (t / rise).powf(n);
        let (by_hand, wave) = (x / (1.0 + x) * (-t / fall).exp() / k, SurgeWave::Voltage.at(Second(t)));
        assert!((by_hand - wave).abs() < 1e-3 * wave, "{t}: {by_hand} against {wave}");
    }
    let mut rows = 0;
    for said in surge.lines().filter_map(|row| Some(row.split_once("at V + R I = ")?.1)) {
        let words: Vec<&str> = said.split_whitespace().collect();
        let [v, v_unit, "+", r, r_unit, "*", i, i_unit, "=", volts, unit] = words[..] else { panic!("{said}") };
        let by_hand = si(v, v_unit) + si(r, r_unit) * si(i, i_unit);
        near(by_hand, si(volts, unit), by_hand);
        rows += 1;
    }
    let found = LineDischarge::of(&line).expect("a surge");
    assert!(rows >= 6, "{rows} rows in\n{surge}");
    for (_, _, outcome) in found.surges().filter(|surge| surge.0 >= 1.0) {
        assert!(surge.contains(&format!("    pin: at most {:.3}", outcome.pin_peak)), "{surge}");
    }
    assert!(surge.contains("A positive surge of 1 kV") && surge.contains("A negative surge of 1 kV"), "{surge}");
}
