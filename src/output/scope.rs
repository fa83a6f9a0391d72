//! The scope of work as a paper: lines by structure and side, and everything that stands beside them.

use super::job::Job;
use super::page::{Block, Column, Entry, Group, Page, Row, Section, Table, list};
use super::{Beside, plan, prices, sums};
use crate::model::span::Moment;
use crate::model::wording::{self, CLOSING, ONLY_IF, capital, sentence};
use crate::model::{Cleared, FollowUpKind, Line, Side};
use crate::scope::arrange::{Arranged, Numbered};
use crate::scope::questions::Question;
use crate::scope::takeoff::{Lacking, PARTS, told};

/// The columns of lines.
const COLUMNS: [Column; 8] = [
    Column::numbers("No.", 4.0),
    Column::numbers("Quantity", 9.0),
    Column::words("Unit", 7.0),
    Column::words("Item", 16.0),
    Column::words("Size", 10.0),
    Column::words("Work", 17.5),
    Column::words("Note", 11.0),
    Column::words("Time and words", 25.5),
];

/// The scope as a paper.
pub fn page(job: &Job, beside: &Beside) -> Page {
    let arranged = Arranged::new(&job.now);
    let mut sections = lines(&arranged);
    sections.extend(only_if(&arranged));
    sections.extend(plan::section(job));
    sections.extend(sums::section(job));
    sections.extend(takeoff(job));
    sections.extend(questions(job));
    sections.extend(to_do(job));
    sections.extend(beside.photos.clone());
    sections.extend(beside.priced.as_ref().and_then(prices::section));
    sections.extend(cleared(job));
    sections.extend(unplaced(job));
    sections.extend(cautions(job));
    Page {
        kind: kind(job).to_owned(),
        title: job.property().to_owned(),
        summary: summary(job),
        open: job.open(),
        sections,
        closing: closing(),
        ..Page::default()
    }
}

/// What the paper is called.
pub(super) fn kind(job: &Job) -> &'static str {
    if job.is_settled() { "Scope of work" } else { "DRAFT scope of work" }
}

fn summary(job: &Job) -> Vec<String> {
    let mut summary: Vec<String> = wording::recording(&job.now).into_iter().collect();
    let standing = job.now.lines.iter().filter(|line| !line.only_if).count();
    summary.push(sentence(&wording::count(standing, "line", "lines")));
    if let Some(settled) = &job.scope.signed_off {
        summary.push(format!("Settled by {} on {}.", settled.who, day(&settled.at)));
    }
    summary.extend(job.now.notices.iter().map(|notice| sentence(notice)));
    summary
}

/// The day of a moment as RFC 3339 writes it.
pub(super) fn day(at: &str) -> &str {
    at.split('T').next().unwrap_or(at)
}

/// What a paper says at its end.
pub(super) fn closing() -> Vec<String> {
    let mut closing: Vec<String> = CLOSING.iter().map(|line| (*line).to_owned()).collect();
    closing.push("Left and right are as seen from the street.".to_owned());
    closing
}

fn lines(arranged: &Arranged) -> Vec<Section> {
    if arranged.places.is_empty() {
        let text = "No line stands: these words name no work to be done.".to_owned();
        return Section::of("Lines", vec![Block::Text(text)]).into_iter().collect();
    }
    let structures = arranged.places.chunk_by(|a, b| a.structure == b.structure);
    structures
        .filter_map(|places| {
            let group = |place: &crate::scope::arrange::Placed| Group {
                heading: Some(capital(place.place.heading())),
                rows: place.lines.iter().map(|n| row(n, wording::item_of(n.line))).collect(),
            };
            let groups = places.iter().map(group).collect();
            let table = Table { columns: COLUMNS.to_vec(), groups };
            Section::of(capital(places[0].structure), vec![Block::Table(table)])
        })
        .collect()
}

fn only_if(arranged: &Arranged) -> Option<Section> {
    let with_place = |n: &Numbered| {
        let place = wording::whereabouts(&n.line.structure, n.line.side);
        row(n, format!("{}, {place}", wording::item_of(n.line)))
    };
    let rows: Vec<Row> = arranged.only_if.iter().map(with_place).collect();
    if rows.is_empty() {
        return None;
    }
    let table = Table { columns: COLUMNS.to_vec(), groups: vec![Group { heading: None, rows }] };
    Section::of("To confirm", vec![Block::Text(ONLY_IF.to_owned()), Block::Table(table)])
}

fn row(numbered: &Numbered, item: String) -> Row {
    let line = numbered.line;
    let looks: Vec<String> = wording::looks(line).collect();
    Row {
        cells: vec![
            numbered.number.to_string(),
            wording::quantity(line).unwrap_or_else(|| "not said".to_owned()),
            wording::unit(line).to_owned(),
            item,
            wording::size_of(line),
            wording::work(line.work).to_owned(),
            line.detail.clone().unwrap_or_default(),
            heard(numbered, line),
        ],
        notes: if looks.is_empty() { Vec::new() } else { vec![format!("Look: {}", looks.join(" "))] },
        look: line.needs_look(),
    }
}

