//! A line that the draft lacks: drafted from words of the transcript, or typed.

use super::command::Fields;
use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::fields;
use super::lines::clear_flags;
use super::refusal::Refusal;
use super::scope::{Entry, LineState};
use crate::model::{Area, HOUSE, Line, Side, Unit};
use crate::scope::drafting;
use crate::speech::{Transcript, Utterance, Word};

impl ReviewContext<'_> {
    pub(super) fn add(
        &self,
        actor: &Actor,
        words: Option<[u32; 2]>,
        fields: &Fields,
    ) -> Result<Vec<Change>, Refusal> {
        let mut line = match words {
            Some(words) => self.drafted_from(words)?,
            None => blank(),
        };
        line.id = self.added_id();
        fields::put(&mut line, fields, self.grammar)?;
        if line.item.is_none() && line.said.is_empty() {
            let message = "say what the line is about".to_owned();
            return Err(Refusal::NotUnderstood { field: "item", message });
        }
        clear_flags(&mut line);
        let by = Some(actor.who.clone());
        let entry = Entry { by, state: LineState::Reviewed, ..Entry::drafted(line) };
        Ok(vec![Change::line(None, Some(entry))])
    }

    /// The id of a line that this event adds.
    pub(super) fn added_id(&self) -> String {
        format!("added-{}", self.scope.version + 1)
    }

    /// What those words alone would be drafted as; their own words where they come to no line.
    fn drafted_from(&self, [first, last]: [u32; 2]) -> Result<Line, Refusal> {
        let words: Vec<&Word> = self.transcript.words().collect();
        let chosen = words
            .get(first as usize..=last as usize)
            .filter(|chosen| !chosen.is_empty())
            .ok_or_else(|| Refusal::Invalid("these words are not in the recording".to_owned()))?;
        let quote = chosen.iter().map(|word| word.text.as_str()).collect::<Vec<_>>().join(" ");
        let line = self.drafted_alone(chosen, &quote);
        let (structure, side) = self.place_at(first, &line);
        let (start, end) = (chosen.first().and_then(|w| w.start), chosen.last().and_then(|w| w.end));
        Ok(Line { structure, side, quote, words: Some([first, last]), start, end, ..line })
    }

    fn drafted_alone(&self, chosen: &[&Word], quote: &str) -> Line {
        let utterance = Utterance { words: chosen.iter().map(|word| (*word).clone()).collect() };
        let alone = Transcript { utterances: vec![utterance], ..Transcript::default() };
        let drafted = drafting::draft(&alone, self.grammar).lines.into_iter().next();
        let said = quote.trim_matches(|c: char| c.is_ascii_punctuation()).to_owned();
        drafted.unwrap_or_else(|| Line { said, ..blank() })
    }

    /// Where the narrator was at a word: on the side of the line before.
    fn place_at(&self, word: u32, line: &Line) -> (String, Side) {
        let said_before = |entry: &&Entry| entry.line.words.is_some_and(|words| words[0] <= word);
        match self.scope.entries.iter().rev().find(said_before) {
            Some(entry) if line.side == Side::None => (entry.line.structure.clone(), entry.line.side),
            _ => (line.structure.clone(), line.side),
        }
    }
}

/// A line of which nothing is known yet.
pub(super) fn blank() -> Line {
    Line {
        id: String::new(),
        structure: HOUSE.to_owned(),
        side: Side::None,
        area: Area::Wall,
        item: None,
        said: String::new(),
        work: None,
        quantity: None,
        unit: Unit::Each,
        rough: false,
        size: None,
        detail: None,
        only_if: false,
        confidence: 1.0,
        flags: Vec::new(),
        quote: String::new(),
        words: None,
        start: None,
        end: None,
        other_reading: None,
        readings: Vec::new(),
        why: Vec::new(),
    }
}
