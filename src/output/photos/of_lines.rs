//! Pictures that show a line, for papers that tell of lines and not of the whole visit.

use super::clock::Certainty;
use super::tie::{Tied, TiedPhoto};
use crate::model::{FollowUp, Line};
use crate::output::job::Job;

/// Those that show one line, each with that line only. What is unsure is left out: whoever gets such a paper wasn't there.
pub fn of_lines(job: &Job, tied: &Tied) -> Tied {
    let of_line = |photo: &TiedPhoto| {
        let line = shown(job, photo)?;
        Some(TiedPhoto { line: Some(line.id.clone()), follow_up: None, ..photo.clone() })
    };
    Tied {
        clock: tied.clock,
        photos: tied.photos.iter().filter_map(of_line).collect(),
        nowhere: Vec::new(),
        missing: Vec::new(),
    }
}

/// The line a picture shows: that of the thing whose photo was asked for, else the one that was being said.
fn shown<'a>(job: &'a Job, photo: &TiedPhoto) -> Option<&'a Line> {
    if photo.certainty == Certainty::Unsure {
        return None;
    }
    let asked = photo.follow_up.as_ref().and_then(|id| job.scope.follow_up(id));
    match asked {
        Some(task) => only_one(job, &task.follow_up),
        None => job.now.lines.iter().find(|line| Some(&line.id) == photo.line.as_ref()),
    }
}

/// The one line about the thing whose photo was asked for; none where there are several.
fn only_one<'a>(job: &'a Job, todo: &FollowUp) -> Option<&'a Line> {
    let is_it = |line: &&Line| {
        line.item.is_some()
            && line.item == todo.item
            && line.side == todo.side
            && line.structure == todo.structure
    };
    let mut lines = job.now.lines.iter().filter(is_it);
    lines.next().filter(|_| lines.next().is_none())
}
