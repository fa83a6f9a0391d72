//! What the tests share.

mod desk;
pub mod narration;
mod table;

pub use desk::Desk;
#[cfg(feature = "server")]
pub use desk::{NARRATION, Replay, Run};
pub use table::{GRAMMAR, Table};

use eavesdraft::model::Draft;

/// One draft with a line of every kind, as the fixed input of every document.
pub fn sample_draft() -> Draft {
    serde_json::from_str(include_str!("../documents/sample.scope.json")).unwrap()
}
