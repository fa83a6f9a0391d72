//! Getting the recognizer ready.

use crate::speech::{Recognizer, SecondPass};
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// How recordings are to be heard.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Hearing {
    /// The model's file; none for the one in the store.
    pub model: Option<PathBuf>,
    /// The speech is English, whatever it sounds like.
    pub english: bool,
    /// What gets a second pass.
    pub second_pass: SecondPass,
    /// Workers that hear at once; none for as many as the machine's cores and memory hold.
    pub jobs: Option<NonZeroUsize>,
}

/// Gets a recognizer ready. Slow: it reads the model.
pub type Load<'a> = &'a dyn Fn(&Hearing) -> anyhow::Result<Box<dyn Recognizer>>;

/// The recognizer of this build.
///
/// # Errors
/// Where the build has none, or its model can't be loaded.
#[cfg(feature = "whisper")]
pub fn load(hearing: &Hearing) -> anyhow::Result<Box<dyn Recognizer>> {
    use crate::speech::recognition::whisper::{WhisperOptions, WhisperRecognizer};
    use crate::speech::recognition::workers::Capacity;
    let model = model_file(hearing.model.as_deref())?;
    let size = model.metadata().map_or(0, |file| file.len());
    let options = WhisperOptions {
        capacity: hearing.jobs.map_or_else(|| Capacity::of_machine(size), Capacity::of),
        english: hearing.english,
        second: second_model(),
        second_pass: hearing.second_pass,
    };
    Ok(Box::new(WhisperRecognizer::new(&model, options)?))
}

/// The recognizer of this build.
///
/// # Errors
/// Always: the build has none.
#[cfg(not(feature = "whisper"))]
pub fn load(_hearing: &Hearing) -> anyhow::Result<Box<dyn Recognizer>> {
    anyhow::bail!(
        "this build can't hear recordings: give a transcript or text, or build with `--features whisper`"
    )
}

/// The model of the second pass; none where it isn't in the store.
#[cfg(feature = "whisper")]
fn second_model() -> Option<PathBuf> {
    use crate::speech::models::{Store, TINY_EN_Q8_0};
    Store::of_user().and_then(|store| store.find(&TINY_EN_Q8_0)).ok()
}

/// The model's file: the one that was named, looked over first, or the store's.
#[cfg(feature = "whisper")]
fn model_file(named: Option<&std::path::Path>) -> anyhow::Result<PathBuf> {
    use crate::speech::models::{Store, inspect};
    use anyhow::Context;
    let Some(path) = named else { return Ok(Store::of_user()?.find_default()?) };
    inspect(path).with_context(|| format!("the model `{}` can't be used", path.display()))?;
    Ok(path.to_owned())
}
