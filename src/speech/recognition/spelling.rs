//! Tokens to words: what belongs together, when it was said, and how sure the engine was of it.

use super::engine::Token;

/// A word in the time of its chunk.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct HeardWord {
    pub(super) text: String,
    /// Seconds of the chunk.
    pub(super) start: f64,
    pub(super) end: f64,
    /// The lowest probability of its tokens, marks left out: a word is as sure as its least sure part.
    pub(super) probability: f32,
    /// Which of the chunk's segments it stands in.
    pub(super) segment: usize,
}

/// The words of a chunk's segments, in order.
pub(super) fn words(segments: &[Vec<Token>]) -> Vec<HeardWord> {
    let spelled = segments.iter().enumerate().flat_map(|(n, tokens)| group(tokens).map(move |g| spell(g, n)));
    let mut words: Vec<HeardWord> = spelled.filter(|word| !word.text.is_empty()).collect();
    put_in_order(&mut words);
    words
}

/// Tokens of one word each: a token that begins with a white space begins a word.
fn group(tokens: &[Token]) -> impl Iterator<Item = &[Token]> {
    tokens.chunk_by(|_, next| !next.text.first().is_some_and(u8::is_ascii_whitespace))
}

fn spell(tokens: &[Token], segment: usize) -> HeardWord {
    let bytes: Vec<u8> = tokens.iter().flat_map(|token| token.text.iter().copied()).collect();
    let text: String = String::from_utf8_lossy(&bytes).split_whitespace().collect();
    let says_something = |token: &&Token| token.text.iter().any(|byte| byte.is_ascii_alphanumeric());
    let told = tokens.iter().filter(says_something).map(|token| token.probability);
    HeardWord {
        text,
        start: tokens.first().map_or(0.0, |token| token.start),
        end: tokens.last().map_or(0.0, |token| token.end),
        probability: told.reduce(f32::min).unwrap_or(tokens.first().map_or(0.0, |token| token.probability)),
        segment,
    }
}

/// Times never run back: a word begins no earlier than the one before it, and ends no earlier than it begins.
fn put_in_order(words: &mut [HeardWord]) {
    let mut earliest = 0.0;
    for word in words {
        word.start = word.start.max(earliest);
        word.end = word.end.max(word.start);
        earliest = word.start;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn token(text: &str, start: f64, end: f64, probability: f32) -> Token {
        Token { text: text.as_bytes().to_vec(), start, end, probability }
    }

    #[test]
    fn parts_of_a_word_are_joined_and_the_least_sure_counts() {
        let tokens = [
            token(" so", 1.0, 1.2, 0.9),
            token("ff", 1.2, 1.3, 0.4),
            token("it", 1.3, 1.5, 0.8),
            token(",", 1.5, 1.6, 0.1),
            token(" 14", 1.6, 2.0, 0.7),
        ];
        let words = words(&[tokens.to_vec()]);
        assert_eq!(words.len(), 2);
        assert_eq!((words[0].text.as_str(), words[0].start, words[0].probability), ("soffit,", 1.0, 0.4));
        assert_eq!((words[1].text.as_str(), words[1].end), ("14", 2.0));
    }

    #[test]
    fn a_character_cut_between_two_tokens_is_whole_again() {
        let mut first = token(" caf", 0.0, 0.1, 0.9);
        first.text.push(0xc3);
        let second = Token { text: vec![0xa9], ..first.clone() };
        assert_eq!(words(&[vec![first, second]])[0].text, "caf\u{e9}");
    }

    #[test]
    fn times_never_run_back() {
        let segments = [vec![token(" a", 2.0, 1.5, 0.9)], vec![token(" b", 1.0, 3.0, 0.9)]];
        let words = words(&segments);
        assert_eq!((words[0].start, words[0].end), (2.0, 2.0));
        assert_eq!((words[1].start, words[1].segment), (2.0, 1));
    }

    #[test]
    fn an_empty_token_gives_no_word() {
        assert!(words(&[vec![token(" ", 0.0, 0.1, 0.9)], vec![]]).is_empty());
    }
}
