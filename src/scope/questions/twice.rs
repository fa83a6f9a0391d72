//! The same thing seen from two sides: asked about once, and only where the two sightings are alike in all.

use super::HouseUnderReview;
use super::house::{same, touch};
use super::question::{Effect, Kind, Question, Reading, much, on_the};
use crate::language::rules::{CountedOnce, Sighting};
use crate::model::{Flag, Line, Quantity, Side, Unit, wording};

pub(super) fn ask(house: &HouseUnderReview) -> Vec<Question> {
    let rules = house.grammar.house.once.iter().filter(|rule| rule.how != Sighting::CornerPosts);
    rules.flat_map(|rule| of_rule(house, rule)).collect()
}

fn of_rule(house: &HouseUnderReview, rule: &CountedOnce) -> Vec<Question> {
    let lines: Vec<&Line> =
        house.counted_of(&rule.items).into_iter().filter(|line| line.side != Side::None).collect();
    let mut all = Vec::new();
    for (at, first) in lines.iter().enumerate() {
        let alike: Vec<&Line> =
            lines.iter().copied().filter(|other| other.id != first.id && is_alike(first, other)).collect();
        // A third one is as likely another on each side as the same seen again.
        let [second] = alike.as_slice() else { continue };
        let comes_first = lines[at..].iter().any(|line| line.id == second.id);
        if comes_first && meets(rule.how, first, second) && hangs(house, rule, first, second) {
            all.extend(question(house, rule, first, second));
        }
    }
    all
}

/// Whether two lines of different sides may tell of one thing: in all that was said they are alike.
fn is_alike(a: &Line, b: &Line) -> bool {
    let much = match (a.quantity, b.quantity) {
        (Some(x), Some(y)) => {
            same(x.value(), y.value()) && a.unit == b.unit && (a.unit != Unit::Each || x == Quantity::of(1))
        }
        _ => false,
    };
    let fits = |a: &Option<String>, b: &Option<String>| a.is_none() || b.is_none() || a == b;
    a.item == b.item
        && a.structure == b.structure
        && a.side != b.side
        && a.size == b.size
        && much
        && matches!(a.unit, Unit::Each | Unit::Foot)
        && (a.work == b.work || a.work.is_none() || b.work.is_none())
        && fits(&a.detail, &b.detail)
}

fn meets(how: Sighting, a: &Line, b: &Line) -> bool {
    how == Sighting::AnyTwoSides || touch(a.side, b.side)
}

/// Whether just one of the two sides has what the thing hangs on.
fn hangs(house: &HouseUnderReview, rule: &CountedOnce, a: &Line, b: &Line) -> bool {
    let Some(on) = &rule.hangs_on else { return true };
    let on = std::slice::from_ref(on);
    let there = |line: &Line| house.mentions(on, &line.structure, line.side);
    there(a) != there(b)
}

fn question(house: &HouseUnderReview, rule: &CountedOnce, a: &Line, b: &Line) -> Option<Question> {
    let asked = |line: &Line| house.drafted(&line.id).is_some_and(|l| l.flags.contains(&Flag::MaybeRepeat));
    if asked(a) || asked(b) {
        return None;
    }
    let quantity = a.quantity?.value();
    let size = a.size.as_ref().map(|size| format!(" of {}", wording::size(size))).unwrap_or_default();
    let name = house.named(a);
    let asks = format!(
        "{name}: {}{size} {}, and the same {}. Is it one and the same, seen from both sides?",
        much(quantity, a.unit),
        on_the(a.side),
        on_the(b.side)
    );
    let once = Reading {
        label: format!("{} in all", much(quantity, a.unit)),
        hint: format!("the one {} is dropped", on_the(b.side)),
        effects: vec![Effect::Drop {
            line: b.id.clone(),
            reason: format!("the same as the one {}", on_the(a.side)),
        }],
    };
    let both = Reading::as_noted(format!("{} in all", much(quantity * 2, a.unit)));
    Some(Question::of(Kind::SeenTwice, &rule.ground, &[a, b]).asking(asks).offering(vec![once, both]))
}
