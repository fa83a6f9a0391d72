//! What stands beside the lines.

use super::pen::{Pen, SOFT};
use crate::model::span::Moment;
use crate::model::wording::{self, capital};
use crate::model::{Cleared, Clip, Draft, FollowUpKind, Side};
use crate::scope::arrange::Arranged;

/// Where an entry's text begins, after its number or time.
const INDENT: usize = 9;

/// The same where times are within clips.
const INDENT_OF_CLIPS: usize = 12;

/// The lines that need a look, with the words to play back.
pub(super) fn to_settle(pen: &mut Pen, arranged: &Arranged) {
    let entries = arranged.to_settle().map(|numbered| {
        let line = numbered.line;
        let place = capital(&wording::whereabouts(&line.structure, line.side));
        let looks: Vec<String> = wording::looks(line).collect();
        let text = format!("{place}: {}. {}", wording::item_of(line), looks.join(" "));
        Entry { label: format!("line {}", numbered.number), text, quote: Some((&line.quote, line.start)) }
    });
    let clips = arranged.all().next().map(|line| line.clips).unwrap_or_default();
    list(pen, clips, "Needs a look", entries);
}

/// The pictures to take, tapes to run and things to look into.
pub(super) fn follow_ups(pen: &mut Pen, draft: &Draft) {
    for kind in [FollowUpKind::Photo, FollowUpKind::Measure, FollowUpKind::Check] {
        let those = draft.follow_ups.iter().filter(|f| f.kind == kind);
        let entries = those.map(|f| Entry {
            label: time(&draft.clips, f.start),
            text: thing(&f.structure, f.side, f.item.as_deref(), &f.quote),
            quote: None,
        });
        list(pen, &draft.clips, wording::follow_ups(kind), entries);
    }
}

/// The faces that were measured for the takeoff.
pub(super) fn dimensions(pen: &mut Pen, draft: &Draft) {
    let entry = |structure: &str, side, start, told: String| {
        let place = capital(&wording::whereabouts(structure, side));
        Entry { label: time(&draft.clips, start), text: format!("{place}: {told}"), quote: None }
    };
    let faces = draft.dimensions.iter().map(|d| entry(&d.structure, d.side, d.start, wording::measured(d)));
    let slopes = draft.slopes.iter().map(|s| entry(&s.structure, s.side, s.start, wording::slope(s)));
    let entries = faces.chain(slopes);
    list(pen, &draft.clips, "Measured faces", entries);
}

/// What was looked at and needs nothing.
pub(super) fn cleared(pen: &mut Pen, draft: &Draft) {
    seen(pen, draft, "Looked at, nothing to do", &draft.no_work);
}

/// What was only named: no line, and nothing said is lost.
pub(super) fn mentioned(pen: &mut Pen, draft: &Draft) {
    seen(pen, draft, "Named in passing", &draft.mentioned);
}

/// Work and lengths whose thing is not clear.
pub(super) fn unplaced(pen: &mut Pen, draft: &Draft) {
    seen(pen, draft, wording::UNPLACED, &draft.unplaced);
}

fn seen(pen: &mut Pen, draft: &Draft, heading: &str, things: &[Cleared]) {
    let entries = things.iter().map(|c| Entry {
        label: time(&draft.clips, c.start),
        text: thing(&c.structure, c.side, c.item.as_deref(), &c.quote),
        quote: None,
    });
    list(pen, &draft.clips, heading, entries);
}

/// What to mind at such work.
pub(super) fn cautions(pen: &mut Pen, draft: &Draft) {
    let entries = draft.cautions.iter().map(|c| Entry {
        label: "-".to_owned(),
        text: format!("{} ({})", c.text, c.source),
        quote: None,
    });
    list(pen, &draft.clips, "Cautions", entries);
}

/// An entry of a list.
struct Entry<'a> {
    label: String,
    text: String,
    quote: Option<(&'a str, Option<Moment>)>,
}

fn list<'a>(pen: &mut Pen, clips: &[Clip], heading: &str, entries: impl Iterator<Item = Entry<'a>>) {
    let indent = if clips.len() < 2 { INDENT } else { INDENT_OF_CLIPS };
    for (n, entry) in entries.enumerate() {
        if n == 0 {
            pen.heading(heading);
        }
        pen.labelled(&entry.label, indent, &entry.text);
        if let Some((quote, start)) = entry.quote {
            pen.text(SOFT, indent, format!("{} “{quote}”", time(clips, start)).trim_start());
        }
    }
}

fn thing(structure: &str, side: Side, item: Option<&str>, quote: &str) -> String {
    let place = capital(&wording::whereabouts(structure, side));
    match item {
        Some(item) => format!("{place}: {}, “{quote}”", wording::item(Some(item), "")),
        None => format!("{place}: “{quote}”"),
    }
}

fn time(clips: &[Clip], moment: Option<Moment>) -> String {
    moment.map(|moment| wording::short_time_in(clips, moment)).unwrap_or_default()
}
