//! Charts: the numbers they are drawn from, what is written on them, and that nothing hides anything.

mod discharge;
mod drawn;
mod feed;
mod layout;
mod least;
mod png;
mod series;
mod words;

use crate::support::{files, lanes, read_file, read_text};
use lanecap::budget::{Figures, size_lane};
use lanecap::curve::{ChartData, Show, chart_data};
use lanecap::model::{Head, Lane};

/// The numbers of one picture.
fn data(lane: &Lane, show: Show) -> ChartData {
    named("under test", lane, show)
}

/// The numbers of one picture of a lane of this name.
fn named(name: &str, lane: &Lane, show: Show) -> ChartData {
    let outcome = size_lane(lane, Figures::Nyquist).unwrap();
    chart_data(name, lane, &outcome, show).unwrap()
}

/// The lanes of every sheet that can be read, each with its name.
fn fixtures() -> Vec<(String, Lane)> {
    let sheets = files("fixtures/sheets/ok", "lanes");
    let designs = sheets.iter().map(|path| read_file(path).1.unwrap());
    let owned = |(head, lane): (&Head, &Lane)| (head.name.clone(), lane.clone());
    designs.flat_map(|design| design.lanes().map(owned).collect::<Vec<_>>()).collect()
}

/// A port with every kind of limit, several of them on top of each other, crowded and full of elements.
const CROWDED: &str = r#"
part "array" {
    capacitance 0.30 pF typical 0.40 pF max at 0 V
    inductance 0.35 nH; resistance 0.4 ohm
    unidirectional; grading 0.7 V 0.4
    mismatch 5 %
}
lane "crowded" {
    rate 25 GBd pam4
    reference 100 ohm differential
    limit added_loss <= 0.5 dB
    limit insertion_loss <= 9 dB
    limit return_loss >= 12 dB at 100 MHz, 10 dB at 12.5 GHz, 10 dB at 15 GHz, 6 dB at 20 GHz
    limit return_loss_inner >= 3 dB
    limit eye_penalty <= 8 %
    limit worst_eye_penalty <= 20 %
    limit eye_height >= 10 %
    limit added_rise <= 2 ps
    limit impedance_dip >= 70 ohm
    limit mode_conversion <= -30 dB
    path {
        driver 100 ohm pad 0.05 pF
        cable 100 ohm 0.3 m loss 2.2 dB at 8 GHz permittivity 2.1
        connector 0.05 pF 0.1 nH
        trace 100 ohm 2 mm permittivity 3.4
        via 0.05 pF 0.1 nH
        trace 100 ohm 1 mm permittivity 3.4
        protector pad 0.02 pF part "array"
        trace 100 ohm 1 mm permittivity 3.4
        via 0.05 pF 0.1 nH
        trace 100 ohm 9 mm loss 0.5 dB/cm at 8 GHz permittivity 3.3 loss_tangent 0.004
        series 100 nF
        trace 100 ohm 1 mm permittivity 3.4
        receiver 100 ohm pad 0.03 pF
    }
}
"#;

fn crowded() -> Lane {
    lanes(read_text(CROWDED).1.unwrap()).remove(0)
}
