//! Writing down what was understood: one line for one thing, one place, one work.

use super::confidence;
use super::readings;
use crate::language::discourse::{
    self, Account, ClearedThing, DimensionSaid, Evidence, Field, FollowUpSaid, Place, RoofSlope, Span,
    Status, Thing, TotalSaid, WorkSaid,
};
use crate::language::rules::{Grammar, Item};
use crate::language::tokens::Tokens;
use crate::model::span::Moment;
use crate::model::{
    Area, Caution, Cleared, Draft, Exact, Flag, FollowUp, Line, Quantity, Reading, SaidTotal, Unit, Why,
};
use crate::model::{Dimension, Slope};
use crate::speech::{Transcript, Word};
use rustc_hash::FxHashMap;
use std::collections::BTreeSet;

/// Writes drafts.
pub(super) struct Writer<'a> {
    transcript: &'a Transcript,
    tokens: &'a Tokens,
    grammar: &'a Grammar,
    words: Vec<&'a Word>,
}

impl<'a> Writer<'a> {
    pub fn new(transcript: &'a Transcript, tokens: &'a Tokens, grammar: &'a Grammar) -> Self {
        Self { transcript, tokens, grammar, words: transcript.words().collect() }
    }

    pub fn write(&self, account: &Account) -> Draft {
        let things = |status| account.things.iter().filter(move |thing| thing.status == status);
        let mut lines: Vec<Line> = things(Status::Scope).flat_map(|thing| self.lines(thing)).collect();
        tell_apart(&mut lines);
        Draft {
            source: self.transcript.source.clone(),
            digest: self.transcript.digest.clone(),
            length: self.transcript.length,
            notices: self.transcript.notices.clone(),
            clips: self.transcript.clips.clone(),
            cautions: self.cautions(account, &lines),
            mentioned: things(Status::Mentioned).map(|thing| self.mentioned(thing)).collect(),
            unplaced: account.unused.iter().map(|u| self.words_at(None, u.span, &u.place)).collect(),
            no_work: self.no_work(account),
            follow_ups: account.follow_ups.iter().map(|t| self.follow_up(t)).collect(),
            dimensions: account.dimensions.iter().map(|f| self.dimension(f)).collect(),
            slopes: account.slopes.iter().map(|s| self.slope(s)).collect(),
            measured: Vec::new(),
            totals: account.totals.iter().map(|s| self.said_total(s)).collect(),
            lines,
        }
    }

    /// A line for each work said of a thing; one without work where none was said.
    fn lines(&self, entity: &Thing) -> Vec<Line> {
        if entity.works.is_empty() {
            return vec![self.line(entity, None)];
        }
        entity.works.iter().map(|w| self.line(entity, Some(w))).collect()
    }

    fn line(&self, entity: &Thing, work: Option<&WorkSaid>) -> Line {
        let item = entity.item.map(|i| &self.grammar.items[usize::from(i)]);
        let unit = unit_of(entity, self.grammar);
        let span = self.said(entity, work);
        let (quote, start, end) = self.quoted(span);
        let mut line = Line {
            id: format!("w{}", self.tokens.list[entity.name.first].heard),
            structure: entity.place.structure.clone(),
            side: entity.place.side,
            area: item.map_or(Area::Wall, |i| i.area),
            item: item.map(|i| i.id.clone()),
            said: self.tokens.quote(entity.name.first, entity.name.end - 1).trim_matches(is_mark).to_owned(),
            work: work.map(|w| w.work),
            quantity: number(entity, work),
            unit,
            rough: entity.quantity.is_some_and(|q| q.rough),
            size: entity.size.clone(),
            detail: self.detail(entity),
            only_if: work.is_some_and(|w| w.only_if),
            confidence: 0.0,
            flags: Vec::new(),
            quote,
            words: Some([self.tokens.list[span.first].heard, self.tokens.list[span.end - 1].heard_last]),
            start,
            end,
            other_reading: None,
            readings: Vec::new(),
            why: entity.evidence.iter().filter(|e| shows(e, work)).map(|e| self.why(e)).collect(),
        };
        let mut flags = self.flags(entity, item, span, &line);
        flags.extend(work.filter(|w| self.by_sound(w.span)).map(|_| Flag::SoundsLike));
        line.flags = flags.into_iter().collect();
        line.readings = self.readings(entity, work, &line);
        let unmarked = self.tokens.list[entity.name.first].doubt.is_some();
        line.confidence = confidence::of(&line, unmarked, self.tokens.from_sound);
        line
    }

