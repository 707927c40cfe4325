//! A shown number never contradicts the verdict it stands beside.

use super::sample;
use crate::support::decimals::{beside, number};
use lanecap::figures::{EYE_PENALTY, RETURN_LOSS};
use lanecap::text::{Format, render};
use lanecap::units::Farad;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn tables_keep_the_order_of_fitted_and_budget(
        budget in 0.01f64..100.0, exponent in -14i32..0, above: bool, exact in prop::bool::weighted(0.1),
    ) {
        let budget = budget * 1e-12;
        let value = beside(budget, exponent, above, exact);
        let mut lane = sample::camera();
        let own = sample::budget(&mut lane);
        own.capacitance = Some(Farad(budget));
        own.allowed = sample::between(0.0, Some(budget));
        own.limits[1].allowed = sample::between(0.0, Some(budget));
        sample::fitted(&mut lane).at.capacitance = Farad(value);
        let table = render(&sample::report(vec![lane]), Format::Table);
        let row: Vec<&str> = table.lines().find(|l| l.contains("camera link")).expect("a row").split_whitespace().collect();
        // name name count budget set_by fitted …
        let (shown_budget, shown_fitted) = (number(row[3]), number(row[5]));
        prop_assert_eq!(shown_fitted.partial_cmp(&shown_budget), value.partial_cmp(&budget), "{}", table);
        // The budget is never promised larger than it is.
        prop_assert!(shown_budget * 1e-12 <= budget * (1.0 + 1e-15));
        let limits = table.split_once("  Limits\n").expect("the limits").1;
        let own = limits.lines().find(|l| l.trim_start().starts_with("return_loss")).expect("the limit");
        let upper = number(own.split_once("up to ").expect("its upper end").1.split_once(' ').expect("a unit").0);
        prop_assert_eq!(shown_fitted.partial_cmp(&upper), value.partial_cmp(&budget), "{}", table);
    }

    #[test]
    fn tables_keep_the_order_of_value_and_bound(
        bound in 1u32..3000, exponent in -14i32..0, above: bool, exact in prop::bool::weighted(0.1), penalty: bool,
    ) {
        let figure = if penalty { &EYE_PENALTY } else { &RETURN_LOSS };
        let word = figure.word();
        let scale = if penalty { 1e-4 } else { 0.01 };
        let bound = f64::from(bound) * scale;
        let value = beside(bound, exponent, above, exact);
        let mut lane = sample::camera();
        sample::set_limits(&mut lane, vec![sample::limit(figure, bound, None)]);
        let fitted = sample::fitted(&mut lane);
        let headroom = sample::headroom(figure, value, bound);
        fitted.holds = headroom.holds;
        fitted.headroom = vec![headroom];
        let at = &mut fitted.at;
        if penalty { at.changes.loss.eye_penalty = value } else { at.figures.loss.return_loss = Some(value) }
        let table = render(&sample::report(vec![lane]), Format::Table);
        let limits = table.split_once("  Limits\n").expect("the limits").1;
        let row = limits.lines().find(|l| l.trim_start().starts_with(word)).expect("the limit");
        let words: Vec<&str> = row.split_whitespace().collect();
        // limit, <=, bound, unit, any, holds, holds, value, unit, margin, unit, verdict
        let (shown_bound, shown_value, margin) = (number(words[2]), number(words[7]), number(words[9]));
        prop_assert_eq!(shown_value.partial_cmp(&shown_bound), value.partial_cmp(&bound), "{}", row);
        let holds = if penalty { value <= bound } else { value >= bound };
        prop_assert_eq!(words[11], if holds { "holds" } else { "breaks" });
        prop_assert_eq!(margin >= 0.0, holds);
        // The signal's own table too.
        let row = table.lines().find(|l| l.contains("link") && l.contains("  fitted ")).expect("a row of the signal");
        let words: Vec<&str> = row.split_whitespace().collect();
        let shown = number(words[words.len() - if penalty { 1 } else { 2 }]);
        prop_assert_eq!(shown.partial_cmp(&shown_bound), value.partial_cmp(&bound), "{}", table);
    }

    #[test]
    fn a_narrow_window_stays_a_window(low in 0.01f64..10.0, exponent in -13i32..1) {
        let (low, high) = (low * 1e-12, low * 1e-12 * (1.0 + 10f64.powi(exponent)));
        let mut lane = sample::window();
        sample::budget(&mut lane).lowest = Some(Farad(low));
        sample::budget(&mut lane).capacitance = Some(Farad(high));
        let table = render(&sample::report(vec![lane]), Format::Table);
        let needs = table.lines().find_map(|l| l.trim_start().strip_prefix("Needs ")).expect("the window");
        let words: Vec<&str> = needs.split_whitespace().collect();
        let (shown_low, shown_high) = (number(words[0]), number(words[2]));
        prop_assert!(shown_low < shown_high || low == high, "{}", needs);
        prop_assert!(shown_low * 1e-12 >= low * (1.0 - 1e-15) && shown_high * 1e-12 <= high * (1.0 + 1e-15));
    }
}
