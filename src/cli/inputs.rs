//! What the user gives to be read: files, and standard input.

use crate::pipeline;
use crate::speech::read::Source;
use anyhow::{Context, bail};
use std::io;
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// Something to be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Input {
    File(PathBuf),
    Stdin,
}

/// What documents of standard input are called, where it doesn't say itself what it came from.
const STDIN: &str = "stdin";

impl Input {
    /// The inputs in the order they were given; `-` is standard input.
    pub fn all(files: Vec<PathBuf>) -> anyhow::Result<Vec<Self>> {
        if files.iter().filter(|file| is_dash(file)).count() > 1 {
            bail!("`-` is given twice, but there is only one standard input: give it once");
        }
        let input = |file: PathBuf| if is_dash(&file) { Input::Stdin } else { Input::File(file) };
        Ok(files.into_iter().map(input).collect())
    }

    /// The file, where there is one.
    pub fn path(&self) -> Option<&Path> {
        match self {
            Input::File(file) => Some(file),
            Input::Stdin => None,
        }
    }

    /// Looks into the input, and reads it where it holds words.
    pub fn open(&self) -> anyhow::Result<Opened> {
        match self {
            Input::File(path) => {
                let name = path.display().to_string();
                let source = pipeline::open(path, &name)?;
                Ok(Opened { name, path: path.clone(), source, spool: None })
            }
            Input::Stdin => {
                let spool = spool().context("standard input couldn't be read")?;
                let (name, path) = (STDIN.to_owned(), spool.path().to_owned());
                let source = pipeline::open(&path, &name)?;
                Ok(Opened { name, path, source, spool: Some(spool) })
            }
        }
    }
}

/// An input that was looked into.
pub(super) struct Opened {
    /// What the user calls it.
    pub name: String,
    /// Where its bytes are.
    pub path: PathBuf,
    /// What it holds.
    pub source: Source,
    /// Keeps what came through standard input until all is done.
    pub spool: Option<NamedTempFile>,
}

fn is_dash(file: &Path) -> bool {
    file == Path::new("-")
}

/// All of standard input in a file, since a recording is read from a file.
fn spool() -> io::Result<NamedTempFile> {
    let mut file = NamedTempFile::with_prefix("stdin-")?;
    io::copy(&mut io::stdin().lock(), &mut file)?;
    Ok(file)
}
