//! A stored transcript: the program's own JSON, as `eavesdraft hear` writes it.

use super::error::{Fault, Flaw};
use super::text::is_invisible;
use crate::speech::{Transcript, Word};
use serde::Deserializer;
use serde::de::{IgnoredAny, MapAccess, Visitor};
use serde_json::Value;
use serde_json::error::Category;

/// The transcript that a JSON text holds.
pub(super) fn transcript(text: &str) -> Result<Transcript, Flaw> {
    let transcript: Transcript = serde_json::from_str(text).map_err(|e| flaw(text, &e))?;
    for (u, utterance) in transcript.utterances.iter().enumerate() {
        for (w, word) in utterance.words.iter().enumerate() {
            check(word).map_err(|why| Fault::NoTranscript(format!("utterances[{u}].words[{w}]: {why}")))?;
        }
    }
    match transcript.source.chars().any(|c| c.is_control() || is_invisible(c)) {
        true => Err(Fault::NoTranscript("source: a file name has no control characters".to_owned()).into()),
        false => Ok(transcript),
    }
}

/// What the beginning of a stored transcript tells; the rest may be cut off.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Head {
    /// SHA-256 of the recording.
    pub digest: Option<String>,
    /// It was put together from several recordings.
    pub is_joined: bool,
}

impl Head {
    pub(super) fn of(bytes: &[u8]) -> Self {
        let mut head = Self::default();
        // The end is cut off, which is no error here.
        let _ = serde_json::Deserializer::from_slice(bytes).deserialize_map(Reader(&mut head));
        head
    }
}

/// Takes what it can on the way.
struct Reader<'a>(&'a mut Head);

impl<'de> Visitor<'de> for Reader<'_> {
    type Value = ();

    fn expecting(&self, to: &mut std::fmt::Formatter) -> std::fmt::Result {
        to.write_str("a transcript")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "digest" => self.0.digest = map.next_value()?,
                "clips" => self.0.is_joined = true,
                "utterances" => return Ok(()),
                _ => {}
            }
            if key != "digest" {
                map.next_value::<IgnoredAny>()?;
            }
        }
        Ok(())
    }
}

fn flaw(text: &str, error: &serde_json::Error) -> Flaw {
    if matches!(error.classify(), Category::Data) && is_draft(text) {
        return Fault::Draft.into();
    }
    let message = error.to_string();
    let said = message.split(" at line ").next().unwrap_or(&message).to_owned();
    let fault = match error.classify() {
        Category::Data => Fault::NoTranscript(said),
        _ => Fault::BrokenJson(said),
    };
    Flaw::at(error.line(), fault)
}

fn is_draft(text: &str) -> bool {
    serde_json::from_str(text).is_ok_and(|value: Value| value.get("lines").is_some_and(Value::is_array))
}

/// What the types alone don't promise of a word.
fn check(word: &Word) -> Result<(), &'static str> {
    let odd = |c: char| c.is_whitespace() || c.is_control() || is_invisible(c);
    if word.text.is_empty() || word.text.contains(odd) {
        return Err("a word is not empty and has no white space or control character in it");
    }
    if word.start.zip(word.end).is_some_and(|(start, end)| end < start) {
        return Err("a word ends before it starts");
    }
    match word.probability {
        Some(p) if !(0.0..=1.0).contains(&p) => Err("a probability is from 0 to 1"),
        _ => Ok(()),
    }
}
