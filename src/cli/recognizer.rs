//! Hearing recordings, with a recognizer that is made ready when the first one comes.

use super::engine::{Hearing, Load};
use super::inputs::Opened;
use crate::cli::terminal::Terminal;
use crate::pipeline;
use crate::speech::{Recognizer, Transcript};

/// A recognizer, once it is needed.
pub(super) struct LazyRecognizer<'a> {
    load: Load<'a>,
    hearing: &'a Hearing,
    recognizer: Option<Box<dyn Recognizer>>,
}

impl<'a> LazyRecognizer<'a> {
    pub fn new(load: Load<'a>, hearing: &'a Hearing) -> Self {
        Self { load, hearing, recognizer: None }
    }

    /// Hears a recording, showing how far it has come.
    pub fn hear(&mut self, recording: &Opened, terminal: &mut Terminal) -> anyhow::Result<Transcript> {
        let recognizer = match &mut self.recognizer {
            Some(recognizer) => recognizer,
            none => {
                let recognizer = none.insert((self.load)(self.hearing)?);
                recognizer.lacks().into_iter().for_each(|lack| terminal.note(lack));
                recognizer
            }
        };
        let bar = terminal.bar(&recording.name);
        let mut transcript =
            pipeline::hear(&recording.path, &**recognizer, &mut |progress| bar.show(&progress))?;
        if recording.spool.is_some() {
            transcript.source.clone_from(&recording.name);
        }
        Ok(transcript)
    }
}
