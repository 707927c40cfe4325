//! The port bill: worked examples, and brute force on small random ports.

use std::collections::HashMap;

use proptest::prelude::*;

use lanecap::parts::Fit::{Either, No, One, Pair};
use lanecap::parts::{Bill, BillLine, BillPart, Fit, Share, bill};

use crate::support::bills::{generator, large_port, line_of, part};

fn line(count: u32, fits: &[Fit]) -> BillLine {
    BillLine { count, fits: fits.to_vec() }
}

/// Part and packages of each entry.
fn packages(found: &Bill) -> Vec<(usize, u32)> {
    found.parts.iter().map(|p| (p.part, p.packages)).collect()
}

#[test]
fn lines_of_a_port_share_an_array() {
    // two pairs take a quad, a third takes two channels of a second quad, two single lines the rest
    let lines = [line(3, &[Pair]), line(2, &[One])];
    let found = bill(&lines, &[part(4, 3.0)]);
    assert_eq!(packages(&found), [(0, 2)]);
    assert_eq!(found.parts[0].lines, [Share { line: 0, channels: 6 }, Share { line: 1, channels: 2 }]);
    assert_eq!((found.parts[0].spare_channels, found.cost, found.proven), (0, Some(6.0), true));
}

#[test]
fn an_array_is_not_shared_where_it_does_not_pass() {
    // the single line needs part 1, whatever is free in the quad
    let found = bill(&[line(1, &[Pair, No]), line(1, &[No, One])], &[part(4, 3.0), part(1, 1.0)]);
    assert_eq!(packages(&found), [(0, 1), (1, 1)]);
    assert_eq!(found.parts[0].spare_channels, 2);
    assert_eq!(found.cost, Some(4.0));
}

#[test]
fn a_pair_is_never_split_across_packages() {
    // three channels hold one pair: two pairs need two packages, though four channels in all would fit in six
    let found = bill(&[line(2, &[Pair])], &[part(3, 1.0)]);
    assert_eq!(packages(&found), [(0, 2)]);
    assert_eq!(found.parts[0].spare_channels, 2);
    // single lines fill what is left: 2 pairs + 2 singles = 2 packages of 3
    let found = bill(&[line(2, &[Pair]), line(2, &[One])], &[part(3, 1.0)]);
    assert_eq!(packages(&found), [(0, 2)]);
    // a part of one channel holds no pair, but one stated across it does
    assert_eq!(bill(&[line(1, &[Pair])], &[part(1, 1.0)]).unserved, [0]);
    assert_eq!(packages(&bill(&[line(1, &[Fit::new(true, true, true)])], &[part(1, 1.0)])), [(0, 1)]);
}

#[test]
fn a_pair_that_may_be_split_takes_two_packages_of_one_part() {
    // one channel a package: two packages for each pair, and none left over
    let found = bill(&[line(2, &[Either])], &[part(1, 1.5)]);
    assert_eq!((packages(&found), found.cost, found.unserved.len()), (vec![(0, 4)], Some(6.0), 0));
    assert_eq!((found.parts[0].spare_channels, found.parts[0].split), (0, 2));
    // three channels: three pairs fill two packages, the third with a channel of each
    let found = bill(&[line(3, &[Either])], &[part(3, 1.0)]);
    assert_eq!((packages(&found), found.parts[0].split), (vec![(0, 2)], 1));
    // a line that wants one package keeps it: 1 whole and 2 split pairs, six channels
    let found = bill(&[line(2, &[Either]), line(1, &[Pair])], &[part(3, 1.0)]);
    assert_eq!((packages(&found), found.parts[0].split), (vec![(0, 2)], 1));
    // three pairs on six channels at 5 + 5, though a package of the same size at 4 is cheaper where none may be split
    let found = bill(&[line(3, &[Either, Pair])], &[part(3, 5.0), part(3, 4.0)]);
    assert_eq!((packages(&found), found.cost), (vec![(0, 2)], Some(10.0)));
    // never of two parts: two single-channel parts of which each passes cost 2 + 2, not 2 + 3
    let found = bill(&[line(1, &[Either, Either])], &[part(1, 3.0), part(1, 2.0)]);
    assert_eq!((packages(&found), found.cost), (vec![(1, 2)], Some(4.0)));
    // two singles at 1.8 lose against one array of two at 3
    let found = bill(&[line(1, &[Either, Pair])], &[part(1, 1.8), part(2, 3.0)]);
    assert_eq!((packages(&found), found.cost), (vec![(1, 1)], Some(3.0)));
}

