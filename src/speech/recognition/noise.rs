//! What an engine writes down though nobody said it: descriptions of noise, and loops.

use super::spelling::HeardWord;

/// The longest run of words that is looked for as a loop: a long sentence.
const LONGEST_LOOP: usize = 24;

/// So many times in a row, and a run is a loop; twice is how people speak ("one, one", "no, no").
const LOOP: usize = 3;

/// The probability that words of a loop keep: whatever the engine says, they are doubtful.
const LOOP_PROBABILITY: f32 = 0.05;

/// Signs that stand around descriptions such as `[Music]`, `(wind blowing)` and `*coughs*`.
const BRACKETS: &[(char, char)] = &[('[', ']'), ('(', ')'), ('{', '}'), ('*', '*'), ('\u{266a}', '\u{266a}')];

/// Leaves out the segments that only describe a noise.
pub(super) fn drop_described(words: Vec<HeardWord>) -> Vec<HeardWord> {
    let segments = words.chunk_by(|a, b| a.segment == b.segment);
    segments.filter(|segment| !is_description(segment)).flatten().cloned().collect()
}

fn is_description(segment: &[HeardWord]) -> bool {
    let text: Vec<&str> = segment.iter().map(|word| word.text.as_str()).collect();
    let text = text.join(" ");
    let inner = text.trim_end_matches(['.', ',', '!', '?']);
    let says_nothing = !text.chars().any(char::is_alphanumeric);
    says_nothing
        || BRACKETS.iter().any(|(open, close)| {
            inner.starts_with(*open) && inner.ends_with(*close) && inner.matches(*close).count() <= 2
        })
}

/// A loop that was taken out: the time of the chunk it covered, in seconds, and the words it repeated.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Loop {
    pub(super) start: f64,
    pub(super) end: f64,
    pub(super) words: String,
}

/// Keeps one of every run of words that is repeated three times or more, marked as doubtful.
pub(super) fn collapse_loops(words: Vec<HeardWord>) -> (Vec<HeardWord>, Vec<Loop>) {
    let bare: Vec<String> = words.iter().map(|word| bare(&word.text)).collect();
    let (mut kept, mut loops) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < words.len() {
        let Some((length, times)) = find_loop(&bare[at..]) else {
            kept.push(words[at].clone());
            at += 1;
            continue;
        };
        let (all, one) = (&words[at..at + length * times], &words[at..at + length]);
        let said: Vec<&str> = one.iter().map(|word| word.text.as_str()).collect();
        loops.push(Loop { start: all[0].start, end: all[all.len() - 1].end, words: said.join(" ") });
        let doubtful = |word: &HeardWord| HeardWord {
            probability: word.probability.min(LOOP_PROBABILITY),
            ..word.clone()
        };
        kept.extend(one.iter().map(doubtful));
        at += length * times;
    }
    (kept, loops)
}

/// The shortest run at the beginning that is a loop: its length in words, and how often it comes.
fn find_loop(words: &[String]) -> Option<(usize, usize)> {
    (1..=LONGEST_LOOP.min(words.len() / LOOP)).find_map(|length| {
        let times = words.chunks_exact(length).take_while(|run| *run == &words[..length]).count();
        (times >= LOOP).then_some((length, times))
    })
}

fn bare(word: &str) -> String {
    let letters = word.chars().filter(|c| c.is_alphanumeric());
    letters.flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heard(text: &str) -> Vec<HeardWord> {
        let word = |(n, text): (usize, &str)| HeardWord {
            text: text.to_owned(),
            start: n as f64,
            end: n as f64 + 0.5,
            probability: 0.9,
            segment: 0,
        };
        text.split_whitespace().enumerate().map(word).collect()
    }

    fn said(words: &[HeardWord]) -> String {
        words.iter().map(|word| word.text.as_str()).collect::<Vec<_>>().join(" ")
    }

    #[track_caller]
    fn check_loops(text: &str, wanted: &str, loops: usize) {
        let (kept, found) = collapse_loops(heard(text));
        assert_eq!(said(&kept), wanted);
        assert_eq!(found.len(), loops);
    }

    #[test]
    fn what_is_said_twice_stands() {
        check_loops("one, one more and no no damage", "one, one more and no no damage", 0);
        check_loops("two lights two lights there", "two lights two lights there", 0);
    }

    #[test]
    fn loops_are_taken_out_whatever_their_length() {
        check_loops("a light light light light there", "a light there", 1);
        check_loops("Two lights, two lights two lights. and a gate", "Two lights, and a gate", 1);
        let sentence = "and then we have one more of these on the front of the house ";
        check_loops(&sentence.repeat(4), sentence.trim(), 1);
    }

    #[test]
    fn a_loop_is_doubtful_and_tells_its_time() {
        let (kept, loops) = collapse_loops(heard("so yes yes yes okay"));
        assert_eq!(loops, [Loop { start: 1.0, end: 3.5, words: "yes".to_owned() }]);
        assert!(kept[1].probability < 0.1 && kept[2].probability > 0.8);
    }

    #[test]
    fn descriptions_of_noise_are_left_out() {
        for noise in
            ["[Music]", "(wind blowing)", "[BLANK_AUDIO]", "*coughs*", "\u{266a}", "(birds chirping).", "..."]
        {
            assert_eq!(said(&drop_described(heard(noise))), "", "{noise}");
        }
    }

    #[test]
    fn speech_with_brackets_in_it_stands() {
        for speech in ["(about) fourteen foot", "two lights [wind]", "fourteen"] {
            assert_eq!(said(&drop_described(heard(speech))), speech);
        }
    }

    #[test]
    fn only_the_segment_that_describes_is_left_out() {
        let mut words = heard("two lights [Music] okay");
        words[2].segment = 1;
        words[3].segment = 2;
        assert_eq!(said(&drop_described(words)), "two lights okay");
    }
}
