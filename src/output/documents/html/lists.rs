//! What stands beside the lines: what to settle, what is still to be done, what was cleared, what to mind.

use crate::model::span::Moment;
use crate::model::wording::{self, capital};
use crate::model::{Caution, Cleared, Clip, Draft, FollowUp, FollowUpKind, Side};
use crate::scope::arrange::{Arranged, Numbered};
use maud::{Markup, html};

/// The lines that need a look, each with what to settle.
pub(super) fn to_settle(arranged: &Arranged) -> Markup {
    let lines: Vec<Numbered> = arranged.to_settle().collect();
    section("Needs a look", &lines, |Numbered { number, line, clips }| {
        html! {
            p {
                a href={ "#line-" (number) } { "Line " (number) }
                ", " (wording::whereabouts(&line.structure, line.side)) ": "
                strong { (wording::item_of(line)) }
            }
            @for look in wording::looks(line) { p { (look) } }
            (heard(clips, &line.quote, line.start))
        }
    })
}

/// The pictures to take, tapes to run and things to look into.
pub(super) fn follow_ups(draft: &Draft) -> Markup {
    html! {
        @for kind in [FollowUpKind::Photo, FollowUpKind::Measure, FollowUpKind::Check] {
            @let those: Vec<&FollowUp> = draft.follow_ups.iter().filter(|f| f.kind == kind).collect();
            (section(wording::follow_ups(kind), &those, |f| html! {
                (thing(&f.structure, f.side, f.item.as_deref()))
                (heard(&draft.clips, &f.quote, f.start))
            }))
        }
    }
}

/// What was looked at and needs nothing.
pub(super) fn cleared(draft: &Draft) -> Markup {
    seen(draft, "Looked at, nothing to do", &draft.no_work)
}

/// What was only named: no line, and nothing said is lost.
pub(super) fn mentioned(draft: &Draft) -> Markup {
    seen(draft, "Named in passing", &draft.mentioned)
}

/// Work and lengths whose thing is not clear.
pub(super) fn unplaced(draft: &Draft) -> Markup {
    seen(draft, wording::UNPLACED, &draft.unplaced)
}

fn seen(draft: &Draft, heading: &str, things: &[Cleared]) -> Markup {
    section(heading, things, |c: &Cleared| {
        html! {
            (thing(&c.structure, c.side, c.item.as_deref()))
            (heard(&draft.clips, &c.quote, c.start))
        }
    })
}

/// The faces that were measured for the takeoff, and how steep the roof is.
pub(super) fn dimensions(draft: &Draft) -> Markup {
    let faces =
        draft.dimensions.iter().map(|d| (&d.structure, d.side, wording::measured(d), &d.quote, d.start));
    let slopes = draft.slopes.iter().map(|s| (&s.structure, s.side, wording::slope(s), &s.quote, s.start));
    let all: Vec<_> = faces.chain(slopes).collect();
    section("Measured faces", &all, |(structure, side, told, quote, start)| {
        html! {
            p { (capital(&wording::whereabouts(structure, *side))) ": " strong { (told) } }
            (heard(&draft.clips, quote, *start))
        }
    })
}

/// What to mind at such work, with where the rule is published.
pub(super) fn cautions(draft: &Draft) -> Markup {
    section("Cautions", &draft.cautions, |c: &Caution| {
        html! {
            p { (c.text) }
            p.source { "Source: " (c.source) }
        }
    })
}

/// A heading and a list under it; nothing where there is nothing to list.
fn section<T>(heading: &str, entries: &[T], entry: impl Fn(&T) -> Markup) -> Markup {
    let class = heading.to_lowercase().replace(", ", "-").replace(' ', "-");
    html! {
        @if !entries.is_empty() {
            section class=(class) {
                h2 { (heading) " " span.count { (entries.len()) } }
                ul {
                    @for e in entries { li { (entry(e)) } }
                }
            }
        }
    }
}

fn thing(structure: &str, side: Side, item: Option<&str>) -> Markup {
    html! {
        p {
            (capital(&wording::whereabouts(structure, side)))
            @if let Some(item) = item { ": " strong { (wording::item(Some(item), "")) } }
        }
    }
}

fn heard(clips: &[Clip], quote: &str, start: Option<Moment>) -> Markup {
    html! {
        p.heard {
            @if let Some(start) = start { span.time { (wording::time_in(clips, start)) } " " }
            q { (quote) }
        }
    }
}
