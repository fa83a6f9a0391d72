//! What a person measured, typed in the place of what was said of a wall, a gable or a slope.

use super::command::{DimensionName, Measurements};
use super::context::{Actor, ReviewContext};
use super::event::{Change, Event};
use super::refusal::Refusal;
use super::typed;
use crate::language::rules::Grammar;
use crate::model::{Exact, HOUSE, Measured, Shape, Typed, wording};
use crate::scope::takeoff;
use std::collections::BTreeMap;

/// The most walls, gables or slopes of one side.
const MOST: usize = 20;

impl ReviewContext<'_> {
    /// What comes of measuring something.
    pub(super) fn set_dimension(
        &self,
        actor: &Actor,
        name: &DimensionName,
        measurements: &Measurements,
    ) -> Result<Vec<Change>, Refusal> {
        if *measurements == Measurements::default() {
            return Err(Refusal::Invalid("type a width, a height or a slope".into()));
        }
        let named = self.named(name)?;
        let id = named.id();
        let before = self.scope.measured.get(&id).cloned();
        let mut after = before.clone().unwrap_or(named);
        let fields: [(_, _, _, Reader); 3] = [
            ("width", &measurements.width, &mut after.width, takeoff::length_of),
            ("height", &measurements.height, &mut after.height, takeoff::length_of),
            ("slope", &measurements.slope, &mut after.rise, takeoff::rise_of),
        ];
        for (field, typed, stands, read) in fields {
            let Some(typed) = typed else { continue };
            check_fits(field, name.shape, typed)?;
            let text = typed::checked(field, typed)?.to_owned();
            if !text.is_empty() && read(&text, self.grammar).is_none() {
                return Err(not_understood(field, &text));
            }
            *stands = Some(Typed { text, who: actor.who.clone(), at: actor.at.clone() });
        }
        Ok(vec![Change::Dimension { id, before: before.map(Box::new), after: Some(Box::new(after)) }])
    }

    /// Somebody who saw a dimension as it was before somebody else measured it has to look again.
    pub(super) fn check_dimension_seen(&self, actor: &Actor, name: &DimensionName) -> Result<(), Refusal> {
        let id = self.named(name)?.id();
        let version = dimension_versions(self.events).get(&id).copied().unwrap_or_default();
        let seen = actor.seen.get(&id).copied().unwrap_or_default();
        if seen == version { Ok(()) } else { Err(Refusal::DimensionChanged { id }) }
    }

    /// The dimension that is meant, with nothing typed of it.
    fn named(&self, name: &DimensionName) -> Result<Measured, Refusal> {
        if name.shape == Shape::Opening {
            return Err(Refusal::Invalid("type an opening as the size of its line".into()));
        }
        if !(1..=MOST).contains(&name.number) {
            let kind = wording::shape(name.shape);
            return Err(Refusal::Invalid(format!("a side may have up to {MOST} of one kind ({kind})")));
        }
        let structure = typed::checked("structure", &name.structure)?.to_lowercase();
        let structure = if structure.is_empty() { HOUSE } else { &structure };
        Ok(Measured::of(structure, name.side, name.shape, name.number))
    }
}

/// The number of the last event on everything that was measured, by its id.
pub fn dimension_versions(events: &[Event]) -> BTreeMap<String, u64> {
    let measured = |event: &'_ Event| {
        let ids = event.changes.iter().filter_map(|change| match change {
            Change::Dimension { id, .. } => Some(id.clone()),
            _ => None,
        });
        ids.map(|id| (id, event.number)).collect::<Vec<_>>()
    };
    events.iter().flat_map(measured).collect()
}

/// Reads what is typed; none where it can't be understood.
type Reader = fn(&str, &Grammar) -> Option<Exact>;

/// A slope belongs to a roof, and a hip or valley has a run and no height.
fn check_fits(field: &'static str, shape: Shape, typed: &str) -> Result<(), Refusal> {
    let sloping = matches!(shape, Shape::RoofSlope | Shape::HipOrValley);
    let fits = match field {
        "slope" => sloping,
        "height" => shape != Shape::HipOrValley,
        _ => true,
    };
    if fits || typed.trim().is_empty() {
        return Ok(());
    }
    let message = match field {
        "slope" => format!("a {} has no slope: type it for the roof slope", wording::shape(shape)),
        _ => "a hip or valley has a run and a slope, but no height".to_owned(),
    };
    Err(Refusal::NotUnderstood { field, message })
}

fn not_understood(field: &'static str, text: &str) -> Refusal {
    let how = if field == "slope" { "6, 6/12" } else { "26, 26' 4\", 316 in" };
    let what = if field == "slope" { "slope" } else { "length" };
    let message = format!("“{}” isn't a {what}: type it like {how}", typed::shortened(text));
    Refusal::NotUnderstood { field, message }
}

/// What was measured, in plain words: `house, front, wall: width 26' 4"`.
pub(super) fn summary(changes: &[Change]) -> String {
    let measured = changes.iter().filter_map(|change| match change {
        Change::Dimension { before, after: Some(after), .. } => Some((before.as_deref(), after)),
        _ => None,
    });
    let told = measured.map(|(before, after)| format!("{}: {}", name(after), differences(before, after)));
    told.collect::<Vec<_>>().join("; ")
}

/// The measurements that are new.
fn differences(before: Option<&Measured>, after: &Measured) -> String {
    let known = before.map(measurements).unwrap_or_default();
    let pairs = measurements(after).into_iter().zip(known).zip(["width", "height", "slope"]);
    let new = pairs.filter_map(|((typed, known), name)| Some((name, typed.filter(|_| typed != known)?)));
    let told = new.map(|(name, typed)| match typed.text.as_str() {
        "" => format!("no {name}"),
        text => format!("{name} {text}"),
    });
    told.collect::<Vec<_>>().join(", ")
}

fn measurements(measured: &Measured) -> [Option<&Typed>; 3] {
    [measured.width.as_ref(), measured.height.as_ref(), measured.rise.as_ref()]
}

/// A dimension in plain words: `house, front, wall`, `garage, front, gable 2`.
fn name(measured: &Measured) -> String {
    let place = wording::whereabouts(&measured.structure, measured.side);
    let number = if measured.number > 1 { format!(" {}", measured.number) } else { String::new() };
    format!("{place}, {}{number}", wording::shape(measured.shape))
}
