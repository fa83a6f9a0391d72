//! What the reader is given: the words as they were heard, and what the rules found on each.

use crate::language::mentions::{Determiner, Kind, Mention, Thing};
use crate::language::numbers::{Amount, Exact};
use crate::language::pieces::Pieces;
use crate::language::rules::Grammar;
use crate::language::tokens::{Break, Tokens};
use crate::model::{Unit, wording};
use serde::Serialize;

/// A break that is guessed with this chance in percent to be wrong is told as doubtful.
const DOUBTFUL: u8 = 25;

/// The mark of a word that begins a sentence.
pub(super) const SENTENCE: &str = "break:sentence";

/// The mark of a number that the rules hold for a part of no thing.
pub(super) const FREE: &str = "amount:free";

/// A narration as the reader takes it: all by the place of a word, counted from 0 over the transcript.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// The words as they were heard.
    pub words: Vec<String>,
    /// What the rules found on each word, by name.
    pub marks: Vec<Vec<String>>,
    /// Things that are named.
    pub things: Vec<NamedThing>,
    /// Numbers that are told.
    pub amounts: Vec<ToldAmount>,
    /// Buildings that are named.
    pub structures: Vec<NamedStructure>,
}

/// The name of a thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NamedThing {
    /// Its first word.
    pub first: usize,
    /// Its last word.
    pub last: usize,
    /// Its place in the catalogue; none where it isn't in it.
    pub item: Option<u16>,
    /// The item's id.
    pub id: Option<String>,
    /// Which of the pieces it is.
    pub piece: usize,
}

/// A number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ToldAmount {
    /// Its first word.
    pub first: usize,
    /// Its last word.
    pub last: usize,
    /// The number, or the lower of two.
    pub low: f64,
    /// The number, or the upper of two.
    pub high: f64,
    /// The second length of "nine by seven".
    pub by: Option<f64>,
    /// Its unit, where one was said.
    pub unit: Option<Unit>,
    /// The number as the rules have it.
    #[serde(skip)]
    pub amount: Amount,
}

/// The name of a building.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NamedStructure {
    /// Its first word.
    pub first: usize,
    /// Its last word.
    pub last: usize,
    /// Its name in a draft.
    pub name: String,
}

impl Input {
    /// The pieces of a narration as the reader takes them.
    pub fn of(pieces: &Pieces, grammar: &Grammar) -> Self {
        let words: Vec<String> = pieces.tokens.heard().map(str::to_owned).collect();
        let mut input = Self {
            marks: vec![Vec::new(); words.len()],
            words,
            things: Vec::new(),
            amounts: Vec::new(),
            structures: Vec::new(),
        };
        input.breaks(&pieces.tokens);
        for (piece, mention) in pieces.mentions.iter().enumerate() {
            input.mention(mention, piece, &pieces.tokens, grammar);
        }
        input.amounts.sort_by_key(|amount| (amount.first, amount.last));
        input
    }

    fn breaks(&mut self, tokens: &Tokens) {
        let mut last = None;
        for token in &tokens.list {
            let heard = token.heard as usize;
            if last == Some(heard) {
                continue;
            }
            last = Some(heard);
            let name = match token.before {
                Break::None => None,
                Break::Comma => Some("break:comma"),
                Break::Sentence => Some(SENTENCE),
            };
            self.mark([heard, heard], name);
            self.mark([heard, heard], token.doubt.filter(|d| *d >= DOUBTFUL).map(|_| "break:doubtful"));
        }
    }

