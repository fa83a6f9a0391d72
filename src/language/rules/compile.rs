//! Turning rules files into a [`Grammar`]: every fault is found before any is reported.

use super::alike::Named;
use super::error::{Fault, GrammarError, did_you_mean};
use super::load::{Layer, Over, dictionary, line_of};
use super::meaning::{MEANS, Meaning};
use super::mishearing::MishearingWeights;
use super::pattern::{self, Step};
use super::plural::{is_plural, plural};
use super::schema::{CautionEntry, ItemEntry, PartEntry, RuleEntry, UnitEntry, UsualEntry};
use super::trie::{Target, Trie};
use super::usual::{ASKED, OpeningRule, Usual};
use super::words::NumberWords;
use super::{CautionRule, Classes, Grammar, HouseRules, Item, Part, Rule, UnitPhrase};
use crate::language::phonetics::Pronouncer;
use crate::language::vocabulary::{Vocabulary, WordId};
use crate::model::Caution;
use rustc_hash::{FxHashMap, FxHashSet};
use serde_spanned::Spanned;
use std::collections::BTreeMap;

pub(super) fn compile(layers: &[Layer]) -> Result<Grammar, GrammarError> {
    let mut compiler = Compiler::new();
    layers.iter().for_each(|l| compiler.words(l));
    layers.iter().for_each(|l| compiler.items(l));
    let replaced = replaced(layers);
    for layer in layers {
        let kept =
            |r: &&RuleEntry| layer.over == Over::User || !replaced.contains(&r.name.get_ref().as_str());
        layer.rules.rule.iter().filter(kept).for_each(|r| compiler.rule(layer, r));
    }
    compiler.parts();
    layers.iter().for_each(|l| compiler.kinds(l));
    let (house, faults) = super::house_rules::compile(layers, &compiler.items);
    compiler.faults.extend(faults);
    compiler.finish(house)
}

/// The names of rules that a user's folder writes anew.
fn replaced(layers: &[Layer]) -> Vec<&str> {
    let user = layers.iter().filter(|l| l.over == Over::User);
    user.flat_map(|l| &l.rules.rule).map(|r| r.name.get_ref().as_str()).collect()
}

/// Larger classes hold words of every kind, which are never written as one with their neighbours.
const FEW: usize = 24;

struct Compiler<'a> {
    vocabulary: Vocabulary,
    numbers: NumberWords,
    items: Vec<Item>,
    rules: Vec<Rule>,
    cautions: Vec<CautionRule>,
    units: FxHashMap<WordId, Vec<UnitPhrase>>,
    part_entries: Vec<(&'a Layer, u16, &'a PartEntry)>,
    names: super::alike::Names,
    sounds: Pronouncer,
    parts: Vec<Part>,
    heads: FxHashSet<WordId>,
    trie: Trie,
    breaths: super::breaths::Breaths,
    mishearing: MishearingWeights,
    usual: BTreeMap<String, Usual>,
    openings: OpeningRule,
    lists: super::lists::ListWords,
    written: FxHashMap<Target, String>,
    faults: Vec<Fault>,
}

impl<'a> Compiler<'a> {
    fn new() -> Self {
        Self {
            vocabulary: Vocabulary::new(),
            numbers: NumberWords::default(),
            items: Vec::new(),
            rules: Vec::new(),
            cautions: Vec::new(),
            units: FxHashMap::default(),
            part_entries: Vec::new(),
            names: Default::default(),
            sounds: Pronouncer::new(dictionary()),
            parts: Vec::new(),
            heads: FxHashSet::default(),
            trie: Trie::new(),
            breaths: Default::default(),
            mishearing: MishearingWeights::default(),
            usual: BTreeMap::new(),
            openings: OpeningRule::default(),
            lists: Default::default(),
            written: FxHashMap::default(),
            faults: Vec::new(),
        }
    }

    fn fault<T>(&mut self, layer: &Layer, at: &Spanned<T>, entry: &str, message: String) {
        let line = line_of(&layer.text, at.span().start);
        let entry = (!entry.is_empty()).then(|| entry.to_owned());
        let fault = Fault { file: layer.file.clone(), line, entry, message };
        if self.faults.last() != Some(&fault) {
            self.faults.push(fault);
        }
    }

