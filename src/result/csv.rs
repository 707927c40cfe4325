//! A result as comma-separated values.

use super::keys::{Keyed, Keys};
use super::report::Report;
use crate::diag::inert;

/// The header and a row for each line, with every single value of the JSON in SI units; its lists are left out. The
/// columns of a kind of line are there where the report has one.
///
/// Keys of an object carry its word before them. What does not apply is an empty cell. A text that a spreadsheet might
/// take for a formula is guarded with an apostrophe.
pub(crate) fn render(report: &Report) -> String {
    let Report { lanes, feeds, buses, rails, .. } = report;
    let mut table = Table::default();
    // A report of nothing has the header of lanes.
    if !lanes.is_empty() || feeds.is_empty() && buses.is_empty() && rails.is_empty() {
        table.push(lanes);
    }
    table.push_any(feeds);
    table.push_any(buses);
    table.push_any(rails);
    table.text()
}

/// The rows of things of one kind, ended by a line end.
pub(crate) fn rows<T: Keyed>(things: &[T]) -> String {
    let mut table = Table::default();
    table.push(things);
    table.text()
}

/// The same with numbers in front of each row, under these names.
pub(crate) fn rows_beside<T: Keyed>(names: &[String], numbers: &[&[f64]], things: &[&T]) -> String {
    let mut table = Table { header: names.iter().map(|name| guarded(name)).collect(), rows: Vec::new() };
    table.push(things);
    for (row, numbers) in table.rows.iter_mut().zip(numbers) {
        row.extend(numbers.iter().enumerate().map(|(place, number)| (place, format!("{number:?}"))));
    }
    table.text()
}

/// Keys and rows of kinds that share keys.
#[derive(Default)]
struct Table {
    header: Vec<String>,
    rows: Vec<Vec<(usize, String)>>,
}

impl Table {
    /// Adds no key for a kind that has no line.
    fn push_any<T: Keyed>(&mut self, lines: &[T]) {
        if !lines.is_empty() {
            self.push(lines);
        }
    }

    /// A key that an earlier kind has keeps its place.
    fn push<T: Keyed>(&mut self, lines: &[T]) {
        let places: Vec<usize> = Row::of(None::<&T>).keys.into_iter().map(|key| self.place(key)).collect();
        let row = |line| places.iter().copied().zip(Row::of(Some(line)).cells).collect();
        self.rows.extend(lines.iter().map(row));
    }

    fn place(&mut self, key: String) -> usize {
        let known = self.header.iter().position(|known| *known == key);
        known.unwrap_or_else(|| {
            self.header.push(key);
            self.header.len() - 1
        })
    }

    fn text(&self) -> String {
        let mut writer = ::csv::Writer::from_writer(Vec::new());
        // Writing to memory cannot fail, and all rows are equally long.
        let _ = writer.write_record(&self.header);
        for row in &self.rows {
            let mut cells = vec![""; self.header.len()];
            for (place, cell) in row {
                cells[*place] = cell;
            }
            let _ = writer.write_record(cells);
        }
        String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
    }
}

/// The keys of a kind, or the cells of a line in the same order.
#[derive(Default)]
struct Row {
    /// The word of the object its keys stand in.
    prefix: String,
    keys: Vec<String>,
    cells: Vec<String>,
    is_header: bool,
}

impl Row {
    fn of<T: Keyed>(line: Option<&T>) -> Row {
        let mut row = Row { is_header: line.is_none(), ..Row::default() };
        T::keys(line, &mut row);
        row
    }

    fn put(&mut self, key: &str, cell: Option<String>) {
        if self.is_header {
            self.keys.push(format!("{}{key}", self.prefix));
        } else {
            self.cells.push(cell.unwrap_or_default());
        }
    }
}

impl Keys for Row {
    fn number(&mut self, key: &str, value: Option<f64>) {
        let finite = value.filter(|number| number.is_finite());
        self.put(key, finite.map(|number| format!("{number:?}")));
    }

    fn count(&mut self, key: &str, value: Option<u32>) {
        self.put(key, value.map(|count| count.to_string()));
    }

    fn text(&mut self, key: &str, value: Option<&str>) {
        self.put(key, value.map(guarded));
    }

    fn flag(&mut self, key: &str, value: Option<bool>) {
        self.put(key, value.map(|flag| flag.to_string()));
    }

    fn ends(&mut self, key: &str, value: Option<(f64, f64)>) {
        let (stem, unit) = key.rsplit_once('_').unwrap_or((key, ""));
        self.number(&format!("{stem}_low_{unit}"), value.map(|ends| ends.0));
        self.number(&format!("{stem}_high_{unit}"), value.map(|ends| ends.1));
    }

    fn object<T: Keyed>(&mut self, key: &str, value: Option<&T>) {
        let outside = self.prefix.len();
        self.prefix.push_str(key);
        self.prefix.push('_');
        T::keys(value, self);
        self.prefix.truncate(outside);
    }

    fn nested<T: Keyed>(&mut self, _: &str, _: Option<&T>) {}

    fn columns(&mut self, tell: impl FnOnce(&mut Self)) {
        tell(self);
    }

    fn list<T: Keyed + Send>(&mut self, _: &str, _: Option<impl IntoIterator<Item = T>>) {}

    fn pairs(&mut self, _: &str, _: Option<impl IntoIterator<Item = (f64, Option<f64>)>>) {}

    fn numbers(&mut self, _: &str, _: Option<impl IntoIterator<Item = f64>>) {}

    fn texts(&mut self, _: &str, _: Option<impl IntoIterator<Item = impl AsRef<str>>>) {}

    fn of_list(&mut self, key: &str, count: Option<usize>) {
        self.put(key, count.map(|count| count.to_string()));
    }
}

/// The text made inert, and kept from being a formula.
fn guarded(text: &str) -> String {
    let guard = text.starts_with(['\t', '\r', '\n']) || text.trim_start().starts_with(['=', '+', '-', '@']);
    format!("{}{}", if guard { "'" } else { "" }, inert(text))
}
