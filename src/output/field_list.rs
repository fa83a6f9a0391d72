//! The field list: what the rep still has to photograph, measure and check, by side, on one page for the phone or
//! print.

use super::job::Job;
use super::page::{Entry, Page, Section, list};
use super::parts::closing;
use super::scope::entries;
use crate::model::wording::{self, capital};
use crate::model::{FollowUpKind, Side};

/// The order in which a house is walked.
const WALK: [Side; 5] = [Side::Front, Side::Right, Side::Rear, Side::Left, Side::None];

/// The field list as a page.
pub fn page(job: &Job) -> Page {
    let sections: Vec<Section> = places(job)
        .into_iter()
        .filter_map(|(structure, side)| {
            let kinds = [FollowUpKind::Photo, FollowUpKind::Measure, FollowUpKind::Check];
            let all = kinds.into_iter().flat_map(|kind| {
                let here = entries(job, kind, Some((&structure, side)));
                here.into_iter().map(move |entry| Entry { name: doing(kind).to_owned(), ..entry })
            });
            Section::of(capital(&wording::whereabouts(&structure, side)), list(true, all.collect()))
        })
        .collect();
    let summary = match sections.is_empty() {
        true => vec!["Nothing is left to photograph, measure or check.".to_owned()],
        false => Vec::new(),
    };
    Page {
        kind: "Field list".to_owned(),
        title: job.property().to_owned(),
        summary,
        sections,
        closing: safely(job).chain(closing().into_iter().take(1)).collect(),
        ..Page::default()
    }
}

/// What holds of every climb for a photo or a measurement.
fn safely<'a>(job: &'a Job) -> impl Iterator<Item = String> + 'a {
    let always = job.grammar.cautions.iter().filter(|rule| rule.always).map(|rule| &rule.caution);
    always.map(|caution| format!("{} ({})", caution.text, wording::source(&caution.source)))
}

fn doing(kind: FollowUpKind) -> &'static str {
    match kind {
        FollowUpKind::Photo => "Photo",
        FollowUpKind::Measure => "Measure",
        FollowUpKind::Check => "Check",
    }
}

/// The places where something is left to do, in the order of a walk.
fn places(job: &Job) -> Vec<(String, Side)> {
    let said = job.now.follow_ups.iter().map(|todo| (todo.structure.clone(), todo.side));
    let lacking = job.takeoff.lacking.iter().map(|lacking| (lacking.structure.clone(), lacking.side));
    let mut places: Vec<(String, Side)> = Vec::new();
    for place in said.chain(lacking) {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    let order = |side: Side| WALK.iter().position(|other| *other == side);
    places
        .sort_by_key(|(structure, side)| (structure != crate::model::HOUSE, structure.clone(), order(*side)));
    places
}