    fn mention(&mut self, mention: &Mention, piece: usize, tokens: &Tokens, grammar: &Grammar) {
        let at = heard(tokens, mention.first, mention.end);
        match &mention.kind {
            Kind::Thing(thing) => self.thing(thing, piece, at, tokens, grammar),
            Kind::Amount(amount) => self.amount(amount, "free", tokens),
            Kind::Slope(_) => self.mark(at, ["slope"]),
            Kind::Cue(rule) => {
                let rule = &grammar.rules[usize::from(*rule)];
                let meaning = format!("{:?}", rule.meaning);
                let meaning = meaning.split([',', ')']).next().unwrap_or_default();
                self.mark(at, [format!("cue:{meaning}")]);
                self.mark([at[0], at[0]], ["cue:begins"]);
                self.mark(at, rule.soft.then_some("cue:soft"));
                if rule.meaning == crate::language::rules::Meaning::Structure {
                    let name = rule.name.replace('-', " ");
                    self.structures.push(NamedStructure { first: at[0], last: at[1], name });
                }
            }
        }
    }

    fn thing(&mut self, thing: &Thing, piece: usize, around: [usize; 2], tokens: &Tokens, grammar: &Grammar) {
        let at = heard(tokens, thing.name.0, thing.name.1);
        let id = thing.item.map(|item| grammar.items[usize::from(item)].id.clone());
        self.mark(around, ["phrase"]);
        self.mark(at, [format!("item:{}", id.as_deref().unwrap_or("none"))]);
        self.mark([at[0], at[0]], ["name:begins"]);
        let ends = [at[1], at[1]];
        self.mark(ends, ["name:ends"]);
        self.mark(ends, traits(thing));
        self.mark(ends, thing.side.map(|side| format!("side:{}", wording::side(side))));
        self.things.push(NamedThing { first: at[0], last: at[1], item: thing.item, id, piece });
        let held = [("held", thing.amount), ("some", thing.some), ("size", thing.size)];
        for (role, amount) in held {
            if let Some(amount) = amount {
                self.amount(&amount, role, tokens);
            }
        }
    }

    fn amount(&mut self, amount: &Amount, role: &str, tokens: &Tokens) {
        let at = heard(tokens, amount.first, amount.end);
        self.mark(at, ["amount".to_owned(), format!("amount:{role}")]);
        self.mark([at[1], at[1]], ["amount:ends"]);
        self.mark(at, amount.unit.map(|unit| format!("unit:{}", wording::unit_word(unit, true))));
        let one = amount.low == Exact::ONE && amount.high == Exact::ONE;
        let kinds = [
            (amount.by.is_some(), "amount:by"),
            (amount.low != amount.high, "amount:range"),
            (one, "amount:one"),
            (amount.of_them, "amount:of them"),
            (amount.sound_alike, "amount:by sound"),
        ];
        self.mark(at, kinds.into_iter().filter(|(is, _)| *is).map(|(_, name)| name));
        self.amounts.push(ToldAmount {
            first: at[0],
            last: at[1],
            low: amount.low.decimal(),
            high: amount.high.decimal(),
            by: amount.by.map(Exact::decimal),
            unit: amount.unit,
            amount: *amount,
        });
    }

    fn mark<T: Into<String>>(&mut self, at: [usize; 2], names: impl IntoIterator<Item = T>) {
        for name in names {
            let name: String = name.into();
            for word in at[0]..=at[1] {
                self.marks[word].push(name.clone());
            }
        }
    }
}

/// What the words around a name say of it.
fn traits(thing: &Thing) -> impl Iterator<Item = &'static str> {
    let opener = match thing.determiner {
        Determiner::Bare => "name:bare",
        Determiner::Definite => "name:definite",
        Determiner::Indefinite => "name:indefinite",
        Determiner::Negative => "name:negative",
    };
    let rest = [
        (thing.plural, "name:plural"),
        (thing.more, "name:more"),
        (thing.new, "name:new"),
        (thing.every, "name:every"),
        (thing.behind.is_some(), "name:a place"),
        (thing.short, "name:short"),
        (thing.weak, "name:weak"),
        (thing.sounds, "name:by sound"),
    ];
    std::iter::once(opener).chain(rest.into_iter().filter(|(is, _)| *is).map(|(_, name)| name))
}

/// The transcript's words under tokens, the first and the last.
fn heard(tokens: &Tokens, first: usize, end: usize) -> [usize; 2] {
    [tokens.list[first].heard as usize, tokens.list[end - 1].heard_last as usize]
}
