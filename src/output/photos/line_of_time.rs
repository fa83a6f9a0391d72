//! The recordings of a visit on the wall clock of its recorder. On the visit's own line of time the clips stand end to
//! end; on the wall there are gaps between them.

use super::taken::Stamp;
use crate::model::span::Moment;
use crate::output::job::Job;

/// A recording, or a clip of a visit, and when it was begun.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// When it was begun, on the wall.
    pub begun: Stamp,
    /// When it begins on the visit's line of time.
    pub start: Moment,
    /// How long it is, in milliseconds.
    pub length: u64,
}

/// The recordings whose beginning is known: as it is given, one a clip in their order, else as the file's name tells
/// it. Empty where none is known, and for text.
pub fn stretches(job: &Job, given: &[Stamp]) -> Vec<Stretch> {
    let now = &job.now;
    let of_name = |name: &str| Stamp::of_name(name);
    if now.clips.is_empty() {
        let begun = given.first().copied().or_else(|| of_name(&now.source));
        let stretch =
            |(begun, length): (Stamp, Moment)| Stretch { begun, start: Moment(0), length: length.0 };
        return begun.zip(now.length).map(stretch).into_iter().collect();
    }
    let clip = |(n, clip): (usize, &crate::model::Clip)| {
        let begun = given.get(n).copied().or_else(|| of_name(&clip.source))?;
        Some(Stretch { begun, start: clip.start, length: clip.length?.0 })
    };
    now.clips.iter().enumerate().filter_map(clip).collect()
}

/// The visit on the wall clock of its first recording, in milliseconds.
pub(super) struct Wall<'a> {
    stretches: &'a [Stretch],
}

impl<'a> Wall<'a> {
    pub fn new(stretches: &'a [Stretch]) -> Self {
        Self { stretches }
    }

    /// When a picture was taken by its own clock, on this wall.
    pub fn taken(&self, stamp: &Stamp) -> Option<i64> {
        Some(stamp.on_clock_of(&self.stretches.first()?.begun))
    }

    fn begun(&self, stretch: &Stretch) -> i64 {
        self.taken(&stretch.begun).unwrap_or_default()
    }

    /// When something was said.
    pub fn said(&self, moment: Moment) -> Option<i64> {
        let stretch = self.stretches.iter().rfind(|stretch| stretch.start <= moment)?;
        let into = moment.0 - stretch.start.0;
        (into <= stretch.length).then(|| self.begun(stretch) + into as i64)
    }

    /// The moment of the visit at a time on the wall, up to `slack` milliseconds before or after a recording.
    pub fn moment(&self, wall: i64, slack: i64) -> Option<Moment> {
        let outside = |stretch: &Stretch| {
            let into = wall - self.begun(stretch);
            (-into).max(into - stretch.length as i64).max(0)
        };
        let nearest = self.stretches.iter().min_by_key(|stretch| outside(stretch))?;
        let into = (wall - self.begun(nearest)).clamp(0, nearest.length as i64);
        (outside(nearest) <= slack).then_some(Moment(nearest.start.0 + into as u64))
    }
}
