//! What a rules file may write under `means` and `value`: one table of every meaning, its name, and what it tells.

use super::error::did_you_mean;
use super::meaning::{Form, Meaning};
use serde::Deserialize;
use serde::de::IntoDeserializer;
use serde::de::value::{Error, StrDeserializer};

/// A meaning as a rules file names it.
#[derive(Debug)]
pub struct Meant {
    /// What stands under `means`.
    pub name: &'static str,
    /// What it tells, for those who write rules.
    pub tells: &'static str,
    makes: Makes,
}

/// How a name becomes a meaning.
#[derive(Debug, Clone, Copy)]
enum Makes {
    /// By itself.
    One(Meaning),
    /// With the place of the thing, before the cue or behind it.
    Formed(fn(Form) -> Meaning),
    /// With one of these under `value`.
    Valued(&'static [&'static str], fn(&str, Form) -> Option<Meaning>),
}

/// Where `means` and `value` don't fit: which of them is wrong, and what would do.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Misnamed {
    Means(String),
    Value(String),
}

const fn one(name: &'static str, meaning: Meaning, tells: &'static str) -> Meant {
    Meant { name, tells, makes: Makes::One(meaning) }
}

const fn formed(name: &'static str, make: fn(Form) -> Meaning, tells: &'static str) -> Meant {
    Meant { name, tells, makes: Makes::Formed(make) }
}

const fn valued(
    name: &'static str,
    values: &'static [&'static str],
    make: fn(&str, Form) -> Option<Meaning>,
    tells: &'static str,
) -> Meant {
    Meant { name, tells, makes: Makes::Valued(values, make) }
}

/// A value as serde reads it; none where it isn't one.
fn read<'de, T: Deserialize<'de>>(value: &'de str) -> Option<T> {
    let from: StrDeserializer<'de, Error> = value.into_deserializer();
    T::deserialize(from).ok()
}

const WORKS: &[&str] =
    &["detach-reset", "remove-replace", "remove", "install", "repair", "clean", "paint", "stain", "protect"];
const SIDES: &[&str] = &["front", "right", "rear", "left"];
const COMPASS: &[&str] = &["north", "south", "east", "west"];
const FACES: &[&str] = &["wall", "gable", "opening", "roof-slope"];
const REACHES: &[&str] = &["one", "single", "one-of", "many", "both", "all", "rest"];
const FOLLOW_UPS: &[&str] = &["photo", "measure", "check"];

/// Every meaning a rule can have. `grammars/README.md` lists them in this order and in these words.
pub const MEANS: &[Meant] = &[
    valued("work", WORKS, |v, form| Some(Meaning::Work(read(v)?, form)), "work on a thing"),
    formed("off", Meaning::Off, "it comes off; other words say what then"),
    formed("same", Meaning::Same, "the last work again"),
    formed("clear", Meaning::Clear, "looked at and sound"),
    formed("leave", Meaning::Leave, "left alone"),
    formed("absent", Meaning::Absent, "there is none"),
    valued("side", SIDES, |v, _| read(v).map(Meaning::Side), "a side of the house"),
    valued("compass", COMPASS, |v, _| read(v).map(Meaning::Compass), "a side by its compass word"),
    one("all-around", Meaning::AllAround, "no one side"),
    one("roof", Meaning::Roof, "up on the roof"),
    one("last-side", Meaning::LastSide, "the side not visited yet"),
    one("forgot", Meaning::Forgot, "back to something forgotten"),
    one("structure", Meaning::Structure, "a building, by the rule's name"),
    valued("face", FACES, |v, _| read(v).map(Meaning::Face), "what is measured next"),
    one("if", Meaning::If, "a condition opens"),
    one("might", Meaning::Might, "only possible"),
    one("ask", Meaning::Ask, "only asked or thought about"),
    one("only-then", Meaning::OnlyThen, "what was just said was a condition"),
    one("correct", Meaning::Correct, "what follows takes its place"),
    one("scratch", Meaning::Scratch, "what was just said falls away"),
    one("rough", Meaning::Rough, "a rough number"),
    one("total", Meaning::Total, "a sum of things already named"),
    one("recap", Meaning::Recap, "said over again"),
    one("unsure", Meaning::Unsure, "the work is left open"),
    one("lacking", Meaning::Lacking, "there never was one, so a new one is an installation"),
    valued("refer", REACHES, |v, _| read(v).map(Meaning::Refer), "a pronoun, and how many it means"),
    one("another", Meaning::Another, "one more of it"),
    one("same-amount", Meaning::SameAmount, "as much again"),
    valued("follow-up", FOLLOW_UPS, |v, form| Some(Meaning::FollowUp(read(v)?, form)), "still to do"),
    one("except", Meaning::Except, "all but this one"),
    one("aside", Meaning::Aside, "talk that is no finding"),
    one("beside", Meaning::Beside, "a clause that only tells when or why"),
    one("noun", Meaning::Noun, "looks like work but names a thing"),
    one("nothing", Meaning::Nothing, "claims words that mean nothing here"),
];

