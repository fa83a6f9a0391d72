//! The words that what was found stands on: its name, its number, its work.

use super::super::confidence::UNCLEAR;
use super::super::source::join_near;
use super::Judge;
use super::fields::Value;
use super::groups::Group;
use super::lines::AREA;
use crate::language::discourse::Span;
use crate::language::mentions::Kind;
use crate::language::reader::Number;
use crate::language::rules::Meaning;
use crate::model::{Line, Side, Size, Unit, Work};

/// Words of work further from a thing than this, in words, are not quoted for it.
const WORK_REACH: usize = 25;

/// A hedge stands as near before its number as this, in tokens.
const HEDGE: usize = 3;

/// The rules' size gives way to none only where the reader is this sure.
const NO_SIZE: f32 = 0.9;

/// The words that a line rests on, in tokens.
#[derive(Debug)]
pub(super) struct Found {
    name: Span,
    /// The place of the anchor among the transcript's words.
    at: usize,
    number: Option<Span>,
    work: Option<Span>,
    /// The number is hedged.
    pub rough: bool,
}

impl Found {
    pub(super) fn of(judge: &Judge, group: &Group, work: Option<Work>, value: Value) -> Self {
        let at = group.anchor.at;
        let number = number(judge, group, value);
        Self {
            name: judge.name_at(at),
            at,
            number,
            work: work.and_then(|work| work_near(judge, at, work)),
            rough: number.is_some_and(|span| hedged(judge, span)),
        }
    }

    /// All its words that stand near each other.
    fn span(&self) -> Span {
        let with_number = self.number.map_or(self.name, |number| join_near(self.name, number));
        self.work.map_or(with_number, |work| join_near(with_number, work))
    }

    /// A line that the rules didn't draft: its words, and nothing else yet.
    pub(super) fn line(&self, judge: &Judge) -> Line {
        let span = self.span();
        let (quote, start, end) = judge.source.quoted(span);
        Line {
            id: format!("w{}", judge.source.place(self.name)[0]),
            structure: String::new(),
            side: Side::None,
            area: AREA,
            item: None,
            said: judge.source.named(self.name),
            work: None,
            quantity: None,
            unit: Unit::Each,
            rough: false,
            size: None,
            detail: None,
            only_if: false,
            confidence: 0.0,
            flags: Vec::new(),
            quote,
            words: Some(judge.source.place(span)),
            start,
            end,
            other_reading: None,
            readings: Vec::new(),
            why: Vec::new(),
        }
    }

    /// How large each is: as the rules have it, or as the reader finds it where they have none.
    pub(super) fn size(&self, judge: &Judge, group: &Group, line: &Line) -> Option<Size> {
        let (likeliest, chance) = *group.anchor.size.first()?;
        if line.size.is_some() {
            let dropped = likeliest.is_none() && chance > NO_SIZE;
            return line.size.clone().filter(|_| !dropped);
        }
        let amount = &judge.input.amounts.get(likeliest?)?.amount;
        let item = line.item.as_deref().and_then(|id| judge.place_of(id));
        Some(crate::language::discourse::size_of(judge.source.grammar, item, amount))
    }

    /// Whether the item stands in the words by a name that the rules know.
    pub(super) fn named_plainly(&self, judge: &Judge, item: Option<&str>) -> bool {
        let named = |first: usize, last: usize| {
            let span = judge.span_of(first, last);
            span.is_some_and(|span| !judge.source.by_sound(span))
        };
        let mut things = judge.input.things.iter();
        let own = things.find(|thing| thing.last == self.at);
        match own {
            Some(thing) => thing.id.as_deref() == item && named(thing.first, thing.last),
            // It stands for a thing named before, which has been looked at by itself.
            None => {
                judge.input.things.iter().any(|thing| thing.id.as_deref() == item && thing.last < self.at)
            }
        }
    }

    /// Whether the recogniser was unsure of the words that name the thing or its number.
    pub(super) fn unclear(&self, judge: &Judge) -> bool {
        let mut words = std::iter::once(self.name).chain(self.number);
        words.any(|span| judge.source.less_sure(span, UNCLEAR))
    }

    /// The words that gave a field.
    pub(super) fn words_of(&self, judge: &Judge, field: &str) -> String {
        let span = match field {
            "quantity" => self.number.unwrap_or(self.name),
            "work" => self.work.unwrap_or(self.name),
            _ => self.name,
        };
        judge.source.quoted(span).0
    }
}

/// The words of the number that the reader finds likeliest of those with this value.
fn number(judge: &Judge, group: &Group, value: Value) -> Option<Span> {
    let told = group.anchor.number.iter().find(|(number, _)| judge.value(*number) == value);
    let Some((Number::Amount(n), _)) = told else { return None };
    let amount = &judge.input.amounts.get(*n)?.amount;
    Some(Span { first: amount.first, end: amount.end })
}

fn hedged(judge: &Judge, number: Span) -> bool {
    judge.pieces.mentions.iter().any(|mention| {
        mention.meaning(judge.source.grammar) == Some(Meaning::Rough)
            && (mention.end <= number.first && number.first - mention.end < HEDGE
                || mention.first >= number.end && mention.first - number.end < HEDGE)
    })
}

/// The nearest words that say this work.
fn work_near(judge: &Judge, at: usize, work: Work) -> Option<Span> {
    let says = |rule: u16| match judge.source.grammar.rules[usize::from(rule)].meaning {
        Meaning::Work(said, _) => said == work,
        Meaning::Off(_) | Meaning::Same(_) => true,
        _ => false,
    };
    let cues = judge.pieces.mentions.iter().filter_map(|mention| match mention.kind {
        Kind::Cue(rule) if says(rule) => Some(Span { first: mention.first, end: mention.end }),
        _ => None,
    });
    let away = |span: &Span| judge.heard(span.first).abs_diff(at);
    cues.filter(|span| away(span) <= WORK_REACH).min_by_key(away)
}
