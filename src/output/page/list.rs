//! Lists.

use super::{Block, Link, Said};

/// An entry of a list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Entry {
    /// What it is, set off from the rest.
    pub name: String,
    /// Where its name leads.
    pub link: Option<Link>,
    /// The rest.
    pub text: String,
    /// What was said, and when.
    pub said: Option<Said>,
    /// What it rests on: a rule, a publication.
    pub source: String,
}

impl Entry {
    /// An entry of one sentence.
    pub fn text(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }

    /// Its name and its text in one.
    pub fn told(&self) -> String {
        let parts = [&self.name, &self.text].into_iter().filter(|part| !part.is_empty());
        parts.map(String::as_str).collect::<Vec<_>>().join(": ")
    }

    /// What stands under it: the words that were said, and what it rests on.
    pub fn below(&self) -> impl Iterator<Item = String> {
        let said = self.said.as_ref().map(Said::told);
        said.into_iter().chain([self.source.clone()]).filter(|text| !text.is_empty())
    }
}

/// A list of what is to be done or to be known; none where it is empty.
pub fn list(ticks: bool, entries: Vec<Entry>) -> Vec<Block> {
    if entries.is_empty() { Vec::new() } else { vec![Block::List { ticks, entries }] }
}
