//! Word errors: the fewest words to put in, take out or change, as the word error rate counts them.

/// Lower-case words without marks, numbers in digits up to twelve as words.
pub fn plain(text: &str) -> Vec<String> {
    const SMALL: [&str; 13] = [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    let word = |w: &str| {
        let bare: String =
            w.chars().filter(|c| c.is_alphanumeric() || *c == '\'').collect::<String>().to_lowercase();
        bare.parse::<usize>().ok().and_then(|n| SMALL.get(n)).map_or(bare, |w| (*w).to_owned())
    };
    text.split(|c: char| c.is_whitespace() || c == '-').map(word).filter(|w| !w.is_empty()).collect()
}

/// How many words must be changed, put in or taken out to make `heard` of `wanted` (Levenshtein's distance).
pub fn count(wanted: &[String], heard: &[String]) -> usize {
    let mut row: Vec<usize> = (0..=heard.len()).collect();
    for (n, want) in wanted.iter().enumerate() {
        let mut diagonal = std::mem::replace(&mut row[0], n + 1);
        for (m, got) in heard.iter().enumerate() {
            let changed = diagonal + usize::from(want != got);
            diagonal = row[m + 1];
            row[m + 1] = changed.min(diagonal + 1).min(row[m] + 1);
        }
    }
    row[heard.len()]
}

#[test]
fn errors_are_counted_as_the_word_error_rate_does() {
    let words = |text| plain(text);
    assert_eq!(count(&words("for box vents"), &words("four box vents")), 1);
    assert_eq!(count(&words("go forward ten meters"), &words("Go forward 10 meters.")), 0);
    assert_eq!(count(&words("a b c"), &words("a c d e")), 3);
    assert_eq!(count(&[], &words("a b")), 2);
}
