//! What the words of a row name: its things, how large they are and how much of them there is. The words are taken as
//! they stand, with the rules that read what is said: no work has to be done to a thing for it to be named.

use super::amount::Amount;
use super::facts::Thing;
use super::said::Said;
use crate::language::discourse::{self, Account, Thing as Heard};
use crate::language::rules::{Grammar, Meaning};
use crate::language::{phrases, pieces};
use crate::model::{Flag, Quantity, Side, Unit, wording};
use crate::scope::drafting;
use crate::scope::review::typed;
use crate::speech::Transcript;

/// What the words for a thing say.
pub(super) struct Named {
    /// The things they name, one at least.
    pub things: Vec<Thing>,
    /// The side they tell of a thing.
    pub side: Side,
    /// How large each is, as it is written.
    pub size: Option<String>,
    /// The quantity, where the words tell it.
    pub amount: Option<Amount>,
    /// What is doubtful about the reading, in sentences.
    pub doubts: Vec<String>,
}

impl Named {
    /// What these words name; `said` are the same words before any was corrected.
    pub fn by(words: &str, said: &Said, grammar: &Grammar) -> Self {
        let pieces = pieces::find(&Transcript::from_plain(words), grammar);
        let account = discourse::observe(&pieces, grammar);
        let heard = for_themselves(&account, grammar);
        let side = heard.iter().map(|thing| thing.place.side).find(|side| *side != Side::None);
        let size = heard.iter().find_map(|thing| thing.size.as_ref()).map(ToString::to_string);
        let mut doubts = Vec::new();
        if pieces.mentions.iter().any(|m| matches!(m.meaning(grammar), Some(Meaning::If | Meaning::Might))) {
            doubts.push("their line is conditional".to_owned());
        }
        doubts.extend(heard.iter().find_map(|thing| by_sound(words, thing, grammar)));
        Self {
            things: things(words, &account, &heard, grammar),
            side: side.unwrap_or(Side::None),
            size: size.or_else(|| size_in(said, grammar)),
            amount: amount_in(&heard, said, grammar),
            doubts,
        }
    }
}

/// The things of the catalogue that are named for themselves, not to tell where another is or what it is part of.
fn for_themselves<'a>(account: &'a Account, grammar: &Grammar) -> Vec<&'a Heard> {
    let named: Vec<&Heard> = account.things.iter().filter(|thing| thing.item.is_some()).collect();
    let part_of = |part: &Heard, whole: &Heard| {
        part.item.zip(whole.item).is_some_and(|(part, whole)| grammar.belongs_to(part, whole))
    };
    let is_itself = |thing: &&Heard| {
        let landmark = thing.item.is_some_and(|item| grammar.items[usize::from(item)].landmark);
        !landmark && !named.iter().any(|other| part_of(other, thing))
    };
    let themselves: Vec<&Heard> = named.iter().copied().filter(is_itself).collect();
    if themselves.is_empty() { named } else { themselves }
}

/// That a thing was read from words that only come near its name.
fn by_sound(words: &str, thing: &Heard, grammar: &Grammar) -> Option<String> {
    let item = thing.item.filter(|_| thing.flags.contains(&Flag::SoundsLike))?;
    let item = wording::item(Some(&grammar.items[usize::from(item)].id), "");
    Some(format!("that “{words}” means {item} is read from words that only come near it"))
}

/// A length among the words of a line that has its amount elsewhere: "pipe jack, 3 in".
fn size_in(said: &Said, grammar: &Grammar) -> Option<String> {
    let amounts = phrases::amounts(&said.tokens, grammar);
    let [one] = amounts.as_slice() else { return None };
    let is_size = one.unit == Some(Unit::Inch) || one.by.is_some();
    is_size.then(|| said.tokens.quote(one.first, one.end - 1).trim_end_matches([',', ';']).to_owned())
}

/// The one amount that the words tell: "gutter, 32 LF".
fn amount_in(heard: &[&Heard], said: &Said, grammar: &Grammar) -> Option<Amount> {
    let [thing] = heard else { return None };
    let quantity = thing.quantity.filter(|quantity| quantity.low == quantity.high)?;
    if phrases::amounts(&said.tokens, grammar).is_empty() {
        return None;
    }
    let unit = drafting::unit_of(thing, grammar);
    let written = wording::much(Quantity::of(quantity.low), unit);
    Some(Amount { quantity: Some(quantity.low), unit: Some(unit), odd_unit: None, written })
}

/// The things that words name: those of the catalogue, or one by its own words.
fn things(words: &str, account: &Account, heard: &[&Heard], grammar: &Grammar) -> Vec<Thing> {
    if let Some(item) = typed::item(words, grammar) {
        return vec![Thing::Item(item)];
    }
    let mut named: Vec<u16> = heard.iter().filter_map(|thing| thing.item).collect();
    if named.is_empty() {
        named.extend(account.cleared.iter().filter_map(|cleared| cleared.item));
    }
    let mut items: Vec<u16> = Vec::new();
    for item in named {
        if !items.contains(&item) {
            items.push(item);
        }
    }
    // "Fence, cedar fence": the plainer name adds nothing.
    let all = items.clone();
    items.retain(|item| !all.iter().any(|other| grammar.is_kind_of(*other, *item)));
    if items.is_empty() {
        return vec![Thing::named(words)];
    }
    items.into_iter().map(Thing::Item).collect()
}