    /// Classes, spellings, fillers, units, numbers, cautions: what phrases are made of.
    fn words(&mut self, layer: &'a Layer) {
        for (word, parts) in &layer.rules.spelling {
            let parts: Vec<String> = parts.split_whitespace().map(str::to_owned).collect();
            self.vocabulary.add_spelling(word.get_ref(), &parts);
        }
        for (name, words) in &layer.rules.class {
            self.class(layer, name.get_ref(), words);
        }
        layer.rules.fillers.iter().for_each(|f| self.vocabulary.add_filler(f));
        if let Some(numbers) = &layer.rules.numbers {
            self.numbers.add(numbers, &mut self.vocabulary);
        }
        self.sounds(layer);
        self.breaths.add(&layer.rules.breath);
        self.mishearing(layer);
        layer.rules.unit.iter().for_each(|u| self.unit(layer, u));
        for (said, message) in self.lists.add(layer) {
            self.fault(layer, said, "", message);
        }
        layer.rules.caution.iter().for_each(|c| self.caution(layer, c));
        layer.rules.usual.iter().for_each(|u| self.usual(layer, u));
        self.openings = layer.rules.openings.unwrap_or(self.openings);
    }

    fn usual(&mut self, layer: &Layer, entry: &UsualEntry) {
        let name = entry.name.get_ref();
        if !ASKED.contains(&name.as_str()) {
            let hint = did_you_mean(name, ASKED);
            return self.fault(layer, &entry.name, name, format!("nothing asks for `{name}`{hint}"));
        }
        let UsualEntry { value, says, source, .. } = entry;
        let usual = Usual { value: *value, says: says.clone(), source: source.clone() };
        if self.usual.insert(name.clone(), usual).is_some() && layer.over == Over::BuiltIn {
            self.fault(layer, &entry.name, name, "there is a usual number of this name already".into());
        }
    }

    fn class(&mut self, layer: &Layer, name: &str, words: &[Spanned<String>]) {
        let Some(class) = self.vocabulary.add_class(name) else {
            let at = &words[0];
            return self.fault(layer, at, name, "there can be 64 classes at most".into());
        };
        for word in words {
            if word.get_ref().contains(char::is_whitespace) {
                self.fault(
                    layer,
                    word,
                    name,
                    format!("`{}` is several words; a class takes single ones", word.get_ref()),
                );
            }
            self.vocabulary.put_in_class(word.get_ref(), class);
        }
    }

    fn unit(&mut self, layer: &Layer, entry: &UnitEntry) {
        for says in &entry.says {
            match pattern::expand(says.get_ref(), &mut self.vocabulary) {
                Ok(all) => all.iter().for_each(|steps| self.unit_phrase(steps, entry)),
                Err(message) => self.fault(layer, says, "unit", message),
            }
        }
    }

    fn unit_phrase(&mut self, steps: &[Step], entry: &UnitEntry) {
        let mut all: Vec<Vec<WordId>> = vec![Vec::new()];
        for step in steps {
            let words = match step {
                Step::Word(word) => vec![*word],
                Step::OneOf(set) => self.vocabulary.words_of(*set).to_vec(),
                Step::Gap(_) => Vec::new(),
            };
            all =
                all.iter().flat_map(|l| words.iter().map(move |w| [l.as_slice(), &[*w]].concat())).collect();
        }
        for words in all {
            let UnitEntry { unit, digits_only, rise, .. } = *entry;
            let phrase = UnitPhrase { rest: words[1..].to_vec(), unit, digits_only, rise };
            self.units.entry(words[0]).or_default().push(phrase);
        }
    }

    fn caution(&mut self, layer: &Layer, entry: &CautionEntry) {
        let name = entry.name.get_ref();
        if self.cautions.iter().any(|c| c.caution.name == *name) {
            return self.fault(layer, &entry.name, name, "there is a caution of this name already".into());
        }
        let caution = Caution { name: name.clone(), text: entry.text.clone(), source: entry.source.clone() };
        self.cautions.push(CautionRule { caution, always: entry.always, roof: entry.roof });
    }