#[test]
fn the_last_lines_go_where_they_cost_least() {
    // five lines, a quad at 3 and a single at 1: quad + single = 4, two quads = 6, five singles = 5
    let found = bill(&[line(5, &[One, One])], &[part(4, 3.0), part(1, 1.0)]);
    assert_eq!(packages(&found), [(0, 1), (1, 1)]);
    assert_eq!(found.cost, Some(4.0));
    // a dearer part that both lines can share beats two cheap ones
    let found =
        bill(&[line(1, &[One, No, One]), line(1, &[No, One, One])], &[part(1, 2.0), part(1, 2.0), part(2, 3.0)]);
    assert_eq!(packages(&found), [(2, 1)]);
}

#[test]
fn lines_that_no_part_serves_are_named() {
    let found = bill(&[line(2, &[No]), line(1, &[One])], &[part(1, 1.0)]);
    assert_eq!((found.unserved.as_slice(), found.cost), ([0].as_slice(), Some(1.0)));
    let found = bill(&[line(1, &[])], &[]);
    assert_eq!((found.unserved.as_slice(), found.cost, found.parts.len()), ([0].as_slice(), Some(0.0), 0));
}

#[test]
fn ties_go_to_fewer_packages_and_then_to_the_first_part() {
    let found = bill(&[line(4, &[One, One])], &[part(1, 1.0), part(4, 4.0)]);
    assert_eq!(packages(&found), [(1, 1)]);
    let found = bill(&[line(1, &[One, One])], &[part(1, 1.0), part(4, 1.0)]);
    assert_eq!(packages(&found), [(0, 1)]);
}

#[test]
fn a_part_without_a_cost_serves_only_what_no_other_can() {
    let unpriced = BillPart { channels: 8, cost: None };
    let found = bill(&[line(8, &[One, One])], &[unpriced, part(1, 100.0)]);
    assert_eq!((packages(&found), found.cost), (vec![(1, 8)], Some(800.0)));
    let found = bill(&[line(8, &[One, No]), line(1, &[No, One])], &[unpriced, part(1, 100.0)]);
    assert_eq!((packages(&found), found.cost), (vec![(0, 1), (1, 1)], None));
}

/// Least cost by trying every way to put each lane into an open or a new package, package by package.
fn brute_force(lines: &[BillLine], parts: &[BillPart]) -> u64 {
    let lanes: Vec<&[Fit]> = lines
        .iter()
        .flat_map(|l| (0..l.count).map(|_| l.fits.as_slice()))
        .filter(|fits| fits.iter().zip(parts).any(|(f, p)| *f == Either || *f != No && f.channels() <= p.channels))
        .collect();
    let mut known = HashMap::new();
    place(&lanes, parts, Vec::new(), &mut known)
}

type Known = HashMap<(usize, Vec<(usize, u32)>), u64>;

