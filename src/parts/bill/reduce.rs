//! Makes the bill small: equal lines together, useless parts out, unconnected lines apart.

use super::{BillLine, BillPart, Fit};

/// Lines and parts that have to be looked at together.
#[derive(Debug)]
pub(super) struct Group {
    /// Classes of equal lines, those with the fewest parts first.
    pub(super) classes: Vec<Class>,
    /// The parts, in sheet order.
    pub(super) parts: Vec<GroupPart>,
}

/// Lines on which the same parts pass in the same way.
#[derive(Debug)]
pub(super) struct Class {
    /// The lines, in sheet order.
    pub(super) lines: Vec<usize>,
    /// Their lanes in all.
    pub(super) count: u32,
    /// For each part of the group.
    pub(super) fits: Vec<Fit>,
}

/// A part of a group.
#[derive(Debug, Clone, Copy)]
pub(super) struct GroupPart {
    /// Its index among all parts.
    pub(super) index: usize,
    /// Channels of a package.
    pub(super) channels: u32,
    /// Price of a package, see [`prices`].
    pub(super) price: u128,
}

/// The groups of a port, and the lines that no part serves.
pub(super) fn groups(lines: &[BillLine], parts: &[BillPart]) -> (Vec<Group>, Vec<usize>) {
    let usable = |fit: Fit, part: usize| {
        let enough = fit.least() <= parts[part].channels;
        if enough { fit } else { Fit::No }
    };
    // fits[line][part], with what one package cannot hold taken out
    let fits: Vec<Vec<Fit>> = lines
        .iter()
        .map(|line| (0..parts.len()).map(|p| line.fits.get(p).map_or(Fit::No, |f| usable(*f, p))).collect())
        .collect();
    let served = |line: &usize| fits[*line].iter().any(|f| *f != Fit::No);
    let (served, unserved): (Vec<usize>, Vec<usize>) =
        (0..lines.len()).filter(|l| lines[*l].count > 0).partition(served);

    let lanes = lines.iter().map(|l| u128::from(l.count)).sum();
    let prices = prices(parts, lanes);
    let kept: Vec<usize> =
        (0..parts.len()).filter(|&a| !(0..parts.len()).any(|b| dominates(b, a, parts, &prices, &fits))).collect();
    let groups = connected(&served, &kept, &fits)
        .into_iter()
        .map(|members| group(&members, &kept, lines, parts, &prices, &fits))
        .collect();
    (groups, unserved)
}

/// One number per package that orders bills: unpriced packages first, then cost, then packages.
fn prices(parts: &[BillPart], lanes: u128) -> Vec<u128> {
    // Millionths, at most 1e9 each; a package counts 1 in 2^24 of one, more than any port has.
    let priced = |cost: f64| (((cost.clamp(0.0, 1e9) * 1e6).round() as u128) << 24) + 1;
    let dearest = parts.iter().filter_map(|p| p.cost).map(priced).max().unwrap_or(1);
    let unpriced = dearest * (lanes + 1) + 1;
    parts.iter().map(|p| p.cost.map_or(unpriced, priced)).collect()
}

/// Whether part `b` does all that part `a` does, at no more cost, and is preferred to it.
fn dominates(b: usize, a: usize, parts: &[BillPart], prices: &[u128], fits: &[Vec<Fit>]) -> bool {
    let preferred = prices[b] < prices[a] || (prices[b] == prices[a] && b < a);
    let as_good = |line: &Vec<Fit>| match (line[a], line[b]) {
        (Fit::No, _) | (Fit::One, Fit::One) => true,
        (Fit::Pair, with_b) => with_b != Fit::No,
        (Fit::Either, with_b) => matches!(with_b, Fit::One | Fit::Either),
        (Fit::One, _) => false,
    };
    preferred && parts[b].channels >= parts[a].channels && fits.iter().all(as_good)
}

/// Lines that share a part, directly or through others, in sheet order.
fn connected(lines: &[usize], parts: &[usize], fits: &[Vec<Fit>]) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = Vec::new();
    for &line in lines {
        let shares = |other: &usize| parts.iter().any(|&p| fits[line][p] != Fit::No && fits[*other][p] != Fit::No);
        let (touching, mut apart): (Vec<_>, Vec<_>) = found.into_iter().partition(|g| g.iter().any(shares));
        let mut joined: Vec<usize> = touching.into_iter().flatten().chain([line]).collect();
        joined.sort_unstable();
        apart.push(joined);
        found = apart;
    }
    found
}

fn group(
    members: &[usize],
    kept: &[usize],
    lines: &[BillLine],
    parts: &[BillPart],
    prices: &[u128],
    fits: &[Vec<Fit>],
) -> Group {
    let used: Vec<usize> = kept.iter().copied().filter(|&p| members.iter().any(|&l| fits[l][p] != Fit::No)).collect();
    let mut classes: Vec<Class> = Vec::new();
    for &line in members {
        let own: Vec<Fit> = used.iter().map(|&p| fits[line][p]).collect();
        match classes.iter_mut().find(|c| c.fits == own) {
            Some(class) => {
                class.lines.push(line);
                class.count += lines[line].count;
            }
            None => classes.push(Class { lines: vec![line], count: lines[line].count, fits: own }),
        }
    }
    classes.sort_by_key(|c| c.fits.iter().filter(|f| **f != Fit::No).count());
    Group {
        classes,
        parts: used
            .into_iter()
            .map(|index| GroupPart { index, channels: parts[index].channels, price: prices[index] })
            .collect(),
    }
}
