//! What is left to do, and what people did, as sheets.

use super::grid::{Cell, Grid};
use crate::model::{FollowUpKind, wording};
use crate::output::job::Job;
use crate::output::rows::time_and_clip;
use crate::scope::review::{Event, FollowUpEntry};
use crate::scope::takeoff::Lacking;

const FOLLOW_UPS: [(&str, f64); 10] = [
    ("Kind", 10.0),
    ("Structure", 12.0),
    ("Side", 10.0),
    ("Item", 22.0),
    ("Words", 50.0),
    ("Time", 8.0),
    ("Clip", 14.0),
    ("Done by", 14.0),
    ("Done at", 22.0),
    ("Measurement", 20.0),
];

const HISTORY: [(&str, f64); 4] = [("Number", 8.0), ("Who", 18.0), ("When", 28.0), ("What", 90.0)];

/// Photos, measurements and checks, done or not, and the measurements that the takeoff lacks.
pub(super) fn follow_ups(job: &Job) -> Grid {
    let said = job.scope.follow_ups.iter().map(|todo| task(job, todo));
    let rows = said.chain(job.takeoff.lacking.iter().map(lacking)).collect();
    Grid { name: "Follow-ups", columns: FOLLOW_UPS.to_vec(), rows }
}

/// What people did.
pub(super) fn history(job: &Job) -> Grid {
    let row = |event: &Event| {
        let Event { number, who, at, summary, .. } = event;
        vec![
            Cell::Count(*number as usize),
            Cell::text(who),
            Cell::Text(wording::date_and_time(at)),
            Cell::text(summary),
        ]
    };
    Grid { name: "History", columns: HISTORY.to_vec(), rows: job.events.iter().map(row).collect() }
}

fn task(job: &Job, task: &FollowUpEntry) -> Vec<Cell> {
    let todo = &task.follow_up;
    let item = todo.item.as_deref().map(|item| wording::item(Some(item), item));
    let (time, clip) = todo.start.map(|start| time_and_clip(job, start)).unwrap_or_default();
    let done = task.done.as_ref();
    let note = done.and_then(|done| done.note.clone()).unwrap_or_default();
    vec![
        Cell::text(kind(todo.kind)),
        Cell::text(&todo.structure),
        Cell::text(wording::side(todo.side)),
        Cell::Text(item.unwrap_or_default()),
        Cell::text(&todo.quote),
        Cell::Text(time),
        Cell::Text(clip),
        Cell::text(done.map_or("", |done| &done.who)),
        Cell::Text(done.map(|done| wording::date_and_time(&done.at)).unwrap_or_default()),
        Cell::Text(note),
    ]
}

fn lacking(lacking: &Lacking) -> Vec<Cell> {
    let Lacking { structure, side, measure, purpose } = lacking;
    let mut cells = vec![
        Cell::text(kind(FollowUpKind::Measure)),
        Cell::text(structure),
        Cell::text(wording::side(*side)),
        Cell::Empty,
        Cell::Text(format!("{measure}, for {purpose}")),
    ];
    cells.resize(FOLLOW_UPS.len(), Cell::Empty);
    cells
}

fn kind(kind: FollowUpKind) -> &'static str {
    match kind {
        FollowUpKind::Photo => "photo",
        FollowUpKind::Measure => "measurement",
        FollowUpKind::Check => "check",
    }
}
