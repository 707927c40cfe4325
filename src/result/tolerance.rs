//! The keys of what the tolerances of a line leave.

use super::keys::{Keyed, Keys};
use crate::budget::Verdict;
use crate::figures::Figure;
use crate::study::{Place, Tolerated, Varying, Worst, WorstFitted, WorstHeadroom, WorstLimit, Yielded};

/// What the tolerances of a line leave: an object of its own, and some columns.
pub(super) fn tolerance<K: Keys>(this: Option<&Tolerated>, to: &mut K) {
    to.nested("tolerance", this);
    to.columns(|row| {
        let (worst, yielded) = (this.map(|t| &t.worst), this.map(|t| &t.yielded));
        row.number("worst_capacitance_f", worst.and_then(|worst| worst.capacitance).map(|c| c.0));
        row.text("worst_verdict", worst.map(|worst| worst.verdict.word()));
        row.text("worst_set_by", worst.and_then(|worst| worst.set_by).map(Figure::word));
        row.flag("worst_holds", worst.and_then(|worst| worst.fitted.as_ref()).map(|fitted| fitted.holds));
        row.number("yield_share", yielded.and_then(Yielded::share));
        row.number("yield_budget_997_f", yielded.and_then(|yielded| yielded.budget).map(|c| c.0));
    });
}

impl Keyed for Tolerated {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("distribution", this.map(|t| t.varying.distribution.word()));
        to.list("values", this.map(|t| &t.varying.places));
        to.count("settings", this.and_then(|t| u32::try_from(t.settings).ok()));
        let varying = this.map(|t| &t.varying);
        to.object("worst", this.zip(varying).map(|(t, varying)| Of(varying, &t.worst)).as_ref());
        to.object("yield", this.map(|t| &t.yielded));
    }
}

impl Keyed for Place {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("address", this.map(|place| place.of.address.to_string()).as_deref());
        to.number("nominal", this.map(|place| place.nominal));
        to.number("low", this.map(|place| place.low));
        to.number("high", this.map(|place| place.high));
        to.text("unit", this.and_then(unit));
        let together = this.and_then(|place| place.of.tolerance.as_ref()?.together.as_deref());
        to.text("together", together);
    }
}

/// The SI unit of a value; `None` of a bare number.
fn unit(place: &Place) -> Option<&'static str> {
    Some(place.of.range.dimension.symbol()).filter(|unit| !unit.is_empty())
}

/// One value of a setting.
struct SetTo<'a>(&'a Place, f64);

impl Keyed for SetTo<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("address", this.map(|set| set.0.of.address.to_string()).as_deref());
        to.number("value", this.map(|set| set.1));
        to.number("nominal", this.map(|set| set.0.nominal));
        to.text("unit", this.and_then(|set| unit(set.0)));
    }
}

/// What belongs to the values that vary.
struct Of<'a, T>(&'a Varying, &'a T);

fn setting<K: Keys>(key: &str, of: Option<(&Varying, &[f64])>, to: &mut K) {
    to.list(
        key,
        of.map(|(varying, values)| varying.places.iter().zip(values).map(|(place, value)| SetTo(place, *value))),
    );
}

impl Keyed for Of<'_, Worst> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let worst = this.map(|this| this.1);
        to.text("verdict", worst.map(|worst| worst.verdict.word()));
        to.number("capacitance_f", worst.and_then(|worst| worst.capacitance).map(|c| c.0));
        to.number("lowest_f", worst.and_then(|worst| worst.lowest).map(|c| c.0));
        to.pairs("intervals_f", worst.map(|worst| worst.allowed.ends()));
        to.text("set_by", worst.and_then(|worst| worst.set_by).map(Figure::word));
        to.text("lowest_set_by", worst.and_then(|worst| worst.lowest_set_by).map(Figure::word));
        let at =
            |found: fn(&Worst) -> Option<&Vec<f64>>| this.and_then(|this| Some((this.0, found(this.1)?.as_slice())));
        setting("setting", at(|worst| worst.setting.as_ref()), to);
        setting("lowest_setting", at(|worst| worst.lowest_setting.as_ref()), to);
        to.list("limits", this.map(|this| this.1.limits.iter().map(|limit| Of(this.0, limit))));
        let fitted = this.and_then(|this| Some(Of(this.0, this.1.fitted.as_ref()?)));
        to.object("fitted", fitted.as_ref());
    }
}

impl Keyed for Of<'_, WorstLimit> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let limit = this.map(|this| this.1);
        to.text("limit", limit.map(|limit| limit.figure.word()));
        to.text("verdict", limit.map(|limit| limit.verdict).map(Verdict::word));
        to.number("capacitance_f", limit.and_then(|limit| limit.capacitance).map(|c| c.0));
        to.pairs("intervals_f", limit.map(|limit| limit.allowed.ends()));
        setting("setting", this.and_then(|this| Some((this.0, this.1.setting.as_deref()?))), to);
    }
}

impl Keyed for Of<'_, WorstFitted> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.flag("holds", this.map(|this| this.1.holds));
        to.list("limits", this.map(|this| this.1.limits.iter().map(|limit| Of(this.0, limit))));
    }
}

impl Keyed for Of<'_, WorstHeadroom> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let limit = this.map(|this| this.1);
        to.text("limit", limit.map(|limit| limit.figure.word()));
        to.flag("holds", limit.map(|limit| limit.holds));
        to.number("margin", limit.and_then(|limit| limit.margin));
        setting("setting", this.map(|this| (this.0, this.1.setting.as_slice())), to);
    }
}

impl Keyed for Yielded {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.count("samples", this.map(|y| y.samples));
        to.count("seed", this.map(|y| y.seed));
        to.count("held", this.and_then(|y| y.held));
        to.number("share", this.and_then(Yielded::share));
        let interval = this.and_then(Yielded::interval);
        to.number("share_low", interval.map(|(low, _)| low));
        to.number("share_high", interval.map(|(_, high)| high));
        to.number("budget_997_f", this.and_then(|y| y.budget).map(|c| c.0));
        to.pairs("shares", this.map(|y| y.shares.iter().map(|(c, share)| (*c, Some(*share)))));
    }
}
