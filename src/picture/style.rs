//! Colours, lines and sizes. Every meaning has a lightness and a line pattern of its own, so that a grey print and
//! colour-blind eyes tell them apart.

use super::canvas::{Colour, Stroke};
use crate::curve::{ChartData, State};
use crate::units::Scale;
use crate::words::limits::Capacitances;

/// Size of a page.
pub(crate) const WIDTH: f64 = 800.0;
/// See [`WIDTH`].
pub(crate) const HEIGHT: f64 = 480.0;
/// Least distance of anything from the edge.
pub(crate) const EDGE: f64 = 10.0;

/// Sizes of text.
pub(crate) const TITLE: f64 = 15.0;
/// See [`TITLE`].
pub(crate) const SMALL: f64 = 11.0;

/// What is absent; of a discharge the connector.
pub(crate) const SLATE: Colour = Colour(0x6f, 0x78, 0x82, 1.0);
/// What is fitted; of a discharge the chip.
pub(crate) const BLUE: Colour = Colour(0x1d, 0x5f, 0xb4, 1.0);
/// What is at the budget; of a discharge the protector.
pub(crate) const AMBER: Colour = Colour(0xc9, 0x79, 0x1b, 1.0);
/// The polarity that is not the worse one.
pub(crate) const GREEN: Colour = Colour(0x12, 0x6e, 0x62, 1.0);
/// Limits.
pub(crate) const PLUM: Colour = Colour(0xa0, 0x1f, 0x66, 1.0);
/// What is allowed.
pub(crate) const TEAL: Colour = Colour(0x1f, 0x92, 0x82, 1.0);

/// The line of a state.
pub(crate) fn stroke(state: State) -> Stroke {
    match state {
        State::Absent => Stroke::new(SLATE, 1.4, &[4.0, 3.0]),
        State::Fitted(_) => Stroke::new(BLUE, 2.2, &[]),
        State::AtBudget(_) => Stroke::new(AMBER, 1.8, &[10.0, 4.0]),
    }
}

/// The line of a limit.
pub(crate) const LIMIT: Stroke = Stroke::new(PLUM, 1.6, &[]);
/// A frequency or capacitance marked over the whole height.
pub(crate) const MARK: Stroke = Stroke::new(Colour::INK, 0.9, &[2.0, 3.0]);
/// Grid.
pub(crate) const GRID: Stroke = Stroke::new(Colour(0x1b, 0x1d, 0x1f, 0.13), 0.7, &[]);
/// Frame.
pub(crate) const FRAME: Stroke = Stroke::new(Colour(0x1b, 0x1d, 0x1f, 0.7), 0.8, &[]);

/// Lines of several limits in one panel.
pub(crate) fn several(index: usize) -> Stroke {
    // None of those of the states, whose marks stand in the same panel.
    const COLOURS: [Colour; 5] = [PLUM, Colour(0x2e, 0x2a, 0x86, 1.0), Colour(0x8a, 0x5a, 0x2b, 1.0), GREEN, SLATE];
    const DASHES: [&[f64]; 4] = [&[], &[8.0, 3.0], &[2.0, 2.5], &[9.0, 3.0, 2.0, 3.0]];
    Stroke::new(COLOURS[index % COLOURS.len()], 1.9, DASHES[index % DASHES.len()])
}

/// The capacitances of a chart as text, in one unit, none rounded across another.
pub(crate) fn capacitances(data: &ChartData) -> Capacitances {
    let most = data.budget_f.unwrap_or(0.0).max(data.fitted_f.unwrap_or(0.0));
    Capacitances::new(farads(most), data.fitted_f, data.budget_f.into_iter())
}

/// The scale of capacitances. Those of protectors are read in picofarad, small ones too.
pub(crate) fn farads(most: f64) -> Scale {
    let scale = Scale::of(most);
    if (1e-14..1e-12).contains(&most) || most == 0.0 { Scale::of(1e-12) } else { scale }
}

/// What a state is called beside its line.
pub(crate) fn name(state: State, c: &Capacitances) -> String {
    match state {
        State::Absent => "absent".to_owned(),
        State::Fitted(_) => format!("fitted {} {}", c.fitted().unwrap_or_default(), c.unit()),
        State::AtBudget(budget) => format!("at budget {} {}", c.largest(budget), c.unit()),
    }
}
