//! Taking a written word apart into what is spoken: `that's`, `16x7`, `6'6"`, `5/8`, `re-nail`.

use unicode_segmentation::UnicodeSegmentation;

/// Gives each piece of `word` to `out` with its byte offset, punctuation left out. What can be said of
/// numbers is kept: `/`, and `'` and `"` right after a digit.
pub fn split_word(word: &str, mut out: impl FnMut(&str, usize)) {
    let mut after_digit = false;
    for (offset, segment) in word.split_word_bound_indices() {
        let first = segment.chars().next().unwrap_or(' ');
        if first.is_ascii_digit() && led_by_point(&word[..offset]) {
            digits(&word[offset - 1..offset + segment.len()], offset - 1, &mut out);
            after_digit = true;
        } else if first.is_alphanumeric() {
            runs(segment, offset, &mut out);
            after_digit = segment.ends_with(|c: char| c.is_ascii_digit());
        } else {
            if matches!(first, '/' | '$' | '%' | '&')
                || (after_digit && matches!(first, '\'' | '"' | '’' | '”' | '′' | '″'))
            {
                out(segment, offset);
            }
            if matches!(first, '\'' | '’') && !after_digit {
                continue;
            }
            after_digit = false;
        }
    }
}

/// Whether what stands before digits is their decimal point: `.5`, `$.50`, not `No.5` or `...5`.
fn led_by_point(before: &str) -> bool {
    before.strip_suffix('.').is_some_and(|b| !b.ends_with(|c: char| c.is_alphanumeric() || c == '.'))
}

/// Cuts where digits and letters meet and where a contraction begins.
fn runs(segment: &str, offset: usize, out: &mut impl FnMut(&str, usize)) {
    if segment.starts_with(|c: char| c.is_ascii_digit()) {
        return digits(segment, offset, out);
    }
    let Some(at) = contraction(segment) else { return out(segment, offset) };
    if at > 0 {
        out(&segment[..at], offset);
    }
    out(&segment[at..], offset + at);
}

/// Where `n't` or an apostrophe's ending begins.
fn contraction(word: &str) -> Option<usize> {
    let at = word.find(['\'', '’'])?;
    let negated = word[..at].ends_with(['n', 'N'])
        && word[at..].trim_start_matches(['\'', '’']).eq_ignore_ascii_case("t");
    Some(if negated { at - 1 } else { at })
}

/// `16x7`, `6'6`, `46ft`: numbers with their separators inside stay whole (`3.5`, `1,200`).
fn digits(segment: &str, offset: usize, out: &mut impl FnMut(&str, usize)) {
    let mut start = 0;
    let mut kind = true;
    for (at, c) in segment.char_indices() {
        let digit = c.is_ascii_digit() || (matches!(c, '.' | ',') && kind);
        if matches!(c, '\'' | '’') && kind {
            out(&segment[start..at], offset + start);
            out(&segment[at..at + c.len_utf8()], offset + at);
            start = at + c.len_utf8();
            continue;
        }
        if digit != kind {
            if at > start {
                out(&segment[start..at], offset + start);
            }
            start = at;
            kind = digit;
        }
    }
    if start < segment.len() {
        out(&segment[start..], offset + start);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(word: &str, expected: &[&str]) {
        let mut got = Vec::new();
        split_word(word, |piece, offset| {
            assert!(word.is_char_boundary(offset));
            got.push(piece.to_owned());
        });
        assert_eq!(got, expected, "{word}");
    }

    #[test]
    fn contractions_come_apart() {
        check("that's,", &["that", "'s"]);
        check("don't", &["do", "n't"]);
        check("they’re", &["they", "’re"]);
        check("AC's", &["AC", "'s"]);
        check("'em", &["em"]);
    }

    #[test]
    fn sizes_come_apart_and_numbers_stay_whole() {
        check("16x7", &["16", "x", "7"]);
        check("6'6\"", &["6", "'", "6", "\""]);
        check("5/8", &["5", "/", "8"]);
        check("46ft.", &["46", "ft"]);
        check("1,200", &["1,200"]);
        check("3.5.", &["3.5"]);
        check(".5", &[".5"]);
        check("$.50.", &["$", ".50"]);
        check("No.5", &["No", "5"]);
        check("...5", &["5"]);
        check("5½", &["5", "½"]);
        check("fifty-two", &["fifty", "two"]);
        check("$12", &["$", "12"]);
    }
}
