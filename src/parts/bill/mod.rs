//! The port bill: the packages that protect every line of a port at the least cost.

mod bound;
mod reduce;
mod room;
mod search;

use super::bill::reduce::Group;

/// A line of a port, as the bill sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct BillLine {
    /// Identical lanes; a pair counts once.
    pub count: u32,
    /// For each part, in the order of the parts, whether it passes on this line and what a lane takes of it.
    pub fits: Vec<Fit>,
}

/// What a lane takes of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fit {
    /// The part does not pass on the line.
    No,
    /// One channel: a single line, or a pair on a part stated across the pair.
    One,
    /// Two channels of one package: a pair that is not split across packages.
    Pair,
    /// Two channels, of one package or of two packages of the part.
    Either,
}

impl Fit {
    /// What a lane takes of a part that passes or not, for a differential lane or not, on a part stated across the
    /// pair alone or not.
    pub fn new(passes: bool, differential: bool, across: bool) -> Fit {
        match (passes, differential && !across) {
            (false, _) => Fit::No,
            (true, false) => Fit::One,
            (true, true) => Fit::Pair,
        }
    }

    /// Channels that a lane takes; 0 where the part does not pass.
    pub fn channels(self) -> u32 {
        match self {
            Fit::No => 0,
            Fit::One => 1,
            Fit::Pair | Fit::Either => 2,
        }
    }

    /// Channels that one package must have.
    fn least(self) -> u32 {
        if self == Fit::Either { 1 } else { self.channels() }
    }
}

/// A part, as the bill sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BillPart {
    /// Channels of a package; 1 where the part states none.
    pub channels: u32,
    /// Cost of a package.
    pub cost: Option<f64>,
}

/// The packages a port needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Bill {
    /// The parts used, in the order of the parts.
    pub parts: Vec<Packages>,
    /// Cost in all; `None` where a part used has no cost.
    pub cost: Option<f64>,
    /// Lines that no package serves, by index.
    pub unserved: Vec<usize>,
    /// Whether no cheaper bill exists. False only for ports too large to search to the end.
    pub proven: bool,
}

/// The packages of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Packages {
    /// Index of the part.
    pub part: usize,
    /// How many.
    pub packages: u32,
    /// The lines they serve, in the order of the lines.
    pub lines: Vec<Share>,
    /// Channels left over.
    pub spare_channels: u32,
    /// Pairs that take a channel each of two packages.
    pub split: u32,
    /// Cost of the packages.
    pub cost: Option<f64>,
}

/// What a line takes of the packages of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Share {
    /// Index of the line.
    pub line: usize,
    /// Channels taken by all its lanes that this part serves.
    pub channels: u32,
}

/// The cheapest packages that serve every line that a part passes on.
///
/// A pair takes two channels of one package or, where that [is allowed](Fit::Either), of two of one part; different lines
/// share a package where the part passes on each of them, and lanes of one line may be served by different parts. Parts without a cost are used only where no other part
/// serves. Of bills that cost the same the one with the fewest packages is taken; what then remains is decided by the
/// order of the parts. Costs count to a millionth.
pub fn bill(lines: &[BillLine], parts: &[BillPart]) -> Bill {
    let (groups, unserved) = reduce::groups(lines, parts);
    // lanes[line][part]
    let mut lanes = vec![vec![0_u32; parts.len()]; lines.len()];
    let mut proven = true;
    for group in &groups {
        let found = search::cheapest(group);
        proven &= found.proven;
        share_out(group, &found.lanes, lines, &mut lanes);
    }
    let packages: Vec<Packages> =
        parts.iter().enumerate().filter_map(|(index, part)| packages_of(index, *part, lines, &lanes)).collect();
    Bill {
        cost: packages.iter().map(|p| p.cost).sum::<Option<f64>>().map(to_millionths),
        parts: packages,
        unserved,
        proven,
    }
}

/// Gives the lanes of each class to its lines: in sheet order, from the first part on.
fn share_out(group: &Group, found: &[Vec<u32>], lines: &[BillLine], lanes: &mut [Vec<u32>]) {
    for (class, given) in group.classes.iter().zip(found) {
        let mut left = given.clone();
        for &line in &class.lines {
            let mut wanted = lines[line].count;
            for (local, available) in left.iter_mut().enumerate() {
                let taken = wanted.min(*available);
                lanes[line][group.parts[local].index] += taken;
                *available -= taken;
                wanted -= taken;
            }
        }
    }
}

fn packages_of(index: usize, part: BillPart, lines: &[BillLine], lanes: &[Vec<u32>]) -> Option<Packages> {
    let shares: Vec<Share> = lanes
        .iter()
        .enumerate()
        .filter(|(_, given)| given[index] > 0)
        .map(|(line, given)| Share { line, channels: given[index] * lines[line].fits[index].channels() })
        .collect();
    let taken: u32 = shares.iter().map(|s| s.channels).sum();
    let served = |fit: Fit| -> u32 {
        let lanes = lanes.iter().zip(lines).filter(|(_, line)| line.fits.get(index) == Some(&fit));
        lanes.map(|(given, _)| given[index]).sum()
    };
    let pairs = served(Fit::Pair);
    let packages = packages_needed(part.channels, pairs, taken);
    (packages > 0).then(|| Packages {
        part: index,
        packages,
        lines: shares,
        spare_channels: packages * part.channels - taken,
        split: (pairs + served(Fit::Either)).saturating_sub(packages * (part.channels / 2)),
        cost: part.cost.map(|cost| to_millionths(cost * f64::from(packages))),
    })
}

/// Sums of decimal costs without the tail of binary fractions.
fn to_millionths(cost: f64) -> f64 {
    (cost * 1e6).round() / 1e6
}

/// Packages of `channels` that hold so many pairs, each in one package, and `taken` channels in all: single lines, and
/// pairs that may be split, fill whatever the pairs leave, so that only the two totals count.
fn packages_needed(channels: u32, pairs: u32, taken: u32) -> u32 {
    let for_pairs = if pairs == 0 { 0 } else { pairs.div_ceil(channels / 2) };
    if taken == 0 { 0 } else { for_pairs.max(taken.div_ceil(channels)) }
}
