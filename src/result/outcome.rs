//! The keys of what was found of a line.

use super::keys::{Keyed, Keys, Told, figures};
use super::line::{LineHead, LineResult, Note, Sizes, Stated};
use super::tolerance::tolerance;
use crate::budget::{At, Budget, FeedChanges, Fitted, Headroom, LaneChanges, LimitOutcome, Retune};
use crate::figures::{Figure, Rows};
use crate::parts::Check;
use crate::transient::LineDischarge;

/// What only one kind of line has under keys.
pub(crate) trait Kind {
    /// What is stated of it, below its count.
    fn stated<K: Keys>(this: Option<&Self>, to: &mut K);

    /// What is found of it, below its budget.
    fn found<K: Keys>(this: Option<&Self>, to: &mut K) {
        let _ = (this, to);
    }
}

/// What changes beside figures.
pub(crate) trait Beside {
    /// Its keys, below those of the figures.
    fn beside<K: Keys>(this: Option<&Self>, to: &mut K) {
        let _ = (this, to);
    }
}

impl Beside for LaneChanges {}
impl Beside for () {}

impl Beside for FeedChanges {
    fn beside<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.object("retune", this.and_then(|changes| changes.retune.as_ref()));
    }
}

impl Keyed for Retune {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("shunt_inductance_h", this.map(|r| r.shunt.0));
        to.number("series_inductance_h", this.map(|r| r.series.0));
        to.number("nearest_e24_h", this.map(|r| r.nearest.0));
        to.number("return_loss_db", this.and_then(|r| r.metrics.return_loss()));
        to.number("detuning_hz", this.and_then(|r| r.detuning).map(|f| f.0));
        to.flag("holds", this.map(|r| r.holds));
    }
}

impl<A, O: Sizes> Keyed for LineResult<A, O>
where
    LineResult<A, O>: Kind,
    O::Changes: Beside,
{
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let head = this.map(|line| &line.head);
        named(head, to);
        Self::stated(this, to);
        sized(this, to);
        Self::found(this, to);
        tolerance(head.and_then(|head| head.tolerance.as_deref()), to);
        discharge(head, to);
        remarks(head, to);
    }
}

/// A line absent, fitted and at its budget, and the budget.
pub(super) fn sized<A, O: Sizes, K: Keys>(this: Option<&LineResult<A, O>>, to: &mut K)
where
    O::Changes: Beside,
{
    let sized = this.map(|line| line.outcome.sized());
    to.object("absent", sized.map(|sized| Told(&sized.absent)).as_ref());
    let fitted = this.and_then(|line| Some(FittedTo { fitted: line.fitted()?, head: &line.head }));
    to.object("fitted", fitted.as_ref());
    to.object("at_budget", sized.and_then(|sized| sized.at_budget.as_ref()));
    let budget = this.map(|line| Bounded { budget: line.budget(), limits: &line.limits });
    to.object("budget", budget.as_ref());
}

/// What every line begins with.
pub(super) fn named<K: Keys>(head: Option<&LineHead>, to: &mut K) {
    to.text("name", head.map(|head| head.name.as_str()));
    to.text("port", head.and_then(|head| head.port.as_deref()));
    to.count("count", head.map(|head| head.count));
}

/// What a discharge leaves at the chip of a line.
pub(super) fn discharge<K: Keys>(head: Option<&LineHead>, to: &mut K) {
    let asked = head.and_then(|head| head.discharge.as_ref());
    // Without any result there is nothing to tell.
    let known = |left: &&LineDischarge| left.struck().is_some() || left.surged().is_some();
    to.object("discharge", asked.filter(known));
}

/// What every line ends with.
pub(super) fn remarks<K: Keys>(head: Option<&LineHead>, to: &mut K) {
    to.list("defaults", head.map(|head| &head.defaults));
    to.list("warnings", head.map(|head| &head.warnings));
}

impl<F: Rows, C: Rows + Beside> Keyed for At<F, C> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.number("capacitance_f", this.map(|at| at.capacitance.0));
        figures(this.map(|at| &at.figures), to);
        figures(this.map(|at| &at.changes), to);
        C::beside(this.map(|at| &at.changes), to);
    }
}

/// What is fitted to a line.
struct FittedTo<'a, F, C> {
    fitted: &'a Fitted<F, C>,
    head: &'a LineHead,
}

