//! The draft scope: lines with their doubts, and what stands beside them.
//!
//! Takes a transcript and the grammars and gives a [`Draft`]: the words are cut into tokens, mentions are
//! found, the talk is followed, and what was understood is written down line by line. Pure; it can't fail,
//! and the same words give the same draft.

mod confidence;
mod lines;
mod readings;
mod second;

pub(in crate::scope) use lines::unit_of;

use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;
use crate::language::{asr_correction, discourse, mentions, punctuation};
use crate::model::Draft;
use crate::speech::Transcript;

/// Drafts a scope from what was said. What was heard twice is drafted twice, and the drafts are compared.
pub fn draft(transcript: &Transcript, grammar: &Grammar) -> Draft {
    let first = draft_once(transcript, grammar);
    match transcript.second() {
        Some(again) => second::compare(first, draft_once(&again, grammar), transcript, &again),
        None => first,
    }
}

fn draft_once(transcript: &Transcript, grammar: &Grammar) -> Draft {
    let mut tokens = Tokens::new(transcript, &grammar.vocabulary);
    asr_correction::mend(&mut tokens, transcript, grammar);
    punctuation::mark(&mut tokens, grammar);
    let mentions = mentions::find(&tokens, grammar);
    let account = discourse::observe(&tokens, &mentions, grammar);
    lines::Writer::new(transcript, &tokens, grammar).write(&account)
}
