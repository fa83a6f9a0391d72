//! Pieces in a form that needs no rules to be read: names in place of numbers, words in place of tokens.

use crate::language::mentions::{Determiner, Kind, Mention, Thing};
use crate::language::numbers::{Amount, Exact, SlopeSaid};
use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;
use crate::model::wording;
use serde::Serialize;
use std::fmt;

/// A piece of a narration.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Piece<'a> {
    /// What it is.
    pub kind: PieceKind,
    /// The item or the rule that found it; for an amount, a size or a slope, its number and unit. None for a thing outside
    /// the catalogue.
    pub name: Option<String>,
    /// Its words, as they stand in the text.
    pub words: &'a str,
    /// The first and the last of the transcript's words that it stands on, counted from 0.
    pub heard: [u32; 2],
    /// What its name and the words around it say of a thing: `plural`, `definite`, `new`, a side …
    pub traits: Vec<&'static str>,
    /// The pieces that stand in it: the amounts and the size of a thing.
    pub holds: Vec<Piece<'a>>,
}

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PieceKind {
    /// A thing that is spoken of.
    Thing,
    /// How much or how many, of a thing or of none.
    Amount,
    /// How many of those: "two of the four screens".
    Some,
    /// How large each is.
    Size,
    /// How steep a roof is.
    Slope,
    /// What a rule found.
    Cue,
}

/// A mention with its name, its words and what belongs to it.
pub(super) fn piece<'a>(mention: &Mention, tokens: &'a Tokens, grammar: &Grammar) -> Piece<'a> {
    let found = mention.rule_name(grammar).map(str::to_owned);
    let (kind, name) = match &mention.kind {
        Kind::Thing(_) => (PieceKind::Thing, found),
        Kind::Cue(_) => (PieceKind::Cue, found),
        Kind::Amount(amount) => (PieceKind::Amount, Some(amount_text(amount))),
        Kind::Slope(slope) => (PieceKind::Slope, Some(slope_text(slope))),
    };
    let thing = if let Kind::Thing(thing) = &mention.kind { Some(thing.as_ref()) } else { None };
    Piece {
        traits: thing.map(traits).unwrap_or_default(),
        holds: thing.map(|thing| held(thing, tokens)).unwrap_or_default(),
        ..plain(kind, name, (mention.first, mention.end), tokens)
    }
}

fn plain(kind: PieceKind, name: Option<String>, (first, end): (usize, usize), tokens: &Tokens) -> Piece<'_> {
    let heard = [tokens.list[first].heard, tokens.list[end - 1].heard_last];
    let words = tokens.quote(first, end - 1).trim_end_matches([',', '.', ';', ':', '!', '?', '…']);
    Piece { kind, name, words, heard, traits: Vec::new(), holds: Vec::new() }
}

/// The amounts and the size of a thing.
fn held<'a>(thing: &Thing, tokens: &'a Tokens) -> Vec<Piece<'a>> {
    let amounts =
        [(PieceKind::Amount, thing.amount), (PieceKind::Some, thing.some), (PieceKind::Size, thing.size)];
    let piece = |(kind, amount): (PieceKind, Option<Amount>)| {
        let amount = amount?;
        Some(plain(kind, Some(amount_text(&amount)), (amount.first, amount.end), tokens))
    };
    amounts.into_iter().filter_map(piece).collect()
}

fn traits(thing: &Thing) -> Vec<&'static str> {
    let opener = match thing.determiner {
        Determiner::Bare => None,
        Determiner::Definite => Some("definite"),
        Determiner::Indefinite => Some("indefinite"),
        Determiner::Negative => Some("negative"),
    };
    let flags = [
        (thing.plural, "plural"),
        (thing.more, "more"),
        (thing.new, "new"),
        (thing.every, "every"),
        (thing.behind.is_some(), "a place"),
        (thing.short, "short"),
        (thing.weak, "weak"),
        (thing.sounds, "by sound"),
    ];
    let side = thing.side.map(wording::side);
    let said = flags.into_iter().filter(|(on, _)| *on).map(|(_, name)| name);
    opener.into_iter().chain(side).chain(said).collect()
}

/// "2", "10 to 12 ft", "9 by 7 ft", "3 of them".
fn amount_text(amount: &Amount) -> String {
    let number = |exact: Exact| exact.decimal().to_string();
    let unit = |unit| wording::unit_word(unit, amount.low == amount.high && amount.low == 1.into());
    let mut parts = vec![number(amount.low)];
    if amount.high != amount.low {
        parts.extend(["to".to_owned(), number(amount.high)]);
    }
    parts.extend(amount.unit.map(|u| unit(u).to_owned()));
    if let Some(by) = amount.by {
        parts.extend(["by".to_owned(), number(by)]);
        parts.extend(amount.by_unit.map(|u| unit(u).to_owned()));
    }
    if amount.of_them {
        parts.push("of them".to_owned());
    }
    parts.join(" ")
}

/// "6 in 12".
fn slope_text(slope: &SlopeSaid) -> String {
    format!("{} in 12", slope.inches.decimal())
}

impl fmt::Display for Piece<'_> {
    /// The kind, the name, the words, and what belongs to it: `thing gutter “the gutter”: definite`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.kind)?;
        if let Some(name) = &self.name {
            write!(f, " {name}")?;
        }
        write!(f, " “{}”", self.words)?;
        let held = self.holds.iter().map(ToString::to_string);
        let rest: Vec<String> = self.traits.iter().map(|t| (*t).to_owned()).chain(held).collect();
        if rest.is_empty() { Ok(()) } else { write!(f, ": {}", rest.join(", ")) }
    }
}

impl fmt::Display for PieceKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Thing => "thing",
            Self::Amount => "amount",
            Self::Some => "some",
            Self::Size => "size",
            Self::Slope => "slope",
            Self::Cue => "cue",
        })
    }
}
