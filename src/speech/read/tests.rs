use super::*;
use crate::speech::Word;

/// The words with their times in milliseconds, a line an utterance.
#[track_caller]
fn heard(text: &str) -> String {
    let transcript = transcript(text.as_bytes(), "in.txt").unwrap();
    let word = |w: &Word| match (w.start, w.end) {
        (Some(start), Some(end)) => format!("{} {}-{}", w.text, start.0, end.0),
        _ => w.text.clone(),
    };
    let line = |u: &crate::speech::Utterance| u.words.iter().map(word).collect::<Vec<_>>().join(", ");
    transcript.utterances.iter().map(line).collect::<Vec<_>>().join("\n")
}

#[track_caller]
fn said(text: &str) -> String {
    transcript(text.as_bytes(), "in.txt").unwrap().text().0
}

#[track_caller]
fn refused(bytes: impl AsRef<[u8]>) -> String {
    transcript(bytes.as_ref(), "in.vtt").unwrap_err().to_string()
}

mod plain_text {
    use super::*;

    #[test]
    fn a_paragraph_is_an_utterance_and_a_line_break_inside_it_is_a_space() {
        assert_eq!(
            said("two lights\ndetach and reset\n\n \nnow the\trear"),
            "two lights detach and reset\nnow the rear"
        );
    }

    #[test]
    fn marks_that_show_nothing_are_no_part_of_a_word() {
        assert_eq!(said("\u{feff}gut\u{ad}ter \u{200b}and\u{a0}fascia"), "gutter and fascia");
    }

    #[test]
    fn utf16_with_its_mark_is_read_in_both_byte_orders() {
        let units: Vec<u16> = "\u{feff}6½ ft 🏠".encode_utf16().collect();
        for order in [u16::to_le_bytes, u16::to_be_bytes] {
            let bytes: Vec<u8> = units.iter().flat_map(|u| order(*u)).collect();
            assert_eq!(transcript(&bytes, "a").unwrap().text().0, "6½ ft 🏠");
        }
    }

    #[test]
    fn the_source_is_the_file_name_and_its_sha_256() {
        let read = transcript(b"abc", "folder/walk.txt").unwrap();
        assert_eq!(read.source, "walk.txt");
        // FIPS 180-4 example: SHA-256 of "abc".
        let digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(read.digest.as_deref(), Some(digest));
    }

    #[test]
    fn an_old_encoding_is_refused_with_its_line() {
        let message = refused(b"one\ntwo\nit\x92s");
        assert_eq!(message, "`in.vtt`, line 3: byte 0x92 isn't UTF-8 text: save the file as UTF-8");
    }

    #[test]
    fn half_a_utf16_character_is_refused() {
        assert!(refused(b"\xff\xfea\0\n\0b").starts_with("`in.vtt`, line 2: half a character"));
        assert!(refused(b"\xff\xfe\x00\xd8a\0").starts_with("`in.vtt`, line 1: half a character"));
    }

    #[test]
    fn control_characters_are_refused_with_their_line() {
        let message = refused("fine\n\u{1b}[31mred");
        assert!(message.starts_with("`in.vtt`, line 2: the control character U+001B"), "{message}");
    }

    #[test]
    fn text_without_a_word_is_refused() {
        assert!(refused(" \n\n").contains("there isn't a word in it"));
        assert!(refused("WEBVTT\n\nNOTE nothing\n").contains("there isn't a word in it"));
    }
}

mod webvtt {
    use super::*;

    #[test]
    fn words_share_a_cues_time_by_their_letters() {
        assert_eq!(
            heard("WEBVTT\n\n00:01.000 --> 00:02.000\ntwo gutter s\n"),
            "two 1000-1300, gutter 1300-1900, s 1900-2000"
        );
    }

    #[test]
    fn time_marks_inside_a_cue_are_word_times() {
        let text = "WEBVTT\n\n00:01.000 --> 00:05.000\nbox <00:02.000>vents <00:02.500> <00:04.000>four\n";
        assert_eq!(heard(text), "box 1000-2000, vents 2000-2500, four 4000-5000");
    }

    #[test]
    fn a_mark_before_the_space_counts_for_the_next_word_and_one_out_of_order_for_none() {
        let text = "WEBVTT\n\n00:01.000 --> 00:05.000\nbox<00:02.000><c> vents</c><00:01.500> four\n";
        assert_eq!(heard(text), "box 1000-2000, vents 2000-3666, four 3666-5000");
    }

    #[test]
    fn tags_and_entities_are_text_no_more() {
        let text = "WEBVTT\n\n00:01.000 --> 00:02.000\n<v.loud Some One>8<c.red>&quot;</c> &amp;&nbsp;<i>half</i> &lt;ok&gt; 2 < 3 > 1 & so&lrm;\n";
        assert_eq!(said(text), "8\" & half <ok> 2 < 3 > 1 & so");
    }

