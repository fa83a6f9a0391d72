//! A scope as the page gets it.

use super::choices::{Choice, choices};
use super::event::{Event, Stack};
use super::from_takeoff;
use super::question_view::QuestionView;
use super::redraft::Stray;
use super::scope::{Done, Entry, FollowUpEntry, LineState, Scope};
use super::sign_off::SignOff;
use crate::language::rules::Grammar;
use crate::model::{Cleared, Clip, Dimension, Draft, Line, wording};
use serde::Serialize;

/// A line's fields in plain words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Shown {
    item: String,
    quantity: Option<String>,
    unit: &'static str,
    /// Both in one: `38 ft`.
    amount: Option<String>,
    work: &'static str,
    side: &'static str,
    place: String,
    size: Option<String>,
    detail: Option<String>,
}

impl Shown {
    /// Those of a line.
    pub fn of(line: &Line) -> Self {
        Self {
            item: wording::item_of(line),
            quantity: wording::quantity(line),
            unit: wording::unit(line),
            amount: wording::amount(line),
            work: wording::work(line.work),
            side: wording::side(line.side),
            place: wording::whereabouts(&line.structure, line.side),
            size: line.size.as_ref().map(wording::size),
            detail: line.detail.clone(),
        }
    }
}

/// A line.
#[derive(Debug, Serialize)]
pub struct LineView<'a> {
    id: &'a str,
    version: u64,
    state: LineState,
    reason: Option<&'a str>,
    by: Option<&'a str>,
    line: &'a Line,
    words: Option<[u32; 2]>,
    shown: Shown,
    /// As drafted, where a person changed it.
    drafted: Option<Shown>,
    /// Why it needs review, each a sentence.
    reasons: Vec<String>,
    choices: Vec<Choice>,
}

/// A photo, measurement or check that is still needed, or was.
#[derive(Debug, Serialize)]
pub struct FollowUpView<'a> {
    id: &'a str,
    version: u64,
    #[serde(flatten)]
    follow_up: &'a crate::model::FollowUp,
    place: String,
    /// The lines that a measurement may be for, the likeliest first.
    lines: Vec<&'a str>,
    done: Option<&'a Done>,
}

/// A line that the new draft no longer has.
#[derive(Debug, Serialize)]
pub struct StrayView<'a> {
    line: LineView<'a>,
    why: &'static str,
}

/// What the page shows of a recording.
#[derive(Debug, Serialize)]
pub struct ScopeView<'a> {
    id: &'a str,
    name: &'a str,
    length: Option<f64>,
    sound: bool,
    /// The clips of the visit, on whose line of time all times are; none where it is one recording.
    clips: &'a [Clip],
    notices: &'a [String],
    signed_off: Option<&'a SignOff>,
    version: u64,
    lines: Vec<LineView<'a>>,
    follow_ups: Vec<FollowUpView<'a>>,
    no_work: &'a [Cleared],
    mentioned: &'a [Cleared],
    unused: &'a [Cleared],
    dimensions: &'a [Dimension],
    cautions: &'a [crate::model::Caution],
    strays: Vec<StrayView<'a>>,
    questions: Vec<QuestionView>,
    undo: Option<String>,
    redo: Option<String>,
}

/// What views are made from.
#[derive(Debug, Clone, Copy)]
pub struct ViewContext<'a> {
    /// As drafted.
    pub draft: &'a Draft,
    /// As it is now.
    pub scope: &'a Scope,
    /// All events.
    pub events: &'a [Event],
    /// The rules.
    pub grammar: &'a Grammar,
}

impl<'a> ViewContext<'a> {
    /// A line of the scope.
    pub fn line(&self, entry: &'a Entry) -> LineView<'a> {
        let drafted = self.draft.lines.iter().find(|line| line.id == entry.line.id).map(Shown::of);
        let shown = Shown::of(&entry.line);
        let flagged = entry.state == LineState::Flagged;
        LineView {
            id: entry.id(),
            version: entry.version,
            state: entry.state,
            reason: entry.reason.as_deref(),
            by: entry.by.as_deref(),
            line: &entry.line,
            words: entry.line.words,
            drafted: drafted.filter(|drafted| *drafted != shown),
            shown,
            reasons: if flagged { wording::looks(&entry.line).collect() } else { Vec::new() },
            choices: self.choices(entry),
        }
    }

    /// The answers to choose from, those that the takeoff gives first.
    fn choices(&self, entry: &Entry) -> Vec<Choice> {
        let measured = !self.draft.dimensions.is_empty() || !self.scope.measured.is_empty();
        let now = || self.scope.draft(self.draft);
        let taken_off = measured.then(|| from_takeoff::choice(entry, &now(), self.grammar)).flatten();
        taken_off.into_iter().chain(choices(entry, self.scope, self.grammar)).collect()
    }

    /// A photo, measurement or check.
    pub fn follow_up(&self, entry: &'a FollowUpEntry) -> FollowUpView<'a> {
        let needed = &entry.follow_up;
        let fits = |entry: &&Entry| {
            entry.state != LineState::Dropped
                && (&entry.line.structure, entry.line.side) == (&needed.structure, needed.side)
                && (needed.item.is_none() || entry.line.item == needed.item)
        };
        let mut lines: Vec<&Entry> = self.scope.entries.iter().filter(fits).collect();
        lines.sort_by_key(|entry| (entry.line.item != needed.item, entry.line.quantity.is_some()));
        FollowUpView {
            id: &entry.id,
            version: entry.version,
            follow_up: needed,
            place: wording::whereabouts(&needed.structure, needed.side),
            lines: lines.into_iter().map(Entry::id).collect(),
            done: entry.done.as_ref(),
        }
    }

    /// The open questions about the house.
    pub fn questions(&self) -> Vec<QuestionView> {
        let open = self.scope.questions(self.draft, self.grammar);
        open.into_iter().map(QuestionView::of).collect()
    }

    /// What the next undo and the next redo of a person would do.
    pub fn ahead(&self, who: Option<&str>) -> [Option<String>; 2] {
        let stack = who.map(|who| Stack::of(self.events, who)).unwrap_or_default();
        let told = |number: Option<&u64>| {
            self.events.iter().find(|event| Some(&event.number) == number).map(|event| event.summary.clone())
        };
        [told(stack.done.last()), told(stack.undone.last())]
    }

    /// Everything.
    pub fn whole(
        &self,
        id: &'a str,
        name: &'a str,
        sound: bool,
        strays: &'a [Stray],
        who: Option<&str>,
    ) -> ScopeView<'a> {
        let [undo, redo] = self.ahead(who);
        let draft = self.draft;
        ScopeView {
            id,
            name,
            length: draft.length.map(|length| length.seconds()),
            sound,
            clips: &draft.clips,
            notices: &draft.notices,
            signed_off: self.scope.signed_off.as_ref(),
            version: self.scope.version,
            lines: self.scope.entries.iter().map(|entry| self.line(entry)).collect(),
            follow_ups: self.scope.follow_ups.iter().map(|entry| self.follow_up(entry)).collect(),
            no_work: &draft.no_work,
            mentioned: &draft.mentioned,
            unused: &draft.unused,
            dimensions: &draft.dimensions,
            cautions: &draft.cautions,
            questions: self.questions(),
            strays: strays.iter().map(|s| StrayView { line: self.line(&s.entry), why: s.why }).collect(),
            undo,
            redo,
        }
    }
}
