//! From the network's odds to chances of what they stand for.

use super::heads::{AnchorOdds, Near, NearParts, PartOdds};
use super::input::Input;
use super::parts::Stretch;
use super::reading::{Anchor, Number, Part, SIDES};
use rustc_hash::FxHashMap;

/// Chances below these are left out.
const FAINT: f32 = 0.005;
const FAINT_ITEM: f32 = 0.01;

/// What is said of an anchor.
pub(super) fn anchor(
    n: usize,
    near: &Near,
    odds: &AnchorOdds,
    status: &[Vec<f32>],
    where_at: &[[f32; SIDES]],
    input: &Input,
    catalogue: &[Option<u16>],
) -> Anchor {
    let at = near.anchors[n];
    let sure = |row: &[f32], column: usize| rounded(logistic(row[column]));
    let told = |row: &[f32], places: &dyn Fn(usize) -> usize, fixed: usize| pointed(row, places, fixed);
    let number = told(&odds.number[n], &|k| near.numbers[n][k].0, 2);
    let antecedent = told(&odds.antecedent[n], &|k| near.things[n][k].0, 1);
    Anchor {
        at,
        status: std::array::from_fn(|k| rounded(status[at][k])),
        works: std::array::from_fn(|k| sure(odds.works.row(n), k)),
        only_if: sure(odds.yes.row(n), 0),
        look: sure(odds.yes.row(n), 1),
        unit: soft(odds.unit.row(n)).try_into().unwrap_or_default(),
        item: items(odds.item.row(n), &odds.antecedent[n], &near.things[n], input, catalogue),
        antecedent: plain(antecedent),
        side: where_told(odds.own_side.row(n), &where_at[at]),
        number: number
            .into_iter()
            .map(|(to, p)| match to {
                Err(0) => (Number::Unsaid, p),
                Err(_) => (Number::One, p),
                Ok(n) => (Number::Amount(n), p),
            })
            .collect(),
        size: plain(told(&odds.size[n], &|k| near.numbers[n][k].0, 1)),
        structure: plain(told(&odds.structure[n], &|k| near.structures[n][k].0, 1)),
    }
}

/// What is said of a part.
pub(super) fn part(
    n: usize,
    told: &Stretch,
    near: &NearParts,
    odds: &PartOdds,
    where_at: &[[f32; SIDES]],
) -> Part {
    let length = |row: &[f32]| {
        let found = plain(pointed(row, &|k| near.lengths[n][k].0, 1));
        found.into_iter().map(|(to, p)| (to.map(|n| (n / 2, n % 2 == 1)), p)).collect()
    };
    Part {
        first: told.first,
        last: told.last,
        kind: told.kinds.map(rounded),
        side: where_told(odds.side.row(n), &where_at[told.last]),
        item: plain(pointed(&odds.item[n], &|k| near.things[n][k].0, 1)),
        width: length(&odds.wide[n]),
        height: length(&odds.high[n]),
    }
}

/// The chances of the items: of the anchor's own name, and of the things it may stand for.
fn items(
    own: &[f32],
    antecedent: &[f32],
    things: &[(usize, [usize; 4])],
    input: &Input,
    catalogue: &[Option<u16>],
) -> Vec<(Option<u16>, f32)> {
    let back = softmax(antecedent);
    let mut sums: FxHashMap<Option<u16>, f32> = FxHashMap::default();
    for (class, chance) in softmax(own).into_iter().enumerate() {
        // The class behind the last item is what isn't in the catalogue; an item that the catalogue lacks is nothing.
        let item = match catalogue.get(class) {
            Some(None) => continue,
            Some(Some(item)) => Some(*item),
            None => None,
        };
        *sums.entry(item).or_default() += back[0] * chance;
    }
    for ((thing, _), chance) in things.iter().zip(&back[1..]) {
        *sums.entry(input.things[*thing].item).or_default() += chance;
    }
    let mut all: Vec<(Option<u16>, f32)> = sums.into_iter().map(|(item, p)| (item, rounded(p))).collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let likely = all.iter().take_while(|(_, p)| *p > FAINT_ITEM).count().max(1);
    all.truncate(likely);
    all
}

/// What a pointer's odds come to, the likeliest first: fixed answers as `Err`, candidates as `Ok`.
fn pointed(odds: &[f32], places: &dyn Fn(usize) -> usize, fixed: usize) -> Vec<(Result<usize, usize>, f32)> {
    let answer = |k: usize| if k < fixed { Err(k) } else { Ok(places(k - fixed)) };
    let each = softmax(odds).into_iter().enumerate().map(|(k, p)| (answer(k), rounded(p)));
    let mut all: Vec<_> = each.filter(|(_, p)| *p > FAINT).collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    all
}

/// The same with one fixed answer, which is none.
fn plain(all: Vec<(Result<usize, usize>, f32)>) -> Vec<(Option<usize>, f32)> {
    all.into_iter().map(|(to, p)| (to.ok(), p)).collect()
}

/// Where something is: where the narrator stands, unless its own words say otherwise.
fn where_told(own: &[f32], stands: &[f32; SIDES]) -> [f32; SIDES] {
    let says = logistic(own[0]);
    let said = softmax(&own[1..]);
    std::array::from_fn(|side| rounded((1.0 - says) * stands[side] + says * said[side]))
}

fn soft(odds: &[f32]) -> Vec<f32> {
    softmax(odds).into_iter().map(rounded).collect()
}

/// The chances of odds that exclude each other.
pub(super) fn softmax(odds: &[f32]) -> Vec<f32> {
    let most = odds.iter().copied().fold(f32::NEG_INFINITY, f32::max);
    let raised: Vec<f32> = odds.iter().map(|z| (z - most).exp()).collect();
    let sum: f32 = raised.iter().sum();
    raised.into_iter().map(|z| z / sum).collect()
}

fn logistic(odds: f32) -> f32 {
    1.0 / (1.0 + (-odds).exp())
}

/// To four decimals: what machines compute differently lies below.
pub(super) fn rounded(chance: f32) -> f32 {
    (chance * 10_000.0).round() / 10_000.0
}
