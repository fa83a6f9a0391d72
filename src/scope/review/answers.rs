//! Answers to the questions about the whole house: each closes its question, and may drop lines, change a number or add
//! a line, all in one event that can be undone.

use super::add::blank;
use super::command::Fields;
use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::fields;
use super::lines::{drop_for, review_unless_flagged};
use super::refusal::Refusal;
use super::scope::{Entry, LineState, Scope};
use super::summary;
use crate::language::rules::Grammar;
use crate::model::{Draft, Flag, Line, Quantity, Side, wording};
use crate::scope::questions::{self, Effect, HouseUnderReview, Missing, Question, With, point};

impl Scope {
    /// The questions about the house as it stands now that nobody has answered yet.
    pub fn questions(&self, draft: &Draft, grammar: &Grammar) -> Vec<Question> {
        let lines = |dropped: bool| {
            let entries = self.entries.iter().filter(|entry| (entry.state == LineState::Dropped) == dropped);
            entries.map(|entry| &entry.line).collect()
        };
        let answered = self.answers.keys().map(String::as_str).collect();
        questions::questions(&HouseUnderReview {
            lines: lines(false),
            dropped: lines(true),
            draft,
            grammar,
            answered,
        })
    }
}

impl ReviewContext<'_> {
    /// A question that is open.
    pub(super) fn question(&self, id: &str) -> Result<Question, Refusal> {
        let mut open = self.scope.questions(self.draft, self.grammar).into_iter();
        open.find(|question| question.id == id).ok_or(Refusal::NotAsked)
    }

    /// The lines that an answer changes, which the person must have seen as they are.
    pub(super) fn answer_touches(&self, id: &str, with: &With) -> Vec<String> {
        let effects = match (with, self.question(id)) {
            (With::Reading(at), Ok(question)) => {
                question.readings.into_iter().nth(*at).map(|reading| reading.effects)
            }
            _ => None,
        };
        effects.into_iter().flatten().map(|effect| effect.line().to_owned()).collect()
    }

    pub(super) fn answer(&self, actor: &Actor, id: &str, with: &With) -> Result<Vec<Change>, Refusal> {
        let question = self.question(id)?;
        match with {
            With::Reading(at) => self.read(actor, &question, *at),
            With::None(items) if items.is_empty() => {
                Err(Refusal::Invalid("say what there is none of".into()))
            }
            With::None(items) => {
                let closed = |item: &String| {
                    let missing = missing(&question, item)?;
                    let note = format!("no {}{}", missing.name, at_side(&question));
                    Ok(answered(actor, point(id, &missing.item), note))
                };
                items.iter().map(closed).collect()
            }
            With::Add(item) => self.add_missing(actor, &question, missing(&question, item)?),
        }
    }

    fn read(&self, actor: &Actor, question: &Question, at: usize) -> Result<Vec<Change>, Refusal> {
        let none = || Refusal::Invalid("this question has no such answer".into());
        let reading = question.readings.get(at).ok_or_else(none)?;
        let mut changes = Vec::new();
        for effect in &reading.effects {
            changes.extend(self.one(actor, effect.line(), |entry| match effect {
                Effect::Drop { reason, .. } => {
                    drop_for(entry, reason);
                    Ok(())
                }
                Effect::Place { side, .. } => {
                    entry.line.side = *side;
                    entry.line.flags.retain(|flag| !matches!(flag, Flag::Unsure | Flag::NoSide));
                    review_unless_flagged(entry);
                    Ok(())
                }
                Effect::Count { quantity, .. } => {
                    fields::set_quantity(&mut entry.line, Some(Quantity::of(*quantity)), false);
                    review_unless_flagged(entry);
                    Ok(())
                }
            })?);
        }
        let note = format!("{}: {}", self.subject(question), reading.label);
        changes.push(answered(actor, question.id.clone(), note));
        Ok(changes)
    }

    /// A line of what was not mentioned. Nobody said how many there are, so it is flagged.
    fn add_missing(
        &self,
        actor: &Actor,
        question: &Question,
        missing: &Missing,
    ) -> Result<Vec<Change>, Refusal> {
        let mut line = Line { id: self.added_id(), ..blank() };
        let fields = Fields {
            item: Some(missing.item.clone()),
            work: Some(missing.work),
            side: Some(question.side),
            structure: Some(question.structure.clone()),
            ..Fields::default()
        };
        fields::put(&mut line, &fields, self.grammar)?;
        line.flags.push(Flag::NoNumber);
        let mut entry = Entry { by: Some(actor.who.clone()), ..Entry::drafted(line) };
        review_unless_flagged(&mut entry);
        let note = format!("{}: added", summary::name(&entry.line));
        Ok(vec![Change::line(None, Some(entry)), answered(actor, point(&question.id, &missing.item), note)])
    }

    /// What a question is about, in a few words.
    fn subject(&self, question: &Question) -> String {
        let first = question.lines.first().and_then(|id| self.scope.entry(id));
        match first {
            Some(entry) if question.side == Side::None => wording::item_of(&entry.line),
            Some(entry) => summary::name(&entry.line),
            None => question.ground.name.replace('-', " "),
        }
    }
}

fn missing<'q>(question: &'q Question, item: &str) -> Result<&'q Missing, Refusal> {
    let found = question.missing.iter().find(|missing| missing.item == item);
    found.ok_or_else(|| Refusal::Invalid(format!("“{item}” isn't part of this question")))
}

fn at_side(question: &Question) -> String {
    match question.side {
        Side::None => String::new(),
        side => format!(", {}", wording::side(side)),
    }
}

fn answered(actor: &Actor, id: String, note: String) -> Change {
    Change::Answer { id, before: None, after: Some(actor.done(Some(note))) }
}
