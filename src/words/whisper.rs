//! Whisper, through whisper.cpp: the only file that names the engine.
//!
//! The settings were measured on spoken narrations: several workers with one thread each (threads that wait
//! for one another collapse as soon as another program uses a core), an encoder window no longer than the
//! chunk asks for, greedy decoding without the words of the chunk before (so that the outcome doesn't depend
//! on who heard what), no prompt (two of trade words were tried: more words came out wrong, not fewer), and times on
//! (without them it loops).

use super::ear::{Ear, Language, Segments, Token};
use super::hearing::{self, Ears};
use super::{Again, HearError, Progress, Recognizer, Transcript};
use crate::digest;
use crate::sound::RATE;
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use whisper_rs::{
    FullParams, SamplingStrategy, WhisperContext, WhisperContextParameters, WhisperError, WhisperSegment,
    WhisperState, get_lang_id, get_lang_str_full,
};

/// Which way of hearing this is. Count on wherever the same model and the same sound come to give other words: what was
/// heard in another way is heard anew then.
const RECIPE: u32 = 1;

/// How to hear.
#[derive(Debug, Clone, Default)]
pub struct WhisperOptions {
    /// How many chunks are heard at once; none for one a processor core.
    pub jobs: Option<NonZeroUsize>,
    /// The speech is English, whatever it sounds like.
    pub english: bool,
    /// A model that hears doubtful chunks once more; none for no second ear.
    pub second: Option<PathBuf>,
    /// Which chunks that one hears.
    pub again: Again,
}

/// A recogniser with a Whisper model.
pub struct WhisperRecognizer {
    context: WhisperContext,
    model: PathBuf,
    options: WhisperOptions,
    name: String,
    second: Option<Box<Self>>,
    /// What workers need beside the model, kept from one recording to the next: made anew for each, memory grew from
    /// file to file.
    states: Mutex<Vec<WhisperState>>,
}

impl WhisperRecognizer {
    /// Loads the whisper.cpp model at `model`.
    ///
    /// # Errors
    /// One sentence for a person: no such file, or no model in it.
    pub fn new(model: &Path, options: WhisperOptions) -> Result<Self, HearError> {
        whisper_rs::install_logging_hooks();
        let mut parameters = WhisperContextParameters::default();
        parameters.flash_attn(false);
        let context = WhisperContext::new_with_params(model, parameters).map_err(|_| no_model(model))?;
        let file = model.file_name().unwrap_or(model.as_os_str()).to_string_lossy();
        let mut name = format!("whisper {file}");
        let second = match options.second.as_deref().filter(|_| options.again != Again::Never) {
            Some(second) => Some(Box::new(Self::new(second, WhisperOptions::default())?)),
            None => None,
        };
        if let Some(second) = &second {
            name = format!("{name}, again {}", second.name.trim_start_matches("whisper "));
        }
        Ok(Self { context, model: model.to_owned(), options, name, second, states: Mutex::default() })
    }

    fn ears(&self) -> Result<Vec<WhisperEar<'_>>, HearError> {
        let cores = std::thread::available_parallelism().map_or(1, NonZeroUsize::get);
        let jobs = self.options.jobs.map_or(cores, NonZeroUsize::get);
        (0..jobs).map(|_| self.ear()).collect()
    }

    fn ear(&self) -> Result<WhisperEar<'_>, HearError> {
        let kept = self.states().pop();
        let state = kept.map_or_else(|| self.context.create_state().map_err(|e| failed(&e)), Ok)?;
        Ok(WhisperEar { state, recognizer: self })
    }

    fn states(&self) -> MutexGuard<'_, Vec<WhisperState>> {
        self.states.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Recognizer for WhisperRecognizer {
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError> {
        let mut first = self.ears()?;
        let mut second = self.second.as_deref().map(Self::ear).transpose()?;
        let (recognizer, again) = (self.name.as_str(), self.options.again);
        let ears = Ears { recognizer, first: &mut first, second: second.as_mut(), again };
        let transcript = hearing::hear(path, ears, progress);
        for ear in first.into_iter().chain(second) {
            ear.recognizer.states().push(ear.state);
        }
        transcript
    }

    fn fingerprint(&self) -> Result<String, HearError> {
        let mut all = format!("{RECIPE} {:?} {}", self.options.again, self.options.english);
        for recognizer in [Some(self), self.second.as_deref()].into_iter().flatten() {
            let digest = digest::of_file(&recognizer.model).map_err(|_| no_model(&recognizer.model))?;
            all.push(' ');
            all.push_str(&digest);
        }
        Ok(digest::of_bytes(all.as_bytes()))
    }

    fn lacks(&self) -> Option<String> {
        let lacks = self.second.is_none() && self.options.again != Again::Never;
        lacks.then(|| {
            "what is doubtful is heard only once, for want of the second model: `eavesdraft model fetch` gets it"
                .to_owned()
        })
    }
}