    #[test]
    fn names_settings_notes_styles_and_regions_are_not_said() {
        let text = "WEBVTT - a title\nKind: captions\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:a\n\nNOTE\nnot\nthis\n\n\
                    first cue\n00:01.000 --> 00:02.000 line:0 align:start\none\ntwo\n\nNOTE nor this\n\n\
                    00:03.000 --> 00:04.000\nNOTE is said here\n";
        assert_eq!(said(text), "one two\nNOTE is said here");
    }

    #[test]
    fn a_time_line_right_after_a_cue_begins_the_next_as_the_standard_says() {
        let text = "WEBVTT\n00:01.000 --> 00:02.000\none\n00:02.000 --> 00:03.000\ntwo";
        assert_eq!(heard(text), "one 1000-2000\ntwo 2000-3000");
    }

    #[test]
    fn old_line_ends_are_line_ends() {
        assert_eq!(heard("WEBVTT\r\n\r\n00:01.000 --> 00:02.000\r\none\r\n"), "one 1000-2000");
        assert_eq!(heard("WEBVTT\r\r00:01.000 --> 00:02.000\rone\r"), "one 1000-2000");
    }

    #[test]
    fn what_a_player_would_skip_is_refused_with_its_line() {
        let wrong = |body: &str| refused(format!("WEBVTT\n\n{body}\n"));
        assert!(
            wrong("00:01 --> 00:02\nx")
                .starts_with("`in.vtt`, line 3: `00:01 --> 00:02` isn't the time line")
        );
        assert!(wrong("00:02.000 --> 00:01.000\nx").starts_with("`in.vtt`, line 3: this cue ends before"));
        assert!(
            wrong("00:01.000 --> 00:02.000\nx\n\nlost words")
                .starts_with("`in.vtt`, line 6: `lost words` belongs")
        );
    }
}

mod srt {
    use super::*;

    #[test]
    fn counts_are_not_said_but_numbers_are() {
        let text = "1\n00:00:01,000 --> 00:00:02,000\n<i>gutter</i>\n14\n\nfoot\n\n2\n00:00:02,000 --> 00:00:03,000\n{\\an8}rear\n";
        assert_eq!(said(text), "gutter 14 foot\nrear");
    }

    #[test]
    fn counts_may_be_missing_and_cues_out_of_order() {
        let text = "00:00:05.000 --> 00:00:06.000\nlater\n\n00:00:01.000 --> 00:00:02.000\nsooner\n";
        assert_eq!(heard(text), "sooner 1000-2000\nlater 5000-6000");
    }

    #[test]
    fn an_arrow_in_the_text_is_text() {
        assert_eq!(said("1\n00:00:01,000 --> 00:00:02,000\nfront --> rear\n"), "front --> rear");
    }

    #[test]
    fn a_broken_time_line_is_refused_with_its_line() {
        let text = "1\n00:00:01,000 --> 00:00:02,000\nfine\n\n2\n00:00:02,000 --> oops\nlost\n";
        assert!(refused(text).starts_with("`in.vtt`, line 6: `00:00:02,000 --> oops` isn't the time line"));
    }

    #[test]
    fn a_file_cut_off_within_a_time_is_refused_with_its_line() {
        let text = "1\n00:00:01,000 --> 00:00:02,000\nfine\n\n2\n00:00:02,0";
        assert!(refused(text).starts_with("`in.vtt`, line 6: `00:00:02,0` isn't the time line"));
    }
}

mod rolling_captions {
    use super::*;

    #[test]
    fn a_carried_line_is_said_once() {
        let text = "WEBVTT\n\n00:00.000 --> 00:02.390\n \nso<00:00.480><c> two</c>\n\n\
                    00:02.390 --> 00:02.400\nso two\n \n\n\
                    00:02.400 --> 00:04.000\nso two\nbox<00:02.600><c> vents</c>\n\n\
                    00:04.000 --> 00:04.010\nbox vents\n\n\
                    00:04.010 --> 00:05.000\nbox vents\nreplace\n";
        assert_eq!(heard(text), "so 0-480, two 480-2390\nbox 2400-2600, vents 2600-4000\nreplace 4010-5000");
    }

    #[test]
    fn two_lines_that_scroll_are_said_once() {
        let text = "1\n00:00:00,000 --> 00:00:02,000\non the front\ntwo lights\n\n\
                    2\n00:00:02,000 --> 00:00:04,000\ntwo lights\ndetach and reset\n\n\
                    3\n00:00:04,000 --> 00:00:06,000\ndetach and reset\ndetach and reset\n";
        assert_eq!(said(text), "on the front two lights\ndetach and reset\ndetach and reset");
    }

    #[test]
    fn a_line_that_grows_is_said_once() {
        let text = "1\n00:00:00,000 --> 00:00:01,000\nfour\n\n2\n00:00:01,000 --> 00:00:02,000\nfour turbine\n\n\
                    3\n00:00:02,000 --> 00:00:03,000\nfour turbine vents\n";
        assert_eq!(said(text), "four\nturbine\nvents");
    }