    /// What else the number may be.
    fn readings(&self, entity: &Thing, work: Option<&WorkSaid>, line: &Line) -> Vec<Reading> {
        let whole = work.is_none_or(|w| w.of.is_none());
        let said = entity.quantity.filter(|q| whole && !q.implied && self.number_unclear(entity));
        let alike = said.and_then(|q| readings::sounds_alike(line, &q, &self.grammar.numbers));
        let before = entity.replaced.filter(|_| whole);
        before.and_then(|q| readings::before_correction(line, &q)).into_iter().chain(alike).collect()
    }

    /// The words of a line: the thing with its number, and the work if it stands near.
    fn said(&self, entity: &Thing, work: Option<&WorkSaid>) -> Span {
        let mut span = entity.name;
        for evidence in entity.evidence.iter().filter(|e| matches!(e.field, Field::Quantity | Field::Size)) {
            span = join_near(span, evidence.span);
        }
        work.map_or(span, |w| join_near(span, w.span))
    }

    fn quoted(&self, span: Span) -> (String, Option<Moment>, Option<Moment>) {
        let first = self.words[self.tokens.list[span.first].heard as usize];
        let last = self.words[self.tokens.list[span.end - 1].heard_last as usize];
        (self.tokens.quote(span.first, span.end - 1).replace('\n', " "), first.start, last.end)
    }

    fn detail(&self, entity: &Thing) -> Option<String> {
        let words: BTreeSet<usize> = entity.detail.iter().copied().collect();
        let said: Vec<String> = words.iter().map(|t| self.tokens.said(*t).to_lowercase()).collect();
        (!said.is_empty()).then(|| said.join(" "))
    }

    fn why(&self, evidence: &Evidence) -> Why {
        let words = self.quoted(evidence.span).0;
        Why { field: evidence.field.name().into(), rule: evidence.origin.told(self.grammar).into(), words }
    }

    fn flags(&self, entity: &Thing, item: Option<&Item>, span: Span, line: &Line) -> BTreeSet<Flag> {
        let mut flags = entity.flags.clone();
        let mut put = |flag, on: bool| {
            if on {
                flags.insert(flag);
            }
        };
        put(Flag::RoughNumber, line.rough || line.quantity.is_some_and(Quantity::is_range));
        put(Flag::NoNumber, line.quantity.is_none() && !item.is_some_and(|i| i.as_one));
        put(Flag::NoWork, line.work.is_none());
        put(Flag::NoSide, !entity.place.named);
        put(Flag::OnlyIf, line.only_if);
        put(Flag::NotInCatalogue, item.is_none());
        put(Flag::OddUnit, item.is_some_and(|i| !i.takes(line.unit) && line.unit != i.unit));
        put(Flag::OddSize, item.is_some_and(|i| is_unusual(entity, i, line)));
        put(Flag::UnclearAudio, self.unclear(entity) || self.run_together(span));
        flags
    }

    /// Whether words were read as what they sound like.
    fn by_sound(&self, span: Span) -> bool {
        self.tokens.list[span.first..span.end].iter().any(|t| t.sounds)
    }

    /// Whether the recogniser was unsure of the words that name the thing or its number.
    fn unclear(&self, entity: &Thing) -> bool {
        self.less_sure(entity.name, confidence::UNCLEAR)
            || number_of(entity).any(|span| self.less_sure(span, confidence::UNCLEAR))
    }

