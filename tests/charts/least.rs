//! The least capacitance of a window in a picture.

use crate::support::lanes::*;
use lanecap::curve::{Picture, Show, charted};
use lanecap::figures::RETURN_LOSS;
use lanecap::picture::svg;

/// Half an inductance to either side wants a capacitance between: what is shown as the least is never below it.
#[test]
fn a_least_capacitance_is_rounded_up() {
    for tenths in 5..12 {
        let l = 0.1e-9 * f64::from(tenths);
        let elements = vec![driver(50.0, 0.0), series_l(l), place(), series_l(l), receiver(50.0, 0.0)];
        let lane = lane(50.0, 5e9, elements, vec![limit(&RETURN_LOSS, 20.0)]);
        let data = charted("window", &lane, Show::Penalty).unwrap();
        let Picture::Penalty(sweep) = &data.picture else { panic!("{data:?}") };
        let low = sweep.allowed[0].0;
        assert!(low > 0.0, "{l}");
        let text = svg(&data);
        let shown = text.split("least ").nth(1).unwrap().split('<').next().unwrap();
        let (number, unit) = shown.split_once(' ').unwrap();
        let unit = match unit {
            "pF" => 1e-12,
            "fF" => 1e-15,
            other => panic!("{other}"),
        };
        let shown = number.parse::<f64>().unwrap() * unit;
        assert!(shown >= low * (1.0 - 1e-12) && shown < low * 1.001, "{shown} {low}");
    }
}
