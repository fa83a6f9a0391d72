//! What comes of a deed. Pure: it looks at the scope, and gives the changes or says why not.

use super::act::{Act, Change};
use super::deed::{Deed, Fields};
use super::refusal::Refusal;
use super::scope::{Done, Entry, Scope, State, Task};
use super::told;
use super::typed;
use crate::language::rules::Grammar;
use crate::model::{Area, Draft, Flag, HOUSE, Line, Side, Unit};
use crate::scope::drafting;
use crate::speech::{Transcript, Utterance};
use std::collections::BTreeMap;

/// The versions of lines, tasks and faces that a person saw when deciding, by id; 0 where nobody had touched them.
pub type Seen = BTreeMap<String, u64>;

/// Who does something when, and what they saw.
#[derive(Debug, Clone)]
pub struct Hand {
    /// Who, as they call themselves.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
    /// What they saw.
    pub seen: Seen,
}

/// What a deed is judged by.
#[derive(Debug, Clone, Copy)]
pub struct Desk<'a> {
    /// As drafted.
    pub draft: &'a Draft,
    /// The scope as it is now.
    pub scope: &'a Scope,
    /// All acts so far.
    pub acts: &'a [Act],
    /// The words.
    pub transcript: &'a Transcript,
    /// The rules that typed values are read by.
    pub grammar: &'a Grammar,
}

/// The most lines that a line may be split into.
const MOST_PARTS: usize = 20;

