//! Several clips of one visit as one transcript: the narrator stopped the recording and went on in the next, so what he
//! had in mind, and the side he stood on, carry over. All times are on one line of time, the clips end to end; each
//! clip tells where on it it begins, so that the time within the clip is never lost.

use super::{Transcript, Utterance, Word};
use crate::model::Clip;
use crate::model::span::Moment;

/// The clips of a visit, in the order they were recorded, as one transcript by that name. The visit's digest is that of its first clip, so that one more clip leaves it the same visit.
pub fn join(name: &str, clips: Vec<Transcript>) -> Transcript {
    let twice = clips.iter().any(|clip| !clip.second_pass.is_empty());
    let mut visit = Transcript {
        source: name.to_owned(),
        digest: clips.first().and_then(|clip| clip.digest.clone()),
        recognizer: clips.first().and_then(|clip| clip.recognizer.clone()),
        ..Transcript::default()
    };
    let (mut start, mut first_word) = (Moment(0), 0);
    for clip in clips {
        let later = |utterance: &Utterance| Utterance {
            words: utterance.words.iter().map(|word| shifted(word, start)).collect(),
        };
        let again = if clip.second_pass.is_empty() { &clip.utterances } else { &clip.second_pass };
        if twice {
            visit.second_pass.extend(again.iter().map(later));
        }
        visit.utterances.extend(clip.utterances.iter().map(later));
        visit.notices.extend(clip.notices.iter().map(|notice| format!("{}: {notice}", clip.source)));
        let words = clip.words().count() as u32;
        let end = clip.length.or_else(|| clip.words().filter_map(|word| word.end).max());
        visit.clips.push(Clip {
            source: clip.source,
            digest: clip.digest,
            start,
            length: clip.length,
            first_word,
        });
        first_word += words;
        start = Moment(start.0 + end.unwrap_or_default().0);
    }
    visit.length = visit.clips.iter().all(|clip| clip.length.is_some()).then_some(start);
    visit
}

fn shifted(word: &Word, by: Moment) -> Word {
    let shift = |moment: Option<Moment>| moment.map(|moment| Moment(moment.0 + by.0));
    Word { start: shift(word.start), end: shift(word.end), ..word.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::clip_moment;

    fn clip(name: &str, words: &[(&str, u64)], length: u64) -> Transcript {
        let word = |(text, start): &(&str, u64)| Word {
            text: (*text).to_owned(),
            start: Some(Moment(*start)),
            end: Some(Moment(start + 100)),
            ..Word::default()
        };
        Transcript {
            source: name.to_owned(),
            digest: Some(format!("digest of {name}")),
            length: Some(Moment(length)),
            utterances: vec![Utterance { words: words.iter().map(word).collect() }],
            ..Transcript::default()
        }
    }

    #[test]
    fn clips_stand_end_to_end_and_each_moment_is_found_in_its_clip() {
        let one = clip("1.wav", &[("Front", 500), ("elevation.", 900)], 10_000);
        let two = clip("2.wav", &[("Two", 200), ("lights.", 700)], 5_000);
        let visit = join("14 Elm", vec![one, two]);
        let starts: Vec<u64> = visit.words().filter_map(|word| word.start).map(|start| start.0).collect();
        assert_eq!(starts, [500, 900, 10_200, 10_700]);
        assert_eq!((visit.source.as_str(), visit.digest.as_deref()), ("14 Elm", Some("digest of 1.wav")));
        assert_eq!(visit.length, Some(Moment(15_000)));
        assert_eq!(visit.clips[1].first_word, 2);
        let found = |ms| clip_moment(&visit.clips, Moment(ms)).map(|found| (found.clip, found.at.0));
        assert_eq!(
            [found(0), found(9_999), found(10_000), found(10_700)].map(Option::unwrap),
            [(1, 0), (1, 9_999), (2, 0), (2, 700)]
        );
    }

    #[test]
    fn where_one_clip_was_heard_twice_so_was_the_visit() {
        let one = clip("1.wav", &[("Front", 500)], 1_000);
        let mut two = clip("2.wav", &[("lights", 200)], 1_000);
        two.second_pass = clip("2.wav", &[("lice", 200)], 1_000).utterances;
        let visit = join("14 Elm", vec![one, two]);
        let again = visit.of_second_pass().unwrap();
        assert_eq!(again.words().map(|word| word.text.as_str()).collect::<Vec<_>>(), ["Front", "lice"]);
        assert_eq!(again.words().last().unwrap().start, Some(Moment(1_200)));
    }

    #[test]
    fn one_clip_alone_has_the_visits_name_and_its_own_times() {
        let visit = join("14 Elm", vec![clip("1.wav", &[("Front", 500)], 1_000)]);
        assert_eq!((visit.source.as_str(), visit.clips[0].source.as_str()), ("14 Elm", "1.wav"));
        assert_eq!(clip_moment(&visit.clips, Moment(500)), None);
    }
}