impl Meant {
    /// What may stand under `value`; empty where nothing may.
    pub fn values(&self) -> &'static [&'static str] {
        match self.makes {
            Makes::Valued(values, _) => values,
            Makes::One(_) | Makes::Formed(_) => &[],
        }
    }

    fn make(&self, value: Option<&str>, form: Form) -> Option<Meaning> {
        match (self.makes, value) {
            (Makes::One(meaning), None) => Some(meaning),
            (Makes::Formed(make), None) => Some(make(form)),
            (Makes::Valued(values, make), Some(value)) => {
                values.contains(&value).then(|| make(value, form)).flatten()
            }
            _ => None,
        }
    }

    fn misnamed(&self, value: Option<&str>) -> Misnamed {
        let (means, values) = (self.name, self.values());
        let wanted = if values.is_empty() {
            "takes no value".to_owned()
        } else {
            format!("takes a value out of {}", values.join(", "))
        };
        match value {
            Some(found) => {
                let hint = did_you_mean(found, values.iter().copied());
                Misnamed::Value(format!("`{means}` {wanted}, not `{found}`{hint}"))
            }
            None => Misnamed::Means(format!("`{means}` {wanted}")),
        }
    }
}

impl Meaning {
    /// The meaning that `means` and `value` name.
    pub(super) fn named(means: &str, value: Option<&str>, form: Form) -> Result<Self, Misnamed> {
        let Some(meant) = MEANS.iter().find(|meant| meant.name == means) else {
            let hint = did_you_mean(means, MEANS.iter().map(|meant| meant.name));
            return Err(Misnamed::Means(format!("there is no meaning `{means}`{hint}")));
        };
        meant.make(value, form).ok_or_else(|| meant.misnamed(value))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_of_every_meaning_is_read() {
        for meant in MEANS {
            for value in meant.values() {
                assert!(
                    Meaning::named(meant.name, Some(value), Form::Either).is_ok(),
                    "{} {value}",
                    meant.name
                );
            }
            let bare = Meaning::named(meant.name, None, Form::Either);
            assert_eq!(bare.is_ok(), meant.values().is_empty(), "{}", meant.name);
        }
    }

    #[test]
    fn a_name_stands_for_one_meaning() {
        let mut names: Vec<_> = MEANS.iter().map(|meant| meant.name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), MEANS.len());
    }

    #[test]
    fn what_is_misnamed_is_told_with_what_was_probably_meant() {
        let named = |means, value| Meaning::named(means, value, Form::Either).unwrap_err();
        let text = |text: &str| text.to_owned();
        assert_eq!(
            named("asks", None),
            Misnamed::Means(text("there is no meaning `asks`; did you mean `ask`?"))
        );
        assert_eq!(
            named("side", Some("fornt")),
            Misnamed::Value(text(
                "`side` takes a value out of front, right, rear, left, not `fornt`; did you mean `front`?"
            ))
        );
        assert_eq!(named("ask", Some("front")), Misnamed::Value(text("`ask` takes no value, not `front`")));
    }
}
