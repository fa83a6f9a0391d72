//! What a line of their list means: its things, its works, where it is and how large, read by the rules that read what
//! is said.

use super::amount::{Amount, amount};
use super::facts::{Facts, Thing};
use super::model::TheirLine;
use super::place::{Place, Said};
use super::rows::Listed;
use crate::language::phrases;
use crate::language::rules::{Grammar, Meaning};
use crate::model::{Draft, Exact, Flag, Line, Side, Unit, Work, wording};
use crate::scope::drafting;
use crate::scope::review::typed;
use crate::speech::Transcript;

/// A line of their list and what it means.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Their {
    /// The line as it is told.
    pub line: TheirLine,
    /// Its facts; of several things or works those of the first.
    pub facts: Facts,
    /// The things it names.
    pub things: Vec<Thing>,
    /// The place it names, where that is none of the four sides.
    pub odd_place: Option<String>,
    /// A unit that isn't known.
    pub odd_unit: Option<String>,
    /// Its place names a point of the compass, and nobody told which side faces north.
    pub by_compass: bool,
    /// The row above it whose place is taken to hold for it, too.
    pub placed_by: Option<usize>,
    /// What is doubtful about the reading, in sentences.
    pub doubts: Vec<String>,
}

/// Reads a line; `north` is the side of the house that faces north, where that is told.
pub(super) fn their(listed: &Listed, north: Option<Side>, grammar: &Grammar) -> Their {
    let words = grammar.lists.written_out(&listed.text);
    let said = Said::new(&words, grammar);
    let (cell, in_text) = (work_cell(&listed.work, grammar), works(&said, grammar));
    let works = if cell.is_empty() { in_text.clone() } else { cell };
    let mut read = Read::new(&words, &said, !in_text.is_empty(), grammar);
    let mut amount = amount(&listed.quantity, &listed.unit, grammar);
    if listed.quantity.is_empty() && listed.unit.is_empty() {
        read.amount.iter().for_each(|in_words| amount.clone_from(in_words));
    }
    let (place, placed_by) = place_of(listed, &read, &said, grammar);
    let place = place.turned(north);
    read.doubts.extend(placed_by.map(|row| format!("it names no place; that of row {row} is taken to hold")));
    let size = if listed.size.is_empty() { read.size.clone() } else { Some(listed.size.clone()) };
    let base = |a: &Amount| Some(a.quantity? * a.unit.map_or(Exact::ONE, Unit::plain));
    let facts = Facts {
        structure: place.structure.clone(),
        side: place.side,
        sides: place.several(),
        thing: read.things[0].clone(),
        work: works.first().copied().filter(|_| works.len() == 1),
        size: size.as_deref().map(|size| typed::size(&grammar.lists.written_out(size), grammar)),
        measure: amount.unit.map(Unit::kind),
        odd_unit: amount.odd_unit.is_some(),
        amount: base(&amount),
    };
    Their {
        line: TheirLine {
            row: listed.row,
            text: listed.text.clone(),
            structure: place.structure,
            side: place.side,
            sides: facts.sides.clone(),
            items: read.things.iter().map(|thing| thing.words(grammar)).collect(),
            works,
            quantity: amount.quantity,
            unit: amount.unit,
            size,
            amount: amount.written,
        },
        facts,
        things: read.things,
        by_compass: place.unread.is_some() && !place.points.is_empty(),
        odd_place: place.unread,
        placed_by,
        odd_unit: amount.odd_unit,
        doubts: read.doubts,
    }
}

/// Its own cell tells first, then its own words, then the row above whose place holds for it, then the heading above.
/// With that row, where it is what tells.
fn place_of(listed: &Listed, read: &Read, said: &Said, grammar: &Grammar) -> (Place, Option<usize>) {
    if let Some(own) = &listed.own_place {
        return (own.clone().under(&listed.under), None);
    }
    let in_words = said.place(grammar).unwrap_or(Place::UNTOLD);
    let side =
        if in_words.side == Side::None && in_words.unread.is_none() { read.side } else { in_words.side };
    let own = Place { side, ..in_words };
    match &listed.above {
        Some((row, place)) if own == Place::UNTOLD => (place.clone().under(&listed.under), Some(*row)),
        _ => (own.under(&listed.under), None),
    }
}

