//! A question about the house, with the readings that are offered.

use super::house::HouseUnderReview;
use crate::language::rules::Ground;
use crate::model::{Exact, HOUSE, Line, Quantity, Side, Unit, wording};
use serde::{Deserialize, Serialize};

/// What a question is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// On which side a stretch of the walk is.
    Place,
    /// Posts at corners, which belong to two sides.
    Corners,
    /// One thing that may have been noted from two sides.
    SeenTwice,
    /// A total said aloud that the lines don't add up to.
    SaidTotal,
    /// A number out of the ordinary.
    Number,
    /// What the work usually needs and was not mentioned.
    NotMentioned,
}

/// A question to the reviewer.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// What it is known by: the same lines under the same rule give the same id.
    pub id: String,
    /// What it is about.
    pub kind: Kind,
    /// On which structure.
    pub structure: String,
    /// On which side; none where it is about more than one.
    pub side: Side,
    /// The question, in a sentence or two.
    pub asks: String,
    /// The lines it is about.
    pub lines: Vec<String>,
    /// What it may be answered with: the lower number first, which is the default.
    pub readings: Vec<Reading>,
    /// What was not mentioned; each is answered by itself, or all at once.
    pub missing: Vec<Missing>,
    /// The rule that asks, and its source.
    pub ground: Ground,
}

/// An answer that is offered.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// In a few words: `4 in all`.
    pub label: String,
    /// What comes of it, in a few more.
    pub hint: String,
    /// What it does to lines; nothing where they stand as they are.
    pub effects: Vec<Effect>,
}

/// What an answer does to a line.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// It is no part of the scope.
    Drop {
        /// Which.
        line: String,
        /// Why.
        reason: String,
    },
    /// It is on this side, for sure.
    Place {
        /// Which.
        line: String,
        /// The side.
        side: Side,
    },
    /// It has another number.
    Count {
        /// Which.
        line: String,
        /// How much.
        quantity: Exact,
    },
}

impl Effect {
    /// The line that is changed.
    pub fn line(&self) -> &str {
        match self {
            Effect::Drop { line, .. } | Effect::Place { line, .. } | Effect::Count { line, .. } => line,
        }
    }
}

/// Something that was not mentioned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// The catalogue's id; the first where one of several would do.
    pub item: String,
    /// In plain words, all that would do.
    pub name: String,
    /// What is done with it where it is there.
    pub work: crate::model::Work,
}

/// What a question is answered with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum With {
    /// One of its readings, from 0.
    Reading(usize),
    /// There are none of these, of what was not mentioned.
    None(Vec<String>),
    /// This is there: a line is added.
    Add(String),
}

/// What the answer about one thing that was not mentioned is known by.
pub fn point(question: &str, item: &str) -> String {
    format!("{question}/{item}")
}

impl Reading {
    /// The lines stand as they are.
    pub(super) fn as_noted(label: impl Into<String>) -> Self {
        Self { label: label.into(), hint: "the lines stay as they are".into(), effects: Vec::new() }
    }
}

impl Question {
    /// A question about lines, without its words and readings yet.
    pub(super) fn of(kind: Kind, ground: &Ground, lines: &[&Line]) -> Self {
        let ids: Vec<String> = lines.iter().map(|line| line.id.clone()).collect();
        let structure = lines.first().map_or_else(|| HOUSE.to_owned(), |line| line.structure.clone());
        let one_side = lines.first().map(|line| line.side).filter(|s| lines.iter().all(|l| l.side == *s));
        let id = known_by(ground, &ids.join(" "));
        Self {
            id,
            kind,
            structure,
            side: one_side.unwrap_or(Side::None),
            asks: String::new(),
            lines: ids,
            readings: Vec::new(),
            missing: Vec::new(),
            ground: ground.clone(),
        }
    }

    /// The same question about something else: a number that isn't asked about again once it is answered.
    pub(super) fn about(self, what: &str) -> Self {
        Self { id: known_by(&self.ground, &format!("{} {what}", self.lines.join(" "))), ..self }
    }

    pub(super) fn asking(self, asks: String) -> Self {
        Self { asks, ..self }
    }

    pub(super) fn offering(self, readings: Vec<Reading>) -> Self {
        Self { readings, ..self }
    }

    /// Where it is asked, in plain words: `house, right`.
    pub fn place(&self) -> String {
        wording::whereabouts(&self.structure, self.side)
    }

    /// The question with what was not mentioned, where nothing else lists it.
    pub fn in_full(&self) -> String {
        let names: Vec<String> = self.missing.iter().map(|missing| missing.name.clone()).collect();
        match names.is_empty() {
            true => self.asks.clone(),
            false => format!("{} {}.", self.asks, wording::capital(&listed(&names))),
        }
    }

    /// The question with the rule that asks, as a document prints it.
    pub fn told(&self) -> String {
        format!("{} ({}; {})", self.in_full(), self.ground.says, self.ground.source)
    }
}

fn known_by(ground: &Ground, what: &str) -> String {
    format!("q{}", &crate::model::digest::of_bytes(format!("{} {what}", ground.name).as_bytes())[..10])
}

/// What is said first of a building that isn't the house: `Detached garage: `.
pub(super) fn building(structure: &str) -> String {
    if structure == HOUSE { String::new() } else { format!("{}: ", wording::capital(structure)) }
}

/// `a, b and c`
pub(super) fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// A number with its unit, as lines show it: `10 ft`, `4`.
pub(super) fn much(quantity: Exact, unit: Unit) -> String {
    match unit {
        Unit::Each => quantity.text(),
        unit => wording::much(Quantity::of(quantity), unit),
    }
}

/// `on the front`; nothing where there is no one side.
pub(super) fn on_the(side: Side) -> String {
    match side {
        Side::None => String::new(),
        side => format!("on the {}", wording::side(side)),
    }
}

impl HouseUnderReview<'_> {
    /// A thing's name with a capital, behind the building's where that isn't the house.
    pub(super) fn named(&self, line: &Line) -> String {
        format!("{}{}", building(&line.structure), wording::capital(&wording::item_of(line)))
    }

    /// The same with its side: `Wood fence on the rear`.
    pub(super) fn placed(&self, line: &Line) -> String {
        format!("{} {}", self.named(line), on_the(line.side)).trim_end().to_owned()
    }
}
