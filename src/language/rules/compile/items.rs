//! The catalogue: items, each under all its names, in the singular and the plural, in words and joined.

use super::Compiler;
use crate::language::rules::alike::Named;
use crate::language::rules::error::did_you_mean;
use crate::language::rules::item::{Item, Part};
use crate::language::rules::load::{Layer, Over};
use crate::language::rules::pattern::Step;
use crate::language::rules::plural::{is_plural, plural};
use crate::language::rules::schema::ItemEntry;
use crate::language::rules::trie::Target;
use crate::language::vocabulary::{Vocabulary, WordId};
use serde_spanned::Spanned;

/// A name of an item as it is written.
struct Name<'e> {
    layer: &'e Layer,
    id: &'e str,
    said: &'e Spanned<String>,
    /// The item's place.
    item: u16,
    /// What a recogniser writes where it mishears it, rather than what people say.
    sounds: bool,
}

impl<'a> Compiler<'a> {
    pub(super) fn items(&mut self, layer: &'a Layer) {
        for entry in &layer.rules.item {
            let item = self.item(layer, entry);
            let id = entry.id.get_ref();
            for said in &entry.said {
                self.name(&Name { layer, id, said, item, sounds: false });
            }
            for said in &entry.sounds {
                self.name(&Name { layer, id, said, item, sounds: true });
            }
            if let Some(part) = &entry.part {
                self.part_entries.push((layer, item, part));
            }
        }
    }
}

impl Compiler<'_> {
    /// The item's place, made if its id is new.
    fn item(&mut self, layer: &Layer, entry: &ItemEntry) -> u16 {
        self.known_cautions(layer, entry);
        let id = entry.id.get_ref();
        if let Some(at) = self.grammar.item_named(id) {
            if layer.over == Over::BuiltIn {
                self.fault(layer, &entry.id, id, "there is an item of this id already".into());
            }
            self.grammar.items[usize::from(at)].also.extend(&entry.also);
            return at;
        }
        let item = new_item(entry, &mut self.grammar.vocabulary);
        self.grammar.items.push(item);
        (self.grammar.items.len() - 1) as u16
    }

    fn known_cautions(&mut self, layer: &Layer, entry: &ItemEntry) {
        for caution in &entry.cautions {
            let name = caution.get_ref();
            let known = self.grammar.cautions.iter().map(|c| c.caution.name.as_str());
            if !known.clone().any(|known| known == name) {
                let message = format!("there is no caution `{name}`{}", did_you_mean(name, known));
                self.fault(layer, caution, entry.id.get_ref(), message);
            }
        }
    }

    /// Adds a name of an item, in the singular and the plural, in words and joined.
    fn name(&mut self, name: &Name) {
        let all = self.expanded(name.layer, name.said, name.id);
        if !name.sounds {
            all.iter().for_each(|steps| self.head(steps));
        }
        for steps in all {
            match steps.split_last() {
                Some((Step::Word(last), rest)) => self.name_ending_in(name, rest, *last),
                _ => self.item_phrase(name, &steps, false),
            }
        }
    }

    fn name_ending_in(&mut self, name: &Name, rest: &[Step], last: WordId) {
        let forms = self.forms(last);
        self.grammar.items[usize::from(name.item)].heads.extend(forms.iter().map(|f| f.0));
        for (word, plural) in forms {
            let steps = [rest, &[Step::Word(word)]].concat();
            self.item_phrase(name, &steps, plural);
            if !name.sounds {
                self.by_sound(&steps, Named::Item(name.item));
            }
            if let Some(joined) = self.joined(&steps) {
                let target = name.target(plural);
                self.grammar.trie.add(&joined, target, &self.grammar.vocabulary);
            }
        }
    }

    /// A noun and its plural, or the one form of a noun that is a plural already.
    fn forms(&mut self, noun: WordId) -> Vec<(WordId, bool)> {
        let written = self.grammar.vocabulary.word(noun).to_owned();
        let mut forms = vec![(noun, is_plural(&written))];
        if !is_plural(&written) {
            forms.push((self.grammar.vocabulary.add(&plural(&written)), true));
        }
        forms
    }

    fn item_phrase(&mut self, name: &Name, steps: &[Step], plural: bool) {
        self.phrase(name.layer, name.said, name.id, steps, name.target(plural));
    }

    /// The last of several words may stand for the whole name: "that vent".
    fn head(&mut self, steps: &[Step]) {
        if let [.., _, Step::Word(last)] = steps {
            let many = plural(self.grammar.vocabulary.word(*last));
            let many = self.grammar.vocabulary.add(&many);
            self.grammar.heads.extend([*last, many]);
        }
    }

    /// "hose bib" written as one word.
    fn joined(&mut self, steps: &[Step]) -> Option<Vec<Step>> {
        let [Step::Word(a), Step::Word(b)] = steps else { return None };
        let vocabulary = &mut self.grammar.vocabulary;
        let word = format!("{}{}", vocabulary.word(*a), vocabulary.word(*b));
        Some(vec![Step::Word(vocabulary.add(&word))])
    }

    /// Every item that is a kind of another must name one that is there.
    pub(super) fn kinds(&mut self, layer: &Layer) {
        for entry in &layer.rules.item {
            let Some(kind) = &entry.kind_of else { continue };
            if self.grammar.item_named(kind.get_ref()).is_none() {
                self.no_such_item(layer, kind, entry.id.get_ref());
            }
        }
    }

    /// "The wrap on that window": what a part's word and the item it belongs to name together.
    pub(super) fn parts(&mut self) {
        for (layer, item, entry) in std::mem::take(&mut self.part_entries) {
            for whole in &entry.of {
                let Some(of) = self.grammar.item_named(whole.get_ref()) else {
                    self.no_such_item(layer, whole, "part");
                    continue;
                };
                for word in &entry.word {
                    let word = self.grammar.vocabulary.add(word);
                    self.grammar.parts.push(Part { word, of, item });
                }
            }
        }
    }

    fn no_such_item(&mut self, layer: &Layer, id: &Spanned<String>, entry: &str) {
        let hint = did_you_mean(id.get_ref(), self.grammar.items.iter().map(|i| i.id.as_str()));
        self.fault(layer, id, entry, format!("there is no item `{}`{hint}", id.get_ref()));
    }
}

impl Name<'_> {
    fn target(&self, plural: bool) -> Target {
        Target::Item { item: self.item, plural, sounds: self.sounds }
    }
}

fn new_item(entry: &ItemEntry, vocabulary: &mut Vocabulary) -> Item {
    Item {
        stuff: entry.stuff.iter().map(|word| vocabulary.add(word)).collect(),
        id: entry.id.get_ref().clone(),
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
        kind_of: entry.kind_of.as_ref().map(|kind| kind.get_ref().clone()),
        cautions: entry.cautions.iter().map(|caution| caution.get_ref().clone()).collect(),
        heads: Vec::new(),
    }
}
