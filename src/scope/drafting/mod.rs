//! The draft scope: lines with their doubts, and what stands beside them.
//!
//! Takes a transcript and the grammars and gives a [`Draft`]: the pieces of the narration are found, the talk is
//! followed, and what was understood is written down line by line. Pure; it can't fail,
//! and the same words give the same draft.

mod beside;
mod confidence;
mod doubts;
mod lines;
mod readings;
mod second;
mod source;

#[cfg(feature = "compare")]
pub(in crate::scope) use lines::unit_of;

use crate::language::discourse::{self, Account, Status};
use crate::language::pieces;
use crate::language::rules::Grammar;
use crate::model::Draft;
use crate::speech::Transcript;
use source::Source;

/// Drafts a scope from what was said. What was heard twice is drafted twice, and the drafts are compared.
pub fn draft(transcript: &Transcript, grammar: &Grammar) -> Draft {
    let first = draft_once(transcript, grammar);
    match transcript.of_second_pass() {
        Some(again) => second::compare(first, draft_once(&again, grammar), transcript, &again),
        None => first,
    }
}

fn draft_once(transcript: &Transcript, grammar: &Grammar) -> Draft {
    let pieces = pieces::find(transcript, grammar);
    let account = discourse::observe(&pieces, grammar);
    written(&Source::new(transcript, &pieces.tokens, grammar), &account)
}

/// What was understood, written down.
fn written(source: &Source, account: &Account) -> Draft {
    let things = |status| account.things.iter().filter(move |thing| thing.status == status);
    let lines = lines::lines(source, things(Status::Scope));
    let transcript = source.transcript;
    let passing = things(Status::Mentioned);
    Draft {
        source: transcript.source.clone(),
        digest: transcript.digest.clone(),
        length: transcript.length,
        notices: transcript.notices.clone(),
        clips: transcript.clips.clone(),
        cautions: beside::cautions(source, account, &lines),
        lines,
        no_work: beside::no_work(source, account),
        mentioned: passing.map(|t| beside::words_at(source, t.item, t.span, &t.place)).collect(),
        unused: account.unused.iter().map(|u| beside::words_at(source, None, u.span, &u.place)).collect(),
        follow_ups: account.follow_ups.iter().map(|todo| beside::follow_up(source, todo)).collect(),
        dimensions: account.dimensions.iter().map(|said| beside::dimension(source, said)).collect(),
        slopes: account.slopes.iter().map(|slope| beside::slope(source, slope)).collect(),
        measured: Vec::new(),
        totals: account.totals.iter().map(|total| beside::total(source, total)).collect(),
    }
}
