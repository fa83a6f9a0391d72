//! The rules of the checks over a whole house: what may be counted twice, what work usually needs, which numbers are out
//! of the ordinary. Read from `checks.toml` and from an office's own folder, where a name that is known already takes the
//! place of the built-in entry.

use super::Item;
use super::error::{Fault, did_you_mean};
use super::load::{Layer, line_of};
use crate::draft::{Shape, Unit, Work};
use serde::Deserialize;
use serde_spanned::Spanned;

/// What a question rests on: the rule in a few words, and where it is published, or that it is common practice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ground {
    /// The rule's name in `grammars/`.
    pub name: String,
    /// What it says.
    pub says: String,
    /// A publication, or that it is common practice.
    pub source: String,
}

/// All of them.
#[derive(Debug, Clone, Default)]
pub struct HouseRules {
    /// What may have been counted from two sides.
    pub once: Vec<CountedOnce>,
    /// What work usually brings with it.
    pub needs: Vec<UsualNeed>,
    /// Numbers out of the ordinary.
    pub numbers: Vec<UsualNumber>,
    /// Sums said aloud; none where an office takes the rule away.
    pub sums: Vec<Ground>,
}

/// What may have been counted from two sides.
#[derive(Debug, Clone)]
pub struct CountedOnce {
    /// Why it is asked.
    pub ground: Ground,
    /// How it comes to be counted twice.
    pub how: Sighting,
    /// The ids, kinds of an item included.
    pub items: Vec<String>,
    /// What it hangs on: asked only where one of the two sides has that and the other hasn't.
    pub hangs_on: Option<String>,
}

/// How a thing comes to be counted twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sighting {
    /// It stands at the corners of the building, and each side counts both its ends.
    CornerPosts,
    /// It stands at a corner, and is seen from both sides of it.
    TouchingSides,
    /// It stands high up, and is seen from any side.
    AnyTwoSides,
}

/// What work usually brings with it.
#[derive(Debug, Clone)]
pub struct UsualNeed {
    /// Why it is asked.
    pub ground: Ground,
    /// The ids of what is worked on, kinds included.
    pub of: Vec<String>,
    /// The works that bring it.
    pub works: Vec<Work>,
    /// Less than this is a repair, and brings nothing.
    pub least: Option<(f64, Unit)>,
    /// Whether it is asked of each side by itself.
    pub each_side: bool,
    /// Where so many were named, the place was looked over, and nothing is asked.
    pub enough: Option<usize>,
    /// What is looked for.
    pub needs: Vec<Need>,
}

/// One thing that is looked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// The ids that will do, as they are written.
    pub named: Vec<String>,
    /// The same with the kinds of each.
    pub any_of: Vec<String>,
    /// What is done with it where it is there.
    pub work: Work,
}

/// A number that is seldom passed.
#[derive(Debug, Clone)]
pub struct UsualNumber {
    /// Why it is asked.
    pub ground: Ground,
    /// The ids, kinds included; none for a face.
    pub of: Vec<String>,
    /// What is counted.
    pub counts: Counts,
}

/// What a number is a number of.
#[derive(Debug, Clone, PartialEq)]
pub enum Counts {
    /// How much a line has.
    Line(f64, Unit),
    /// How much all lines of a structure have together.
    Structure(f64, Unit),
    /// The size of each, in inches.
    Size(f64),
    /// How high a measured face is, in feet.
    Height(Shape, f64),
    /// Pieces of what comes in pairs, with these works.
    Odd(Vec<Work>),
    /// At least one for so many feet of other things.
    Few {
        /// The ids of the other things.
        beside: Vec<String>,
        /// The feet.
        for_each: f64,
    },
}

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
            least: entry.least.map(f64::from).zip(entry.unit),
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
        let most = entry.most.map(f64::from);
        let counts = match entry.counts {
            CountsEntry::Line => most.zip(entry.unit).map(|(most, unit)| Counts::Line(most, unit)),
            CountsEntry::Structure => most.zip(entry.unit).map(|(most, unit)| Counts::Structure(most, unit)),
            CountsEntry::Size => most.map(Counts::Size),
            CountsEntry::Height => entry.face.zip(most).map(|(face, most)| Counts::Height(face, most)),
            CountsEntry::Odd => Some(Counts::Odd(entry.works.clone())),
            CountsEntry::Few => entry
                .for_each
                .filter(|feet| *feet > 0)
                .map(|feet| Counts::Few { beside: self.with_kinds(&entry.beside), for_each: f64::from(feet) }),
        };
        if counts.is_none() {
            let wants = match entry.counts {
                CountsEntry::Line | CountsEntry::Structure => "`most` and `unit`",
                CountsEntry::Height => "`face` and `most`",
                CountsEntry::Few => "`beside` and `for-each`",
                CountsEntry::Size | CountsEntry::Odd => "`most`",
            };
            self.fault(&entry.name, format!("this kind of number needs {wants}"));
        }
        let (of, ground) =
            (self.with_kinds(&entry.of), ground(&entry.name, &entry.says, &entry.source));
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