    #[test]
    fn a_narrator_who_says_it_twice_has_said_it_twice() {
        let text = "1\n00:00:00,000 --> 00:00:01,000\nReplace it.\n\n2\n00:00:01,000 --> 00:00:02,000\nReplace it.\n\n\
                    3\n00:00:02,000 --> 00:00:03,000\nTwo lights.\n\n4\n00:00:03,000 --> 00:00:04,000\nDetach and reset.\n";
        assert_eq!(said(text), "Replace it.\nReplace it.\nTwo lights.\nDetach and reset.");
    }

    #[test]
    fn a_word_with_a_time_of_its_own_is_said_anew() {
        let text = "WEBVTT\n\n00:00.000 --> 00:01.000\nno <00:00.500>no\n\n00:01.000 --> 00:02.000\nno <00:01.500>no\n\n\
                    00:02.000 --> 00:03.000\nno <00:02.500>no\n\n00:03.000 --> 00:04.000\nno <00:03.500>no three\n";
        assert_eq!(said(text), "no no\nno no\nno no\nno no three");
    }
}

mod stored_transcripts {
    use super::*;

    #[test]
    fn all_that_was_stored_comes_back() {
        let stored = r#"{"source":"walk.m4a","digest":"00","length":2.5,"recognizer":"base","notices":["cut off"],
            "utterances":[{"words":[{"text":"gutter,","start":0.5,"end":1.25,"probability":0.5}]}]}"#;
        let read = transcript(stored.as_bytes(), "other.transcript.json").unwrap();
        let again = transcript(&crate::speech::write::json(&read), "again.json").unwrap();
        assert_eq!((read.source.as_str(), read.notices.len()), ("walk.m4a", 1));
        assert_eq!(read, again);
    }

    #[test]
    fn broken_json_is_refused_with_its_line() {
        let message = refused("{\n \"source\": \"a\",\n \"utterances\": [}\n");
        assert!(message.starts_with("`in.vtt`, line 3: broken JSON (expected value)"), "{message}");
    }

    #[test]
    fn other_json_is_refused_with_its_line_and_what_is_odd() {
        let message = refused("{\n \"source\": \"a\",\n \"speech\": []\n}");
        assert!(
            message.starts_with("`in.vtt`, line 3: JSON, but no transcript (unknown field `speech`"),
            "{message}"
        );
        assert!(refused("[{\"source\": \"a\"}]").contains("no transcript"));
        assert!(refused("{\"source\": \"a\", \"lines\": []}").contains("this is a draft already"));
    }

    #[test]
    fn words_that_cant_be_are_refused_with_their_place() {
        let odd = |word: &str| {
            refused(format!(r#"{{"source":"a","utterances":[{{"words":[{{"text":"a"}},{word}]}}]}}"#))
        };
        assert!(odd(r#"{"text":"two words"}"#).contains("utterances[0].words[1]: a word is not empty"));
        assert!(odd(r#"{"text":"\u001b[2J"}"#).contains("control character"));
        assert!(odd(r#"{"text":"a","start":2,"end":1}"#).contains("ends before it starts"));
        assert!(odd(r#"{"text":"a","probability":1.5}"#).contains("from 0 to 1"));
        assert!(odd(r#"{"text":"a","start":-1}"#).contains("a time is a number of seconds"));
    }
}

mod files {
    use super::*;

    #[track_caller]
    fn opened(name: &str, bytes: &[u8]) -> Result<Source, ReadError> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        open(&path, name)
    }

    #[test]
    fn content_decides_and_not_the_name() {
        assert!(matches!(opened("words.dat", b"two lights"), Ok(Source::Words(_))));
        assert!(matches!(opened("sound.txt", b"RIFF\x24\0\0\0WAVEfmt "), Ok(Source::Sound)));
        assert!(matches!(opened("noise", b"\x01\x02\x00\xff"), Ok(Source::Sound)));
    }

    #[test]
    fn text_longer_than_the_first_look_is_read_whole() {
        let text = "fourteen foot of gutter ".repeat(1000);
        let Ok(Source::Words(read)) = opened("long.txt", text.as_bytes()) else { panic!("it is text") };
        assert_eq!(read.words().count(), 4000);
    }

    #[test]
    fn what_is_neither_sound_nor_text_is_named() {
        let refused = |name, bytes: &[u8]| opened(name, bytes).unwrap_err().to_string();
        assert!(refused("a.pdf", b"%PDF-1.7\n\x00").contains("this is a PDF document"));
        assert!(refused("a.txt", b"{\\rtf1 hello}").contains("this is a rich-text document"));
        assert!(refused("a.wav", b"two lights").contains("named like a recording, but there is text in it"));
        assert!(refused("a.wav", b"").contains("the file is empty"));
    }

    #[test]
    fn a_missing_file_and_a_folder_are_told_apart() {
        let folder = tempfile::tempdir().unwrap();
        let missing = open(&folder.path().join("gone.txt"), "gone.txt").unwrap_err();
        assert!(matches!(missing.fault, Fault::Missing), "{missing}");
        let a_folder = open(folder.path(), "walks").unwrap_err();
        assert_eq!(a_folder.to_string(), "`walks`: this is a folder: name the files in it");
    }
}
