//! What reviewers decided, as labels: how well a draft was is told by the scope that was signed off, and its words with
//! that scope are a labeled narration to measure and train on.

mod labeled;
mod names;
mod page;
mod tally;

pub use labeled::labeled;
pub use names::struck;
pub use page::page;
pub use tally::Tally;

use crate::office::store::{Drafted, Store, StoreError};
use crate::scope::review::{Scope, scope_and_strays};

/// A recording whose scope was signed off.
#[derive(Debug)]
pub struct Signed {
    /// The recording with its words and its draft.
    pub drafted: Drafted,
    /// The scope that was signed off.
    pub scope: Scope,
    /// When, as RFC 3339 writes it.
    pub at: String,
}

/// The recordings that were signed off last, the latest first.
///
/// # Errors
/// Where the store can't be read.
pub fn signed(store: &Store, last: usize) -> Result<Vec<Signed>, StoreError> {
    let mut all = Vec::new();
    for recording in store.recordings()? {
        let Some(drafted) = store.drafted(&recording.id)? else { continue };
        let (scope, _) = scope_and_strays(&drafted.draft, &store.events(&recording.id, 0)?);
        if let Some(at) = scope.signed_off.as_ref().map(|signed| signed.at.clone()) {
            all.push(Signed { drafted, scope, at });
        }
    }
    all.sort_by(|a, b| b.at.cmp(&a.at).then_with(|| a.drafted.recording.name.cmp(&b.drafted.recording.name)));
    all.truncate(last);
    Ok(all)
}
