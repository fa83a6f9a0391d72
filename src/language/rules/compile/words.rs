//! Classes, spellings, units, numbers, sounds, weights, cautions: what phrases are made of, and what stands beside them.

use super::Compiler;
use crate::language::rules::error::did_you_mean;
use crate::language::rules::grammar::{CautionRule, UnitPhrase};
use crate::language::rules::load::{Layer, Over};
use crate::language::rules::pattern::Step;
use crate::language::rules::schema::{CautionEntry, UnitEntry, UsualEntry};
use crate::language::rules::usual::{ASKED, Usual};
use crate::language::vocabulary::{MOST_CLASSES, WordId};
use crate::model::Caution;
use serde_spanned::Spanned;

impl Compiler<'_> {
    /// Takes in everything of a file but its items and rules.
    pub(super) fn words(&mut self, layer: &Layer) {
        let rules = &layer.rules;
        for (word, parts) in &rules.spelling {
            let parts: Vec<String> = parts.split_whitespace().map(str::to_owned).collect();
            self.grammar.vocabulary.add_spelling(word.get_ref(), &parts);
        }
        for (name, words) in &rules.class {
            self.class(layer, name.get_ref(), words);
        }
        rules.fillers.iter().for_each(|filler| self.grammar.vocabulary.add_filler(filler));
        if let Some(numbers) = &rules.numbers {
            self.grammar.numbers.add(numbers, &mut self.grammar.vocabulary);
        }
        self.sounds(layer);
        self.weights(layer);
        rules.unit.iter().for_each(|unit| self.unit(layer, unit));
        for (said, message) in self.grammar.lists.add(layer) {
            self.fault(layer, said, "", message);
        }
        rules.caution.iter().for_each(|caution| self.caution(layer, caution));
        rules.usual.iter().for_each(|usual| self.usual(layer, usual));
        self.grammar.openings = rules.openings.unwrap_or(self.grammar.openings);
    }

    fn class(&mut self, layer: &Layer, name: &str, words: &[Spanned<String>]) {
        let Some(class) = self.grammar.vocabulary.add_class(name) else {
            let at = &words[0];
            return self.fault(layer, at, name, format!("there can be {MOST_CLASSES} classes at most"));
        };
        for word in words {
            if word.get_ref().contains(char::is_whitespace) {
                let message = format!("`{}` is several words; a class takes single ones", word.get_ref());
                self.fault(layer, word, name, message);
            }
            self.grammar.vocabulary.put_in_class(word.get_ref(), class);
        }
    }

    /// How words of the trade and groups of letters sound.
    fn sounds(&mut self, layer: &Layer) {
        for (word, signs) in &layer.rules.pronounced {
            if let Err(sign) = self.grammar.sounds.add(word.get_ref(), signs.get_ref()) {
                self.fault(layer, signs, word.get_ref(), no_sign(&sign));
            }
        }
        for (letters, signs) in &layer.rules.letters {
            if let Err(sign) = self.grammar.sounds.add_letters(letters.get_ref(), signs.get_ref()) {
                self.fault(layer, signs, letters.get_ref(), no_sign(&sign));
            }
        }
    }

    /// An office's weights for punctuation lie over the built-in ones, clue by clue. Those for names that were misheard
    /// take their place, all of them: they are one fit.
    fn weights(&mut self, layer: &Layer) {
        self.grammar.punctuation.add(&layer.rules.punctuation);
        let Some(weights) = &layer.rules.asr_correction else { return };
        self.grammar.asr_correction = *weights.get_ref();
        if let Some(message) = weights.get_ref().fault() {
            self.fault(layer, weights, "asr_correction", message.into());
        }
    }

    fn unit(&mut self, layer: &Layer, entry: &UnitEntry) {
        for says in &entry.says {
            for steps in self.expanded(layer, says, "unit") {
                self.unit_phrase(&steps, entry);
            }
        }
    }

    fn unit_phrase(&mut self, steps: &[Step], entry: &UnitEntry) {
        let mut all: Vec<Vec<WordId>> = vec![Vec::new()];
        for step in steps {
            let words = step.words(&self.grammar.vocabulary);
            all =
                all.iter().flat_map(|l| words.iter().map(move |w| [l.as_slice(), &[*w]].concat())).collect();
        }
        for words in all {
            let UnitEntry { unit, digits_only, rise, .. } = *entry;
            let phrase = UnitPhrase { rest: words[1..].to_vec(), unit, digits_only, rise };
            self.grammar.units.entry(words[0]).or_default().push(phrase);
        }
    }

    fn caution(&mut self, layer: &Layer, entry: &CautionEntry) {
        let name = entry.name.get_ref();
        if self.grammar.cautions.iter().any(|c| c.caution.name == *name) {
            return self.fault(layer, &entry.name, name, "there is a caution of this name already".into());
        }
        let caution = Caution { name: name.clone(), text: entry.text.clone(), source: entry.source.clone() };
        self.grammar.cautions.push(CautionRule { caution, always: entry.always, roof: entry.roof });
    }

    fn usual(&mut self, layer: &Layer, entry: &UsualEntry) {
        let name = entry.name.get_ref();
        if !ASKED.contains(&name.as_str()) {
            let hint = did_you_mean(name, ASKED);
            return self.fault(layer, &entry.name, name, format!("nothing asks for `{name}`{hint}"));
        }
        let UsualEntry { value, says, source, .. } = entry;
        let usual = Usual { value: *value, says: says.clone(), source: source.clone() };
        if self.grammar.usual.insert(name.clone(), usual).is_some() && layer.over == Over::BuiltIn {
            self.fault(layer, &entry.name, name, "there is a usual number of this name already".into());
        }
    }
}

fn no_sign(sign: &str) -> String {
    format!("`{sign}` is no sign of ARPAbet, which writes siding as \"S AY D IH NG\"")
}
