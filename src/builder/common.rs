//! What the builders of all kinds of line have in common.

use crate::model::{Bus, Feed, Flaw, Flaws, Head, Kind, Lane, Limit, Line, Note, Path, Place};
use crate::resolve::{self, Remark, Surroundings, part_on_line, within_rails};

/// The methods of a builder that has a line `of` its kind as far as it is known, its `voltage`, and a `complete`, which
/// makes of stated values what follows from them.
macro_rules! builder_of {
    ($of:ident, $builder:ident, $limit:ident) => {
        impl $builder {
            /// Range of its working voltage, at which its part has its worst capacitance.
            pub fn voltage(self, low: $crate::units::Volt, high: $crate::units::Volt) -> $builder {
                $builder { voltage: Some($crate::model::VoltageRange { low, high }), ..self }
            }

            /// A further limit.
            pub fn limit(mut self, of: $crate::model::$limit) -> $builder {
                self.of.limits.push($crate::model::Limit { of, span: None });
                self
            }

            /// What is built, to be sized by itself.
            ///
            /// # Errors
            /// As [`Line::new`]($crate::Line::new), and stated values that nothing can be made of.
            pub fn build(self) -> Result<$of, $crate::Flaws> {
                let (head, of) = self.made($crate::Head::new("built"))?;
                $crate::Line::new(head, $crate::Kind::$of(of.clone())).map(|_| of)
            }

            /// The same as a line of a design, with the remarks of a sheet on stated values. A voltage of the head goes
            /// before one given here.
            ///
            /// # Errors
            /// As `build`.
            pub fn line(self, head: $crate::Head) -> Result<$crate::Line, $crate::Flaws> {
                let (head, of) = self.made(head)?;
                $crate::Line::new(head, $crate::Kind::$of(of))
            }

            fn made(mut self, head: $crate::Head) -> Result<($crate::Head, $of), $crate::Flaws> {
                let head = $crate::Head { voltage: head.voltage.or(self.voltage), ..head };
                Ok((complete(&mut self.of, head)?, self.of))
            }
        }
    };
}
pub(super) use builder_of;

/// Resolves the path at the Nyquist frequency, with the receiver's `needs` as a limit and a note of an edge that is not
/// stated.
pub(super) fn complete_lane(lane: &mut Lane, head: Head) -> Result<Head, Flaws> {
    lane.limits.extend(lane.path.needs().map(|limit| Limit { span: None, ..limit }));
    let line = Line::new(head, Kind::Lane(lane.clone()))?;
    let mut head = resolved(&mut lane.path, line)?;
    head.defaults.extend(lane.single_ended_note());
    head.defaults.extend(lane.assumed().into_iter().map(|note| Note { span: None, ..note }));
    Ok(head)
}

/// Resolves the path in the middle of the band.
pub(super) fn complete_feed(feed: &mut Feed, head: Head) -> Result<Head, Flaws> {
    let line = Line::new(head, Kind::Feed(feed.clone()))?;
    resolved(&mut feed.path, line)
}

/// Makes the elements of a path of what is stated of them; gives the head of `line` with the remarks. `line` has the path
/// as yet without them: what is stated is in its ranges before anything is made of it.
fn resolved(path: &mut Path, line: Line) -> Result<Head, Flaws> {
    let Some(surroundings) = Surroundings::of(&line) else { return Ok(line.head) };
    let remarks = resolve::path(path, &surroundings).map_err(|(number, why)| {
        let index = number - 1;
        flaws(&why, why.place().name().map_or(Place::Element(index), |name| Place::Value(index, name)))
    })?;
    Ok(noted(line.head, remarks.into_iter().map(|(_, remark)| remark)))
}

/// Gives a bus the worst capacitance of its part, and its path what is stated of it; a part named in one of the two is in
/// both.
pub(super) fn complete_bus(bus: &mut Bus, head: Head) -> Result<Head, Flaws> {
    let line = Line::new(head, Kind::Bus(bus.clone()))?;
    let voltages = line.head.voltages();
    let mut head = match &mut bus.path {
        Some(path) => resolved(path, line)?,
        None => line.head,
    };
    let own = bus.path.as_ref().and_then(Path::protector).and_then(|place| place.part.clone().zip(place.fitted));
    if let (None, Some((part, fitted))) = (&bus.part, own) {
        (bus.part, bus.fitted) = (Some(part), Some(fitted));
        return Ok(head);
    }
    let Some(part) = &bus.part else { return Ok(head) };
    let worst = within_rails(part, head.voltage).and_then(|()| part_on_line(part, false, voltages));
    let worst = worst.map_err(|why| flaws(&why, Place::Field("part")))?;
    bus.fitted = Some(worst.value.capacitance);
    if let Some(path) = bus.path.as_mut().filter(|path| path.protector().is_some_and(|place| place.part.is_none())) {
        path.fit_part(part, &worst.value);
    }
    head = noted(head, worst.remarks);
    Ok(head)
}

fn noted(mut head: Head, remarks: impl IntoIterator<Item = Remark>) -> Head {
    for remark in remarks {
        let list = if remark.is_warning() { &mut head.warnings } else { &mut head.defaults };
        list.push(remark.note(None));
    }
    head
}

fn flaws(why: &resolve::Flaw, at: Place) -> Flaws {
    Flaws { list: vec![Flaw { code: why.code(), at, message: why.to_string(), help: Some(why.cure().to_owned()) }] }
}
