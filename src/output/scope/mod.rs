//! The scope of work as a paper: lines by structure and side, and everything that stands beside them.

mod plan;
mod takeoff;
mod totals;

use super::job::Job;
use super::page::{Entry, Page, Section, list};
use super::parts::{self, Depth, Lines, closing, followed_up};
use super::prices::{self, Priced};
use crate::model::wording::{self, capital, date, sentence};
use crate::model::{FollowUpKind, Line, Side};
use crate::scope::arrange::Arranged;
use crate::scope::questions::Question;
use crate::scope::takeoff::Lacking;

/// What stands beside a scope on its papers.
#[derive(Debug, Default)]
pub struct Beside {
    /// What it costs by the office's own price list.
    pub priced: Option<Priced>,
    /// The photos.
    pub photos: Option<Section>,
}

/// The scope as a paper.
pub fn page(job: &Job, beside: &Beside) -> Page {
    let arranged = Arranged::new(&job.now);
    let needs_review = |line: &Line| job.needs_review(line);
    let lines = Lines { arranged: &arranged, depth: Depth::Words, needs_review: &needs_review };
    let mut sections = parts::standing(&lines);
    sections.extend(parts::only_if(&lines));
    sections.extend(totals::section(job));
    sections.extend(plan::section(job));
    sections.extend(takeoff::section(job));
    sections.extend(questions(job));
    sections.extend(still_needed(job));
    sections.extend(beside.photos.clone());
    sections.extend(beside.priced.as_ref().and_then(prices::section));
    sections.extend(parts::cleared(&job.now));
    sections.extend(parts::unused(&job.now));
    sections.extend(parts::cautions(&job.now.cautions));
    Page {
        kind: job.kind().to_owned(),
        title: job.property().to_owned(),
        summary: summary(job),
        notices: notices(job),
        sections,
        closing: closing(),
        ..Page::default()
    }
}

fn summary(job: &Job) -> Vec<String> {
    let mut summary: Vec<String> = wording::recording(&job.now).into_iter().collect();
    let standing = job.now.lines.iter().filter(|line| !line.only_if).count();
    summary.push(sentence(&wording::count(standing, "line", "lines")));
    if let Some(signed) = &job.scope.signed_off {
        summary.push(format!("Signed off by {} on {}.", signed.who, date(&signed.at)));
    }
    summary
}

/// What keeps it a draft, and what a person should know about the reading.
fn notices(job: &Job) -> Vec<String> {
    let open = job.open();
    let open = (!open.is_empty()).then(|| format!("This is a draft. Still open: {}", open.join(" ")));
    open.into_iter().chain(job.now.notices.iter().map(|notice| sentence(notice))).collect()
}

/// What is asked about the house as a whole, each with the rule that asks. A signed scope has been asked.
fn questions(job: &Job) -> Option<Section> {
    let asked = job.questions.iter().filter(|_| !job.is_signed_off());
    let entry = |question: &Question| Entry {
        name: capital(&question.place()),
        text: question.in_full(),
        source: wording::source(&format!("{}: {}", question.ground.says, question.ground.source)),
        ..Entry::default()
    };
    Section::of("Questions about the house", list(true, asked.map(entry).collect()))
}

/// The measurements, photos and checks that are still needed; in a signed scope there is nothing to tick.
fn still_needed(job: &Job) -> impl Iterator<Item = Section> {
    [FollowUpKind::Measure, FollowUpKind::Photo, FollowUpKind::Check].into_iter().filter_map(|kind| {
        Section::listing(wording::follow_ups(kind), !job.is_signed_off(), entries(job, kind, None))
    })
}

/// What is still needed of a kind, on one side or on all.
pub(super) fn entries(job: &Job, kind: FollowUpKind, only: Option<(&str, Side)>) -> Vec<Entry> {
    let here = |structure: &str, side: Side| only.is_none_or(|at| at == (structure, side));
    let said = job.to_do(kind).filter(|todo| here(&todo.structure, todo.side));
    let said = said.map(|todo| followed_up(&job.now.clips, todo));
    let lacking = job.takeoff.lacking.iter().filter(|_| kind == FollowUpKind::Measure);
    said.chain(lacking.filter(|lacking| here(&lacking.structure, lacking.side)).map(lacks)).collect()
}

fn lacks(lacking: &Lacking) -> Entry {
    let Lacking { structure, side, measure, purpose } = lacking;
    Entry {
        name: capital(&wording::whereabouts(structure, *side)),
        text: format!("{measure}, for {purpose}"),
        ..Entry::default()
    }
}
