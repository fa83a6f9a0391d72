//! A draft, or a transcript, as a terminal shows it.
//!
//! Takes one and a width, gives text with colors in it. It prints nothing.

mod lines;
mod lists;
mod pen;
mod words;

#[cfg(feature = "compare")]
mod compare;
#[cfg(feature = "server")]
mod day;

#[cfg(feature = "compare")]
pub use compare::compare;
#[cfg(feature = "server")]
pub use day::day;
pub use words::words;

use crate::model::Draft;
use crate::model::wording::{self, CLOSING, sentence};
use crate::scope::arrange::Arranged;
use pen::{PLAIN, Pen, SOFT, STRONG, WARN};

/// How much is told of each line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// The line.
    Lines,
    /// The line, and which words and rules gave it.
    Why,
}

/// The whole draft: what a page of it shows, in the same order and with the same numbers.
pub fn draft(draft: &Draft, width: usize, depth: Depth) -> String {
    let arranged = Arranged::new(draft);
    let mut pen = Pen::new(width);
    head(&mut pen, draft);
    lines::by_place(&mut pen, &arranged, depth);
    lines::only_if(&mut pen, &arranged, depth);
    lists::to_settle(&mut pen, &arranged);
    lists::follow_ups(&mut pen, draft);
    lists::dimensions(&mut pen, draft);
    lists::cleared(&mut pen, draft);
    lists::unplaced(&mut pen, draft);
    lists::mentioned(&mut pen, draft);
    lists::cautions(&mut pen, draft);
    pen.skip();
    CLOSING.iter().for_each(|line| pen.text(SOFT, 0, line));
    pen.finish()
}

fn head(pen: &mut Pen, draft: &Draft) {
    pen.text(STRONG, 0, &draft.source);
    let recording = wording::recording(draft).unwrap_or_default();
    pen.text(PLAIN, 0, &(recording + &sentence(&wording::summary(draft))));
    for (clip, number) in draft.clips.iter().zip(1..) {
        pen.text(SOFT, 0, &format!("#{number} is {}", wording::clip(clip)));
    }
    draft.notices.iter().for_each(|notice| pen.text(WARN, 0, &sentence(notice)));
}