fn heard(numbered: &Numbered, line: &Line) -> String {
    let time = line.start.map(|start| wording::time_in(numbered.clips, start));
    let words = (!line.quote.is_empty()).then(|| format!("“{}”", line.quote));
    [time, words].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// The figures with their formulas, by structure and part, and the rules they go by.
fn takeoff(job: &Job) -> Option<Section> {
    let figures = &job.takeoff.figures;
    if figures.is_empty() {
        return None;
    }
    let columns = vec![
        Column::words("Figure", 30.0),
        Column::numbers("Amount", 16.0),
        Column::words("How it is computed", 34.0),
        Column::words("By which rule", 20.0),
    ];
    let mut groups = Vec::new();
    for structure in figures.chunk_by(|a, b| a.structure == b.structure) {
        for part in PARTS {
            let of_part = structure.iter().filter(|figure| figure.part == part);
            let rows: Vec<Row> = of_part
                .map(|figure| {
                    let name = match figure.side {
                        Side::None => capital(&figure.name),
                        side => capital(&format!("{}: {}", wording::side(side), figure.name)),
                    };
                    let rule = figure.rule.clone().unwrap_or_default();
                    Row::of([name, told(figure.value, figure.unit), figure.formula.text(), rule])
                })
                .collect();
            if !rows.is_empty() {
                let heading =
                    Some(capital(&format!("{}: {}", structure[0].structure, part.heading().to_lowercase())));
                groups.push(Group { heading, rows });
            }
        }
    }
    let mut blocks = vec![Block::Table(Table { columns, groups })];
    blocks.insert(0, Block::Text(job.takeoff.openings.clone()));
    Section::of("Takeoff", blocks)
}

/// What is asked about the house as a whole, each with the rule that asks. A settled scope has been asked.
fn questions(job: &Job) -> Option<Section> {
    let asked = job.questions.iter().filter(|_| !job.is_settled());
    let entry = |question: &Question| Entry {
        name: capital(&question.place()),
        text: question.in_full(),
        said: format!("{}: {}", question.ground.says, question.ground.source),
    };
    Section::of("Questions about the house", list(true, asked.map(entry).collect()))
}

/// Tapes to run, photos to take, things to look into.
pub(super) fn to_do(job: &Job) -> Vec<Section> {
    [FollowUpKind::Measure, FollowUpKind::Photo, FollowUpKind::Check]
        .into_iter()
        .filter_map(|kind| Section::of(wording::follow_ups(kind), list(true, entries(job, kind, None))))
        .collect()
}

/// What is to be done of a kind, on one side or on all.
pub(super) fn entries(job: &Job, kind: FollowUpKind, only: Option<(&str, Side)>) -> Vec<Entry> {
    let here = |structure: &str, side: Side| only.is_none_or(|at| at == (structure, side));
    let said = job.to_do(kind).filter(|todo| here(&todo.structure, todo.side)).map(|todo| Entry {
        name: capital(&wording::whereabouts(&todo.structure, todo.side)),
        text: todo.item.as_deref().map(|item| wording::item(Some(item), item)).unwrap_or_default(),
        said: quote(job, &todo.quote, todo.start),
    });
    let lacking = job.takeoff.lacking.iter().filter(|_| kind == FollowUpKind::Measure);
    said.chain(lacking.filter(|lacking| here(&lacking.structure, lacking.side)).map(lacks)).collect()
}

fn lacks(lacking: &Lacking) -> Entry {
    let Lacking { structure, side, measure, purpose } = lacking;
    Entry {
        name: capital(&wording::whereabouts(structure, *side)),
        text: format!("{measure}, for {purpose}"),
        said: String::new(),
    }
}

pub(super) fn quote(job: &Job, words: &str, start: Option<Moment>) -> String {
    let time = start.map(|start| wording::time_in(&job.now.clips, start) + " ").unwrap_or_default();
    format!("{time}“{words}”")
}

fn cleared(job: &Job) -> Option<Section> {
    Section::of("Looked at: nothing to do", list(false, named(job, &job.now.no_work)))
}

fn unplaced(job: &Job) -> Option<Section> {
    Section::of(wording::UNPLACED, list(false, named(job, &job.now.unplaced)))
}

fn named(job: &Job, things: &[Cleared]) -> Vec<Entry> {
    let entry = |thing: &Cleared| Entry {
        name: capital(&wording::whereabouts(&thing.structure, thing.side)),
        text: thing.item.as_deref().map(|item| wording::item(Some(item), item)).unwrap_or_default(),
        said: quote(job, &thing.quote, thing.start),
    };
    things.iter().map(entry).collect()
}

/// The cautions that the work in the scope calls for, each with where its rule is published.
fn cautions(job: &Job) -> Option<Section> {
    let entry = |caution: &crate::model::Caution| Entry {
        name: String::new(),
        text: caution.text.clone(),
        said: caution.source.clone(),
    };
    Section::of("Cautions", list(false, job.now.cautions.iter().map(entry).collect()))
}
