//! Every kind of bad input: one clear sentence, exit code 2, and nothing written.

use crate::harness::Desk;
use insta::assert_snapshot;

/// The sentence for a file of that name and content.
#[track_caller]
fn refused(name: &str, bytes: &[u8]) -> String {
    let desk = Desk::with([(name, bytes)]);
    let run = desk.run(&["draft", name]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
    assert_eq!(desk.names(), [name]);
    run.err
}

#[test]
fn a_missing_file() {
    let run = Desk::with([]).run(&["draft", "gone.m4a"]);
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @"error: `gone.m4a`: there is no such file: check the name and the folder");
}

#[test]
fn a_folder() {
    let run = Desk::with([("walks/walk.txt", b"two lights")]).run(&["draft", "walks"]);
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @"error: `walks`: this is a folder: name the files in it");
}

#[test]
fn an_empty_file() {
    assert_snapshot!(refused("walk.m4a", b""), @"error: `walk.m4a`: the file is empty: copy or record it again");
}

#[test]
fn a_text_without_words() {
    assert_snapshot!(refused("walk.txt", b" \n\n\t\n"), @"error: `walk.txt`: there isn't a word in it: check that it is the right file");
}

#[test]
fn a_text_in_an_old_encoding() {
    assert_snapshot!(refused("walk.txt", b"two lights\nit\x92s here"), @"error: `walk.txt`, line 2: byte 0x92 isn't UTF-8 text: save the file as UTF-8");
}

#[test]
fn a_text_named_like_a_recording() {
    assert_snapshot!(refused("walk.wav", b"two lights"), @"error: `walk.wav`: named like a recording, but there is text in it: find the recording, or rename this to end in .txt");
}

#[test]
fn a_document_of_a_word_processor() {
    assert_snapshot!(refused("walk.docx", b"PK\x03\x04\x14\x00\x06\x00"), @"error: `walk.docx`: this is a word processor's document or a ZIP archive, neither a recording nor plain text: save its words as plain text");
}

#[test]
fn a_transcript_that_is_cut_off() {
    assert_snapshot!(refused("walk.transcript.json", b"{\n\"source\": \"walk.m4a\",\n\"utterances\": [{\"words\": ["), @"error: `walk.transcript.json`, line 3: broken JSON (EOF while parsing a list): restore the file, or hear the recording again");
}

#[test]
fn json_of_another_kind() {
    assert_snapshot!(refused("walk.json", b"{\n\"speech\": []\n}"), @"error: `walk.json`, line 2: JSON, but no transcript (unknown field `speech`, expected one of `source`, `digest`, `length`, `recognizer`, `notices`, `clips`, `utterances`, `heard_again`): give the NAME.transcript.json that `eavesdraft hear` wrote");
}

#[test]
fn a_draft_in_place_of_words() {
    let sample = include_bytes!("../documents/sample.scope.json");
    assert_snapshot!(refused("sample.scope.json", sample), @"error: `sample.scope.json`: this is a draft already: give the transcript or the recording it came from");
}

#[test]
fn captions_with_a_broken_time() {
    let captions = b"WEBVTT\n\n00:01.000 --> 00:02.000\nfine\n\n00:02.000 -> 00:03.000\nlost\n";
    assert_snapshot!(refused("walk.vtt", captions), @"error: `walk.vtt`, line 6: `00:02.000 -> 00:03.000` belongs to no cue: put a time line above it, or NOTE before it");
}

#[test]
fn noise_without_a_recogniser_or_with_one() {
    // Whether this build can hear or not, and whether a model is there or not: what isn't text isn't drafted.
    let desk = Desk::with([("noise.bin", b"\x00\x01\x02\xff\xfe\xfd\x00")]);
    let run = desk.run(&["draft", "noise.bin"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
    assert!(run.err.starts_with("error: ") && run.err.lines().count() == 1, "{}", run.err);
    assert_eq!(desk.names(), ["noise.bin"]);
}

#[test]
fn nothing_on_standard_input() {
    let run = Desk::with([]).run_with(&["draft", "-"], "");
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @"error: `stdin`: the file is empty: copy or record it again");
}

#[test]
fn standard_input_twice() {
    let run = Desk::with([]).run_with(&["draft", "-", "-"], "two lights");
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @"error: `-` is given twice, but there is only one standard input: give it once");
}

#[test]
fn words_where_a_recording_is_to_be_heard() {
    let run =
        Desk::with([("walk.vtt", b"WEBVTT\n\n00:01.000 --> 00:02.000\nlights\n")]).run(&["hear", "walk.vtt"]);
    assert_eq!(run.code, 2);
    assert_snapshot!(run.err, @"error: `walk.vtt`: there are words in it already: give it to `eavesdraft draft` as it is");
}

#[test]
fn rules_that_arent_there() {
    let desk = Desk::with([("walk.txt", b"two lights")]);
    let run = desk.run(&["draft", "walk.txt", "--grammar", "nowhere"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
    assert!(run.err.contains("nowhere"), "{}", run.err);
    assert_eq!(desk.names(), ["walk.txt"]);
}