impl Desk<'_> {
    /// The act that does what is asked for.
    ///
    /// # Errors
    /// Why it is refused; see [`Refusal`].
    pub fn act(&self, hand: &Hand, deed: Deed) -> Result<Act, Refusal> {
        if let Some(settled) = self.scope.settled.as_ref().filter(|_| deed != Deed::Reopen {}) {
            return Err(Refusal::Settled(settled.clone()));
        }
        self.check_seen(hand, &deed)?;
        let (changes, of) = match &deed {
            Deed::Undo {} => self.taken_back(hand)?,
            Deed::Redo {} => self.done_again(hand)?,
            other => (self.changes(hand, other)?, None),
        };
        let told = match deed {
            Deed::Settle {} => told::settled(self.scope.questions(self.draft, self.grammar).len()),
            _ => told::told(&deed, &changes, of.and_then(|of| self.acts.iter().find(|a| a.number == of))),
        };
        let (who, at) = (hand.who.clone(), hand.at.clone());
        Ok(Act { number: self.scope.version + 1, who, at, deed, changes, of, told })
    }

    /// An act on a line, task or face that somebody else changed meanwhile is refused.
    fn check_seen(&self, hand: &Hand, deed: &Deed) -> Result<(), Refusal> {
        if let Deed::Measure { face, .. } = deed {
            return self.check_face_seen(hand, face);
        }
        let answered = match deed {
            Deed::Answer { question, with } => self.answer_touches(question, with),
            _ => Vec::new(),
        };
        for id in deed.touches().into_iter().chain(answered.iter().map(String::as_str)) {
            let seen = hand.seen.get(id).copied();
            match (self.scope.entry(id), self.scope.task(id)) {
                (Some(entry), _) if seen != Some(entry.version) => {
                    let wanted = self.changes(hand, deed).ok().and_then(|all| line_after(&all, id));
                    let now = Some(Box::new(entry.clone()));
                    return Err(Refusal::LineChanged { id: id.to_owned(), now, wanted });
                }
                (None, Some(task)) if seen != Some(task.version) => {
                    return Err(Refusal::TaskChanged { id: id.to_owned() });
                }
                (None, None) if seen.is_some() && self.was_there(id) => {
                    return Err(Refusal::LineChanged { id: id.to_owned(), now: None, wanted: None });
                }
                (None, None) => return Err(Refusal::Unknown(id.to_owned())),
                _ => {}
            }
        }
        Ok(())
    }

    /// Whether there ever was a line of this id.
    fn was_there(&self, id: &str) -> bool {
        self.acts.iter().flat_map(|act| &act.changes).any(|change| change.id() == Some(id))
    }

    fn changes(&self, hand: &Hand, deed: &Deed) -> Result<Vec<Change>, Refusal> {
        match deed {
            Deed::Accept { lines } => self.each(hand, lines, |entry| {
                accept(&mut entry.line);
                stands(entry);
                Ok(())
            }),
            Deed::Change { line, fields } => self.one(hand, line, |entry| self.put(entry, fields)),
            Deed::ReadAs { line, reading } => self.one(hand, line, |entry| {
                let chosen = entry.line.readings.get(*reading).cloned();
                let chosen =
                    chosen.ok_or_else(|| Refusal::Senseless("this line has no such reading".into()))?;
                entry.line = entry.line.read_as(&chosen);
                self.settle_read(&mut entry.line);
                stands_if_settled(entry);
                Ok(())
            }),
            Deed::Drop { lines, reason } => {
                let reason = typed::checked("reason", reason)?;
                if reason.is_empty() {
                    let message = "say why the line is dropped".to_owned();
                    return Err(Refusal::NotUnderstood { field: "reason", message });
                }
                self.each(hand, lines, |entry| {
                    drop_for(entry, reason);
                    Ok(())
                })
            }
            Deed::Split { line, parts } => self.split(hand, line, parts),
            Deed::Merge { lines } => self.merge(hand, lines),
            Deed::Add { words, fields } => self.add(hand, *words, fields),
            Deed::Move { lines, side, structure } => {
                let fields = Fields { side: Some(*side), structure: structure.clone(), ..Fields::default() };
                self.each(hand, lines, |entry| self.put(entry, &fields))
            }
            Deed::Confirm { line } => self.one(hand, line, |entry| {
                entry.line.only_if = false;
                typed::settle(&mut entry.line, &[Flag::OnlyIf]);
                stands_if_settled(entry);
                Ok(())
            }),
            Deed::Refuse { line } => self.one(hand, line, |entry| {
                drop_for(entry, "the condition doesn't hold");
                Ok(())
            }),
            Deed::Tape { todo, line, measure } => self.tape(hand, todo, line.as_deref(), measure),
            Deed::Measure { face, measures } => self.measure(hand, face, measures),
            Deed::Done { todo } => self.task(todo, Some(done(hand, None))),
            Deed::NotDone { todo } => self.task(todo, None),
            Deed::Answer { question, with } => self.answer(hand, question, with),
            Deed::Settle {} => match self.scope.open() {
                0 => Ok(vec![Change::Settled { before: None, after: Some(done(hand, None)) }]),
                open => Err(Refusal::StillOpen(open)),
            },
            Deed::Reopen {} => match &self.scope.settled {
                Some(settled) => Ok(vec![Change::Settled { before: Some(settled.clone()), after: None }]),
                None => Err(Refusal::Senseless("this scope is open already".into())),
            },
            Deed::Undo {} | Deed::Redo {} => Ok(Vec::new()),
        }
    }

    fn find(&self, id: &str) -> Result<&Entry, Refusal> {
        self.scope.entry(id).ok_or_else(|| Refusal::Unknown(id.to_owned()))
    }

    pub(super) fn one(
        &self,
        hand: &Hand,
        id: &str,
        edit: impl Fn(&mut Entry) -> Result<(), Refusal>,
    ) -> Result<Vec<Change>, Refusal> {
        let before = self.find(id)?;
        let mut after = before.clone();
        edit(&mut after)?;
        after.by = Some(hand.who.clone());
        Ok(vec![change(Some(before.clone()), Some(after))])
    }

    fn each(
        &self,
        hand: &Hand,
        ids: &[String],
        edit: impl Fn(&mut Entry) -> Result<(), Refusal>,
    ) -> Result<Vec<Change>, Refusal> {
        if ids.is_empty() {
            return Err(Refusal::Senseless("choose a line first".into()));
        }
        let mut changes = Vec::new();
        for (n, id) in ids.iter().enumerate() {
            if !ids[..n].contains(id) {
                changes.extend(self.one(hand, id, &edit)?);
            }
        }
        Ok(changes)
    }

    /// Puts typed fields into a line, and lets it stand where nothing is left to settle.
    pub(super) fn put(&self, entry: &mut Entry, fields: &Fields) -> Result<(), Refusal> {
        if *fields == Fields::default() {
            return Err(Refusal::Senseless("nothing was changed".into()));
        }
        typed::put(&mut entry.line, fields, self.grammar)?;
        stands_if_settled(entry);
        Ok(())
    }

    /// What a chosen reading settles.
    fn settle_read(&self, line: &mut Line) {
        let item = line.item.as_deref().and_then(|id| self.grammar.item_named(id));
        if let Some(item) = item.map(|n| &self.grammar.items[usize::from(n)]) {
            line.area = item.area;
        }
        let mut settled = vec![Flag::SoundsLike, Flag::OddSize, Flag::OddUnit];
        settled.extend(line.item.is_some().then_some(Flag::NotInCatalogue));
        settled.extend(line.work.is_some().then_some(Flag::NoWork));
        settled.extend(line.quantity.is_some().then_some(Flag::NoNumber));
        settled.extend((line.side != Side::None).then_some(Flag::NoSide));
        typed::settle(line, &settled);
    }

    fn split(&self, hand: &Hand, id: &str, parts: &[Fields]) -> Result<Vec<Change>, Refusal> {
        if parts.len() < 2 || parts.len() > MOST_PARTS {
            return Err(Refusal::Senseless(format!("split a line into 2 to {MOST_PARTS} parts")));
        }
        let before = self.find(id)?;
        let mut changes = Vec::new();
        for (n, fields) in parts.iter().enumerate() {
            let mut part = before.clone();
            if n > 0 {
                part.line.id = format!("{id}.{}-{n}", self.scope.version + 1);
            }
            typed::put(&mut part.line, fields, self.grammar)?;
            typed::settle(&mut part.line, &[]);
            stands_if_settled(&mut part);
            part.by = Some(hand.who.clone());
            changes.push(change((n == 0).then(|| before.clone()), Some(part)));
        }
        Ok(changes)
    }

    fn merge(&self, hand: &Hand, ids: &[String]) -> Result<Vec<Change>, Refusal> {
        let [first, others @ ..] = ids else {
            return Err(Refusal::Senseless("choose two lines or more".into()));
        };
        if others.is_empty() || others.contains(first) {
            return Err(Refusal::Senseless("choose two different lines or more".into()));
        }
        let kept = self.find(first)?;
        let reason = format!("same as {}", told::name(&kept.line));
        let mut changes = self.one(hand, first, |entry| {
            typed::settle(&mut entry.line, &[]);
            stands_if_settled(entry);
            Ok(())
        })?;
        changes.extend(self.each(hand, others, |entry| {
            drop_for(entry, &reason);
            Ok(())
        })?);
        Ok(changes)
    }

    fn add(&self, hand: &Hand, words: Option<[u32; 2]>, fields: &Fields) -> Result<Vec<Change>, Refusal> {
        let mut line = match words {
            Some(words) => self.drafted_from(words)?,
            None => blank(),
        };
        line.id = format!("added-{}", self.scope.version + 1);
        typed::put(&mut line, fields, self.grammar)?;
        if line.item.is_none() && line.said.is_empty() {
            return Err(Refusal::NotUnderstood {
                field: "item",
                message: "say what the line is about".into(),
            });
        }
        accept(&mut line);
        let entry = Entry { by: Some(hand.who.clone()), state: State::Stands, ..Entry::drafted(line) };
        Ok(vec![change(None, Some(entry))])
    }

    /// What those words alone would be drafted as; their own words where they come to no line.
    fn drafted_from(&self, [first, last]: [u32; 2]) -> Result<Line, Refusal> {
        let words: Vec<_> = self.transcript.words().collect();
        let chosen = words
            .get(first as usize..=last as usize)
            .filter(|chosen| !chosen.is_empty())
            .ok_or_else(|| Refusal::Senseless("these words are not in the recording".into()))?;
        let utterance = Utterance { words: chosen.iter().map(|word| (*word).clone()).collect() };
        let quote = chosen.iter().map(|word| word.text.as_str()).collect::<Vec<_>>().join(" ");
        let alone = Transcript { utterances: vec![utterance], ..Transcript::default() };
        let drafted = drafting::draft(&alone, self.grammar).lines.into_iter().next();
        let said = quote.trim_matches(|c: char| c.is_ascii_punctuation()).to_owned();
        let line = drafted.unwrap_or_else(|| Line { said, ..blank() });
        // Where the narrator was: on the side of the line before.
        let before = self.scope.entries.iter().rev().find(|e| e.line.words.is_some_and(|w| w[0] <= first));
        let (structure, side) = match before {
            Some(entry) if line.side == Side::None => (entry.line.structure.clone(), entry.line.side),
            _ => (line.structure.clone(), line.side),
        };
        let (start, end) = (chosen.first().and_then(|w| w.start), chosen.last().and_then(|w| w.end));
        Ok(Line { structure, side, quote, words: Some([first, last]), start, end, ..line })
    }

    fn task(&self, id: &str, after: Option<Done>) -> Result<Vec<Change>, Refusal> {
        let task = self.scope.task(id).ok_or_else(|| Refusal::Unknown(id.to_owned()))?;
        Ok(vec![task_change(task, after)])
    }

    fn tape(
        &self,
        hand: &Hand,
        todo: &str,
        line: Option<&str>,
        measure: &str,
    ) -> Result<Vec<Change>, Refusal> {
        let task = self.scope.task(todo).ok_or_else(|| Refusal::Unknown(todo.to_owned()))?;
        typed::checked("measure", measure)?;
        typed::quantity(measure, self.grammar).map_err(|refusal| match refusal {
            Refusal::NotUnderstood { message, .. } => Refusal::NotUnderstood { field: "measure", message },
            other => other,
        })?;
        let mut changes = vec![task_change(task, Some(done(hand, Some(measure.trim().to_owned()))))];
        if let Some(line) = line {
            let fields = Fields { quantity: Some(measure.to_owned()), ..Fields::default() };
            changes.extend(self.one(hand, line, |entry| self.put(entry, &fields))?);
        }
        Ok(changes)
    }
}