fn no_model(path: &Path) -> HearError {
    let path: PathBuf = path.to_owned();
    HearError(format!(
        "`{}` is not a whisper.cpp model that can be loaded; fetch one with `eavesdraft model fetch`",
        path.display()
    ))
}

/// One worker's share of the engine.
struct WhisperEar<'a> {
    state: WhisperState,
    recognizer: &'a WhisperRecognizer,
}

impl<'a> WhisperEar<'a> {
    fn settings(&self, samples: usize) -> FullParams<'a, 'static> {
        let mut settings = FullParams::new(SamplingStrategy::Greedy { best_of: 1 });
        settings.set_n_threads(1);
        settings.set_language(Some("en"));
        settings.set_no_context(true);
        settings.set_temperature_inc(0.0);
        settings.set_token_timestamps(true);
        settings.set_audio_ctx(window(samples).min(self.recognizer.context.n_audio_ctx()));
        settings.set_print_progress(false);
        settings
    }

    fn tokens(&self, segment: &WhisperSegment) -> Result<Vec<Token>, HearError> {
        let first_special = self.recognizer.context.token_eot();
        let mut tokens = Vec::new();
        for n in 0..segment.n_tokens() {
            let Some(token) = segment.get_token(n) else { continue };
            let data = token.token_data();
            // From here on tokens stand for no text.
            if data.id >= first_special {
                continue;
            }
            tokens.push(Token {
                text: token.to_bytes().map_err(|e| failed(&e))?.to_vec(),
                start: data.t0 as f64 / 100.0,
                end: data.t1 as f64 / 100.0,
                probability: data.p,
            });
        }
        Ok(tokens)
    }
}

impl Ear for WhisperEar<'_> {
    fn hear(&mut self, samples: &[f32]) -> Result<Segments, HearError> {
        self.state.full(self.settings(samples.len()), samples).map_err(|e| failed(&e))?;
        self.state.as_iter().map(|segment| self.tokens(&segment)).collect()
    }

    fn language(&mut self) -> Result<Option<Language>, HearError> {
        if self.recognizer.options.english || !self.recognizer.context.is_multilingual() {
            return Ok(None);
        }
        let (likeliest, chances) = self.state.lang_detect(0, 1).map_err(|e| failed(&e))?;
        let chance = |id: i32| chances.get(id as usize).copied().unwrap_or(0.0);
        Ok(Some(Language {
            name: get_lang_str_full(likeliest).unwrap_or("another language").to_owned(),
            probability: chance(likeliest),
            english: get_lang_id("en").map_or(0.0, chance),
        }))
    }
}

/// The encoder's window for so many samples, in its steps of 20 ms: what the sound needs and some room,
/// without which it loops; short sounds need more.
fn window(samples: usize) -> i32 {
    let steps = samples * 50 / RATE;
    let room = if samples < 8 * RATE { 128 } else { 64 };
    (steps + room).next_multiple_of(64) as i32
}

fn failed(error: &WhisperError) -> HearError {
    HearError(format!("the recogniser failed ({error}); try again with fewer jobs, or with another model"))
}
