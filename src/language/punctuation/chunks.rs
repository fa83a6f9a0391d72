//! Pieces that no breath falls into, and what each is: a cue, a thing, an amount, or a word by itself.

use crate::language::phrases::Groundwork;
use crate::language::rules::{Form, Grammar, Meaning, Target};
use crate::language::tokens::Tokens;

/// A stretch of words.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece<'a> {
    /// The first token.
    pub first: usize,
    /// One past the last token.
    pub end: usize,
    /// What it is, in a word.
    pub sign: &'a str,
    /// What it does in its clause.
    pub part: Part,
}

/// What a piece does in its clause.
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

/// Cuts a narration into pieces.
pub(super) fn pieces<'a>(
    tokens: &'a Tokens,
    grammar: &'a Grammar,
    groundwork: &Groundwork,
) -> Vec<Piece<'a>> {
    let mut pieces: Vec<Piece> = Vec::with_capacity(tokens.list.len());
    let mut at = 0;
    while at < tokens.list.len() {
        let piece = amount(at, groundwork)
            .or_else(|| phrase(at, tokens, grammar, groundwork))
            .unwrap_or_else(|| word(at, tokens, grammar));
        at = piece.end;
        pieces.push(piece);
    }
    pieces
}

fn amount(at: usize, groundwork: &Groundwork) -> Option<Piece<'static>> {
    let amount = groundwork.amount_over(at)?;
    let sign = match (amount.by, amount.unit) {
        (Some(_), _) => "measure",
        (None, Some(_)) => "length",
        (None, None) => "count",
    };
    Some(Piece { first: at, end: amount.end, sign, part: Part::Amount })
}

fn phrase<'a>(
    at: usize,
    tokens: &Tokens,
    grammar: &'a Grammar,
    groundwork: &Groundwork,
) -> Option<Piece<'a>> {
    let found = groundwork.cover.at(at).filter(|m| m.first == at)?;
    let Target::Rule(rule) = found.target else {
        return Some(Piece { first: at, end: found.end, sign: "thing", part: Part::Thing });
    };
    let (sign, part) = sign(grammar.rules[usize::from(rule)].meaning);
    // What stands in the gap of a phrase has a breath of its own, unless the phrase is one verdict.
    let spoken_on = (at + 1..found.end).take_while(|t| !groundwork.cover.inside(*t)).last().unwrap_or(at) + 1;
    let end = if part == Part::Other { spoken_on } else { found.end };
    let one_word = end == at + 1;
    let sign = match sign {
        "pronoun" if one_word => grammar.vocabulary.word(tokens.list[at].word),
        "gets-work" | "work" => new(end, tokens, grammar).unwrap_or(sign),
        _ => sign,
    };
    Some(Piece { first: at, end, sign, part })
}

/// "that's a new | light", "that's new | and": work that ends in "new" may still wait for the name of the thing.
fn new(end: usize, tokens: &Tokens, grammar: &Grammar) -> Option<&'static str> {
    let c = &grammar.classes;
    let is = |at: usize, class| grammar.vocabulary.is(tokens.list[at].word, class);
    let article = |at: usize| is(at, c.indefinite) || is(at, c.definite) || is(at, c.more);
    // a new, a whole new
    is(end - 1, c.new).then(|| if (2..=3.min(end)).any(|n| article(end - n)) { "a-new" } else { "new" })
}

fn sign(meaning: Meaning) -> (&'static str, Part) {
    match meaning {
        Meaning::Work(_, Form::Object) => ("work-on", Part::Verdict),
        Meaning::Work(_, Form::Predicate) => ("gets-work", Part::Verdict),
        Meaning::Work(_, Form::Either) => ("work", Part::Verdict),
        Meaning::Off(_) => ("off", Part::Verdict),
        Meaning::Same(_) => ("same", Part::Verdict),
        Meaning::Clear(_) => ("clear", Part::Verdict),
        Meaning::Leave(_) => ("leave", Part::Verdict),
        Meaning::Absent(_) => ("absent", Part::Verdict),
        Meaning::FollowUp(..) => ("follow-up", Part::Verdict),
        Meaning::Side(_) => ("side", Part::Place),
        Meaning::Compass(_) | Meaning::AllAround | Meaning::Roof | Meaning::LastSide | Meaning::Structure => {
            ("place", Part::Place)
        }
        Meaning::If | Meaning::OnlyThen => ("if", Part::Other),
        Meaning::Might | Meaning::Ask => ("might", Part::Other),
        Meaning::Correct | Meaning::Scratch => ("correct", Part::Other),
        Meaning::Rough => ("rough", Part::Other),
        Meaning::Refer(_) => ("pronoun", Part::Other),
        Meaning::Aside | Meaning::Beside => ("aside", Part::Other),
        Meaning::Forgot => ("forgot", Part::Other),
        Meaning::Another => ("another", Part::Other),
        Meaning::Face(_) => ("face", Part::Other),
        Meaning::Total
        | Meaning::Recap
        | Meaning::Unsure
        | Meaning::Lacking
        | Meaning::Except
        | Meaning::SameAmount
        | Meaning::Nothing
        | Meaning::Noun => ("cue", Part::Other),
    }
}

/// A word that no phrase holds: itself if it is one of grammar, else its kind.
fn word<'a>(at: usize, tokens: &Tokens, grammar: &'a Grammar) -> Piece<'a> {
    let c = &grammar.classes;
    let word = tokens.list[at].word;
    let is = |class| grammar.vocabulary.is(word, class);
    let itself =
        [c.pronoun, c.more, c.every, c.place_lead, c.motion, c.likening].into_iter().chain(c.closed());
    let sign = if itself.into_iter().any(is) {
        grammar.vocabulary.word(word)
    } else {
        let kinds = [
            (c.damage, "flaw"),
            (c.adjective, "adjective"),
            (c.material, "material"),
            (c.no_thing, "noun"),
            (c.side_noun, "wall"),
        ];
        kinds.into_iter().find(|(class, _)| is(*class)).map_or("word", |(_, kind)| kind)
    };
    let part = if is(c.be) { Part::Verb } else { Part::Other };
    Piece { first: at, end: at + 1, sign, part }
}
