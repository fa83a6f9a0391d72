//! By how much the camera's clock is ahead of the recorder's, found from when pictures were taken and when photos were
//! spoken of.

use super::line_of_time::Wall;
use super::tie::is_of_photo;
use crate::model::FollowUpKind;
use crate::model::span::Moment;
use crate::output::job::Job;
use std::collections::BTreeSet;

/// How sure something is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Certainty {
    /// It may well be otherwise.
    Unsure,
    /// It fits better than anything else.
    Likely,
    /// Nothing else fits.
    Sure,
}

impl Certainty {
    /// In a word.
    pub fn told(self) -> &'static str {
        match self {
            Self::Unsure => "unsure",
            Self::Likely => "likely",
            Self::Sure => "sure",
        }
    }
}

/// How the camera's clock stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// So many seconds it is ahead of the recorder's.
    pub ahead: i64,
    /// How sure that is.
    pub certainty: Certainty,
    /// How many pictures fall within the recording by it.
    pub within: usize,
    /// How many times that a photo was spoken of have one taken then.
    pub near: usize,
}

const SECOND: i64 = 1000;
/// A picture is usually taken so long after the words.
const USUAL_LAG: i64 = 3 * SECOND;
/// A picture taken so far off that belongs to the words still.
const REACH: i64 = 15 * SECOND;
/// Clocks that are set differ by less than this; what is less is when somebody pressed the button.
const HABIT: i64 = 30;
/// Zones differ by quarters of an hour.
const QUARTER: i64 = 15 * 60;
/// No zone and no morning taken for an evening is further off.
const FURTHEST: i64 = 26 * 3600;
/// Two clocks that differ by less are the same answer.
const SAME: i64 = 60;
/// What a picture within the recording counts, and at most what one beside words of a photo and one beside a line do.
const WITHIN: i64 = 10_000;
const BESIDE_WORDS: i64 = 8_000;
const BESIDE_A_LINE: i64 = 1_000;
/// What a clock costs that is wrong by a zone, and one that is just wrong.
const ZONE: i64 = 4_000;
const WRONG: i64 = 8_000;

/// What the clocks are compared by.
struct Evidence {
    /// When the pictures were taken, by the camera, in order.
    taken: Vec<i64>,
    /// When photos were spoken of, by the recorder.
    words: Vec<i64>,
    /// When lines were spoken.
    lines: Vec<i64>,
}

/// Finds how the camera's clock stands; none without pictures.
pub(super) fn find(job: &Job, wall: &Wall, mut taken: Vec<i64>) -> Option<Clock> {
    taken.sort_unstable();
    let on_wall = |moments: Vec<Moment>| -> Vec<i64> {
        let mut said: Vec<i64> = moments.into_iter().filter_map(|moment| wall.said(moment)).collect();
        said.sort_unstable();
        said
    };
    let evidence = Evidence { taken, words: on_wall(words(job)), lines: on_wall(lines(job)) };
    let mut scored: Vec<(i64, i64)> =
        evidence.candidates().into_iter().map(|ahead| (evidence.score(wall, ahead), ahead)).collect();
    scored.sort_by_key(|(score, ahead)| (-score, ahead.abs(), *ahead));
    let (best, ahead) = *scored.first().filter(|_| !evidence.taken.is_empty())?;
    let second = scored.iter().find(|(_, other)| (other - ahead).abs() > SAME).map_or(0, |(score, _)| *score);
    let [within, near] = evidence.counts(wall, ahead);
    let all = within == evidence.taken.len();
    // The share by which it is better than the best of the others, in hundredths.
    let margin = (best - second.max(0)) * 100 / best.max(1);
    let certainty = match (near, margin) {
        _ if ahead == 0 && all && near > 0 => Certainty::Sure,
        (3.., 10..) => Certainty::Sure,
        (2.., 4..) => Certainty::Likely,
        _ if ahead == 0 && all => Certainty::Likely,
        _ => Certainty::Unsure,
    };
    Some(Clock { ahead, certainty, within, near })
}

