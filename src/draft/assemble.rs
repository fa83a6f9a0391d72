//! From words to lines.

use super::Draft;
use crate::grammar::Grammar;
use crate::words::Transcript;

/// The draft scope of what was said.
pub fn draft(transcript: &Transcript, _grammar: &Grammar) -> Draft {
    Draft {
        source: transcript.source.clone(),
        digest: transcript.digest.clone(),
        length: transcript.length,
        notices: transcript.notices.clone(),
        lines: Vec::new(),
        no_work: Vec::new(),
        follow_ups: Vec::new(),
        dimensions: Vec::new(),
        cautions: Vec::new(),
    }
}
