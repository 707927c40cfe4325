use super::{microstrip_mm, stripline_mm, thin};
use lanecap::resolve::geometry::{LaminateAt, microstrip, skin_depth};
use lanecap::units::{Hertz, Metre};

fn ordinary() -> LaminateAt {
    LaminateAt { copper_thickness: Metre(35e-6), ..thin(4.0) }
}

#[test]
fn ordinary_boards_are_inside_every_range() {
    let at = |gap| microstrip(Metre(0.2e-3), Metre(0.1e-3), gap, &ordinary(), Hertz(2.5e9)).notes;
    assert_eq!(at(None), []);
    assert_eq!(at(Some(Metre(0.15e-3))), []);
    assert_eq!(stripline_mm(0.15, 0.4, None, &ordinary()).notes, []);
    assert_eq!(stripline_mm(0.15, 0.4, Some(0.2), &ordinary()).notes, []);
}

#[test]
fn a_wide_gap_names_the_range() {
    let notes = microstrip(Metre(1e-3), Metre(1e-3), Some(Metre(12e-3)), &ordinary(), Hertz(1e9)).notes;
    let texts: Vec<_> = notes.iter().map(|n| n.to_string()).collect();
    assert_eq!(
        texts,
        ["gap/height is 12, outside the range of the coupled microstrip (Kirschning & Jansen 1984): 0.1 to 10"]
    );
}

#[test]
fn a_high_frequency_names_the_range_with_its_unit() {
    let notes = microstrip(Metre(3e-3), Metre(1.5e-3), None, &ordinary(), Hertz(30e9)).notes;
    let texts: Vec<_> = notes.iter().map(|n| n.to_string()).collect();
    assert_eq!(
        texts,
        [
            "frequency × height is 45 GHz·mm, outside the range of the dispersion of the permittivity \
             (Kirschning & Jansen 1982): 0 to 39 GHz·mm",
            "frequency × height is 45 GHz·mm, outside the range of the dispersion of the impedance \
             (Jansen & Kirschning 1983): 0 to 30 GHz·mm",
        ]
    );
}

#[test]
fn thin_copper_names_an_open_range() {
    let depth = skin_depth(Hertz(1e5), 1.72e-8);
    assert!(depth.0 > 35e-6);
    let notes = microstrip_mm(1.0, 1.0, None, &ordinary()).notes;
    assert_eq!(
        notes.iter().map(|n| n.to_string()).collect::<Vec<_>>(),
        ["copper thickness/skin depth is 0.168, outside the range of the incremental-inductance rule (Wheeler 1942): \
          3 and above"]
    );
}

#[test]
fn thick_copper_and_narrow_strips_are_noted() {
    let thick = LaminateAt { copper_thickness: Metre(0.3e-3), ..thin(4.0) };
    assert_eq!(stripline_mm(0.5, 1.0, None, &thick).notes[0].quantity, "copper thickness/plane spacing");
    let narrow = stripline_mm(0.1, 1.0, Some(0.2), &ordinary()).notes;
    assert_eq!(narrow[0].quantity, "width/(plane spacing − copper thickness)");
}