    fn items(&mut self, layer: &'a Layer) {
        for entry in &layer.rules.item {
            let place = self.item(layer, entry);
            for said in &entry.said {
                self.name(layer, entry, said, place, Heard::AsSaid);
            }
            for sound in &entry.sounds {
                self.name(layer, entry, sound, place, Heard::AsSounds);
            }
            if let Some(part) = &entry.part {
                self.part_entries.push((layer, place, part));
            }
        }
    }

    /// The item's place, made if its id is new.
    fn item(&mut self, layer: &Layer, entry: &ItemEntry) -> u16 {
        let id = entry.id.get_ref();
        for caution in &entry.cautions {
            if !self.cautions.iter().any(|c| c.caution.name == *caution.get_ref()) {
                let hint =
                    did_you_mean(caution.get_ref(), self.cautions.iter().map(|c| c.caution.name.as_str()));
                self.fault(layer, caution, id, format!("there is no caution `{}`{hint}", caution.get_ref()));
            }
        }
        if let Some(at) = self.items.iter().position(|i| i.id == *id) {
            if layer.over == Over::BuiltIn {
                self.fault(layer, &entry.id, id, "there is an item of this id already".into());
            }
            self.items[at].also.extend(&entry.also);
            return at as u16;
        }
        let stuff = entry.stuff.iter().map(|w| self.vocabulary.add(w)).collect();
        self.items.push(Item {
            stuff,
            id: id.clone(),
            unit: entry.unit,
            also: entry.also.clone(),
            area: entry.area,
            as_one: entry.as_one,
            in_inches: entry.in_inches,
            length_before: entry.length_before,
            landmark: entry.landmark,
            most: entry.most,
            covers: entry.covers,
            opening: entry.opening,
            element: entry.element.as_ref().map(|element| element.get_ref().clone()),
            kind_of: entry.kind_of.as_ref().map(|k| k.get_ref().clone()),
            cautions: entry.cautions.iter().map(|c| c.get_ref().clone()).collect(),
            heads: Vec::new(),
        });
        (self.items.len() - 1) as u16
    }

    /// Adds a name of an item, in the singular and the plural, in words and joined.
    fn name(&mut self, layer: &Layer, entry: &ItemEntry, said: &Spanned<String>, item: u16, heard: Heard) {
        let all = match pattern::expand(said.get_ref(), &mut self.vocabulary) {
            Ok(all) => all,
            Err(message) => return self.fault(layer, said, entry.id.get_ref(), message),
        };
        if heard == Heard::AsSaid {
            all.iter().for_each(|steps| self.head(steps));
        }
        let sounds = heard == Heard::AsSounds;
        for steps in all {
            let Some(Step::Word(last)) = steps.last().copied() else {
                self.phrase(
                    layer,
                    said,
                    entry.id.get_ref(),
                    &steps,
                    Target::Item { item, plural: false, sounds },
                );
                continue;
            };
            let noun = self.vocabulary.word(last).to_owned();
            let mut forms = vec![(last, is_plural(&noun))];
            if !is_plural(&noun) {
                forms.push((self.vocabulary.add(&plural(&noun)), true));
            }
            self.items[usize::from(item)].heads.extend(forms.iter().map(|f| f.0));
            for (word, plural) in forms {
                let steps = [&steps[..steps.len() - 1], &[Step::Word(word)]].concat();
                let target = Target::Item { item, plural, sounds };
                self.phrase(layer, said, entry.id.get_ref(), &steps, target);
                if !sounds {
                    self.by_sound(&steps, Named::Item(item));
                }
                if let Some(joined) = self.joined(&steps) {
                    self.trie.add(&joined, target, &self.vocabulary);
                }
            }
        }
    }

    /// Keeps a name of words alone, so that what sounds like it is recognised.
    fn by_sound(&mut self, steps: &[Step], named: Named) {
        let words = steps.iter().map(|s| if let Step::Word(w) = s { Some(*w) } else { None });
        if let Some(words) = words.collect::<Option<Vec<WordId>>>() {
            self.names.add(words, named);
        }
    }

