//! One unit for all numbers of a column.

use crate::units::decimal::Scale;
use crate::words::limits::Capacitances;
use crate::words::line::Line;

/// The scale that suits numbers of very different sizes best: that of their geometric mean.
pub(crate) fn shared_scale(values: impl Iterator<Item = f64>) -> Scale {
    let logs: Vec<f64> = values.filter(|v| *v > 0.0 && v.is_finite()).map(f64::ln).collect();
    if logs.is_empty() {
        return Scale::of(1.0);
    }
    Scale::of((logs.iter().sum::<f64>() / logs.len() as f64).exp())
}

/// The power of ten from the SI value to the unit of a scale.
pub(crate) fn power(scale: &Scale) -> i32 {
    -(scale.factor.log10().round() as i32)
}

/// A scale for the capacitances of protectors. They are read in picofarad, small ones too.
pub(crate) fn protector_scale(values: impl Iterator<Item = f64>) -> Scale {
    let scale = shared_scale(values);
    if scale.factor < 1e-12 || scale.factor >= 1.0 { Scale::of(1e-12) } else { scale }
}

/// The capacitances of lines, all in one unit.
pub(crate) fn capacitances(lines: &[Line<'_>]) -> (Scale, Vec<Capacitances>) {
    let all = |line: &Line<'_>| {
        let fitted = line.fitted.map(|fitted| fitted.capacitance);
        let budget = [line.budget.capacitance, line.budget.lowest].map(|c| c.map(|c| c.0));
        budget.into_iter().chain([fitted]).flatten()
    };
    let scale = protector_scale(lines.iter().flat_map(all));
    (scale, lines.iter().map(|line| of_line(line, scale)).collect())
}

/// A line's capacitances, where the fitted one is told apart from every end of what is allowed.
fn of_line(line: &Line<'_>, scale: Scale) -> Capacitances {
    let budget = line.budget;
    let worst = line.head.tolerance.as_ref().map(|tolerance| &tolerance.worst.allowed);
    let sets = budget.limits.iter().map(|limit| &limit.allowed).chain([&budget.allowed]).chain(worst);
    let ends = sets.flat_map(|set| set.intervals()).flat_map(|interval| [interval.low, interval.high]);
    let ends = ends.filter(|end| end.is_finite());
    let own = [budget.capacitance, budget.lowest].into_iter().flatten().map(|c| c.0);
    Capacitances::new(scale, line.fitted.map(|fitted| fitted.capacitance), ends.chain(own))
}