/// A clock that somebody set.
pub(super) fn given(job: &Job, wall: &Wall, taken: Vec<i64>, ahead: i64) -> Clock {
    let words = words(job).into_iter().filter_map(|moment| wall.said(moment)).collect();
    let [within, near] = Evidence { taken, words, lines: Vec::new() }.counts(wall, ahead);
    Clock { ahead, certainty: Certainty::Sure, within, near }
}

/// When a photo was spoken of: to be taken, or with a line.
fn words(job: &Job) -> Vec<Moment> {
    let tasks = job.scope.follow_ups.iter().map(|task| &task.follow_up);
    let tasks = tasks.filter(|todo| todo.kind == FollowUpKind::Photo).filter_map(|todo| todo.start);
    let lines = job.now.lines.iter().filter(|line| is_of_photo(&line.quote)).filter_map(|line| line.start);
    tasks.chain(lines).collect::<BTreeSet<Moment>>().into_iter().collect()
}

fn lines(job: &Job) -> Vec<Moment> {
    job.now.lines.iter().filter_map(|line| line.start).collect()
}

impl Evidence {
    /// The clocks that put some picture beside some words, in seconds, and the one that is right.
    fn candidates(&self) -> BTreeSet<i64> {
        // With a few words of photos the lines tell nothing more, and there are many of them.
        let anchors =
            if self.words.len() < 3 { [&self.words[..], &self.lines].concat() } else { self.words.clone() };
        let pairs =
            self.taken.iter().flat_map(|taken| anchors.iter().map(move |said| taken - said - USUAL_LAG));
        let clocks = pairs.map(|ahead| as_set(ahead.div_euclid(SECOND)));
        clocks.filter(|ahead| ahead.abs() <= FURTHEST).chain([0]).collect()
    }

    fn score(&self, wall: &Wall, ahead: i64) -> i64 {
        let shift = ahead * SECOND;
        let within = self.within(wall, shift) as i64 * WITHIN;
        let words: i64 = self
            .words
            .iter()
            .map(|said| closeness(gap(&self.taken, said + USUAL_LAG + shift), BESIDE_WORDS))
            .sum();
        let beside = |taken: &i64| closeness(gap(&self.lines, taken - shift - USUAL_LAG), BESIDE_A_LINE);
        let lines: i64 = self.taken.iter().map(beside).sum();
        let cost = match ahead {
            0 => 0,
            ahead if ahead % QUARTER == 0 => ZONE,
            _ => WRONG,
        };
        within + words + lines - cost
    }

    fn within(&self, wall: &Wall, shift: i64) -> usize {
        self.taken.iter().filter(|taken| wall.moment(*taken - shift, 0).is_some()).count()
    }

    /// How many pictures fall within the recording, and how many words of a photo have one.
    fn counts(&self, wall: &Wall, ahead: i64) -> [usize; 2] {
        let mut taken = self.taken.clone();
        taken.sort_unstable();
        let shift = ahead * SECOND;
        let near = self.words.iter().filter(|said| gap(&taken, *said + USUAL_LAG + shift) <= REACH).count();
        [self.within(wall, shift), near]
    }
}

/// As a clock is set: right, or off by a zone, where what is left is habit.
fn as_set(ahead: i64) -> i64 {
    let zone = (ahead + QUARTER / 2).div_euclid(QUARTER) * QUARTER;
    if (ahead - zone).abs() < HABIT { zone } else { ahead }
}

/// How far the nearest of some times is, which stand in order.
fn gap(times: &[i64], at: i64) -> i64 {
    let after = times.partition_point(|time| *time < at);
    let around = [after.checked_sub(1).and_then(|before| times.get(before)), times.get(after)];
    around.into_iter().flatten().map(|time| (time - at).abs()).min().unwrap_or(i64::MAX)
}

/// What so large a gap counts: all where there is none, nothing from the reach on.
fn closeness(gap: i64, all: i64) -> i64 {
    if gap >= REACH { 0 } else { all * (REACH - gap) / REACH }
}