    /// How words of the trade and groups of letters sound.
    fn sounds(&mut self, layer: &Layer) {
        for (word, signs) in &layer.rules.pronounced {
            if let Err(sign) = self.sounds.add(word.get_ref(), signs.get_ref()) {
                self.fault(layer, signs, word.get_ref(), no_sign(&sign));
            }
        }
        for (letters, signs) in &layer.rules.letters {
            if let Err(sign) = self.sounds.add_letters(letters.get_ref(), signs.get_ref()) {
                self.fault(layer, signs, letters.get_ref(), no_sign(&sign));
            }
        }
    }

    /// An office's weights take the place of the built-in ones, all of them: they are one fit.
    fn mishearing(&mut self, layer: &Layer) {
        let Some(weights) = &layer.rules.mishearing else { return };
        self.mishearing = *weights.get_ref();
        if let Some(message) = self.mishearing.fault() {
            self.fault(layer, weights, "mishearing", message.into());
        }
    }

    /// The last of several words may stand for the whole name: "that vent".
    fn head(&mut self, steps: &[Step]) {
        if let [.., _, Step::Word(last)] = steps {
            let many = plural(self.vocabulary.word(*last));
            let many = self.vocabulary.add(&many);
            self.heads.extend([*last, many]);
        }
    }

    /// "hose bib" written as one word.
    fn joined(&mut self, steps: &[Step]) -> Option<Vec<Step>> {
        let [Step::Word(a), Step::Word(b)] = steps else { return None };
        let word = format!("{}{}", self.vocabulary.word(*a), self.vocabulary.word(*b));
        Some(vec![Step::Word(self.vocabulary.add(&word))])
    }

    fn phrase(&mut self, layer: &Layer, says: &Spanned<String>, entry: &str, steps: &[Step], target: Target) {
        self.neighbours(steps);
        for other in self.trie.add(steps, target, &self.vocabulary) {
            let same_item = matches!((other, target), (Target::Item { item: a, .. }, Target::Item { item: b, .. }) if a == b);
            if !same_item {
                let whose = self.written.get(&other).cloned().unwrap_or_default();
                self.fault(layer, says, entry, format!("`{}` already belongs to `{whose}`", says.get_ref()));
            }
        }
        self.written.insert(target, entry.to_owned());
    }

    /// Notes which words stand side by side, so that they are known when written as one.
    fn neighbours(&mut self, steps: &[Step]) {
        let words = |step: &Step| match step {
            Step::Word(word) => vec![*word],
            Step::OneOf(set) if self.vocabulary.words_of(*set).len() <= FEW => {
                self.vocabulary.words_of(*set).to_vec()
            }
            _ => Vec::new(),
        };
        let sides: Vec<Vec<WordId>> = steps.iter().map(words).collect();
        for pair in sides.windows(2) {
            for (left, right) in pair[0].iter().flat_map(|l| pair[1].iter().map(move |r| (*l, *r))) {
                self.vocabulary.add_neighbours(left, right);
            }
        }
    }

    fn rule(&mut self, layer: &Layer, entry: &RuleEntry) {
        let name = entry.name.get_ref();
        let Some(meaning) = self.meaning(layer, entry) else { return };
        for (list, what) in [(&entry.hits, "hits"), (&entry.misses, "misses")] {
            if list.is_empty() {
                self.fault(layer, &entry.name, name, format!("`{what}` needs at least one sentence"));
            }
        }
        if self.rules.iter().any(|r| r.name == *name) {
            return self.fault(layer, &entry.name, name, "there is a rule of this name already".into());
        }
        let place = self.rules.len() as u16;
        let target = Target::Rule(place);
        self.rules.push(Rule { name: name.clone(), meaning });
        for says in &entry.says {
            match pattern::expand(says.get_ref(), &mut self.vocabulary) {
                Ok(all) => all.iter().for_each(|steps| self.phrase(layer, says, name, steps, target)),
                Err(message) => self.fault(layer, says, name, message),
            }
        }
        for says in &entry.by_sound {
            match pattern::expand(says.get_ref(), &mut self.vocabulary) {
                Ok(all) => all.iter().for_each(|steps| self.by_sound(steps, Named::Rule(place))),
                Err(message) => self.fault(layer, says, name, message),
            }
        }
    }

