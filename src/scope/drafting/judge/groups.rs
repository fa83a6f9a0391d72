//! What may be a line: places where the reader sees one, those of one thing taken together, with what the rules drafted
//! there.

use super::RuleLine;
use super::fields::Value;
use crate::language::reader::{Anchor, Number, Reading};
use std::collections::BTreeMap;

/// Where the chance of a line is below this, nothing is grouped.
const FAINT: f32 = 0.03;

/// A second mention as near as this, in words, may be of the same thing.
const SAME_THING: usize = 20;

/// A second mention with a number of its own is the same thing only if it is less likely a line than this.
const UNLIKELY: f32 = 0.25;

/// What the rules drafted as near as this, in words, may be what the reader means.
const SAME_LINE: usize = 25;

/// The least chance that the reader gives the rules' item where they mean the same line.
const SAME_ITEM: f32 = 0.15;

/// What may be a line.
#[derive(Debug)]
pub(super) struct Group<'a> {
    /// The likeliest place.
    pub anchor: &'a Anchor,
    /// The chances of a line at all its places, summed.
    pub mass: f32,
    /// The rules' lines of one thing, one for each work.
    pub rules: Vec<&'a RuleLine>,
    /// The rules drafted it where the reader sees no line of its own.
    pub apart: bool,
}

/// Places of one thing.
struct Cluster<'a> {
    head: &'a Anchor,
    places: Vec<usize>,
    mass: f32,
    taken: bool,
}

/// All that may be lines, in the order of their places.
pub(super) fn groups<'a>(
    reading: &'a Reading,
    rules: &'a [RuleLine],
    value: &dyn Fn(Number) -> Value,
    place_of: &dyn Fn(&str) -> Option<u16>,
) -> Vec<Group<'a>> {
    let mut clusters = clusters(&reading.anchors, value);
    let mut groups = Vec::new();
    for things in one_thing_each(rules) {
        let first = things[0];
        let item = first.line.item.as_deref().map(place_of);
        match nearest(&mut clusters, first.at, item) {
            Some(cluster) => {
                cluster.taken = true;
                groups.push(Group { anchor: cluster.head, mass: cluster.mass, rules: things, apart: false });
            }
            None => {
                let at = reading.anchors.binary_search_by_key(&first.at, |anchor| anchor.at);
                let Some(anchor) = at.ok().map(|at| &reading.anchors[at]) else { continue };
                let known = clusters.iter().find(|cluster| cluster.head.at == anchor.at);
                let mass = known.map_or(anchor.status[1], |cluster| cluster.mass);
                groups.push(Group { anchor, mass, rules: things, apart: true });
            }
        }
    }
    let alone = clusters.iter().filter(|cluster| !cluster.taken);
    groups.extend(alone.map(|c| Group { anchor: c.head, mass: c.mass, rules: Vec::new(), apart: false }));
    groups.sort_by_key(|group| group.anchor.at);
    groups
}

/// The places where the reader sees lines, those of one thing together under the likeliest of them.
fn clusters<'a>(anchors: &'a [Anchor], value: &dyn Fn(Number) -> Value) -> Vec<Cluster<'a>> {
    let mut seen: Vec<&Anchor> = anchors.iter().filter(|anchor| anchor.status[1] > FAINT).collect();
    seen.sort_by(|a, b| b.status[1].total_cmp(&a.status[1]).then(a.at.cmp(&b.at)));
    let mut clusters: Vec<Cluster> = Vec::new();
    // By item, so that a long narration isn't searched through for each place.
    let mut of_item: BTreeMap<Option<u16>, Vec<usize>> = BTreeMap::new();
    for anchor in seen {
        let item = anchor.item.first().and_then(|(item, _)| *item);
        let known = of_item.entry(item).or_default();
        let same = known.iter().copied().find(|n| same_thing(anchor, clusters[*n].head, value));
        match same {
            Some(n) => {
                clusters[n].mass += anchor.status[1];
                clusters[n].places.push(anchor.at);
            }
            None => {
                known.push(clusters.len());
                clusters.push(Cluster {
                    head: anchor,
                    places: vec![anchor.at],
                    mass: anchor.status[1],
                    taken: false,
                });
            }
        }
    }
    clusters
}

/// Whether a place speaks of the same thing as a likelier one near it: it tells no other number.
fn same_thing(anchor: &Anchor, head: &Anchor, value: &dyn Fn(Number) -> Value) -> bool {
    let (own, heads) = (likeliest(anchor, value), likeliest(head, value));
    let silent = own.is_none_or(|q| q.is_range().eq(&false) && q.value() == 1.into());
    anchor.at.abs_diff(head.at) <= SAME_THING
        && (own == heads || silent || heads.is_none() || anchor.status[1] < UNLIKELY)
}

/// The likeliest number of a place.
fn likeliest(anchor: &Anchor, value: &dyn Fn(Number) -> Value) -> Value {
    let mut sums: Vec<(Value, f32)> = Vec::new();
    for (number, chance) in &anchor.number {
        let value = value(*number);
        match sums.iter_mut().find(|(known, _)| *known == value) {
            Some((_, sum)) => *sum += chance,
            None => sums.push((value, *chance)),
        }
    }
    let first = |best: (Value, f32), next: (Value, f32)| if next.1 > best.1 { next } else { best };
    sums.into_iter().fold((None, -1.0), first).0
}

/// The rules' lines, those of one thing together, in the order of their places.
fn one_thing_each(rules: &[RuleLine]) -> Vec<Vec<&RuleLine>> {
    let mut things: Vec<Vec<&RuleLine>> = Vec::new();
    for rule in rules {
        let same = |other: &&RuleLine| {
            let (a, b) = (&rule.line, &other.line);
            (rule.at, a.side, &a.structure, &a.item) == (other.at, b.side, &b.structure, &b.item)
        };
        match things.iter_mut().rev().take(4).find(|thing| same(&thing[0])) {
            Some(thing) => thing.push(rule),
            None => things.push(vec![rule]),
        }
    }
    things.sort_by_key(|thing| thing[0].at);
    things
}

/// The free cluster that the rules' thing belongs to. `item`: none for what isn't in the catalogue.
fn nearest<'c, 'a>(
    clusters: &'c mut [Cluster<'a>],
    at: usize,
    item: Option<Option<u16>>,
) -> Option<&'c mut Cluster<'a>> {
    let item = item.flatten();
    let chance =
        |head: &Anchor| head.item.iter().find(|(known, _)| *known == item).map_or(0.0, |(_, chance)| *chance);
    let apart =
        |cluster: &Cluster| cluster.places.iter().map(|place| place.abs_diff(at)).min().unwrap_or(usize::MAX);
    let fits =
        |c: &Cluster| !c.taken && (apart(c) == 0 || apart(c) <= SAME_LINE && chance(c.head) > SAME_ITEM);
    clusters
        .iter_mut()
        .filter(|cluster| fits(cluster))
        .min_by(|a, b| apart(a).cmp(&apart(b)).then(b.mass.total_cmp(&a.mass)))
}
