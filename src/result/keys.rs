//! One walk over the keys of a result, which JSON and CSV write down.

use crate::figures::Rows;

/// What is told of each key, in their order. `None` is null in JSON and an empty cell in CSV.
pub(crate) trait Keys: Sized {
    /// A number; one that is not finite counts as `None`.
    fn number(&mut self, key: &str, value: Option<f64>);

    /// A count.
    fn count(&mut self, key: &str, value: Option<u32>);

    /// A text.
    fn text(&mut self, key: &str, value: Option<&str>);

    /// Yes or no.
    fn flag(&mut self, key: &str, value: Option<bool>);

    /// The two ends of a range, under two keys in CSV.
    fn ends(&mut self, key: &str, value: Option<(f64, f64)>);

    /// What has keys of its own; CSV puts `key` before them.
    fn object<T: Keyed>(&mut self, key: &str, value: Option<&T>);

    /// What has keys of its own, and in CSV columns of its own instead.
    fn nested<T: Keyed>(&mut self, key: &str, value: Option<&T>);

    /// Columns of CSV alone.
    fn columns(&mut self, tell: impl FnOnce(&mut Self));

    /// Several of these; CSV has no lists.
    fn list<T: Keyed + Send>(&mut self, key: &str, values: Option<impl IntoIterator<Item = T>>);

    /// Pairs of numbers; CSV has no lists.
    fn pairs(&mut self, key: &str, values: Option<impl IntoIterator<Item = (f64, Option<f64>)>>);

    /// Numbers; CSV has no lists.
    fn numbers(&mut self, key: &str, values: Option<impl IntoIterator<Item = f64>>);

    /// Texts; CSV has no lists.
    fn texts(&mut self, key: &str, values: Option<impl IntoIterator<Item = impl AsRef<str>>>);

    /// What stands in CSV for a list, and not in JSON.
    fn of_list(&mut self, key: &str, count: Option<usize>);
}

/// What is written under keys.
pub(crate) trait Keyed {
    /// Tells every key; all of them without a value where there is none of `this`.
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K);
}

impl<T: Keyed> Keyed for &T {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        T::keys(this.copied(), to);
    }
}

/// Figures under their keys.
pub(crate) struct Told<'a, F>(pub(crate) &'a F);

impl<F: Rows> Keyed for Told<'_, F> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        figures(this.map(|told| told.0), to);
    }
}

/// The figures of a result, each under its key.
pub(crate) fn figures<F: Rows, K: Keys>(this: Option<&F>, to: &mut K) {
    for row in F::ROWS {
        to.number(row.0.key, this.and_then(row.1));
    }
}
