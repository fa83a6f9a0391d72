//! What work usually brings with it and was not mentioned: lights on a wall whose siding is replaced.

use super::HouseUnderReview;
use super::house::amount;
use super::question::{Kind, Missing, Question, listed, on_the, point};
use crate::language::rules::{Need, UsualNeed};
use crate::model::{HOUSE, Line, Side, Work, wording};
use std::collections::BTreeSet;

pub(super) fn ask(house: &HouseUnderReview) -> Vec<Question> {
    let rules = house.grammar.house.needs.iter();
    let of_rule = |rule| {
        let places = places(house, rule).into_iter();
        places.filter_map(move |(side, lines)| question(house, rule, side, &lines))
    };
    rules.flat_map(of_rule).collect()
}

/// The sides that are worked on, with their lines. Work on no one side is asked about once, for the house.
fn places<'a>(house: &HouseUnderReview<'a>, rule: &UsualNeed) -> Vec<(Side, Vec<&'a Line>)> {
    let mut all: Vec<(Side, Vec<&Line>)> = Vec::new();
    // A shed needs less than a house, and nobody says how much less.
    let house_itself = house.counted_of(&rule.of).into_iter().filter(|line| line.structure == HOUSE);
    for line in house_itself.filter(|line| is_renewed(line, rule)) {
        let side = if rule.each_side { line.side } else { Side::None };
        match all.iter_mut().find(|(known, _)| *known == side) {
            Some((_, lines)) => lines.push(line),
            None => all.push((side, vec![line])),
        }
    }
    all
}

/// Whether so much of it is renewed that the rest comes with it.
fn is_renewed(line: &Line, rule: &UsualNeed) -> bool {
    let enough = match (rule.least, line.quantity) {
        (Some((least, unit)), Some(_)) => amount(line, unit).is_some_and(|much| much >= least),
        _ => true,
    };
    enough && line.work.is_some_and(|work| rule.works.contains(&work))
}

fn question(house: &HouseUnderReview, rule: &UsualNeed, side: Side, lines: &[&Line]) -> Option<Question> {
    // Known by its place alone, so that a further line of siding there doesn't ask again.
    let unasked = Question::of(Kind::NotMentioned, &rule.ground, &[]).about(wording::side(side));
    let named = rule.needs.iter().filter(|need| house.said(&need.any_of, HOUSE, side)).count();
    if rule.enough.is_some_and(|enough| named >= enough) {
        return None;
    }
    let open = |need: &&Need| {
        !house.mentions(&need.any_of, HOUSE, side)
            && !need.named.iter().any(|id| house.answered.contains(point(&unasked.id, id).as_str()))
    };
    let missing: Vec<Missing> = rule.needs.iter().filter(open).filter_map(missing).collect();
    let asks = asks(side, lines);
    let lines = lines.iter().map(|line| line.id.clone()).collect();
    (!missing.is_empty()).then_some(Question { lines, side, missing, asks, ..unasked })
}

fn asks(side: Side, lines: &[&Line]) -> String {
    let items = Vec::from_iter(lines.iter().map(|line| wording::item_of(line)).collect::<BTreeSet<_>>());
    let is_one = items.len() == 1 && (!items[0].ends_with('s') || items[0].ends_with("ss"));
    let be = if is_one { "is" } else { "are" };
    let work = lines.iter().find_map(|line| line.work).map_or("worked on", participle);
    let here = if side == Side::None { String::new() } else { format!(" {}", on_the(side)) };
    let items = wording::capital(&listed(&items));
    format!("{items} {be} being {work}{here}. Nothing was said about these; is any there?")
}

/// What is being done with something.
fn participle(work: Work) -> &'static str {
    match work {
        Work::DetachReset => "detached and reset",
        Work::RemoveReplace => "replaced",
        Work::Remove => "removed",
        Work::Install => "installed",
        Work::Repair => "repaired",
        Work::Clean => "cleaned",
        Work::Paint => "painted",
        Work::Stain => "stained",
        Work::Protect => "protected",
    }
}

fn missing(need: &Need) -> Option<Missing> {
    let names: Vec<String> = need.named.iter().map(|id| wording::item(Some(id), "")).collect();
    Some(Missing { item: need.named.first()?.clone(), name: names.join(" or "), work: need.work })
}