    fn meaning(&mut self, layer: &Layer, entry: &RuleEntry) -> Option<Meaning> {
        let means = entry.means.get_ref();
        let value = entry.value.as_ref().map(Spanned::get_ref);
        let meaning = Meaning::named(means, value.map(String::as_str), entry.form);
        if meaning.is_none() {
            let (at, message) = misnamed(entry, value);
            self.fault(layer, at, entry.name.get_ref(), message);
        }
        meaning
    }

    /// Every item that is a kind of another must name one that is there.
    fn kinds(&mut self, layer: &Layer) {
        for entry in &layer.rules.item {
            let Some(kind) = &entry.kind_of else { continue };
            if !self.items.iter().any(|i| i.id == *kind.get_ref()) {
                let hint = did_you_mean(kind.get_ref(), self.items.iter().map(|i| i.id.as_str()));
                self.fault(
                    layer,
                    kind,
                    entry.id.get_ref(),
                    format!("there is no item `{}`{hint}", kind.get_ref()),
                );
            }
        }
    }

    fn parts(&mut self) {
        for (layer, item, entry) in std::mem::take(&mut self.part_entries) {
            for of in &entry.of {
                let Some(place) = self.items.iter().position(|i| i.id == *of.get_ref()) else {
                    let hint = did_you_mean(of.get_ref(), self.items.iter().map(|i| i.id.as_str()));
                    self.fault(layer, of, "part", format!("there is no item `{}`{hint}", of.get_ref()));
                    continue;
                };
                for word in &entry.word {
                    let word = self.vocabulary.add(word);
                    self.parts.push(Part { word, of: place as u16, item });
                }
            }
        }
    }

    fn finish(mut self, house: HouseRules) -> Result<Grammar, GrammarError> {
        let classes = Classes::resolve(&self.vocabulary).map_err(|missing| {
            let message = format!("the class `{missing}` is missing");
            self.faults.push(Fault { file: "classes.toml".into(), line: 1, entry: None, message });
        });
        match classes {
            Ok(classes) if self.faults.is_empty() => Ok(Grammar {
                vocabulary: self.vocabulary,
                numbers: self.numbers,
                items: self.items,
                rules: self.rules,
                cautions: self.cautions,
                usual: self.usual,
                openings: self.openings,
                classes,
                parts: self.parts,
                names: self.names,
                sounds: self.sounds,
                heads: self.heads,
                units: self.units,
                trie: self.trie,
                breaths: self.breaths,
                mishearing: self.mishearing,
                house,
                lists: self.lists,
            }),
            _ => Err(GrammarError::Faults(self.faults)),
        }
    }
}

fn no_sign(sign: &str) -> String {
    format!("`{sign}` is no sign of ARPAbet, which writes siding as \"S AY D IH NG\"")
}

#[derive(PartialEq, Clone, Copy)]
enum Heard {
    AsSaid,
    AsSounds,
}

/// Which of `means` and `value` is wrong, and what would do.
fn misnamed<'e>(entry: &'e RuleEntry, value: Option<&String>) -> (&'e Spanned<String>, String) {
    let means = entry.means.get_ref();
    let Some((_, values)) = MEANS.iter().find(|(m, _)| m == means) else {
        let hint = did_you_mean(means, MEANS.iter().map(|m| m.0));
        return (&entry.means, format!("there is no meaning `{means}`{hint}"));
    };
    let wanted = if values.is_empty() {
        "takes no value".into()
    } else {
        format!("takes a value out of {}", values.join(", "))
    };
    match (&entry.value, value) {
        (Some(at), Some(found)) => {
            let hint = did_you_mean(found, values.iter().copied());
            (at, format!("`{means}` {wanted}, not `{found}`{hint}"))
        }
        _ => (&entry.means, format!("`{means}` {wanted}")),
    }
}
