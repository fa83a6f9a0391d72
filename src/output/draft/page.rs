//! The draft as a page.

use crate::model::span::Moment;
use crate::model::wording::{self, capital, sentence};
use crate::model::{Draft, FollowUpKind, Line, Side};
use crate::output::page::{Entry, Link, Page, Said, Section};
use crate::output::parts::{self, Depth, Lines, anchor, closing, followed_up, property, said};
use crate::scope::arrange::{Arranged, Numbered};

/// The whole draft, with so much told of each line.
pub fn page(draft: &Draft, depth: Depth) -> Page {
    let arranged = Arranged::new(draft);
    let lines = Lines { arranged: &arranged, depth, needs_review: &Line::needs_look };
    let mut sections = parts::standing(&lines);
    sections.extend(parts::only_if(&lines));
    sections.extend(to_review(&arranged));
    sections.extend(follow_ups(draft));
    sections.extend(measurements(draft));
    sections.extend(parts::cleared(draft));
    sections.extend(parts::unused(draft));
    sections.extend(parts::mentioned(draft));
    sections.extend(parts::cautions(&draft.cautions));
    Page {
        kind: "Draft scope of work".to_owned(),
        title: property(&draft.source).to_owned(),
        summary: summary(draft),
        notices: draft.notices.iter().map(|notice| sentence(notice)).collect(),
        sections,
        closing: closing().into_iter().chain(files(draft)).collect(),
        ..Page::default()
    }
}

fn summary(draft: &Draft) -> Vec<String> {
    let clips = draft.clips.iter().zip(1..);
    let clips = clips.map(|(clip, number)| format!("Clip {number}: {}.", wording::clip(clip)));
    let counts = sentence(&wording::summary(draft));
    wording::recording(draft).into_iter().chain([counts]).chain(clips).collect()
}

/// The lines that need review, each with what for and the words to play back.
fn to_review(arranged: &Arranged) -> Option<Section> {
    let entry = |numbered: Numbered| {
        let Numbered { number, line, .. } = numbered;
        let place = wording::whereabouts(&line.structure, line.side);
        let looks: Vec<String> = wording::looks(line).collect();
        Entry {
            name: format!("Line {number}"),
            link: Some(Link::Row(anchor(number))),
            text: format!("{}, {}. {}", capital(&place), wording::item_of(line), looks.join(" ")),
            said: Some(said(&numbered)),
            ..Entry::default()
        }
    };
    Section::listing("Needs review", true, arranged.to_review().map(entry).collect())
}

/// The photos, measurements and checks that are still needed.
fn follow_ups(draft: &Draft) -> impl Iterator<Item = Section> {
    let kinds = [FollowUpKind::Photo, FollowUpKind::Measure, FollowUpKind::Check];
    kinds.into_iter().filter_map(|kind| {
        let those = draft.follow_ups.iter().filter(|follow_up| follow_up.kind == kind);
        let entries = those.map(|follow_up| followed_up(&draft.clips, follow_up)).collect();
        Section::listing(wording::follow_ups(kind), true, entries)
    })
}

/// What was measured for the takeoff, and how steep the roof is.
fn measurements(draft: &Draft) -> Option<Section> {
    let entry = |structure: &str, side: Side, text: String, words: &str, start: Option<Moment>| {
        let time = start.map(|start| wording::time_in(&draft.clips, start)).unwrap_or_default();
        let said = Some(Said { time, words: words.to_owned() });
        Entry { name: capital(&wording::whereabouts(structure, side)), text, said, ..Entry::default() }
    };
    let walls =
        draft.dimensions.iter().map(|d| entry(&d.structure, d.side, wording::measured(d), &d.quote, d.start));
    let slopes =
        draft.slopes.iter().map(|s| entry(&s.structure, s.side, wording::slope(s), &s.quote, s.start));
    Section::listing("Measurements", false, walls.chain(slopes).collect())
}

/// The files that the draft came from, each with what tells whether it is still the same.
fn files(draft: &Draft) -> Vec<String> {
    let told = |name: &str, digest: &Option<String>| {
        digest.as_ref().map(|digest| format!("SHA-256 of {name}: {digest}"))
    };
    match draft.clips.as_slice() {
        [] => told(&draft.source, &draft.digest).into_iter().collect(),
        clips => clips.iter().filter_map(|clip| told(&clip.source, &clip.digest)).collect(),
    }
}