impl<F: Rows, C: Rows + Beside> Keyed for FittedTo<'_, F, C> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        At::keys(this.map(|this| &this.fitted.at), to);
        to.flag("holds", this.map(|this| this.fitted.holds));
        to.list("headroom", this.map(|this| &this.fitted.headroom));
        to.text("part", this.and_then(|this| this.head.part.as_deref()));
        to.list("checks", this.map(|this| &this.head.checks));
    }
}

impl Keyed for Headroom {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("limit", this.map(|h| h.figure.word()));
        to.number("value", this.and_then(|h| h.value));
        to.number("bound", this.map(|h| h.bound));
        to.number("margin", this.and_then(|h| h.margin));
        to.flag("holds", this.map(|h| h.holds));
        to.number("at_hz", this.and_then(|h| h.at).map(|f| f.0));
    }
}

impl Keyed for Check {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("check", this.map(Check::name).as_deref());
        to.number("required", this.and_then(|check| check.required));
        to.number("available", this.and_then(|check| check.available));
        to.text("unit", this.map(|check| check.unit));
        to.number("margin", this.and_then(|check| check.margin));
        to.text("verdict", this.map(|check| check.verdict.word()));
        to.text("why", this.and_then(|check| check.why.as_deref()));
    }
}

/// A budget with the limits as they are stated.
struct Bounded<'a> {
    budget: &'a Budget,
    limits: &'a [Stated],
}

impl Keyed for Bounded<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let budget = this.map(|this| this.budget);
        to.text("verdict", budget.map(|b| b.verdict.word()));
        to.number("capacitance_f", budget.and_then(|b| b.capacitance).map(|c| c.0));
        to.number("lowest_f", budget.and_then(|b| b.lowest).map(|c| c.0));
        to.text("lowest_set_by", budget.and_then(|b| b.lowest_set_by).map(Figure::word));
        to.number("across_pair_f", budget.and_then(|b| b.across_pair).map(|c| c.0));
        to.number("shop_for_f", budget.and_then(|b| b.shop_for).map(|c| c.0));
        to.number("without_footprint_f", budget.and_then(|b| b.without_footprint).map(|c| c.0));
        to.text("set_by", budget.and_then(|b| b.set_by).map(Figure::word));
        to.number("set_at_hz", budget.and_then(|b| b.set_at).map(|f| f.0));
        to.pairs("intervals_f", budget.map(|b| b.allowed.ends()));
        to.list("limits", this.map(|this| this.limits.iter().zip(&this.budget.limits).map(Alone)));
    }
}

/// One limit and what it does by itself.
struct Alone<'a>((&'a Stated, &'a LimitOutcome));

impl Keyed for Alone<'_> {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        let (stated, own) = (this.map(|this| this.0.0), this.map(|this| this.0.1));
        let mask = stated.and_then(|stated| stated.mask.as_ref());
        to.text("limit", own.map(|own| own.figure.word()));
        to.number("bound", stated.and_then(|stated| stated.bound));
        to.pairs("points", mask.map(|mask| mask.points().iter().map(|p| (p.level, Some(p.frequency.0)))));
        to.pairs("intervals_f", own.map(|own| own.allowed.ends()));
        to.number("capacitance_f", own.and_then(|own| own.capacitance).map(|c| c.0));
        to.number("at_hz", own.and_then(|own| own.at).map(|f| f.0));
        to.ends("levels", stated.and_then(|stated| stated.levels));
        let read = stated.map(|stated| stated.read).unwrap_or_default();
        let on_profile = [
            ("below_ohm", stated.and_then(|stated| stated.below).map(|z| z.0)),
            ("profile_rise_s", read.rise.map(|t| t.0)),
            ("until_s", read.until.map(|t| t.0)),
        ];
        for (key, value) in on_profile.into_iter().filter(|(_, value)| value.is_some()) {
            to.number(key, value);
        }
        to.flag("holds_absent", own.map(LimitOutcome::holds_absent));
        to.flag("holds_at_zero", own.map(LimitOutcome::holds_at_zero));
        to.count("line", stated.and_then(|stated| stated.line));
    }
}

impl Keyed for Note {
    fn keys<K: Keys>(this: Option<&Self>, to: &mut K) {
        to.text("code", this.map(|note| note.code));
        to.text("text", this.map(|note| note.text.as_str()));
        to.count("line", this.and_then(|note| note.line));
    }
}