    /// Whether the recogniser may have taken the number for one that sounds like it.
    fn number_unclear(&self, entity: &Thing) -> bool {
        number_of(entity).any(|span| self.less_sure(span, UNSURE_NUMBER))
    }

    /// Whether the recogniser gave some of the words less than this chance.
    fn less_sure(&self, span: Span, chance: f32) -> bool {
        (span.first..span.end).any(|t| {
            let word = self.words[self.tokens.list[t].heard as usize];
            word.probability.is_some_and(|p| p < chance)
        })
    }

    /// Whether the words of a line, written down without marks, could as well be cut elsewhere.
    fn run_together(&self, span: Span) -> bool {
        let gaps = self.tokens.list.iter().take(span.end + 1).skip(span.first);
        gaps.filter_map(|t| t.doubt).map(u32::from).sum::<u32>() >= RUN_TOGETHER
    }

    fn no_work(&self, account: &Account) -> Vec<Cleared> {
        let mut all: Vec<Cleared> = Vec::new();
        for ClearedThing { item, place, span } in &account.cleared {
            let (quote, start, end) = self.quoted(*span);
            let item = item.map(|i| self.grammar.items[usize::from(i)].id.clone());
            if item.is_some()
                && !all
                    .iter()
                    .any(|c| c.item == item && c.side == place.side && c.structure == place.structure)
            {
                all.push(Cleared {
                    structure: place.structure.clone(),
                    side: place.side,
                    item,
                    quote,
                    start,
                    end,
                });
            }
        }
        all
    }

    fn mentioned(&self, entity: &Thing) -> Cleared {
        let item = entity.item.map(|i| self.grammar.items[usize::from(i)].id.clone());
        self.words_at(item, entity.span, &entity.place)
    }

    fn words_at(&self, item: Option<String>, span: Span, place: &Place) -> Cleared {
        let (quote, start, end) = self.quoted(span);
        Cleared { structure: place.structure.clone(), side: place.side, item, quote, start, end }
    }

    fn follow_up(&self, todo: &FollowUpSaid) -> FollowUp {
        let (quote, start, end) = self.quoted(todo.span);
        let item = todo.item.map(|i| self.grammar.items[usize::from(i)].id.clone());
        FollowUp {
            kind: todo.kind,
            structure: todo.place.structure.clone(),
            side: todo.place.side,
            item,
            quote,
            start,
            end,
        }
    }

    fn said_total(&self, sum: &TotalSaid) -> SaidTotal {
        let (quote, start, end) = self.quoted(sum.span);
        SaidTotal {
            item: self.grammar.items[usize::from(sum.item)].id.clone(),
            quantity: sum.amount.low,
            unit: sum.amount.unit,
            quote: quote.trim_matches(is_mark).to_owned(),
            words: [self.tokens.list[sum.span.first].heard, self.tokens.list[sum.span.end - 1].heard_last],
            start,
            end,
        }
    }

    fn dimension(&self, face: &DimensionSaid) -> Dimension {
        let (quote, start, end) = self.quoted(face.span);
        Dimension {
            structure: face.place.structure.clone(),
            side: face.place.side,
            shape: face.shape,
            width_ft: face.width,
            height_ft: face.height,
            quote,
            start,
            end,
        }
    }

    fn slope(&self, slope: &RoofSlope) -> Slope {
        let (quote, start, end) = self.quoted(slope.span);
        let (structure, side) = (slope.place.structure.clone(), slope.place.side);
        Slope { structure, side, rise: slope.rise, quote, start, end }
    }

    /// The cautions that the lines call for, in the order of the rules file.
    fn cautions(&self, account: &Account, lines: &[Line]) -> Vec<Caution> {
        let items = account.things.iter().filter_map(|thing| thing.item);
        let named: BTreeSet<&str> =
            items.flat_map(|i| &self.grammar.items[usize::from(i)].cautions).map(String::as_str).collect();
        let on_roof = lines.iter().any(|l| l.area == Area::Roof);
        let shown = self.grammar.cautions.iter().filter(|c| {
            named.contains(c.caution.name.as_str()) || (c.always && !lines.is_empty()) || (c.roof && on_roof)
        });
        shown.map(|c| c.caution.clone()).collect()
    }
}

