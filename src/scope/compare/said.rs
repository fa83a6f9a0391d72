//! What a text of a list names: its words as the rules see them.

use crate::language::mentions::{Kind, Mention};
use crate::language::pieces::{self, Pieces};
use crate::language::rules::{Grammar, Meaning};
use crate::language::tokens::Tokens;
use crate::model::Work;

/// The words of a text, and what is spoken of in them.
pub(super) struct Said {
    pub tokens: Tokens,
    pub mentions: Vec<Mention>,
}

impl Said {
    pub fn new(text: &str, grammar: &Grammar) -> Self {
        let Pieces { tokens, mentions } = pieces::as_written(text, grammar);
        Self { tokens, mentions }
    }

    /// Whether it names a thing of the catalogue.
    pub fn names_an_item(&self) -> bool {
        self.mentions.iter().any(|m| matches!(&m.kind, Kind::Thing(thing) if thing.item.is_some()))
    }

    /// The works it names, each once, in the order it names them.
    pub fn works(&self, grammar: &Grammar) -> Vec<Work> {
        let mut works = Vec::new();
        for mention in &self.mentions {
            if let Some(Meaning::Work(work, _)) = mention.meaning(grammar)
                && !works.contains(&work)
            {
                works.push(work);
            }
        }
        works
    }
}