/// The works that a text names, each once, in the order it names them.
pub(super) fn works(said: &Said, grammar: &Grammar) -> Vec<Work> {
    let mut works = Vec::new();
    for mention in &said.mentions {
        if let Some(Meaning::Work(work, _)) = mention.meaning(grammar)
            && !works.contains(&work)
        {
            works.push(work);
        }
    }
    works
}

fn work_cell(cell: &str, grammar: &Grammar) -> Vec<Work> {
    if cell.is_empty() {
        return Vec::new();
    }
    works(&Said::new(&grammar.lists.written_out(cell), grammar), grammar)
}

/// What the words for a thing say.
struct Read {
    things: Vec<Thing>,
    side: Side,
    size: Option<String>,
    /// The quantity, where the words tell it.
    amount: Option<Amount>,
    doubts: Vec<String>,
}

impl Read {
    /// Drafts the words as if they had been said. Where they name no work, one is put behind them, so that a thing that is
    /// often named in passing becomes a line too; that work counts for nothing.
    fn new(words: &str, said: &Said, with_work: bool, grammar: &Grammar) -> Self {
        let spoken = if with_work { format!("{words}.") } else { format!("{words}, replace.") };
        let draft = drafting::draft(&Transcript::from_plain(&spoken), grammar);
        let lines: Vec<&Line> = draft.lines.iter().filter(|line| line.item.is_some()).collect();
        let side = lines.iter().map(|line| line.side).find(|side| *side != Side::None).unwrap_or(Side::None);
        let mut read = Self {
            things: things(words, &draft, &lines, grammar),
            side,
            size: lines.iter().find_map(|line| line.size.as_ref()).map(ToString::to_string).or_else(|| size_in(said, grammar)),
            amount: amount_in(&lines, said, grammar),
            doubts: Vec::new(),
        };
        if lines.iter().any(|line| line.only_if) {
            read.doubts.push("their line is conditional".to_owned());
        }
        let by_sound = |line: &&Line| line.flags.contains(&Flag::SoundsLike);
        if let Some(line) = lines.iter().copied().find(by_sound) {
            let item = wording::item_of(line);
            read.doubts
                .push(format!("that “{words}” means {item} is read from words that only come near it"));
        }
        read
    }
}

/// A length among the words of a line that has its amount elsewhere: "pipe jack, 3 in".
fn size_in(said: &Said, grammar: &Grammar) -> Option<String> {
    let amounts = phrases::amounts(&said.tokens, grammar);
    let [one] = amounts.as_slice() else { return None };
    let is_size = one.unit == Some(Unit::Inch) || one.by.is_some();
    is_size.then(|| said.tokens.quote(one.first, one.end - 1).trim_end_matches([',', ';']).to_owned())
}

/// The one amount that the words tell: "gutter, 32 LF".
fn amount_in(lines: &[&Line], said: &Said, grammar: &Grammar) -> Option<Amount> {
    let [line] = lines else { return None };
    let told = !phrases::amounts(&said.tokens, grammar).is_empty();
    let quantity = line.quantity.filter(|quantity| told && !quantity.is_range())?;
    let written = wording::much(quantity, line.unit);
    Some(Amount { quantity: Some(quantity.value()), unit: Some(line.unit), odd_unit: None, written })
}

/// The things that words name: those of the catalogue, or one by its own words.
fn things(words: &str, draft: &Draft, lines: &[&Line], grammar: &Grammar) -> Vec<Thing> {
    if let Some(item) = typed::item(words, grammar) {
        return vec![Thing::Item(item)];
    }
    let beside = draft.mentioned.iter().chain(&draft.no_work).filter_map(|cleared| cleared.item.as_deref());
    let mut ids: Vec<&str> = lines.iter().filter_map(|line| line.item.as_deref()).collect();
    if ids.is_empty() {
        ids.extend(beside);
    }
    let mut items: Vec<u16> = Vec::new();
    for item in ids.into_iter().filter_map(|id| grammar.item_named(id)) {
        if !items.contains(&item) {
            items.push(item);
        }
    }
    // "Fence, cedar fence": the plainer name adds nothing.
    let all = items.clone();
    items.retain(|item| !all.iter().any(|other| grammar.is_kind_of(*other, *item)));
    if items.is_empty() {
        let named = draft.lines.first().map_or(words, |line| line.said.as_str());
        return vec![Thing::named(named)];
    }
    items.into_iter().map(Thing::Item).collect()
}
