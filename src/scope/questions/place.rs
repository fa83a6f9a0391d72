//! Where a stretch of the walk is: one question, whose answer goes for all its lines.

use super::HouseUnderReview;
use super::question::{Effect, Kind, Question, Reading, building};
use crate::language::rules::Ground;
use crate::model::wording::{self, count};
use crate::model::{Flag, Line, Side};

/// A single line is asked about by its flag.
const STRETCH: usize = 2;

pub(super) fn ask(house: &HouseUnderReview) -> Vec<Question> {
    let mut stretches: Vec<Vec<&Line>> = vec![Vec::new()];
    let mut last = None;
    for line in &house.lines {
        let place = other_side(line).map(|other| (&line.structure, line.side, other));
        if place != last {
            stretches.push(Vec::new());
            last = place;
        }
        if place.is_some() {
            stretches.last_mut().into_iter().for_each(|stretch| stretch.push(line));
        }
    }
    stretches
        .iter()
        .filter(|stretch| stretch.len() >= STRETCH)
        .filter_map(|stretch| question(stretch))
        .collect()
}

/// The other side that an unsure line may be on, where nothing about it is less sure.
fn other_side(line: &Line) -> Option<Side> {
    let unsure = line.flags.contains(&Flag::Unsure);
    line.readings
        .first()
        .filter(|_| unsure)
        .and_then(|reading| reading.side)
        .filter(|side| *side != line.side)
}

fn question(lines: &[&Line]) -> Option<Question> {
    let (first, last) = (lines.first()?, lines.last()?);
    let sides = [first.side, other_side(first)?];
    let from = match (first.start, last.end) {
        (Some(start), Some(end)) => format!("from {} to {}", wording::time(start), wording::time(end)),
        _ => format!("from “{}” to “{}”", first.said, last.said),
    };
    let [one, other] = sides.map(name);
    let asks = format!(
        "{}{} {from}: are they on {one}, or on {other}?",
        building(&first.structure),
        count(lines.len(), "line", "lines"),
    );
    let reading = |side: Side| Reading {
        label: wording::capital(&name(side)),
        hint: match side == first.side {
            true => "the lines stay where they are".to_owned(),
            false => format!("{} there", count(lines.len(), "line moves", "lines move")),
        },
        effects: lines.iter().map(|line| Effect::Place { line: line.id.clone(), side }).collect(),
    };
    let ground = Ground {
        name: "unsure-place".to_owned(),
        says: "these words can be read as said on either side".to_owned(),
        source: "the narrator's own words".to_owned(),
    };
    let question = Question::of(Kind::Place, &ground, lines);
    Some(question.asking(asks).offering(sides.map(reading).into()))
}

fn name(side: Side) -> String {
    match side {
        Side::None => "no particular side".to_owned(),
        side => format!("the {}", wording::side(side)),
    }
}
