//! A table of figures: a row for each line absent, fitted and at its budget.

use super::grid::Grid;
use super::scale::{power, shared_scale};
use crate::figures::{Figure, Rows};
use crate::model::ProfileRead;
use crate::result::{LineResult, Protector, Sizes, State};
use crate::units::decimal::{Decimal, Scale, pair, short, significant};
use crate::words::limits::{Capacitances, gain};

/// A figure that has a column.
#[derive(Clone, Copy)]
pub(crate) struct Column {
    figure: &'static Figure,
    /// The unit it is shown in, with its power of ten over SI.
    scale: Scale,
    /// How many digits are shown of what no bound is held against.
    digits: Option<usize>,
}

/// A column of the lines themselves, before those of their figures.
pub(crate) struct Own<'a, L> {
    pub(crate) title: String,
    pub(crate) cell: &'a dyn Fn(&L) -> String,
}

impl Column {
    /// In the unit of the figure, a share in percent.
    pub(crate) fn of(figure: &'static Figure) -> Column {
        Column { figure, scale: Scale::of(1.0), digits: None }
    }

    /// With a prefix.
    pub(crate) fn scaled(figure: &'static Figure, scale: Scale) -> Column {
        Column { figure, scale, digits: None }
    }

    pub(crate) fn digits(self, digits: usize) -> Column {
        Column { digits: Some(digits), ..self }
    }

    /// With a prefix that suits all lines and states.
    pub(crate) fn shared<A, O: Sizes>(figure: &'static Figure, lines: &[LineResult<A, O>]) -> Column {
        Column::scaled(figure, scale_of(figure, lines))
    }

    fn title(&self) -> String {
        let title = self.figure.title;
        match self.figure.unit() {
            "1" => title.to_owned(),
            "" => format!("{title} [%]"),
            unit => format!("{title} [{}{unit}]", self.scale.prefix),
        }
    }

    /// Whether the figure applies to any line.
    pub(crate) fn is_known<A, O: Sizes>(&self, lines: &[LineResult<A, O>]) -> bool {
        lines.iter().flat_map(LineResult::states).any(|state| state.read(self.figure).is_some())
    }

    fn cell<A, O: Sizes>(&self, line: &LineResult<A, O>, state: &State<O::Figures, O::Changes>) -> String {
        let Some(value) = state.read(self.figure) else {
            return self.figure.without.to_owned();
        };
        if let Some(digits) = self.digits {
            return significant(value / self.scale.factor, digits);
        }
        let bound = self.bound(line, state.protector);
        let percent = if self.figure.unit().is_empty() { 2 } else { 0 };
        let text = |number: Decimal| number.times_ten_to(power(&self.scale) + percent).to_string();
        if let Some(gain) = gain(self.figure, value) {
            return format!("gain {}", text(gain));
        }
        text(bound.map_or_else(|| short(value), |bound| pair(value, bound).0))
    }

    /// The bound that the number must not seem to cross. At the budget a number may lie on it to within the solver's
    /// last digits, which are of no interest.
    fn bound<A, O: Sizes>(&self, line: &LineResult<A, O>, protector: Protector) -> Option<f64> {
        let mut limits = line.limits().filter(|(stated, limit)| {
            // A figure beside a limit that measures it otherwise is held against no bound.
            let otherwise = stated.levels.is_some() || stated.below.is_none() && stated.read != ProfileRead::default();
            limit.figure == self.figure && !otherwise
        });
        limits.find_map(|(stated, _)| stated.bound).filter(|_| protector != Protector::AtBudget)
    }
}

/// The scale that suits a figure of all lines and states.
pub(crate) fn scale_of<A, O: Sizes>(figure: &Figure, lines: &[LineResult<A, O>]) -> Scale {
    shared_scale(lines.iter().flat_map(LineResult::states).filter_map(|state| state.read(figure)))
}

/// The table. `kind` stands over the names.
pub(crate) fn grid<A, O: Sizes>(
    (title, kind): (&'static str, &str),
    lines: &[LineResult<A, O>],
    (scale, capacitances): (Scale, &[Capacitances]),
    own: &[Own<'_, LineResult<A, O>>],
    columns: &[Column],
) -> Grid {
    let mut header = vec![kind.to_owned()];
    header.extend(own.iter().map(|own| own.title.clone()));
    header.extend(["protector".to_owned(), format!("C [{}F]", scale.prefix)]);
    header.extend(columns.iter().map(Column::title));
    let mut rows = Vec::new();
    for (line, c) in lines.iter().zip(capacitances) {
        for state in line.states() {
            let mut row = vec![line.head.name.clone()];
            row.extend(own.iter().map(|own| (own.cell)(line)));
            row.extend([state.protector.word().to_owned(), capacitance(&state, c)]);
            row.extend(columns.iter().map(|column| column.cell(line, &state)));
            rows.push(row);
        }
    }
    Grid { title, header, rows }
}

fn capacitance<F: Rows, C: Rows>(state: &State<F, C>, c: &Capacitances) -> String {
    let shown = match state.protector {
        Protector::Absent => None,
        Protector::Fitted => c.fitted(),
        Protector::AtBudget => state.capacitance.map(|budget| c.largest(budget.0)),
    };
    shown.unwrap_or_else(|| "-".to_owned())
}
