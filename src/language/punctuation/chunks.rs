//! Chunks of words that no break falls into, and what each is: a cue, a thing, an amount, or a word by itself.

use crate::language::phrases::Groundwork;
use crate::language::rules::{Form, Meaning};

/// A stretch of words.
#[derive(Debug, Clone, Copy)]
pub(super) struct Chunk<'a> {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// What it is, in a word.
    pub sign: &'a str,
    /// What it does in its clause.
    pub part: Part,
}

/// What a chunk does in its clause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// Names a thing.
    Thing,
    /// Says how much.
    Amount,
    /// Says what is to be done, or that nothing is.
    Verdict,
    /// Says where.
    Place,
    /// "is", "are".
    Verb,
    /// Anything else.
    Other,
}

/// Cuts a narration into chunks.
pub(super) fn chunks<'a>(ground: &'a Groundwork) -> Vec<Chunk<'a>> {
    let mut chunks: Vec<Chunk> = Vec::with_capacity(ground.tokens().list.len());
    let mut at = 0;
    while at < ground.tokens().list.len() {
        let chunk = amount(at, ground).or_else(|| phrase(at, ground)).unwrap_or_else(|| word(at, ground));
        at = chunk.end;
        chunks.push(chunk);
    }
    chunks
}

fn amount(at: usize, ground: &Groundwork) -> Option<Chunk<'static>> {
    let amount = ground.amount_over(at)?;
    let sign = match (amount.by, amount.unit) {
        (Some(_), _) => "measure",
        (None, Some(_)) => "length",
        (None, None) => "count",
    };
    Some(Chunk { first: at, end: amount.end, sign, part: Part::Amount })
}

fn phrase<'a>(at: usize, ground: &'a Groundwork) -> Option<Chunk<'a>> {
    let found = ground.cover().at(at).filter(|m| m.first == at)?;
    let Some(meaning) = found.meaning(ground.grammar()) else {
        return Some(Chunk { first: at, end: found.end, sign: "thing", part: Part::Thing });
    };
    let (sign, part) = sign(meaning);
    // What stands in the gap of a phrase may be cut off by itself, unless the phrase is one verdict.
    let spoken_on = (at + 1..found.end).take_while(|t| !ground.cover().inside(*t)).last().unwrap_or(at) + 1;
    let end = if part == Part::Other { spoken_on } else { found.end };
    let one_word = end == at + 1;
    let sign = match sign {
        "pronoun" if one_word => ground.grammar().vocabulary.word(ground.word(at)),
        "gets-work" | "work" => new(end, ground).unwrap_or(sign),
        _ => sign,
    };
    Some(Chunk { first: at, end, sign, part })
}

/// "that's a new | light", "that's new | and": work that ends in "new" may still wait for the name of the thing.
fn new(end: usize, ground: &Groundwork) -> Option<&'static str> {
    let c = &ground.grammar().classes;
    let article = |at: usize| ground.is_any(at, &[c.indefinite, c.definite, c.more]);
    // a new, a whole new
    ground
        .is(end - 1, c.new)
        .then(|| if (2..=3.min(end)).any(|n| article(end - n)) { "a-new" } else { "new" })
}

/// What a cue is called, and what it does in its clause.
fn sign(meaning: Meaning) -> (&'static str, Part) {
    let verdict = verdict(meaning).map(|sign| (sign, Part::Verdict));
    let place = || place(meaning).map(|sign| (sign, Part::Place));
    verdict.or_else(place).unwrap_or_else(|| (other(meaning), Part::Other))
}

fn verdict(meaning: Meaning) -> Option<&'static str> {
    Some(match meaning {
        Meaning::Work(_, Form::Object) => "work-on",
        Meaning::Work(_, Form::Predicate) => "gets-work",
        Meaning::Work(_, Form::Either) => "work",
        Meaning::Off(_) => "off",
        Meaning::Same(_) => "same",
        Meaning::Clear(_) => "clear",
        Meaning::Leave(_) => "leave",
        Meaning::Absent(_) => "absent",
        Meaning::FollowUp(..) => "follow-up",
        _ => return None,
    })
}

fn place(meaning: Meaning) -> Option<&'static str> {
    match meaning {
        Meaning::Side(_) => Some("side"),
        Meaning::Compass(_) | Meaning::AllAround | Meaning::Roof | Meaning::LastSide | Meaning::Structure => {
            Some("place")
        }
        _ => None,
    }
}

fn other(meaning: Meaning) -> &'static str {
    match meaning {
        Meaning::If | Meaning::OnlyThen => "if",
        Meaning::Might | Meaning::Ask => "might",
        Meaning::Correct | Meaning::Scratch => "correct",
        Meaning::Rough => "rough",
        Meaning::Refer(_) => "pronoun",
        Meaning::Aside | Meaning::Beside => "aside",
        Meaning::Forgot => "forgot",
        Meaning::Another => "another",
        Meaning::Face(_) => "face",
        _ => "cue",
    }
}

/// A word that no phrase holds: itself if it is one of grammar, else its kind.
fn word<'a>(at: usize, ground: &'a Groundwork) -> Chunk<'a> {
    let c = &ground.grammar().classes;
    let itself = [c.pronoun, c.more, c.every, c.place_lead, c.motion, c.likening];
    let sign = if ground.is_any(at, &itself) || ground.is_closed(at) {
        ground.grammar().vocabulary.word(ground.word(at))
    } else {
        let kinds = [
            (c.damage, "flaw"),
            (c.adjective, "adjective"),
            (c.material, "material"),
            (c.no_thing, "noun"),
            (c.side_noun, "wall"),
        ];
        kinds.into_iter().find(|(class, _)| ground.is(at, *class)).map_or("word", |(_, kind)| kind)
    };
    let part = if ground.is(at, c.be) { Part::Verb } else { Part::Other };
    Chunk { first: at, end: at + 1, sign, part }
}
