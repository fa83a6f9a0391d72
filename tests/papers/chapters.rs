//! Chapters, held to what the standard asks of them.

use super::{Table, walked};
use eavesdraft::model::span::Moment;
use eavesdraft::output::chapters::{bytes, chapters};
use eavesdraft::speech::clips::join;
use eavesdraft::speech::{Transcript, Utterance, Word};

/// A cue: its start, its end, its words.
type Cue = (u64, u64, String);

/// Reads a file of chapters as strictly as the standard writes it: the signature, notes, and cues of an identifier, a
/// time line and one line of title.
fn strict(text: &str) -> Vec<Cue> {
    let mut blocks = text.trim_end_matches('\n').split("\n\n");
    assert_eq!(blocks.next(), Some("WEBVTT"));
    let mut cues = Vec::new();
    for block in blocks {
        if block.starts_with("NOTE ") {
            assert!(!block.contains("-->"));
            continue;
        }
        let lines: Vec<&str> = block.split('\n').collect();
        let [_, times, title] = lines.as_slice() else { panic!("no cue: {block:?}") };
        let (start, end) = times.split_once(" --> ").unwrap();
        let (start, end) = (stamp(start), stamp(end));
        assert!(start < end, "{block}");
        assert!(!title.is_empty() && !title.contains('<') && !title.contains("-->"), "{block}");
        cues.push((start, end, (*title).to_owned()));
    }
    cues.windows(2).for_each(|pair| assert!(pair[0].1 <= pair[1].0, "{pair:?} overlap"));
    cues
}

/// `hh:mm:ss.ttt` in milliseconds, nothing else.
fn stamp(text: &str) -> u64 {
    let bytes = text.as_bytes();
    assert_eq!(bytes.len(), 12, "{text}");
    assert_eq!((bytes[2], bytes[5], bytes[8]), (b':', b':', b'.'), "{text}");
    let number = |range: std::ops::Range<usize>| text[range].parse::<u64>().unwrap();
    let (minutes, seconds) = (number(3..5), number(6..8));
    assert!(minutes < 60 && seconds < 60, "{text}");
    ((number(0..2) * 60 + minutes) * 60 + seconds) * 1000 + number(9..12)
}

fn written(table: &Table) -> Vec<Cue> {
    strict(&String::from_utf8(bytes(&table.job()).unwrap()).unwrap())
}

#[test]
fn each_side_is_a_chapter_up_to_the_next() {
    let mut table = Table::timed(super::WALK);
    let cues = written(&table);
    let titles: Vec<&str> = cues.iter().map(|cue| cue.2.as_str()).collect();
    assert_eq!(titles, ["House, front", "House, right", "House, rear", "House, left"]);
    cues.windows(2).for_each(|pair| assert_eq!(pair[0].1, pair[1].0));
    let first = table.draft.lines.iter().filter_map(|line| line.start).min().unwrap();
    assert_eq!(cues[0].0, first.0);
    assert_eq!(cues[3].1, table.draft.length.unwrap().0);
    table.draft.length = None;
    assert!(written(&table)[3].1 > cues[3].0);
}

#[test]
fn a_look_back_is_a_chapter_of_its_own() {
    let table = Table::timed(
        "Front elevation. Mailbox, replace. Rear elevation. Hose bib, replace. Oh, and on the front I forgot the coach \
         light, replace it. Deck, stain it.",
    );
    let titles: Vec<String> = written(&table).into_iter().map(|cue| cue.2).collect();
    assert_eq!(titles, ["House, front", "House, rear", "House, front", "House, rear"]);
}

#[test]
fn clips_are_on_one_line_of_time() {
    let clip = |name: &str, words: &str| {
        let words = words.split_whitespace().zip(0..).map(|(text, at)| Word {
            text: text.to_owned(),
            start: Some(Moment(at * 500)),
            end: Some(Moment(at * 500 + 400)),
            ..Word::default()
        });
        let utterances = vec![Utterance { words: words.collect() }];
        Transcript {
            source: name.to_owned(),
            length: Some(Moment(60_000)),
            utterances,
            ..Transcript::default()
        }
    };
    let clips = vec![
        clip("1.m4a", "Front elevation. Mailbox, replace."),
        clip("2.m4a", "Rear elevation. Hose bib, replace."),
    ];
    let cues = written(&Table::of(join("14 Elm", clips)));
    assert_eq!(cues.len(), 2);
    assert!(cues[1].0 > 60_000 && cues[1].1 == 120_000, "{cues:?}");
}

#[test]
fn text_without_times_has_none() {
    let table = Table::new(super::WALK);
    assert_eq!(chapters(&table.job()), []);
    assert_eq!(bytes(&table.job()), None);
}

#[test]
fn a_structure_with_signs_is_written_as_words() {
    let mut table = Table::timed("Front elevation. Mailbox, replace.");
    table.scope.entries[0].line.structure = "barn <b> & --> shed\nroof".to_owned();
    assert_eq!(written(&table)[0].2, "Barn &lt;b&gt; &amp; -&gt; shed roof, front");
}

#[test]
fn the_same_scope_gives_the_same_chapters() {
    assert_eq!(bytes(&walked().job()), bytes(&walked().job()));
}
