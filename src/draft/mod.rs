//! The draft scope: lines with their doubts, and what stands beside them.
//!
//! Takes a transcript and the grammars and gives a [`Draft`]: the words are cut into tokens, mentions are
//! found, the talk is followed, and what was understood is written down line by line. Pure; it can't fail,
//! and the same words give the same draft.

mod confidence;
mod flag;
mod lines;
mod measures;
mod model;
mod readings;
mod second;

pub use flag::Flag;
pub use measures::*;
pub use model::*;

use crate::grammar::Grammar;
use crate::tokens::Tokens;
use crate::words::Transcript;
use crate::{breaths, mentions, mishearing, narration};

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
    mishearing::mend(&mut tokens, transcript, grammar);
    breaths::mark(&mut tokens, grammar);
    let mentions = mentions::find(&tokens, grammar);
    let account = narration::follow(&tokens, &mentions, grammar);
    lines::Writer::new(transcript, &tokens, grammar).write(&account)
}
