//! A folder of its own for a test, and the program run in it.

use anstream::adapter::strip_bytes;
use assert_cmd::Command;
use clap::Parser;
use eavesdraft::cli::terminal::Terminal;
use eavesdraft::cli::{self, Args};
use eavesdraft::model::span::Moment;
use eavesdraft::speech::read::transcript;
use eavesdraft::speech::{HearError, Progress, Recognizer, Transcript};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A folder that is gone after the test.
pub struct Desk(TempDir);

/// How a run of the program went.
#[derive(Debug)]
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Desk {
    /// A folder with these files in it.
    pub fn with<const N: usize>(files: [(&str, &[u8]); N]) -> Self {
        let desk = Self(tempfile::tempdir().unwrap());
        files.iter().for_each(|(name, bytes)| desk.put(name, bytes));
        desk
    }

    pub fn put(&self, name: &str, bytes: &[u8]) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    /// The names of all files, sorted, with their folders.
    pub fn names(&self) -> Vec<String> {
        let mut names = Vec::new();
        list(self.0.path(), "", &mut names);
        names.sort();
        names
    }

    /// The program, to be run here.
    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_eavesdraft"));
        command.current_dir(self.0.path()).args(args);
        command.env_remove("COLUMNS").env_remove("CLICOLOR_FORCE");
        command
    }

    /// Runs the program here.
    pub fn run(&self, args: &[&str]) -> Run {
        self.run_with(args, "")
    }

    /// Runs the program here, with something on standard input.
    pub fn run_with(&self, args: &[&str], stdin: impl Into<Vec<u8>>) -> Run {
        let output = self.command(args).write_stdin(stdin).output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        Run { code: output.status.code().unwrap(), out: text(output.stdout), err: text(output.stderr) }
    }

    /// Runs the program within the test, with a recogniser that hears one fixed narration in every recording but
    /// those named `silent`. Arguments that begin with `./` are files of this folder.
    pub fn run_hearing(&self, args: &[&str]) -> Run {
        self.run_hearing_with(args, &|_| Ok(Box::new(Replay)))
    }

    /// The same with the recogniser that `load` gives.
    pub fn run_hearing_with(&self, args: &[&str], load: cli::engine::Load) -> Run {
        let here = |arg: &&str| match arg.strip_prefix("./") {
            Some(name) => self.path(name).into_os_string(),
            None => arg.into(),
        };
        let args: Vec<_> = ["eavesdraft"].iter().chain(args).map(here).collect();
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let outcome = {
            let mut terminal = Terminal::of_writers(&mut out, &mut err);
            cli::run(Args::parse_from(args), &mut terminal, load)
        };
        let text = |bytes: Vec<u8>| String::from_utf8(strip_bytes(&bytes).into_vec()).unwrap();
        Run { code: outcome as i32, out: text(out), err: text(err) }
    }
}

fn list(folder: &Path, prefix: &str, names: &mut Vec<String>) {
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = format!("{prefix}{}", entry.file_name().into_string().unwrap());
        match entry.path().is_dir() {
            true => list(&entry.path(), &format!("{name}/"), names),
            false => names.push(name),
        }
    }
}

/// Hears the narration below in every recording.
pub struct Replay;

pub const NARRATION: &str = "WEBVTT\n\n00:01.000 --> 00:03.000\nOn the front elevation,\n\n\
                         00:03.000 --> 00:06.000\ntwo light fixtures, detach and reset.\n";

impl Recognizer for Replay {
    fn hear(&self, path: &Path, progress: &mut dyn FnMut(Progress)) -> Result<Transcript, HearError> {
        let name = path.file_name().unwrap().to_str().unwrap();
        progress(Progress { done: 3.0, total: Some(6.0), heard: String::new() });
        match name.starts_with("silent") {
            true => Err(HearError::Recording(format!("`{name}`: nobody speaks in it: record it again"))),
            false => {
                let length = Some(Moment::from_seconds(6.0));
                let digest = Some(eavesdraft::model::digest::of_file(path).unwrap());
                Ok(Transcript {
                    source: name.to_owned(),
                    length,
                    digest,
                    ..transcript(NARRATION.as_bytes(), name).unwrap()
                })
            }
        }
    }

    fn fingerprint(&self) -> Result<String, HearError> {
        Ok(eavesdraft::model::digest::of_bytes(NARRATION.as_bytes()))
    }
}
