//! Ties pictures to what was being said when they were taken.

use super::clock::{self, Certainty, Clock};
use super::line_of_time::{Stretch, Wall};
use super::read::Photo;
use super::taken::Stamp;
use crate::model::FollowUpKind;
use crate::model::span::Moment;
use crate::model::wording::date_and_time;
use crate::output::job::Job;
use crate::scope::review::FollowUpEntry;

/// The pictures of a visit, tied.
#[derive(Debug, Clone, PartialEq)]
pub struct Tied {
    /// How the camera's clock stands; none where that can't be told.
    pub clock: Option<Clock>,
    /// Those that fall within the recording, in the order they were taken.
    pub photos: Vec<TiedPhoto>,
    /// Those that fit nowhere.
    pub nowhere: Vec<Stray>,
    /// The ids of the photos still to be taken that no picture was taken for.
    pub missing: Vec<String>,
}

/// A picture and what was being said.
#[derive(Debug, Clone, PartialEq)]
pub struct TiedPhoto {
    /// Which picture, from 0.
    pub photo: usize,
    /// Its file.
    pub file: String,
    /// When it was taken, by its own clock.
    pub taken: Stamp,
    /// The same on the visit's line of time.
    pub at: Moment,
    /// The id of the line that was being spoken.
    pub line: Option<String>,
    /// The id of the photo that was asked for.
    pub follow_up: Option<String>,
    /// How sure that is.
    pub certainty: Certainty,
}

/// A picture that fits nowhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stray {
    /// Its file.
    pub file: String,
    /// Why.
    pub why: String,
}

/// A picture taken so soon before or after the recording belongs to it, in milliseconds.
const SLACK: i64 = 30_000;
/// Words so far from a picture have nothing to do with it.
const FAR: u64 = 60_000;
/// Words of a photo so far from a picture ask for another one.
const FAR_FOR_A_PHOTO: u64 = 30_000;
/// Up to here it is sure, and likely, that the words belong to the picture.
const SURE: u64 = 6_000;
const LIKELY: u64 = 20_000;

/// Whether words speak of a photo.
pub(super) fn is_of_photo(words: &str) -> bool {
    let words = words.to_lowercase();
    ["photo", "picture", "snapshot"].iter().any(|word| words.contains(word))
}

/// Ties pictures to lines. `clock`: by how many seconds the camera's clock is ahead, where somebody knows; else it is
/// found.
pub fn tie(job: &Job, photos: &[Photo], stretches: &[Stretch], clock: Option<i64>) -> Tied {
    let wall = Wall::new(stretches);
    let taken = photos.iter().filter_map(|photo| wall.taken(&photo.taken?)).collect();
    let clock = match clock {
        _ if stretches.is_empty() => None,
        Some(ahead) => Some(clock::given(job, &wall, taken, ahead)),
        None => clock::find(job, &wall, taken),
    };
    let mut tied = Tied { clock, photos: Vec::new(), nowhere: Vec::new(), missing: Vec::new() };
    for (n, photo) in photos.iter().enumerate() {
        match placed(&wall, clock, photo) {
            Ok((taken, at)) => tied.photos.push(beside(job, clock, n, photo, taken, at)),
            Err(why) => tied.nowhere.push(Stray { file: photo.file.clone(), why }),
        }
    }
    tied.photos.sort_by_key(|photo| photo.at);
    let has_one =
        |task: &FollowUpEntry| tied.photos.iter().any(|photo| photo.follow_up.as_ref() == Some(&task.id));
    let missing = tasks(job).filter(|task| task.done.is_none() && !has_one(task));
    tied.missing = missing.map(|task| task.id.clone()).collect();
    tied
}

/// When on the visit's line of time a picture was taken.
fn placed(wall: &Wall, clock: Option<Clock>, photo: &Photo) -> Result<(Stamp, Moment), String> {
    let taken = photo.taken.ok_or("neither the file nor its name says when it was taken")?;
    let clock = clock.ok_or("it isn't known when the recording began: give the time with --recorded-at")?;
    let at = wall.taken(&taken).and_then(|on_wall| wall.moment(on_wall - clock.ahead * 1000, SLACK));
    at.map(|at| (taken, at))
        .ok_or_else(|| format!("taken on {}, outside the recording", date_and_time(&taken.shown.to_string())))
}

fn beside(job: &Job, clock: Option<Clock>, n: usize, photo: &Photo, taken: Stamp, at: Moment) -> TiedPhoto {
    let lines = job.now.lines.iter().map(|line| (&line.id, line.start, line.end));
    let asked = tasks(job).map(|task| (&task.id, task.follow_up.start, task.follow_up.end));
    let line = nearest(at, lines, FAR);
    let follow_up = nearest(at, asked, FAR_FOR_A_PHOTO);
    let gap = [&line, &follow_up].into_iter().flatten().map(|(gap, _)| *gap).min();
    let by_words = match gap {
        Some(..=SURE) => Certainty::Sure,
        Some(..=LIKELY) => Certainty::Likely,
        _ => Certainty::Unsure,
    };
    TiedPhoto {
        photo: n,
        file: photo.file.clone(),
        taken,
        at,
        line: line.map(|(_, id)| id.clone()),
        follow_up: follow_up.map(|(_, id)| id.clone()),
        certainty: by_words.min(clock.map_or(Certainty::Unsure, |clock| clock.certainty)),
    }
}

/// The photos that were asked for.
fn tasks<'a>(job: &'a Job) -> impl Iterator<Item = &'a FollowUpEntry> {
    job.scope.follow_ups.iter().filter(|task| task.follow_up.kind == FollowUpKind::Photo)
}

/// What was said nearest to a moment, and how far off. What comes only after it counts as twice as far: one points the
/// camera at what one has just spoken of.
fn nearest<'a>(
    at: Moment,
    said: impl Iterator<Item = (&'a String, Option<Moment>, Option<Moment>)>,
    far: u64,
) -> Option<(u64, &'a String)> {
    let gap = |start: Moment, end: Moment| {
        let until = start.0.saturating_sub(at.0) * 2;
        until.max(at.0.saturating_sub(end.0))
    };
    let gaps = said.filter_map(|(id, start, end)| Some((gap(start?, end.or(start)?), id)));
    gaps.filter(|(gap, _)| *gap <= far).min_by_key(|(gap, _)| *gap)
}
