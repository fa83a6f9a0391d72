//! Whisper, through whisper.cpp: the only file that names the engine.
//!
//! The settings were measured on spoken narrations: several workers with one thread each (threads that wait
//! for one another collapse as soon as another program uses a core), an encoder window no longer than the
//! chunk asks for, greedy decoding without the words of the chunk before (so that the outcome doesn't depend
//! on who heard what), no prompt (two of trade words were tried: more words came out wrong, not fewer), and times on
//! (without them it loops).

use super::engine::{Engine, Language, Segments, Token};
use super::hearing::{self, Engines};
use super::workers::{Capacity, Workers};
use super::{HearError, Progress, Recognizer, SecondPass};
use crate::model::digest;
use crate::speech::Transcript;
use crate::speech::sound::RATE;
use std::path::{Path, PathBuf};
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
    /// How many chunks are heard at once, and with how many threads each.
    pub capacity: Capacity,
    /// The speech is English, whatever it sounds like.
    pub english: bool,
    /// The model of the second pass; none for no second pass.
    pub second: Option<PathBuf>,
    /// Which chunks get a second pass.
    pub second_pass: SecondPass,
}

/// A recognizer with a Whisper model.
pub struct WhisperRecognizer {
    model: PathBuf,
    options: WhisperOptions,
    name: String,
    workers: Workers<WhisperEngine>,
    second: Option<Box<Self>>,
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
        let second = match options.second.as_deref().filter(|_| options.second_pass != SecondPass::Never) {
            // What is doubtful is a fraction of the whole: one worker keeps up with it.
            Some(second) => Some(Box::new(Self::new(
                second,
                WhisperOptions { capacity: Capacity::ONE, ..Default::default() },
            )?)),
            None => None,
        };
        if let Some(second) = &second {
            name = format!("{name}, second listen {}", second.name.trim_start_matches("whisper "));
        }
        let engine = |_| WhisperEngine::new(&context, &options);
        let engines = (0..options.capacity.workers.get()).map(engine).collect::<Result<_, _>>()?;
        Ok(Self { model: model.to_owned(), options, name, workers: Workers::new(engines), second })
    }
}

impl Recognizer for WhisperRecognizer {
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError> {
        let engines = Engines {
            recognizer: &self.name,
            first: &self.workers,
            second: self.second.as_ref().map(|second| &second.workers),
            second_pass: self.options.second_pass,
        };
        hearing::hear(path, engines, progress)
    }

    fn fingerprint(&self) -> Result<String, HearError> {
        let mut all = format!("{RECIPE} {:?} {}", self.options.second_pass, self.options.english);
        for recognizer in [Some(self), self.second.as_deref()].into_iter().flatten() {
            let digest = digest::of_file(&recognizer.model).map_err(|_| no_model(&recognizer.model))?;
            all.push(' ');
            all.push_str(&digest);
        }
        Ok(digest::of_bytes(all.as_bytes()))
    }

    fn lacks(&self) -> Option<String> {
        let lacks = self.second.is_none() && self.options.second_pass != SecondPass::Never;
        lacks.then(|| {
            "doubtful stretches get no second listen, for want of the second model: `eavesdraft model fetch` gets it"
                .to_owned()
        })
    }
}

fn no_model(path: &Path) -> HearError {
    let path: PathBuf = path.to_owned();
    HearError::Passing(format!(
        "`{}` is not a whisper.cpp model that can be loaded; fetch one with `eavesdraft model fetch`",
        path.display()
    ))
}

/// One worker's share of the engine.
struct WhisperEngine {
    state: WhisperState,
    threads: i32,
    english: bool,
    multilingual: bool,
    longest_window: i32,
    /// From this token on they stand for no text.
    first_special: i32,
}

impl WhisperEngine {
    fn new(context: &WhisperContext, options: &WhisperOptions) -> Result<Self, HearError> {
        Ok(Self {
            state: context.create_state().map_err(|e| failed(&e))?,
            threads: i32::try_from(options.capacity.threads.get()).unwrap_or(1),
            english: options.english,
            multilingual: context.is_multilingual(),
            longest_window: context.n_audio_ctx(),
            first_special: context.token_eot(),
        })
    }

    fn settings(&self, samples: usize) -> FullParams<'static, 'static> {
        let mut settings = FullParams::new(SamplingStrategy::Greedy { best_of: 1 });
        settings.set_n_threads(self.threads);
        settings.set_language(Some("en"));
        settings.set_no_context(true);
        settings.set_temperature_inc(0.0);
        settings.set_token_timestamps(true);
        settings.set_audio_ctx(window(samples).min(self.longest_window));
        settings.set_print_progress(false);
        settings
    }

    fn tokens(&self, segment: &WhisperSegment) -> Result<Vec<Token>, HearError> {
        let mut tokens = Vec::new();
        for n in 0..segment.n_tokens() {
            let Some(token) = segment.get_token(n) else { continue };
            let data = token.token_data();
            if data.id >= self.first_special {
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

impl Engine for WhisperEngine {
    fn hear(&mut self, samples: &[f32]) -> Result<Segments, HearError> {
        self.state.full(self.settings(samples.len()), samples).map_err(|e| failed(&e))?;
        self.state.as_iter().map(|segment| self.tokens(&segment)).collect()
    }

    fn language(&mut self) -> Result<Option<Language>, HearError> {
        if self.english || !self.multilingual {
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
    HearError::Passing(format!(
        "the recognizer failed ({error}); try again with fewer jobs, or with another model"
    ))
}
