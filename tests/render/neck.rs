//! The working of a line whose traces are narrowed beside its protector.

use lanecap::load::{FileRead, load};

/// The working of the first line of a sheet.
fn explained(sheet: &str) -> String {
    let read = load(FileRead::without_path("sheet", sheet.as_bytes().to_vec()));
    let design = read.design.expect("a good sheet");
    lanecap::text::working(&design.lines[0], &read.sources).expect("a working")
}

/// The row of an element.
fn row<'t>(text: &'t str, begins: &str) -> &'t str {
    text.lines().map(str::trim).find(|line| line.starts_with(begins)).expect(begins)
}

fn lane(neck: &str) -> String {
    explained(&format!(
        "lane \"mast camera\" {{ rate 10 Gb/s nrz; reference 100 ohm differential; limit added_loss <= 1 dB
         path {{ driver 100 ohm; trace 100 ohm 6 mm permittivity 3.4; protector pad 0.04 pF {neck}
         trace 100 ohm 40 mm permittivity 3.4; receiver 100 ohm }} }}"
    ))
}

#[test]
fn a_neck_is_told_where_it_is_cut_and_what_it_balances() {
    let text = lane("neck 140 ohm 1.5 mm");
    assert!(row(&text, "2. trace").ends_with("; cut into 4.5 mm of 100 ohm and 1.5 mm of 140 ohm"), "{text}");
    assert!(row(&text, "4. trace").ends_with("; cut into 1.5 mm of 140 ohm and 38.5 mm of 100 ohm"), "{text}");
    // 2τ(Zn/Z0 − Z0/Zn)/Z0 with Z0 = 50 ohm and Zn = 70 ohm of the half circuit: 2 · 9.2259 ps · 0.68571/50 ohm, by hand.
    let told = "; neck of 140 ohm, 1.5 mm on either side: balances C + pad = 253.1 fF at low frequency";
    assert!(row(&text, "3. protector").ends_with(told), "{text}");
    assert_eq!(text.lines().filter(|line| line.trim_start().starts_with("line: gamma l")).count(), 4);
    // Without length, and without a neck, nothing is cut.
    let plain = lane("");
    // But for the addresses, which an element has for what is stated of it.
    let rows = |text: &str| -> Vec<String> {
        let is_address =
            |row: &str| row.split_once('.').is_some_and(|(n, of)| n.parse::<u8>().is_ok() && !of.starts_with(' '));
        text.lines().filter(|row| !is_address(row.trim())).map(str::to_owned).collect()
    };
    assert_eq!(rows(&plain), rows(&lane("neck 140 ohm 0 mm")));
    assert!(!plain.contains("neck") && !plain.contains("cut into"), "{plain}");
    let feed = explained(
        "feed \"telemetry\" { band 2400 MHz to 2484 MHz; reference 50 ohm; limit return_loss >= 10 dB
         path outward { radio 50 ohm; trace 50 ohm 12 mm permittivity 3.4; protector pad 0.05 pF neck 1 mm 75 ohm
         trace 50 ohm 5 mm permittivity 3.4; antenna 48 ohm } }",
    );
    assert!(row(&feed, "2. trace").ends_with("; cut into 1 mm of 75 ohm and 11 mm of 50 ohm"), "{feed}");
    assert!(row(&feed, "4. trace").ends_with("; cut into 4 mm of 50 ohm and 1 mm of 75 ohm"), "{feed}");
    // 2 · 6.1506 ps · (1.5 − 1/1.5)/50 ohm.
    assert!(row(&feed, "3. protector").contains("balances C + pad = 205 fF"), "{feed}");
}
