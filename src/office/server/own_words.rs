//! Words that reviewers teach: a file in the office's own folder of rules, which the page writes and every draft made
//! with that folder reads.

use crate::language::rules::{Grammar, GrammarError};
use anyhow::{Context, bail};
use serde::Deserialize;
use std::io::Write;
use std::path::PathBuf;
use toml::Value;

/// The file's name within the folder.
const FILE: &str = "taught.toml";

/// What the file begins with; one that doesn't is somebody else's, and left alone.
const HEAD: &str = "# Words that reviewers taught on the page; it takes them back too. Other words of your own go into \
                    other files.\n";

/// The most words that a name may have.
const MOST_WORDS: usize = 6;

/// A phrase that means an item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Taught {
    /// The words as they are said.
    pub phrase: String,
    /// The item's id.
    pub item: String,
    /// Who taught it.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
}

impl Taught {
    /// What it is known by.
    pub fn id(&self) -> String {
        crate::model::digest::of_bytes(format!("{}\n{}", self.phrase, self.item).as_bytes())[..12].to_owned()
    }
}

/// The office's own folder of rules.
#[derive(Debug)]
pub(super) struct OwnWords {
    folder: PathBuf,
}

#[derive(Deserialize)]
struct Stored {
    #[serde(default)]
    item: Vec<StoredItem>,
}

#[derive(Deserialize)]
struct StoredItem {
    id: String,
    said: Vec<String>,
    taught: StoredTaught,
}

#[derive(Deserialize)]
struct StoredTaught {
    who: String,
    at: String,
}

impl OwnWords {
    pub fn new(folder: PathBuf) -> Self {
        Self { folder }
    }

    fn file(&self) -> PathBuf {
        self.folder.join(FILE)
    }

    /// What was taught so far, the latest last.
    pub fn all(&self) -> anyhow::Result<Vec<Taught>> {
        let file = self.file();
        if !file.exists() {
            return Ok(Vec::new());
        }
        let text =
            std::fs::read_to_string(&file).with_context(|| format!("{}: can't be read", file.display()))?;
        if !text.starts_with(HEAD) {
            bail!("{}: this file wasn't written by the page: give it another name", file.display());
        }
        let stored: Stored =
            toml::from_str(&text).with_context(|| format!("{}: can't be read", file.display()))?;
        let taught = |item: StoredItem| Taught {
            phrase: item.said.into_iter().next().unwrap_or_default(),
            item: item.id,
            who: item.taught.who,
            at: item.taught.at,
        };
        Ok(stored.item.into_iter().map(taught).collect())
    }

    /// The rules as they would be with these words taught and no others.
    pub fn grammar(&self, all: &[Taught], now: &Grammar) -> Result<Grammar, GrammarError> {
        Grammar::with_folder_but(&self.folder, FILE, &text(all, now))
    }

    /// Keeps these words and no others: the file is written whole or not at all.
    pub fn keep(&self, all: &[Taught], now: &Grammar) -> anyhow::Result<()> {
        let file = self.file();
        let unwritten = || format!("{}: can't be written", file.display());
        let mut new = tempfile::NamedTempFile::new_in(&self.folder).with_context(unwritten)?;
        new.write_all(text(all, now).as_bytes()).with_context(unwritten)?;
        new.as_file().sync_all().with_context(unwritten)?;
        new.persist(&file).with_context(unwritten)?;
        Ok(())
    }
}

/// The words as they are said, in small letters, if they can be a name.
pub(super) fn phrase(text: &str) -> Option<String> {
    let word = |word: &str| {
        let word = word.trim_matches(|c: char| c.is_ascii_punctuation()).to_lowercase();
        let plain = word.chars().all(|c| c.is_alphanumeric() || c == '\'' || c == '-');
        (plain && !word.is_empty()).then_some(word)
    };
    let words: Option<Vec<String>> = text.split_whitespace().map(word).collect();
    let words = words.filter(|words| (1..=MOST_WORDS).contains(&words.len()))?;
    words.iter().any(|word| word.chars().any(char::is_alphabetic)).then(|| words.join(" "))
}

fn text(all: &[Taught], grammar: &Grammar) -> String {
    let mut text = HEAD.to_owned();
    for taught in all {
        let Some(item) = grammar.item_named(&taught.item).map(|n| &grammar.items[usize::from(n)]) else {
            continue;
        };
        let quoted = |text: &str| Value::String(text.to_owned()).to_string();
        let plain = |value: serde_json::Value| quoted(value.as_str().unwrap_or_default());
        text.push_str(&format!(
            "\n[[item]]\nid = {}\nunit = {}\narea = {}\nsaid = [{}]\ntaught = {{ who = {}, at = {} }}\n",
            quoted(&item.id),
            plain(serde_json::json!(item.unit)),
            plain(serde_json::json!(item.area)),
            quoted(&taught.phrase),
            quoted(&taught.who),
            quoted(&taught.at),
        ));
    }
    text
}
