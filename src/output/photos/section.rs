//! Photos on paper.

use super::read::Photo;
use super::tie::{Stray, Tied, TiedPhoto};
use crate::model::wording::{self, capital};
use crate::output::job::Job;
use crate::output::page::{Block, Entry, Picture, Said, Section, list};
use crate::output::parts::followed_up;

/// The pictures with what was being said, those that lack and those that fit nowhere; none where there are none.
pub fn section(job: &Job, tied: &Tied, photos: &[Photo]) -> Option<Section> {
    let mut blocks: Vec<Block> = clock(tied).map(Block::Text).into_iter().collect();
    let (shown, named): (Vec<_>, Vec<_>) =
        tied.photos.iter().partition(|tied| photos[tied.photo].thumbnail.is_some());
    let pictures: Vec<Picture> =
        shown.iter().filter_map(|tied| picture(job, tied, &photos[tied.photo])).collect();
    if !pictures.is_empty() {
        blocks.push(Block::Pictures(pictures));
    }
    blocks.extend(list(false, named.iter().map(|tied| entry(job, tied, &photos[tied.photo])).collect()));
    add(&mut blocks, "Asked for, but no picture was taken then:", true, missing(job, tied));
    let nowhere = tied.nowhere.iter().map(stray).collect();
    add(&mut blocks, "Pictures that match no part of the recording:", false, nowhere);
    Section::of("Photos", blocks)
}

fn add(blocks: &mut Vec<Block>, heading: &str, ticks: bool, entries: Vec<Entry>) {
    if !entries.is_empty() {
        blocks.push(Block::Text(heading.to_owned()));
        blocks.extend(list(ticks, entries));
    }
}

/// How the clocks stand, in a sentence.
fn clock(tied: &Tied) -> Option<String> {
    let clock = tied.clock?;
    let much = match clock.ahead {
        0 => "agrees with the recorder's".to_owned(),
        ahead => {
            let of = if ahead > 0 { "ahead of" } else { "behind" };
            format!("is {} {of} the recorder's", lasting(ahead.unsigned_abs()))
        }
    };
    let taken = wording::count(clock.within, "picture was", "pictures were");
    Some(format!(
        "The camera's clock {much} ({}). By that clock, {taken} taken during the recording.",
        clock.certainty.told()
    ))
}

/// So many seconds: `1 h 2 min 3 s`.
fn lasting(seconds: u64) -> String {
    let parts = [(seconds / 3600, "h"), (seconds / 60 % 60, "min"), (seconds % 60, "s")];
    let told =
        parts.iter().filter(|(number, _)| *number > 0).map(|(number, unit)| format!("{number} {unit}"));
    told.collect::<Vec<_>>().join(" ")
}

fn picture(job: &Job, tied: &TiedPhoto, photo: &Photo) -> Option<Picture> {
    let small = photo.thumbnail.clone()?;
    let Entry { name, text, said, .. } = entry(job, tied, photo);
    let said = said.map(|said| said.told()).unwrap_or_default();
    let caption = [name, text].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(". ");
    let told =
        if said.is_empty() { format!("Photo {}", tied.file) } else { format!("Photo taken at {said}") };
    Some(Picture { jpeg: small.jpeg, width: small.width, height: small.height, caption, told })
}

/// A picture in words: what it is tied to, its time and file, and how sure that is.
fn entry(job: &Job, tied: &TiedPhoto, photo: &Photo) -> Entry {
    let line = tied.line.as_ref().and_then(|id| job.now.lines.iter().find(|line| line.id == *id));
    let task = tied.follow_up.as_ref().and_then(|id| job.scope.follow_up(id)).map(|task| &task.follow_up);
    let (name, said) = match (task, line) {
        (Some(todo), _) => {
            let Entry { name, text, said, .. } = followed_up(&job.now.clips, todo);
            (if text.is_empty() { name } else { format!("{name}: {text}") }, said)
        }
        (None, Some(line)) => {
            let place = wording::whereabouts(&line.structure, line.side);
            let time = line.start.map(|start| wording::time_in(&job.now.clips, start)).unwrap_or_default();
            let said = Said { time, words: line.quote.clone() };
            (capital(&format!("{place}: {}", wording::item_of(line))), Some(said))
        }
        (None, None) => ("No line near it".to_owned(), None),
    };
    let time = wording::time_in(&job.now.clips, tied.at);
    let location = photo.location.as_ref().map(|place| format!(", {place}")).unwrap_or_default();
    let text = format!("{}, {time}, {}{location}", tied.file, tied.certainty.told());
    Entry { name, text, said, ..Entry::default() }
}

fn missing(job: &Job, tied: &Tied) -> Vec<Entry> {
    let todo = |id: &String| job.scope.follow_up(id).map(|task| &task.follow_up);
    tied.missing.iter().filter_map(todo).map(|todo| followed_up(&job.now.clips, todo)).collect()
}

fn stray(stray: &Stray) -> Entry {
    Entry { name: stray.file.clone(), text: stray.why.clone(), ..Entry::default() }
}
