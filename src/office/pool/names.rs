//! What objects are called.

/// Where the recordings are.
pub(super) const RECORDINGS: &str = "recordings";
/// Where the transcripts are, a folder a fingerprint.
pub(super) const WORDS: &str = "words";
/// Where it is told what can't be heard, a folder a fingerprint.
pub(super) const SKIPPED: &str = "apart";

/// The bytes of a recording.
pub(super) fn recording(digest: &str) -> String {
    format!("{RECORDINGS}/{digest}")
}

/// A recording's file name.
pub(super) fn name(digest: &str) -> String {
    format!("names/{digest}.json")
}

/// A recording's transcript.
pub(super) fn words(fingerprint: &str, digest: &str) -> String {
    format!("{WORDS}/{fingerprint}/{digest}.json")
}

/// Why a recording can't be heard.
pub(super) fn skipped(fingerprint: &str, digest: &str) -> String {
    format!("{SKIPPED}/{fingerprint}/{digest}.json")
}

/// The digest that an object is called by; none for anything else that lies in a pool.
pub(super) fn digest(file: &str) -> Option<&str> {
    let name = file.strip_suffix(".json").unwrap_or(file);
    let is_digit = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    (name.len() == 64 && name.bytes().all(is_digit)).then_some(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_digest_is_the_name_of_an_object() {
        let sha = "0123456789abcdef".repeat(4);
        assert_eq!(digest(&sha), Some(&*sha));
        assert_eq!(digest(&format!("{sha}.json")), Some(&*sha));
        for other in [&sha[1..], &format!("{sha}#1"), &format!("{sha}.tmp"), &sha.to_uppercase(), ".DS_Store"]
        {
            assert_eq!(digest(other), None, "{other}");
        }
    }
}