/// What the quantity of a thing counts: the unit that was said, else the item's own. A small number of what is measured, said
/// without a unit, counts pieces.
pub(in crate::scope) fn unit_of(entity: &Thing, grammar: &Grammar) -> Unit {
    let item = entity.item.map(|i| &grammar.items[usize::from(i)]);
    let own = item.map_or(Unit::Each, |i| i.unit);
    let told = |q: &discourse::Quantity| !q.implied || q.low > Exact::ONE;
    let few = |q: &discourse::Quantity| q.unit.is_none() && told(q) && q.high <= MOST_PIECES.into();
    let bare_count = entity.quantity.as_ref().is_some_and(few);
    match entity.quantity.and_then(|q| q.unit) {
        Some(unit) => unit,
        None if bare_count && item.is_some_and(|i| !i.counted() && i.takes(Unit::Each)) => Unit::Each,
        None => own,
    }
}

/// The number that a work falls on.
fn number(entity: &Thing, work: Option<&WorkSaid>) -> Option<Quantity> {
    match work.and_then(|w| w.of) {
        Some(of) => Some(Quantity::of(of)),
        None => entity.quantity.map(|q| Quantity::between(q.low, q.high)),
    }
}

/// The words that gave the number.
fn number_of(entity: &Thing) -> impl Iterator<Item = Span> {
    entity.evidence.iter().filter(|e| e.field == Field::Quantity).map(|e| e.span)
}

/// More than is usual of it, a part of what comes in pieces ("splash block, broke in half"), or so few square feet, with
/// no unit said, that squares may have been meant.
fn is_unusual(entity: &Thing, item: &Item, line: &Line) -> bool {
    let Some(quantity) = line.quantity.filter(|_| line.unit == item.unit) else { return false };
    let unsaid = entity.quantity.is_some_and(|q| q.unit.is_none() && !q.implied);
    let pieces = matches!(line.unit, Unit::Each | Unit::Pair | Unit::Set);
    let part = pieces && !quantity.low().is_integer();
    part || item.most.is_some_and(|most| quantity.value() > most.into())
        || unsaid && item.unit == Unit::SquareFoot && quantity.value() <= FEW_SQUARE_FEET.into()
}

fn is_mark(c: char) -> bool {
    c.is_ascii_punctuation() && c != '"'
}

/// A bare number up to this counts pieces of what is also measured: "downspouts, two"; a greater one measures.
const MOST_PIECES: i32 = 8;

/// So few square feet without their unit are likelier squares (common practice, no source).
const FEW_SQUARE_FEET: i32 = 10;

/// The chances in percent of a line's gaps to be read wrongly, summed, from which on it is looked at.
const RUN_TOGETHER: u32 = 130;

/// A number of whose words the recogniser is less sure than this is offered with what sounds like it.
const UNSURE_NUMBER: f32 = 0.7;

/// Words further apart than this are no longer one quotation, in tokens.
const ONE_QUOTE: usize = 40;

fn join_near(span: Span, other: Span) -> Span {
    let joined = span.join(other);
    if joined.end - joined.first <= ONE_QUOTE { joined } else { span }
}

/// Whether evidence belongs to the line of this work.
fn shows(evidence: &Evidence, work: Option<&WorkSaid>) -> bool {
    evidence.field != Field::Work || work.is_some_and(|w| w.span == evidence.span)
}

/// Lines that come from the same word get a letter each.
fn tell_apart(lines: &mut [Line]) {
    let mut seen: FxHashMap<String, u8> = FxHashMap::default();
    for line in lines {
        let count = seen.entry(line.id.clone()).or_default();
        *count += 1;
        if *count > 1 {
            line.id.push(char::from(b'a' + (*count - 1).min(25)));
        }
    }
}
