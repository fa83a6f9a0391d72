//! Lists of what isn't a line.

use crate::model::span::Moment;
use crate::model::wording::{self, capital};
use crate::model::{Caution, Cleared, Clip, Draft, FollowUp, Side};
use crate::output::page::{Entry, Said, Section};

/// A photo, a measurement or a check that is still needed.
pub fn followed_up(clips: &[Clip], follow_up: &FollowUp) -> Entry {
    let FollowUp { structure, side, item, quote, start, .. } = follow_up;
    thing(clips, (structure, *side), item.as_deref(), (quote, *start))
}

/// What was looked at and needs nothing.
pub fn cleared(draft: &Draft) -> Option<Section> {
    named("Looked at, nothing to do", draft, &draft.no_work)
}

/// Work and lengths whose thing is not clear.
pub fn unused(draft: &Draft) -> Option<Section> {
    named(wording::NOT_USED, draft, &draft.unplaced)
}

/// What was only named.
pub fn mentioned(draft: &Draft) -> Option<Section> {
    named("Mentioned, no work", draft, &draft.mentioned)
}

fn named(heading: &str, draft: &Draft, things: &[Cleared]) -> Option<Section> {
    let entry = |Cleared { structure, side, item, quote, start, .. }: &Cleared| {
        thing(&draft.clips, (structure, *side), item.as_deref(), (quote, *start))
    };
    Section::listing(heading, false, things.iter().map(entry).collect())
}

/// What the work calls for, each with where its rule is published.
pub fn cautions(cautions: &[Caution]) -> Option<Section> {
    let entry = |Caution { name, text, source }: &Caution| Entry {
        name: wording::caution(name),
        text: text.clone(),
        source: wording::source(source),
        ..Entry::default()
    };
    Section::listing("Cautions", false, cautions.iter().map(entry).collect())
}

fn thing(
    clips: &[Clip],
    (structure, side): (&str, Side),
    item: Option<&str>,
    (words, start): (&str, Option<Moment>),
) -> Entry {
    let time = start.map(|start| wording::time_in(clips, start)).unwrap_or_default();
    Entry {
        name: capital(&wording::whereabouts(structure, side)),
        text: item.map(|item| wording::item(Some(item), item)).unwrap_or_default(),
        said: Some(Said { time, words: words.to_owned() }),
        ..Entry::default()
    }
}
