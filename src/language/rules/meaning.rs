//! What a rule can mean. How a rules file names each meaning stands in `means.rs`.

use crate::model::{FollowUpKind, Shape, Side, Work};
use serde::Deserialize;

/// Where the thing stands that a cue speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Default)]
#[serde(rename_all = "lowercase")]
pub enum Form {
    /// After the cue: "replace the gutter", "no damage on the door".
    Object,
    /// Before the cue: "the gutter gets replaced", "the door is fine".
    Predicate,
    /// After it where something fit follows at once, else before it: "detach and reset".
    #[default]
    Either,
}

/// How many a pronoun speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reach {
    /// The last thing: "it".
    One,
    /// One of the last things, if they are several: "just the one", "that one".
    Single,
    /// One of them, of which something is only told: "one of them", "the one on the left".
    OneOf,
    /// The last things, if they are several: "those", "they".
    Many,
    /// The last two: "both of those".
    Both,
    /// Everything listed since the last work: "all of that".
    All,
    /// What is left of the last thing: "the rest of it".
    Rest,
}

/// A compass word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Compass {
    /// North.
    North,
    /// South.
    South,
    /// East.
    East,
    /// West.
    West,
}

/// What a match of a rule tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meaning {
    /// Work on a thing.
    Work(Work, Form),
    /// A thing comes off; what then, other words say.
    Off(Form),
    /// The work named last, again.
    Same(Form),
    /// Looked at and found sound.
    Clear(Form),
    /// To be left alone, or not theirs to touch.
    Leave(Form),
    /// There is none of it.
    Absent(Form),
    /// A side of the house.
    Side(Side),
    /// A compass word for a side.
    Compass(Compass),
    /// All around, or the whole roof: no one side.
    AllAround,
    /// Up on the roof: roof things are on no one side until a slope is named.
    Roof,
    /// The side not yet visited.
    LastSide,
    /// A look back at something forgotten.
    Forgot,
    /// A building of its own.
    Structure,
    /// A condition opens: "if".
    If,
    /// The work is only possible: "might want".
    Might,
    /// The work is only asked about or thought of: "should we replace".
    Ask,
    /// What was just said was only a condition: "but just if".
    OnlyThen,
    /// What follows takes the place of what was just said.
    Correct,
    /// What was just said falls away.
    Scratch,
    /// The number is a rough one.
    Rough,
    /// A pronoun.
    Refer(Reach),
    /// A running total over things already named.
    Total,
    /// What follows says over again what was said before.
    Recap,
    /// Something still to do.
    FollowUp(FollowUpKind, Form),
    /// Talk that is not about this house: teaching, other people, the past.
    Aside,
    /// A clause that only tells when or why: what it names is not scope.
    Beside,
    /// The narrator doesn't know what is to be done with it.
    Unsure,
    /// It was never there: what is put on is new.
    Lacking,
    /// All but this one.
    Except,
    /// A face that is measured.
    Face(Shape),
    /// Another of the thing just named: "another one".
    Another,
    /// As much as was just said: "same footage".
    SameAmount,
    /// Words that look like something else and mean nothing here.
    Nothing,
    /// Words that look like work but are part of a thing's name here: "that cover".
    Noun,
}
