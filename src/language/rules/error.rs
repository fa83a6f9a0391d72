//! What can be wrong with a rules file: always with the file, the line, the entry and what was expected.

use std::fmt;
use std::path::PathBuf;

/// A fault in a rules file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file, as its writer knows it: `items/roof.toml`.
    pub file: String,
    /// The line, from 1.
    pub line: usize,
    /// The entry: the rule's name or the item's id, where it has one.
    pub entry: Option<String>,
    /// What was found, what was expected, what to do.
    pub message: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}: ", self.file, self.line)?;
        if let Some(entry) = &self.entry {
            write!(f, "in `{entry}`: ")?;
        }
        f.write_str(&self.message)
    }
}

/// Why the grammars couldn't be loaded.
#[derive(Debug, thiserror::Error)]
pub enum GrammarError {
    /// One or more entries are wrong.
    #[error("{}", list(.0))]
    Faults(Vec<Fault>),
    /// The folder or a file of it can't be read.
    #[error("the grammar folder `{}` can't be read: {cause}", path.display())]
    Unreadable {
        /// The folder or file.
        path: PathBuf,
        /// What the system said.
        cause: std::io::Error,
    },
}

fn list(faults: &[Fault]) -> String {
    faults.iter().map(Fault::to_string).collect::<Vec<_>>().join("\n")
}

/// The closest of `known` to `word`, as a hint to append; empty where none is near.
pub(super) fn did_you_mean<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> String {
    known
        .into_iter()
        .map(|k| (strsim::jaro_winkler(word, k), k))
        .filter(|(near, _)| *near > 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(a.1)))
        .map(|(_, k)| format!("; did you mean `{k}`?"))
        .unwrap_or_default()
}