/// `open` holds each package with free channels: its part and how many are free.
fn place(lanes: &[&[Fit]], parts: &[BillPart], mut open: Vec<(usize, u32)>, known: &mut Known) -> u64 {
    let Some((fits, rest)) = lanes.split_first() else {
        return 0;
    };
    open.sort_unstable();
    if let Some(found) = known.get(&(lanes.len(), open.clone())) {
        return *found;
    }
    let mut best = u64::MAX;
    for (i, (part, free)) in open.iter().enumerate() {
        let fit = fits[*part];
        if fit != No && fit.channels() <= *free {
            let mut with = open.clone();
            with[i].1 -= fit.channels();
            best = best.min(place(rest, parts, with, known));
        }
    }
    for (index, part) in parts.iter().enumerate().filter(|(index, _)| fits[*index] == Either) {
        // A channel each of two packages of the part: both open, one new, or both new.
        let ours: Vec<usize> = (0..open.len()).filter(|i| open[*i].0 == index && open[*i].1 > 0).collect();
        let cost = part.cost.unwrap_or(0.0) as u64;
        for (n, &i) in ours.iter().enumerate() {
            for &j in &ours[n + 1..] {
                let mut with = open.clone();
                with[i].1 -= 1;
                with[j].1 -= 1;
                best = best.min(place(rest, parts, with, known));
            }
            let mut with = open.clone();
            with[i].1 -= 1;
            with.push((index, part.channels - 1));
            best = best.min(cost.saturating_add(place(rest, parts, with, known)));
        }
        let mut with = open.clone();
        with.extend([(index, part.channels - 1); 2]);
        best = best.min((2 * cost).saturating_add(place(rest, parts, with, known)));
    }
    for (index, part) in parts.iter().enumerate() {
        let fit = fits[index];
        if fit != No && fit.channels() <= part.channels {
            let mut with = open.clone();
            with.push((index, part.channels - fit.channels()));
            let cost = part.cost.unwrap_or(0.0) as u64;
            best = best.min(cost.saturating_add(place(rest, parts, with, known)));
        }
    }
    known.insert((lanes.len(), open), best);
    best
}

/// Every lane served once by parts that pass, no package overfull, no pair split, sums right.
fn assert_sound(found: &Bill, lines: &[BillLine], parts: &[BillPart]) {
    let mut served = vec![0; lines.len()];
    let mut cost = 0.0;
    for packages in &found.parts {
        let channels = parts[packages.part].channels;
        let mut taken = 0;
        let (mut pairs, mut both) = (0, 0);
        for share in &packages.lines {
            let fit = lines[share.line].fits[packages.part];
            assert_ne!(fit, No);
            assert_eq!(share.channels % fit.channels(), 0);
            served[share.line] += share.channels / fit.channels();
            taken += share.channels;
            pairs += if fit == Pair { share.channels / 2 } else { 0 };
            both += if matches!(fit, Pair | Either) { share.channels / 2 } else { 0 };
        }
        assert_eq!(packages.split, both.saturating_sub(packages.packages * (channels / 2)));
        assert!(pairs <= packages.packages * (channels / 2));
        assert_eq!(taken + packages.spare_channels, packages.packages * channels);
        cost += f64::from(packages.packages) * parts[packages.part].cost.unwrap_or(0.0);
    }
    for (index, line) in lines.iter().enumerate() {
        let expected = if found.unserved.contains(&index) { 0 } else { line.count };
        assert_eq!(served[index], expected, "line {index}");
    }
    assert!((found.cost.unwrap() - cost).abs() < 1e-5, "{:?} is not {cost}", found.cost);
}

