//! The voltage of a feed whose antenna is off.

use crate::model::{Note, Part};
use crate::parts::Duty;
use crate::units::engineering;

/// That the stand-off, judged with the antenna in place, is below what an open antenna port comes to.
pub(super) fn caution(duty: &Duty, part: &Part) -> Option<Note> {
    let (open, standoff) = (duty.open_peak?.0, part.working_voltage()?.0);
    let highest = duty.voltage.map_or(0.0, |range| range.high.0) + open;
    let text = || {
        let (open, standoff, highest) = (engineering(open, "V"), engineering(standoff, "V"), engineering(highest, "V"));
        format!(
            "the stand-off is judged with the antenna in place: an open antenna port doubles the peak of the power, to about \
             sqrt(8 P Z) = {open}, and the part would see {highest} against {standoff}"
        )
    };
    (standoff < highest).then(|| Note { code: "open-antenna", text: text(), span: Some(part.span) })
}
