//! How the rules of the checks are written, and how they are read: from `checks.toml` and from an office's own folder,
//! where a name that is known already takes the place of the built-in entry.

use super::error::{Fault, did_you_mean};
use super::house::{CountedOnce, Counts, Ground, HouseRules, Need, Sighting, UsualNeed, UsualNumber};
use super::item::Item;
use super::load::{Layer, line_of};
use crate::model::{Exact, Shape, Unit, Work};
use serde::Deserialize;
use serde_spanned::Spanned;

/// `[[counted-once]]`
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct OnceEntry {
    name: Spanned<String>,
    how: Sighting,
    items: Vec<Spanned<String>>,
    hangs_on: Option<Spanned<String>>,
    says: String,
    source: String,
}

/// `[[usual-need]]`
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct NeedEntry {
    name: Spanned<String>,
    r#for: Vec<Spanned<String>>,
    #[serde(default = "renewing")]
    works: Vec<Work>,
    least: Option<u32>,
    #[serde(default)]
    unit: Option<Unit>,
    sides: Sides,
    enough: Option<usize>,
    #[serde(default)]
    reset: Vec<Spanned<String>>,
    #[serde(default)]
    renew: Vec<Spanned<String>>,
    says: String,
    source: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Sides {
    Each,
    House,
}

fn renewing() -> Vec<Work> {
    vec![Work::RemoveReplace, Work::Install]
}

/// `[[usual-number]]`
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct NumberEntry {
    name: Spanned<String>,
    counts: CountsEntry,
    #[serde(default)]
    of: Vec<Spanned<String>>,
    least: Option<u32>,
    most: Option<u32>,
    unit: Option<Unit>,
    face: Option<Shape>,
    #[serde(default)]
    works: Vec<Work>,
    #[serde(default)]
    beside: Vec<Spanned<String>>,
    for_each: Option<u32>,
    says: String,
    source: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum CountsEntry {
    Line,
    Structure,
    Size,
    Height,
    Slope,
    Odd,
    Few,
}

/// `[[said-sum]]`
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct SumEntry {
    name: Spanned<String>,
    #[serde(default)]
    off: bool,
    says: String,
    source: String,
}

/// Reads the rules of all layers, the later over the earlier.
pub(super) fn compile(layers: &[Layer], items: &[Item]) -> (HouseRules, Vec<Fault>) {
    let mut reader = Reader { items, layer: None, entry: String::new(), faults: Vec::new() };
    let mut rules = HouseRules::default();
    for layer in layers {
        reader.layer = Some(layer);
        let file = &layer.rules;
        file.counted_once.iter().for_each(|e| put(&mut rules.once, reader.once(e), |r| &r.ground));
        file.usual_need.iter().for_each(|e| put(&mut rules.needs, reader.need(e), |r| &r.ground));
        for entry in &file.usual_number {
            if let Some(rule) = reader.number(entry) {
                put(&mut rules.numbers, rule, |r| &r.ground);
            }
        }
        for entry in &file.said_sum {
            put(&mut rules.sums, ground(&entry.name, &entry.says, &entry.source), |g| g);
            rules.sums.retain(|ground| !entry.off || ground.name != *entry.name.get_ref());
        }
    }
    (rules, reader.faults)
}

/// A rule of a known name takes the place of the earlier one.
fn put<T>(rules: &mut Vec<T>, rule: T, ground: impl Fn(&T) -> &Ground) {
    match rules.iter().position(|known| ground(known).name == ground(&rule).name) {
        Some(at) => rules[at] = rule,
        None => rules.push(rule),
    }
}

fn ground(name: &Spanned<String>, says: &str, source: &str) -> Ground {
    Ground { name: name.get_ref().clone(), says: says.to_owned(), source: source.to_owned() }
}

/// Reads entries, and notes what is wrong with them.
struct Reader<'a> {
    items: &'a [Item],
    layer: Option<&'a Layer>,
    /// The name of the entry that is read.
    entry: String,
    faults: Vec<Fault>,
}

impl Reader<'_> {
    fn once(&mut self, entry: &OnceEntry) -> CountedOnce {
        self.entry.clone_from(entry.name.get_ref());
        CountedOnce {
            ground: ground(&entry.name, &entry.says, &entry.source),
            how: entry.how,
            items: self.with_kinds(&entry.items),
            hangs_on: entry.hangs_on.as_ref().and_then(|id| self.known(id, id.get_ref())),
        }
    }

    fn need(&mut self, entry: &NeedEntry) -> UsualNeed {
        self.entry.clone_from(entry.name.get_ref());
        let reset = entry.reset.iter().map(|id| (id, Work::DetachReset));
        let renew = entry.renew.iter().map(|id| (id, Work::RemoveReplace));
        UsualNeed {
            ground: ground(&entry.name, &entry.says, &entry.source),
            of: self.with_kinds(&entry.r#for),
            works: entry.works.clone(),
            least: entry.least.map(Exact::from).zip(entry.unit),
            each_side: entry.sides == Sides::Each,
            enough: entry.enough,
            needs: reset.chain(renew).map(|(ids, work)| self.one_need(ids, work)).collect(),
        }
    }

    /// "a|b": one of them will do.
    fn one_need(&mut self, ids: &Spanned<String>, work: Work) -> Need {
        let named: Vec<String> = ids.get_ref().split('|').filter_map(|id| self.known(ids, id)).collect();
        let any_of = named.iter().flat_map(|id| self.kinds(id)).collect();
        Need { named, any_of, work }
    }

    fn number(&mut self, entry: &NumberEntry) -> Option<UsualNumber> {
        self.entry.clone_from(entry.name.get_ref());
        let most = entry.most.map(Exact::from);
        let counts = match entry.counts {
            CountsEntry::Line => most.zip(entry.unit).map(|(most, unit)| Counts::Line(most, unit)),
            CountsEntry::Structure => most.zip(entry.unit).map(|(most, unit)| Counts::Structure(most, unit)),
            CountsEntry::Size => most.map(Counts::Size),
            CountsEntry::Height => entry.face.zip(most).map(|(face, most)| Counts::Height(face, most)),
            CountsEntry::Slope => {
                let least = entry.least.map(Exact::from);
                (most.is_some() || least.is_some()).then_some(Counts::Slope(least, most))
            }
            CountsEntry::Odd => Some(Counts::Odd(entry.works.clone())),
            CountsEntry::Few => entry
                .for_each
                .filter(|feet| *feet > 0)
                .map(|feet| Counts::Few { beside: self.with_kinds(&entry.beside), for_each: feet.into() }),
        };
        if counts.is_none() {
            let wants = match entry.counts {
                CountsEntry::Line | CountsEntry::Structure => "`most` and `unit`",
                CountsEntry::Height => "`face` and `most`",
                CountsEntry::Slope => "`least` or `most`",
                CountsEntry::Few => "`beside` and `for-each`",
                CountsEntry::Size | CountsEntry::Odd => "`most`",
            };
            self.fault(&entry.name, format!("this kind of number needs {wants}"));
        }
        let (of, ground) = (self.with_kinds(&entry.of), ground(&entry.name, &entry.says, &entry.source));
        counts.map(|counts| UsualNumber { ground, of, counts })
    }

    fn with_kinds(&mut self, ids: &[Spanned<String>]) -> Vec<String> {
        let known: Vec<String> = ids.iter().filter_map(|id| self.known(id, id.get_ref())).collect();
        known.iter().flat_map(|id| self.kinds(id)).collect()
    }

    /// An item and every kind of it.
    fn kinds(&self, id: &str) -> Vec<String> {
        let kinds = self.items.iter().filter(|item| item.id == *id || item.kind_of.as_deref() == Some(id));
        kinds.map(|item| item.id.clone()).collect()
    }

    fn known(&mut self, at: &Spanned<String>, id: &str) -> Option<String> {
        let known = self.items.iter().any(|item| item.id == id);
        if !known {
            let hint = did_you_mean(id, self.items.iter().map(|item| item.id.as_str()));
            self.fault(at, format!("there is no item `{id}`{hint}"));
        }
        known.then(|| id.to_owned())
    }

    fn fault(&mut self, at: &Spanned<String>, message: String) {
        let Some(layer) = self.layer else { return };
        let line = line_of(&layer.text, at.span().start);
        let entry = Some(self.entry.clone());
        self.faults.push(Fault { file: layer.file.clone(), line, entry, message });
    }
}