/// A port with whole costs: each part with its channels and cost, each line with its count, whether it is a pair, and
/// which parts pass.
fn ports(
    lines: usize,
    parts: usize,
    count: u32,
    channels: u32,
) -> impl Strategy<Value = (Vec<BillLine>, Vec<BillPart>)> {
    let parts = prop::collection::vec((1..=channels, 1..=9_u32), 1..=parts);
    parts.prop_flat_map(move |parts| {
        let line = (1..=count, any::<bool>(), prop::collection::vec(any::<(bool, bool)>(), parts.len()));
        let parts: Vec<BillPart> = parts.into_iter().map(|(ch, cost)| part(ch, f64::from(cost))).collect();
        (prop::collection::vec(line, 1..=lines), Just(parts)).prop_map(|(lines, parts)| {
            let fit = |pair, (passes, split)| match Fit::new(passes, pair, false) {
                Pair if split => Either,
                fit => fit,
            };
            let fits = |pair: bool, passes: Vec<(bool, bool)>| passes.into_iter().map(move |p| fit(pair, p));
            let lines =
                lines.into_iter().map(|(count, pair, passes)| line_of(count, fits(pair, passes).collect())).collect();
            (lines, parts)
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_cheaper_bill_exists((lines, parts) in ports(4, 4, 2, 5)) {
        let found = bill(&lines, &parts);
        assert_sound(&found, &lines, &parts);
        prop_assert!(found.proven);
        prop_assert_eq!(found.cost, Some(brute_force(&lines, &parts) as f64));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_cheaper_bill_exists_for_more_lines((lines, parts) in ports(6, 5, 2, 4)) {
        let found = bill(&lines, &parts);
        assert_sound(&found, &lines, &parts);
        prop_assert!(found.proven);
        prop_assert_eq!(found.cost, Some(brute_force(&lines, &parts) as f64));
    }
}

/// Pairs on parts of an odd number of channels at nearly the same price, where a channel left over decides.
fn odd_ports() -> impl Strategy<Value = (Vec<BillLine>, Vec<BillPart>)> {
    let size = prop::sample::select(vec![1_u32, 3, 3, 5]);
    let fit = || prop::sample::select(vec![Either, Either, Either, Pair, Pair, No]);
    prop::collection::vec((size, 7..=9_u32), 1..=3).prop_flat_map(move |parts| {
        let line = (1..=4_u32, prop::collection::vec(fit(), parts.len()));
        let parts: Vec<BillPart> = parts.into_iter().map(|(ch, cost)| part(ch, f64::from(ch * 10 + cost))).collect();
        let lines = prop::collection::vec(line.prop_map(|(count, fits)| line_of(count, fits)), 1..=2);
        (lines, Just(parts))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_cheaper_bill_exists_where_pairs_may_be_split((lines, parts) in odd_ports()) {
        let found = bill(&lines, &parts);
        assert_sound(&found, &lines, &parts);
        prop_assert!(found.proven);
        prop_assert_eq!(found.cost, Some(brute_force(&lines, &parts) as f64));
    }
}

/// Parts of 1 per channel, and lines that fill one package of each to the last channel. No bill can cost less than the
/// channels there are; the lines also pass on other parts, which leads a hasty search to half-empty packages.
fn full_packages(seed: u64) -> (Vec<BillLine>, Vec<BillPart>) {
    let mut next = generator(seed);
    let sizes: Vec<u32> = (0..10).map(|_| 3 + next(6) as u32).collect();
    let mut lines = Vec::new();
    for (planted, size) in sizes.iter().enumerate() {
        let first = 1 + next(u64::from(size - 1)) as u32;
        for count in [first, size - first] {
            let fits = (0..sizes.len()).map(|p| Fit::new(p == planted || next(4) == 0, false, false));
            lines.push(line_of(count, fits.collect()));
        }
    }
    (lines, sizes.into_iter().map(|size| part(size, f64::from(size))).collect())
}

#[test]
fn packages_that_can_be_filled_are_filled() {
    for seed in 1..=5 {
        let (lines, parts) = full_packages(seed);
        let found = bill(&lines, &parts);
        assert_sound(&found, &lines, &parts);
        let channels: u32 = lines.iter().map(|l| l.count).sum();
        assert_eq!(found.cost, Some(f64::from(channels)), "seed {seed}, proven {}", found.proven);
    }
}

#[test]
fn ports_of_common_size_are_searched_to_the_end() {
    for seed in 1..=12 {
        let (lines, parts) = large_port(seed, 14, 12);
        assert!(bill(&lines, &parts).proven, "seed {seed}");
    }
}

#[test]
fn a_large_port_has_a_sound_bill_and_always_the_same() {
    // 40 lines and 30 parts; how long they take is a benchmark.
    for (seed, proven) in [(1, true), (3, true), (9, false)] {
        let (lines, parts) = large_port(seed, 40, 30);
        let found = bill(&lines, &parts);
        assert_sound(&found, &lines, &parts);
        assert!(found.proven || !proven, "seed {seed}");
        assert_eq!(found, bill(&lines, &parts), "the same port gives the same bill");
    }
}

#[test]
fn thousands_of_lanes_have_their_packages() {
    // 4096 lanes, three for 2 or four for 2.7: 2/3 a channel against 0.675; 1364 threes hold 4092, one four the rest
    let found = bill(&[line(4096, &[One, One])], &[part(3, 2.0), part(4, 2.7)]);
    assert_eq!((packages(&found), found.cost), (vec![(0, 1364), (1, 1)], Some(2730.7)));
    assert!(found.proven);
    let (mut lines, parts) = large_port(1, 40, 30);
    lines.iter_mut().for_each(|l| l.count = 4096);
    assert_sound(&bill(&lines, &parts), &lines, &parts);
}
