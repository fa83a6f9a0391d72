//! Results as JSON on standard output.

use serde::Serialize;

/// The result as an object where one input was given, nothing if it failed; else an array of all that were done.
pub(super) fn json<T: Serialize>(results: &[T], inputs: usize) -> serde_json::Result<String> {
    let text = match (results, inputs) {
        ([], 1) => return Ok(String::new()),
        ([one], 1) => serde_json::to_string_pretty(one)?,
        _ => serde_json::to_string_pretty(results)?,
    };
    Ok(text + "\n")
}
