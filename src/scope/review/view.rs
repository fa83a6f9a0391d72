//! A scope as the page gets it.

use super::act::{Act, Stack};
use super::asked::QuestionView;
use super::choices::{Choice, choices};
use super::from_measures;
use super::redraft::Stray;
use super::scope::{Done, Entry, Scope, State, Task};
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
    state: State,
    reason: Option<&'a str>,
    by: Option<&'a str>,
    line: &'a Line,
    words: Option<[u32; 2]>,
    shown: Shown,
    /// As drafted, where a person changed it.
    drafted: Option<Shown>,
    looks: Vec<String>,
    choices: Vec<Choice>,
}

/// A photo, a tape, a check.
#[derive(Debug, Serialize)]
pub struct TaskView<'a> {
    id: &'a str,
    version: u64,
    #[serde(flatten)]
    follow_up: &'a crate::model::FollowUp,
    place: String,
    /// The lines that a measure may fill, the likeliest first.
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
    settled: Option<&'a Done>,
    version: u64,
    lines: Vec<LineView<'a>>,
    todos: Vec<TaskView<'a>>,
    no_work: &'a [Cleared],
    mentioned: &'a [Cleared],
    unplaced: &'a [Cleared],
    dimensions: &'a [Dimension],
    cautions: &'a [crate::model::Caution],
    strays: Vec<StrayView<'a>>,
    questions: Vec<QuestionView>,
    undo: Option<String>,
    redo: Option<String>,
}

/// What views are made from.
#[derive(Debug, Clone, Copy)]
pub struct Sight<'a> {
    /// As drafted.
    pub draft: &'a Draft,
    /// As it is now.
    pub scope: &'a Scope,
    /// All acts.
    pub acts: &'a [Act],
    /// The rules.
    pub grammar: &'a Grammar,
}

impl<'a> Sight<'a> {
    /// A line of the scope.
    pub fn line(&self, entry: &'a Entry) -> LineView<'a> {
        let drafted = self.draft.lines.iter().find(|line| line.id == entry.line.id).map(Shown::of);
        let shown = Shown::of(&entry.line);
        let open = entry.state == State::Open;
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
            looks: if open { wording::looks(&entry.line).collect() } else { Vec::new() },
            choices: self.choices(entry),
        }
    }

    /// The answers to choose from, those that the takeoff gives first.
    fn choices(&self, entry: &Entry) -> Vec<Choice> {
        let measured = !self.draft.dimensions.is_empty() || !self.scope.measured.is_empty();
        let now = || self.scope.draft(self.draft);
        let taken_off = measured.then(|| from_measures::choice(entry, &now(), self.grammar)).flatten();
        taken_off.into_iter().chain(choices(entry, self.scope, self.grammar)).collect()
    }

    /// A photo, a tape or a check.
    pub fn task(&self, task: &'a Task) -> TaskView<'a> {
        let todo = &task.follow_up;
        let fits = |entry: &&Entry| {
            entry.state != State::Dropped
                && (&entry.line.structure, entry.line.side) == (&todo.structure, todo.side)
                && (todo.item.is_none() || entry.line.item == todo.item)
        };
        let mut lines: Vec<&Entry> = self.scope.entries.iter().filter(fits).collect();
        lines.sort_by_key(|entry| (entry.line.item != todo.item, entry.line.quantity.is_some()));
        TaskView {
            id: &task.id,
            version: task.version,
            follow_up: todo,
            place: wording::whereabouts(&todo.structure, todo.side),
            lines: lines.into_iter().map(Entry::id).collect(),
            done: task.done.as_ref(),
        }
    }

    /// The open questions about the house.
    pub fn questions(&self) -> Vec<QuestionView> {
        let open = self.scope.questions(self.draft, self.grammar);
        open.into_iter().map(QuestionView::of).collect()
    }

    /// What the next undo and the next redo of a person would do.
    pub fn ahead(&self, who: Option<&str>) -> [Option<String>; 2] {
        let stack = who.map(|who| Stack::of(self.acts, who)).unwrap_or_default();
        let told = |number: Option<&u64>| {
            self.acts.iter().find(|act| Some(&act.number) == number).map(|act| act.told.clone())
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
            settled: self.scope.settled.as_ref(),
            version: self.scope.version,
            lines: self.scope.entries.iter().map(|entry| self.line(entry)).collect(),
            todos: self.scope.tasks.iter().map(|task| self.task(task)).collect(),
            no_work: &draft.no_work,
            mentioned: &draft.mentioned,
            unplaced: &draft.unplaced,
            dimensions: &draft.dimensions,
            cautions: &draft.cautions,
            questions: self.questions(),
            strays: strays.iter().map(|s| StrayView { line: self.line(&s.entry), why: s.why }).collect(),
            undo,
            redo,
        }
    }
}
