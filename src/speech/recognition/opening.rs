//! The opening of a recording: its first seconds of voice are heard by themselves, so that words are on the screen
//! at once, and so that a language that there are no rules for is told before an hour of it was heard.

use super::HearError;
use super::engine::{Engine, Language, Segments};
use super::noise::drop_described;
use super::spelling;
use crate::speech::sound::RATE;

/// How much is heard first. A chunk of less than twice as much comes soon enough as it is.
const FIRST: usize = 5 * RATE;

/// English that is less likely than this in the first seconds is doubted: ten invented narrations in five voices, some of
/// them robots, gave 0.96 and more, German of a robot 0.67.
const CERTAIN: f32 = 0.9;

/// A language without a word in it must be as likely as this.
const SURELY: f32 = 0.8;

/// Hears the first chunk of a recording. `show` gets the words of its first seconds, for the screen: the whole
/// chunk, heard once more, tells better what was said.
///
/// # Errors
/// The engine fails, or a language other than English is spoken. What the first seconds leave in doubt the whole
/// chunk settles.
pub(super) fn hear(
    engine: &mut impl Engine,
    samples: &[f32],
    show: impl FnOnce(String),
) -> Result<Segments, HearError> {
    let mut doubted = true;
    if samples.len() >= 2 * FIRST {
        show(words(&engine.hear(&samples[..FIRST])?));
        doubted = engine.language()?.is_some_and(|language| language.english < CERTAIN);
    }
    let heard = engine.hear(samples)?;
    if doubted && let Some(language) = engine.language()? {
        // Where no words came of it, it may have been no speech at all, which is taken for any language.
        let least = if words(&heard).is_empty() { SURELY } else { language.english };
        if language.name != "english" && language.probability > least {
            return Err(refusal(&language));
        }
    }
    Ok(heard)
}

fn words(segments: &Segments) -> String {
    let words: Vec<String> =
        drop_described(spelling::words(segments)).into_iter().map(|word| word.text).collect();
    words.join(" ")
}

fn refusal(language: &Language) -> HearError {
    let mut name = language.name.clone();
    name.get_mut(..1).into_iter().for_each(str::make_ascii_uppercase);
    HearError::Recording(format!(
        "this seems to be {name} ({:.0} % likely), and there are rules for English only; if it is English after all, \
         say so with `--english`",
        100.0 * language.probability
    ))
}

#[cfg(test)]
mod tests {
    use super::super::engine::Token;
    use super::*;

    /// Says how many seconds it was given, and takes each sound for the next of its languages.
    struct Parrot(Vec<Language>);

    impl Engine for Parrot {
        fn hear(&mut self, samples: &[f32]) -> Result<Segments, HearError> {
            let text = format!(" {}", samples.len() / RATE).into_bytes();
            Ok(vec![vec![Token { text, start: 0.0, end: 1.0, probability: 1.0 }]])
        }

        fn language(&mut self) -> Result<Option<Language>, HearError> {
            Ok(self.0.pop())
        }
    }

    fn heard(seconds: usize, languages: &[(&str, f32, f32)]) -> (Vec<String>, Result<String, String>) {
        let language = |&(name, probability, english): &(&str, f32, f32)| Language {
            name: name.to_owned(),
            probability,
            english,
        };
        let mut shown = Vec::new();
        let mut engine = Parrot(languages.iter().rev().map(language).collect());
        let heard = hear(&mut engine, &vec![0.0; seconds * RATE], |text| shown.push(text));
        (shown, heard.map(|segments| words(&segments)).map_err(|error| error.to_string()))
    }

    #[test]
    fn the_first_seconds_are_shown_and_the_whole_is_kept() {
        let english = ("english", 0.98, 0.98);
        assert_eq!(heard(27, &[english]), (vec!["5".to_owned()], Ok("27".to_owned())));
        assert_eq!(heard(9, &[english]), (vec![], Ok("9".to_owned())));
    }

    #[test]
    fn another_language_is_refused_where_the_whole_chunk_bears_it_out() {
        let (german, english) = (("german", 0.9, 0.04), ("english", 0.7, 0.7));
        assert_eq!(heard(27, &[german, english]).1, Ok("27".to_owned()));
        let refused = heard(27, &[german, german]).1.unwrap_err();
        assert!(refused.starts_with("this seems to be German (90 % likely)"), "{refused}");
        assert!(heard(9, &[german]).1.is_err());
    }

    #[test]
    fn an_engine_that_knows_one_language_refuses_none() {
        assert_eq!(heard(27, &[]).1, Ok("27".to_owned()));
    }
}
