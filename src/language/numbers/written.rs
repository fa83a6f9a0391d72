//! Units as they are written, not spoken.

/// A text that was written or typed, with `in` behind a number spelled out: spoken, "twelve in" is the beginning of a
/// place ("twelve in the back"), so the words that are listened for don't have it.
pub fn spelled_out(written: &str) -> String {
    let mut words: Vec<&str> = written.split_whitespace().collect();
    for at in 1..words.len() {
        let number = words[at - 1].ends_with(|c: char| c.is_ascii_digit());
        let more = words.get(at + 1).is_none_or(|next| matches!(*next, "x" | "by" | "×"));
        if number && more && matches!(words[at], "in" | "in.") {
            words[at] = "inches";
        }
    }
    words.join(" ")
}