fn line_after(changes: &[Change], wanted: &str) -> Option<Box<Entry>> {
    changes.iter().find_map(|change| match change {
        Change::Line { id, after, .. } if id == wanted => after.clone(),
        _ => None,
    })
}

pub(super) fn change(before: Option<Entry>, after: Option<Entry>) -> Change {
    let id = before.as_ref().or(after.as_ref()).map(|entry| entry.id().to_owned()).unwrap_or_default();
    Change::Line { id, before: before.map(Box::new), after: after.map(Box::new) }
}

fn task_change(task: &Task, after: Option<Done>) -> Change {
    Change::Task { id: task.id.clone(), before: task.done.clone(), after }
}

pub(super) fn done(hand: &Hand, note: Option<String>) -> Done {
    Done { who: hand.who.clone(), at: hand.at.clone(), note }
}

/// What a person has accepted is not asked again: only what the line itself says stays with it.
fn accept(line: &mut Line) {
    line.flags.retain(|flag| *flag == Flag::RoughNumber);
}

fn stands(entry: &mut Entry) {
    entry.state = State::Stands;
    entry.reason = None;
}

pub(super) fn stands_if_settled(entry: &mut Entry) {
    stands(entry);
    if entry.line.needs_look() {
        entry.state = State::Open;
    }
}

pub(super) fn drop_for(entry: &mut Entry, reason: &str) {
    entry.state = State::Dropped;
    entry.reason = Some(reason.to_owned());
}

pub(super) fn blank() -> Line {
    Line {
        id: String::new(),
        structure: HOUSE.to_owned(),
        side: Side::None,
        area: Area::Wall,
        item: None,
        said: String::new(),
        work: None,
        quantity: None,
        unit: Unit::Each,
        rough: false,
        size: None,
        detail: None,
        only_if: false,
        confidence: 1.0,
        flags: Vec::new(),
        quote: String::new(),
        words: None,
        start: None,
        end: None,
        other_reading: None,
        readings: Vec::new(),
        why: Vec::new(),
    }
}
