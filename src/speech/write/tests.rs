use super::*;
use crate::model::span::Moment;
use crate::speech::{Utterance, Word, clock, read};

fn word(text: &str, start: u64, end: u64) -> Word {
    Word { text: text.to_owned(), start: Some(Moment(start)), end: Some(Moment(end)), probability: None }
}

fn said(words: Vec<Word>) -> Transcript {
    Transcript {
        source: "walk.wav".to_owned(),
        utterances: vec![Utterance { words }],
        ..Transcript::default()
    }
}

fn written(transcript: &Transcript) -> String {
    String::from_utf8(webvtt(transcript)).unwrap()
}

/// A minute of words, a third of a second each, with a pause after each ninth.
fn a_minute() -> Vec<Word> {
    (0..120).map(|n| word("gutter", n * 500 + n / 9 * 300, n * 500 + n / 9 * 300 + 333)).collect()
}

#[test]
fn a_cue_has_its_times_and_a_mark_for_each_word() {
    let text =
        written(&said(vec![word("box", 1000, 2000), word("vents,", 2000, 2500), word("4", 4000, 5000)]));
    let expected = "WEBVTT\n\nNOTE Heard by Eavesdraft from walk.wav\n\n00:00:01.000 --> 00:00:05.000\n\
                    box <00:00:02.000>vents,<00:00:02.500> <00:00:04.000>4\n";
    assert_eq!(text, expected);
}

#[test]
fn text_that_looks_like_markup_is_escaped() {
    let text = written(&said(vec![word("<b>&-->", 0, 10)]));
    assert!(text.ends_with("\n&lt;b&gt;&amp;--&gt;\n"), "{text}");
}

#[test]
fn long_speech_is_cut_at_pauses_into_short_cues() {
    let text = written(&said(a_minute()));
    let blocks: Vec<&str> = text.trim_end().split("\n\n").skip(2).collect();
    for block in &blocks {
        let (times, marked) = block.split_once('\n').unwrap();
        let (start, end) = clock::cue_times(times).unwrap();
        let letters = marked.split('<').map(|part| part.rsplit('>').next().unwrap().len()).sum::<usize>();
        assert!(start < end && end.0 - start.0 <= 7000 && letters <= 80, "{block}");
    }
    // Each ninth word has a pause after it, so a cue that isn't at the end begins with a word after one.
    assert!(blocks.len() > 8 && blocks[1].starts_with("00:00:04.800"), "{blocks:#?}");
}

#[test]
fn times_and_words_come_back_as_they_were() {
    let transcript = said(a_minute());
    let back = read::transcript(&webvtt(&transcript), "walk.vtt").unwrap();
    assert_eq!(back.words().collect::<Vec<_>>(), transcript.words().collect::<Vec<_>>());
}

#[test]
fn times_that_no_cue_can_have_still_give_a_valid_file() {
    let mut words = vec![word("a", 5000, 5000), word("b", 4000, 4500), word("c", 5000, 6000)];
    words.push(Word { text: "d".to_owned(), ..Word::default() });
    let back = read::transcript(&webvtt(&said(words)), "walk.vtt").unwrap();
    assert_eq!(back.text().0, "a b c d");
    assert_eq!(read::transcript(&webvtt(&said(vec![word("a", 7, 7)])), "a.vtt").unwrap().text().0, "a");
}
