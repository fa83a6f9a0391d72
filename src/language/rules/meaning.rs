//! What a rule can mean. A rules file names it with `means` and `value`.

use crate::model::{FollowUpKind, Shape, Side, Work};
use serde::Deserialize;
use serde::de::IntoDeserializer;
use serde::de::value::{Error, StrDeserializer};

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

fn word<'de, T: Deserialize<'de>>(value: &'de str) -> Option<T> {
    let from: StrDeserializer<'de, Error> = value.into_deserializer();
    T::deserialize(from).ok()
}

/// Every `means` a rules file may use, with the values it takes.
pub(super) const MEANS: &[(&str, &[&str])] = &[
    (
        "work",
        &[
            "detach-reset",
            "remove-replace",
            "remove",
            "install",
            "repair",
            "clean",
            "paint",
            "stain",
            "protect",
        ],
    ),
    ("off", &[]),
    ("same", &[]),
    ("clear", &[]),
    ("leave", &[]),
    ("absent", &[]),
    ("side", &["front", "right", "rear", "left"]),
    ("compass", &["north", "south", "east", "west"]),
    ("all-around", &[]),
    ("roof", &[]),
    ("last-side", &[]),
    ("forgot", &[]),
    ("structure", &[]),
    ("if", &[]),
    ("might", &[]),
    ("only-then", &[]),
    ("correct", &[]),
    ("scratch", &[]),
    ("rough", &[]),
    ("refer", &["one", "single", "one-of", "many", "both", "all", "rest"]),
    ("total", &[]),
    ("recap", &[]),
    ("follow-up", &["photo", "measure", "check"]),
    ("aside", &[]),
    ("beside", &[]),
    ("except", &[]),
    ("unsure", &[]),
    ("lacking", &[]),
    ("face", &["wall", "gable", "opening", "roof-slope"]),
    ("another", &[]),
    ("same-amount", &[]),
    ("nothing", &[]),
    ("noun", &[]),
];

impl Meaning {
    /// The meaning that `means` and `value` name; none where they don't fit each other.
    pub(super) fn named(means: &str, value: Option<&str>, form: Form) -> Option<Self> {
        match value {
            Some(value) => Self::with_value(means, value, form),
            None => Self::plain(means, form),
        }
    }

    fn with_value(means: &str, value: &str, form: Form) -> Option<Self> {
        Some(match means {
            "work" => Self::Work(word(value)?, form),
            "side" => Self::Side(word(value)?),
            "compass" => Self::Compass(word(value)?),
            "refer" => Self::Refer(word(value)?),
            "follow-up" => Self::FollowUp(word(value)?, form),
            "face" => Self::Face(word(value)?),
            _ => return None,
        })
    }

    fn plain(means: &str, form: Form) -> Option<Self> {
        Some(match means {
            "off" => Self::Off(form),
            "same" => Self::Same(form),
            "clear" => Self::Clear(form),
            "leave" => Self::Leave(form),
            "absent" => Self::Absent(form),
            "all-around" => Self::AllAround,
            "roof" => Self::Roof,
            "last-side" => Self::LastSide,
            "forgot" => Self::Forgot,
            "structure" => Self::Structure,
            "if" => Self::If,
            "might" => Self::Might,
            "ask" => Self::Ask,
            "only-then" => Self::OnlyThen,
            "correct" => Self::Correct,
            "scratch" => Self::Scratch,
            "rough" => Self::Rough,
            "total" => Self::Total,
            "recap" => Self::Recap,
            "aside" => Self::Aside,
            "beside" => Self::Beside,
            "except" => Self::Except,
            "unsure" => Self::Unsure,
            "lacking" => Self::Lacking,
            "another" => Self::Another,
            "same-amount" => Self::SameAmount,
            "nothing" => Self::Nothing,
            "noun" => Self::Noun,
            _ => return None,
        })
    }
}
