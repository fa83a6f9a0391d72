//! The draft itself, for programs.

use super::Format;
use crate::model::Draft;

/// The draft as JSON: a field a line, closed by a line end.
pub struct Json;

impl Format for Json {
    fn ending(&self) -> &'static str {
        "scope.json"
    }

    fn render(&self, draft: &Draft) -> Vec<u8> {
        // Plain fields with text keys: there is nothing in them that JSON can't hold.
        let mut bytes = serde_json::to_vec_pretty(draft).unwrap_or_default();
        bytes.push(b'\n');
        bytes
    }
}
