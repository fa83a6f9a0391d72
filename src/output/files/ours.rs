//! Telling this program's files from anyone else's.

#[cfg(feature = "compare")]
use crate::output::comparison;
use crate::output::html;
#[cfg(feature = "compare")]
use crate::scope::compare;
use crate::speech;
use serde_json::Value;

/// Whether these bytes are an earlier document of that ending. An empty file holds nothing that could be lost.
pub(super) fn is_ours(ending: &str, bytes: &[u8]) -> bool {
    bytes.is_empty()
        || match ending {
            "vtt" => holds(bytes, speech::write::MARK),
            "transcript.json" => is_json_with(bytes, &["source", "utterances"]),
            "scope.json" => is_json_with(bytes, &["source", "lines", "no_work", "follow_ups", "dimensions"]),
            "scope.html" | "work.html" | "field.html" | "compare.html" | "html" => holds(bytes, html::MARK),
            "work.pdf" | "compare.pdf" => bytes.starts_with(b"%PDF-") && holds(bytes, "Eavesdraft"),
            #[cfg(feature = "compare")]
            "compare.csv" => bytes.starts_with(comparison::TABLE_MARK.as_bytes()),
            #[cfg(feature = "compare")]
            "toml" => bytes.starts_with(compare::COLUMNS_MARK.as_bytes()),
            #[cfg(feature = "papers")]
            _ => is_paper(ending, bytes),
            #[cfg(not(feature = "papers"))]
            _ => false,
        }
}

/// Whether it is an earlier paper of that ending.
#[cfg(feature = "papers")]
fn is_paper(ending: &str, bytes: &[u8]) -> bool {
    use crate::output::{chapters, record, table};
    match ending {
        "work.xlsx" => is_workbook(bytes),
        "work.csv" => table::read("", bytes).is_ok(),
        "work.json" => record::read("", bytes).is_ok(),
        "sides.vtt" => holds(bytes, chapters::MARK),
        _ => false,
    }
}

/// Whether it is a workbook whose properties name this program.
#[cfg(feature = "papers")]
fn is_workbook(bytes: &[u8]) -> bool {
    use crate::output::workbook;
    use std::io::{Cursor, Read};
    use zip::ZipArchive;
    /// Properties are shorter.
    const MOST: u64 = 100_000;
    let read = || {
        let mut archive = ZipArchive::new(Cursor::new(bytes)).ok()?;
        let mut properties = String::new();
        archive.by_name("docProps/core.xml").ok()?.take(MOST).read_to_string(&mut properties).ok()?;
        Some(properties.contains(&format!(">{}<", workbook::AUTHOR)))
    };
    read().unwrap_or(false)
}

fn holds(bytes: &[u8], mark: &str) -> bool {
    bytes.windows(mark.len()).any(|window| window == mark.as_bytes())
}

fn is_json_with(bytes: &[u8], keys: &[&str]) -> bool {
    let value: Option<Value> = serde_json::from_slice(bytes).ok();
    value.is_some_and(|value| keys.iter().all(|key| value.get(key).is_some()))
}
