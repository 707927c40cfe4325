//! The least price that the lanes still to come can have.
//!
//! Linear-programming bound: if packages could be bought by the channel, each lane would take the part whose channels
//! are cheapest for it. Room already paid for saves at most what the dearest lane that may use it would have paid.

use super::Fit;
use super::reduce::{Class, Group};
use super::room::Room;

/// What the bound needs of a group.
pub(super) struct Bound<'a> {
    group: &'a Group,
    /// Least price of a lane, by class.
    lane: Vec<f64>,
    /// By class, then part: the most that a channel of the part saves in this class and in the later ones.
    worth: Vec<Vec<f64>>,
    /// By class: least price of all lanes of the later classes.
    later: Vec<f64>,
}

/// The bound after some lanes have been placed.
pub(super) struct Rest<'a> {
    /// Least price of the lanes to come, if nothing were bought yet.
    price: f64,
    worth: Option<&'a Vec<f64>>,
    /// By part: channels and pairs that the lanes to come could take.
    wanted: Vec<Room>,
}

impl<'a> Bound<'a> {
    /// Prepares the bound of a group.
    pub(super) fn new(group: &'a Group) -> Bound<'a> {
        let channel: Vec<f64> = (0..group.parts.len()).map(|p| channel_price(group, p)).collect();
        let lane_price = |class: &Class| {
            let with = |(fit, price): (&Fit, &f64)| (*fit != Fit::No).then(|| f64::from(fit.channels()) * price);
            class.fits.iter().zip(&channel).filter_map(with).fold(f64::INFINITY, f64::min)
        };
        let lane: Vec<f64> = group.classes.iter().map(lane_price).collect();
        let mut worth = vec![vec![0.0_f64; group.parts.len()]; group.classes.len() + 1];
        let mut later = vec![0.0; group.classes.len()];
        let mut sum = 0.0;
        for (i, class) in group.classes.iter().enumerate().rev() {
            later[i] = sum;
            sum += f64::from(class.count) * lane[i];
            for (p, fit) in class.fits.iter().enumerate() {
                let own = if *fit == Fit::No { 0.0 } else { lane[i] / f64::from(fit.channels()) };
                worth[i][p] = worth[i + 1][p].max(own);
            }
        }
        Bound { group, lane, worth, later }
    }

    /// The bound with `left` lanes of a class and all of the later classes to come.
    pub(super) fn rest(&self, class: usize, left: u32) -> Rest<'_> {
        let mut wanted = vec![Room::default(); self.group.parts.len()];
        for (i, later) in self.group.classes.iter().enumerate().skip(class) {
            let lanes = if i == class { left } else { later.count };
            for (room, fit) in wanted.iter_mut().zip(&later.fits) {
                room.channels += lanes * fit.channels();
                room.pairs += if *fit == Fit::Pair { lanes } else { 0 };
            }
        }
        Rest {
            price: self.later[class] + f64::from(left) * self.lane[class],
            worth: self.worth.get(if left == 0 { class + 1 } else { class }),
            wanted,
        }
    }
}

impl Rest<'_> {
    /// Least price of the lanes to come.
    pub(super) fn least(&self, room: &[Room]) -> f64 {
        let saved: f64 = self
            .worth
            .iter()
            .flat_map(|worth| worth.iter().zip(room))
            .map(|(worth, room)| worth * f64::from(room.channels))
            .sum();
        (self.price - saved).max(0.0)
    }

    /// Leaves out room that no lane to come can use, so that bills which differ in it alone are merged.
    pub(super) fn trim(&self, room: &mut [Room]) {
        for (room, wanted) in room.iter_mut().zip(&self.wanted) {
            room.channels = room.channels.min(wanted.channels);
            room.pairs = room.pairs.min(wanted.pairs);
        }
    }
}

/// Price of a channel of a part when every channel that can be used is used.
fn channel_price(group: &Group, part: usize) -> f64 {
    let lanes = group.classes.iter().map(|c| (c.count, c.fits[part]));
    let wanted: u32 = lanes.clone().map(|(count, fit)| count * fit.channels()).sum();
    let pairs_alone = lanes.clone().all(|(_, fit)| matches!(fit, Fit::No | Fit::Pair));
    let channels = group.parts[part].channels;
    let usable = if pairs_alone { channels / 2 * 2 } else { channels };
    group.parts[part].price as f64 / f64::from(usable.min(wanted).max(1))
}
