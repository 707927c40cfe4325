//! `check` says once what it would say of thousands of lines.

use super::{lanecap, run_with};

/// So many lanes, each with one warning: its part, which states no polarity.
fn lanes(lanes: usize) -> String {
    let lane = |k: usize| {
        format!(
            "lane \"link {k}\" {{ rate 5 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 1 V\n path {{ driver 50 ohm; \
             protector part \"plain\"; receiver 50 ohm }} }}\n"
        )
    };
    let part = "part \"plain\" { capacitance 0.3 pF max at 0 V }\n".to_owned();
    part + &(0..lanes).map(lane).collect::<String>()
}

fn check(sheet: &str, format: &str) -> (i32, String, String) {
    run_with(lanecap(&["check", "-", "--format", format]).write_stdin(sheet.to_owned()))
}

fn warnings(text: &str) -> Vec<&str> {
    text.lines().filter(|line| line.starts_with("warning[")).collect()
}

#[test]
fn the_same_warning_of_many_lines_is_said_once_at_the_first() {
    let (status, out, err) = check(&lanes(100), "table");
    let said = "warning[polarity-assumed]: part \"plain\" states no polarity: taken as unidirectional";
    assert_eq!(warnings(&err), [format!("{said} (and at 99 more places, the first is shown)")]);
    assert!(err.contains("─ -:3:"), "{err}");
    assert_eq!((status, out.as_str()), (0, "-: no errors, 100 warnings\n"));
}

#[test]
fn up_to_three_are_said_one_by_one() {
    let (_, out, err) = check(&lanes(3), "table");
    assert_eq!(warnings(&err).len(), 3, "{err}");
    assert!(!err.contains("more places"), "{err}");
    assert_eq!(out, "-: no errors, 3 warnings\n");
    let (_, _, err) = check(&lanes(4), "table");
    assert_eq!(warnings(&err).len(), 1, "{err}");
}

#[test]
fn what_is_said_of_another_part_or_with_other_numbers_stays_apart() {
    let other = lanes(9).replacen("\"plain\" {", "\"other\" {", 1).replace("lane \"link", "lane \"far");
    let other = other.replace("part \"plain\";", "part \"other\";");
    let (_, out, err) = check(&(lanes(5) + &other), "table");
    let said = warnings(&err);
    assert!(said.len() == 2 && said[0].contains("\"plain\"") && said[1].contains("\"other\""), "{said:?}");
    assert!(said[0].contains("at 4 more") && said[1].contains("at 8 more"), "{said:?}");
    assert_eq!(out, "-: no errors, 14 warnings\n");
}

#[test]
fn the_name_of_the_line_itself_keeps_nothing_apart() {
    let bus = |k: usize| format!("bus \"wire {k}\" {{ pull_up 2 kohm; wiring 60 pF }}\n");
    let (_, _, err) = check(&(0..50).map(bus).collect::<String>(), "table");
    let said = warnings(&err);
    assert!(said.len() == 1 && said[0].contains("bus \"wire 0\" states no limits"), "{said:?}");
    assert!(said[0].contains("at 49 more places"), "{said:?}");
}

#[test]
fn json_counts_what_stands_for_several() {
    let (_, out, _) = check(&lanes(100), "json");
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    let list = value["diagnostics"].as_array().unwrap();
    assert_eq!(list.len(), 1);
    assert_eq!((list[0]["count"].as_u64(), list[0]["line"].as_u64()), (Some(100), Some(3)));
    assert_eq!(list[0]["message"], "part \"plain\" states no polarity: taken as unidirectional");
    let (_, out, _) = check(&lanes(3), "json");
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    let list = value["diagnostics"].as_array().unwrap();
    assert!(list.len() == 3 && list.iter().all(|one| one.get("count").is_none()), "{list:?}");
}

#[test]
fn errors_are_never_put_together() {
    let sheet = lanes(10).replace("reference 50 ohm", "reference 50 pF");
    let (status, out, err) = check(&sheet, "table");
    assert_eq!(err.lines().filter(|line| line.starts_with("error[")).count(), 10, "{err}");
    assert_eq!((status, out.as_str()), (2, "-: 10 errors, no warnings\n"));
}
