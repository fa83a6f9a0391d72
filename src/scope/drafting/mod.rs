//! The draft scope: lines with their doubts, and what stands beside them.
//!
//! Takes a transcript and the grammars and gives a [`Draft`]: the pieces of the narration are found, the talk is
//! followed, and what was understood is written down line by line. Pure; it can't fail,
//! and the same words give the same draft.

mod confidence;
mod lines;
mod readings;
mod second;

use crate::language::rules::Grammar;
use crate::language::{discourse, pieces};
use crate::model::Draft;
use crate::speech::Transcript;

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
    lines::Writer::new(transcript, &pieces.tokens, grammar).write(&account)
}
