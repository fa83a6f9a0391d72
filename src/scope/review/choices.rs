//! The likely answers to what a line leaves open, for a reviewer to choose with one key. Each is a deed, ready to be
//! done; the likeliest comes first.

use super::deed::{Deed, Fields};
use super::scope::{Entry, Scope, State};
use crate::language::rules::Grammar;
use crate::model::{Flag, Side, Unit, Work, wording};
use serde::Serialize;

/// One answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Choice {
    /// The answer in a few words: `11 ft`, `right`, `remove and replace`.
    pub label: String,
    /// Why it is offered.
    pub hint: String,
    /// What choosing it does.
    pub deed: Deed,
}

/// As many as there are keys for.
const MOST: usize = 9;

/// The works that are asked first where none was said: what storm work mostly is (common practice, no source).
const USUAL_WORKS: [Work; 4] = [Work::DetachReset, Work::RemoveReplace, Work::Repair, Work::Paint];

const SIDES: [Side; 4] = [Side::Front, Side::Right, Side::Rear, Side::Left];

/// The answers to what a line leaves open; none where it leaves nothing open.
pub fn choices(entry: &Entry, scope: &Scope, grammar: &Grammar) -> Vec<Choice> {
    if entry.state != State::Open {
        return Vec::new();
    }
    let line = &entry.line;
    let id = || line.id.clone();
    let put = |label: &str, hint: &str, fields: Fields| Choice {
        label: label.to_owned(),
        hint: hint.to_owned(),
        deed: Deed::Change { line: id(), fields },
    };
    let mut all = Vec::new();
    for (n, reading) in line.readings.iter().enumerate() {
        all.push(Choice {
            label: wording::reading(line, reading),
            hint: reading.because.clone().into_owned(),
            deed: Deed::ReadAs { line: id(), reading: n },
        });
    }
    for flag in &line.flags {
        match flag {
            Flag::OnlyIf => {
                all.push(Choice {
                    label: "the condition holds".into(),
                    hint: "the line counts".into(),
                    deed: Deed::Confirm { line: id() },
                });
                all.push(Choice {
                    label: "it doesn't hold".into(),
                    hint: "the line is dropped".into(),
                    deed: Deed::Refuse { line: id() },
                });
            }
            Flag::NoWork => all.extend(USUAL_WORKS.map(|work| {
                let fields = Fields { work: Some(work), ..Fields::default() };
                put(wording::work(Some(work)), "no work was said", fields)
            })),
            Flag::NoSide => all.extend(SIDES.map(|side| {
                let fields = Fields { side: Some(side), ..Fields::default() };
                put(wording::side(side), "no side was named", fields)
            })),
            Flag::NoNumber if line.unit == Unit::Each => all.extend(["1", "2"].map(|number| {
                let fields = Fields { quantity: Some(number.into()), ..Fields::default() };
                put(&format!("{number} each"), "no number was said", fields)
            })),
            Flag::OddUnit => {
                let item = line.item.as_deref().and_then(|id| grammar.item_named(id));
                all.extend(item.map(|n| grammar.items[usize::from(n)].unit).map(|unit| {
                    let counted = crate::model::Line { unit, ..line.clone() };
                    let label = wording::amount(&counted).unwrap_or_else(|| wording::unit(&counted).into());
                    let fields = Fields { unit: Some(unit), ..Fields::default() };
                    put(&label, "how it is usually measured", fields)
                }));
            }
            Flag::MaybeRepeat => {
                let alike = |other: &&Entry| {
                    other.state != State::Dropped
                        && other.id() != line.id
                        && (&other.line.item, &other.line.structure) == (&line.item, &line.structure)
                };
                let side = |other: &&Entry| other.line.side == line.side;
                let others = || scope.entries.iter().filter(alike);
                all.extend(others().find(side).or_else(|| others().next()).map(|other| Choice {
                    label: "said twice: count it once".into(),
                    hint: format!("the same as {}", super::told::name(&other.line)),
                    deed: Deed::Merge { lines: vec![other.id().to_owned(), id()] },
                }));
            }
            Flag::SoundsLike if line.item.is_some() && wording::item_of(line) != line.said => {
                let fields = Fields { item: Some(line.said.clone()), ..Fields::default() };
                all.push(put(&format!("“{}”", line.said), "as it was written down", fields));
            }
            _ => {}
        }
    }
    all.truncate(MOST);
    all
}
