//! Visits that were recorded in several clips.

use super::{Answer, Served};
use crate::harness::Desk;
use eavesdraft::language::rules::Grammar;
use eavesdraft::model::span::Moment;
use eavesdraft::output::draft::json;
use eavesdraft::scope::drafting::draft;
use eavesdraft::speech::{Transcript, clips, read};
use serde_json::json;

const RATE: usize = 16_000;

/// What was heard of each clip, how long it was then, how many samples can be decoded now, and how loud they are.
const CLIPS: [(&str, &str, u64, usize, i16); 3] = [
    ("1.wav", "Front elevation. Mailbox, replace.", 2_000, 32_400, 12_000),
    ("2.wav", "Two coach lights, detach and reset.", 2_000, 31_000, 3_000),
    ("3.wav", "Gutter, eleven foot, no wait, seven foot, replace.", 1_000, 16_000, 9_000),
];

/// A folder with a visit in three clips: of the first more can be decoded than was heard, of the second less.
pub fn visit() -> Desk {
    let desk = Desk::with([]);
    let heard = CLIPS.map(|(name, words, length, samples, loud)| {
        desk.put(name, &wav(samples, loud));
        let captions = format!("WEBVTT\n\n00:00.100 --> 00:00.900\n{words}\n");
        Transcript {
            source: name.to_owned(),
            digest: Some(eavesdraft::model::digest::of_file(&desk.path(name)).unwrap()),
            length: Some(Moment(length)),
            ..read::transcript(captions.as_bytes(), name).unwrap()
        }
    });
    let visit = clips::join("14 Elm", heard.into());
    let draft = draft(&visit, &Grammar::built_in().unwrap());
    desk.put("14 Elm.transcript.json", &serde_json::to_vec(&visit).unwrap());
    desk.put("14 Elm.scope.json", &json(&draft));
    desk
}

/// A hum.
fn wav(samples: usize, loud: i16) -> Vec<u8> {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: RATE as u32,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut bytes = std::io::Cursor::new(Vec::new());
    let mut out = hound::WavWriter::new(&mut bytes, spec).unwrap();
    for n in 0..samples {
        let phase = n as f64 * 200.0 / RATE as f64 * std::f64::consts::TAU;
        out.write_sample((phase.sin() * f64::from(loud)) as i16).unwrap();
    }
    out.finalize().unwrap();
    bytes.into_inner()
}

fn sound(served: &Served, recording: &str) -> Answer {
    for _ in 0..1_000 {
        let answer = served.get(&format!("{recording}/sound"));
        if answer.status != 503 {
            return answer;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    panic!("the sound is never ready")
}

/// The loudest sample of a stretch, in samples from its first.
fn loudest(wav: &[i16], from: usize, until: usize) -> i16 {
    wav[from..until].iter().copied().max().unwrap()
}

#[test]
fn every_clip_sounds_from_where_it_begins() {
    let desk = visit();
    let served = Served::over(&desk);
    let recording = served.recording();
    let answer = sound(&served, &recording);
    assert_eq!(answer.status, 200, "{answer:?}");
    let wav = hound::WavReader::new(answer.body.as_slice()).unwrap().into_samples::<i16>();
    let wav: Vec<i16> = wav.map(Result::unwrap).collect();
    assert_eq!(wav.len(), 5 * RATE);
    let near = |sample: i16, loud: i16| (f64::from(sample) / f64::from(loud) - 1.0).abs() < 0.1;
    assert!(near(loudest(&wav, 2 * RATE - 200, 2 * RATE), 12_000), "the first goes on until the second");
    assert!(near(loudest(&wav, 2 * RATE + 50, 2 * RATE + 31_000), 3_000), "and no further");
    assert!(wav[2 * RATE + 31_050..4 * RATE].iter().all(|sample| *sample == 0), "what is missing is silence");
    assert!(near(loudest(&wav, 4 * RATE, 4 * RATE + 200), 9_000));
}

#[test]
fn a_clip_that_is_gone_or_changed_is_named() {
    let desk = visit();
    let served = Served::over(&desk);
    let recording = served.recording();
    let error = |answer: Answer| (answer.status, answer.json()["error"].as_str().unwrap().to_owned());
    desk.put("2.wav", &wav(100, 1));
    let changed = "clip 2, 2.wav, isn't the recording that was drafted: the file has changed";
    assert_eq!(error(sound(&served, &recording)), (410, changed.to_owned()));
    std::fs::remove_file(desk.path("3.wav")).unwrap();
    let gone = "clip 3, 3.wav, is missing: only the words are here";
    assert_eq!(error(sound(&served, &recording)), (404, gone.to_owned()));
    assert_eq!(served.get(&recording).json()["sound"], false);
    assert_eq!(served.get("/api/queue").json()["recordings"][0]["missing"], true);
}

#[test]
fn the_page_gets_the_clips_and_the_name_of_the_property() {
    let desk = visit();
    let served = Served::over(&desk);
    let recording = served.recording();
    let scope = served.get(&recording).json();
    assert_eq!(
        (&scope["name"], &scope["sound"], &scope["length"]),
        (&json!("14 Elm"), &json!(true), &json!(5.0))
    );
    assert_eq!(scope["clips"][1]["source"], "2.wav");
    assert_eq!((&scope["clips"][1]["start"], &scope["clips"][1]["first_word"]), (&json!(2.0), &json!(4)));
    let queued = &served.get("/api/queue").json()["recordings"][0];
    assert_eq!((&queued["name"], &queued["missing"]), (&json!("14 Elm"), &json!(false)));
    let page = served.get(&format!("{recording}/documents/work.html"));
    assert!(String::from_utf8(page.body).unwrap().contains("clip 3, 00:00"));
}

#[test]
fn clips_elsewhere_are_found_by_the_first() {
    let desk = visit();
    for (name, ..) in CLIPS {
        desk.put(&format!("sound/{name}"), &std::fs::read(desk.path(name)).unwrap());
        std::fs::remove_file(desk.path(name)).unwrap();
    }
    let served = Served::with(&desk, &["--recordings", "sound"]);
    assert_eq!(sound(&served, &served.recording()).status, 200);
}
