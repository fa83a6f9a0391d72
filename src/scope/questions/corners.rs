//! Corners belong to the building once: who counts both ends of each side counts every corner twice.

use super::HouseUnderReview;
use super::house::touch;
use super::question::{Effect, Kind, Question, Reading, listed, on_the};
use crate::language::rules::{Ground, Sighting};
use crate::model::{Line, Side, Unit};

/// A plain house has four; so many, noted side by side, don't call for a question.
const PLAIN: u32 = 4;

/// A straight wall has two ends: no side shares more of its posts.
const ENDS: u32 = 2;

const AROUND: [Side; 4] = [Side::Front, Side::Right, Side::Rear, Side::Left];

/// Every corner with its two sides. Posts that are noted on both stay with the front and the rear, where crews count
/// them, so the other side of the pair comes second.
const CORNERS: [[Side; 2]; 4] = [
    [Side::Front, Side::Right],
    [Side::Rear, Side::Right],
    [Side::Rear, Side::Left],
    [Side::Front, Side::Left],
];

pub(super) fn ask(house: &HouseUnderReview) -> Vec<Question> {
    let mut all = Vec::new();
    for rule in house.grammar.house.once.iter().filter(|rule| rule.how == Sighting::CornerPosts) {
        for lines in groups(&house.counted_of(&rule.items)) {
            all.extend(question(house, &rule.ground, &Posts::of(&lines)));
        }
    }
    all
}

/// Lines of pieces by item, structure and work: posts that are painted as well as replaced are no further posts.
fn groups<'a>(lines: &[&'a Line]) -> Vec<Vec<&'a Line>> {
    let together = |a: &Line, b: &Line| (&a.item, &a.structure, a.work) == (&b.item, &b.structure, b.work);
    let mut all: Vec<Vec<&Line>> = Vec::new();
    for line in lines.iter().filter(|line| line.side != Side::None && pieces(line).is_some()) {
        match all.iter_mut().find(|group| together(group[0], line)) {
            Some(group) => group.push(line),
            None => all.push(vec![line]),
        }
    }
    all
}

fn pieces(line: &Line) -> Option<u32> {
    let quantity = line.quantity.filter(|_| line.unit == Unit::Each)?.value();
    u32::try_from(quantity.to_integer()).ok().filter(|whole| quantity.is_integer() && *whole >= 1)
}

/// The posts that were counted, by side.
struct Posts<'a> {
    lines: Vec<&'a Line>,
    noted: [u32; 4],
}

impl<'a> Posts<'a> {
    fn of(lines: &[&'a Line]) -> Self {
        let on = |side| lines.iter().filter(|l| l.side == side).filter_map(|l| pieces(l)).sum();
        Self { lines: lines.to_vec(), noted: AROUND.map(on) }
    }

    fn on(&self, side: Side) -> u32 {
        AROUND.iter().position(|s| *s == side).map_or(0, |at| self.noted[at])
    }

    fn total(&self) -> u32 {
        self.noted.iter().sum()
    }

    /// How many posts of each side may be those of the side that touches it.
    fn shared(&self) -> [u32; 4] {
        let mut left = self.noted.map(|n| n.min(ENDS));
        let mut shared = [0; 4];
        let place = |side| AROUND.iter().position(|s| *s == side).unwrap_or(0);
        for [stays, goes] in CORNERS.map(|pair| pair.map(place)) {
            if left[stays] > 0 && left[goes] > 0 {
                left[stays] -= 1;
                left[goes] -= 1;
                shared[goes] += 1;
            }
        }
        shared
    }

    /// Whether counting twice is likely: both ends of two touching sides were counted, or there are more than a plain
    /// house has. An inside corner is likely the same where touching sides have as many.
    fn doubtful(&self) -> bool {
        let outside = self.lines.first().is_some_and(|line| line.item.as_deref() != Some("inside-corner"));
        let both = |least: u32| {
            CORNERS.iter().any(|[a, b]| touch(*a, *b) && self.on(*a) >= least && self.on(*b) >= least)
        };
        match outside {
            true => both(ENDS) || (self.total() > PLAIN && both(1)),
            false => CORNERS.iter().any(|[a, b]| self.on(*a) > 0 && self.on(*a) == self.on(*b)),
        }
    }
}

fn question(house: &HouseUnderReview, ground: &Ground, posts: &Posts) -> Option<Question> {
    let shared = posts.shared();
    let (total, twice) = (posts.total(), shared.iter().sum::<u32>());
    if twice == 0 || !posts.doubtful() {
        return None;
    }
    let noted: Vec<String> = AROUND
        .iter()
        .filter(|side| posts.on(**side) > 0)
        .map(|side| format!("{} {}", posts.on(*side), on_the(*side)))
        .collect();
    let name = house.named(posts.lines.first()?);
    let asks = format!(
        "{name}: {} were counted, {total} in all. Are some of them the same posts, {} in all?",
        listed(&noted),
        total - twice
    );
    let once = Reading {
        label: format!("{} in all", total - twice),
        hint: "a post where two sides meet counts on the front or the rear".into(),
        effects: effects(&posts.lines, shared),
    };
    let readings = vec![once, Reading::as_noted(format!("{total} in all"))];
    Some(Question::of(Kind::Corners, ground, &posts.lines).asking(asks).offering(readings))
}

/// What takes the shared posts away from their sides: from the last line of a side first.
fn effects(lines: &[&Line], shared: [u32; 4]) -> Vec<Effect> {
    let mut effects = Vec::new();
    for (side, mut twice) in AROUND.into_iter().zip(shared) {
        for line in lines.iter().rev().filter(|line| line.side == side) {
            let here = pieces(line).unwrap_or(0);
            let id = line.id.clone();
            if twice >= here && here > 0 {
                effects.push(Effect::Drop { line: id, reason: "counted on the side next to it".into() });
            } else if twice > 0 {
                effects.push(Effect::Count { line: id, quantity: (here - twice).into() });
            }
            twice = twice.saturating_sub(here);
        }
    }
    effects
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn posts_are_shared_where_two_sides_meet_and_no_side_shares_more_than_its_ends() {
        for (noted, shared) in [
            ([2, 2, 2, 2], [0, 2, 0, 2]),
            ([2, 2, 0, 0], [0, 1, 0, 0]),
            ([2, 0, 2, 0], [0, 0, 0, 0]),
            ([4, 3, 4, 3], [0, 2, 0, 2]),
            ([2, 1, 2, 1], [0, 1, 0, 1]),
            ([0, 2, 2, 0], [0, 1, 0, 0]),
        ] {
            assert_eq!(Posts { lines: Vec::new(), noted }.shared(), shared, "{noted:?}");
        }
    }
}
