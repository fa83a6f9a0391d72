//! Telling this program's files from anyone else's.

use crate::compare;
use crate::documents;
use crate::words;
use serde_json::Value;

/// Whether these bytes are an earlier document of that ending. An empty file holds nothing that could be lost.
pub(super) fn is_ours(ending: &str, bytes: &[u8]) -> bool {
    bytes.is_empty()
        || match ending {
            "vtt" => holds(bytes, words::write::MARK),
            "transcript.json" => is_json_with(bytes, &["source", "utterances"]),
            "scope.json" => is_json_with(bytes, &["source", "lines", "no_work", "follow_ups", "dimensions"]),
            "scope.html" | "work.html" | "field.html" | "compare.html" | "html" => {
                holds(bytes, documents::MARK)
            }
            "work.pdf" => bytes.starts_with(b"%PDF-") && holds(bytes, "Eavesdraft"),
            "compare.csv" => bytes.starts_with(compare::HEADINGS.join(",").as_bytes()),
            "toml" => bytes.starts_with(compare::COLUMNS_MARK.as_bytes()),
            _ => false,
        }
}

fn holds(bytes: &[u8], mark: &str) -> bool {
    bytes.windows(mark.len()).any(|window| window == mark.as_bytes())
}

fn is_json_with(bytes: &[u8], keys: &[&str]) -> bool {
    let value: Option<Value> = serde_json::from_slice(bytes).ok();
    value.is_some_and(|value| keys.iter().all(|key| value.get(key).is_some()))
}
