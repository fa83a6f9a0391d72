//! What a person measured, typed in the place of what was said of a face.

use super::act::{Act, Change};
use super::deed::{FaceName, Measures};
use super::perform::{Desk, Hand};
use super::refusal::Refusal;
use super::typed;
use crate::language::rules::Grammar;
use crate::model::{Exact, HOUSE, Measured, Shape, Typed, wording};
use crate::scope::takeoff;
use std::collections::BTreeMap;

/// The most faces of one shape on one side.
const MOST_FACES: usize = 20;

impl Desk<'_> {
    /// What comes of measuring a face.
    pub(super) fn measure(
        &self,
        hand: &Hand,
        face: &FaceName,
        measures: &Measures,
    ) -> Result<Vec<Change>, Refusal> {
        if *measures == Measures::default() {
            return Err(Refusal::Senseless("type a width, a height or a slope".into()));
        }
        let mut after = Measured { ..self.named(face)? };
        let id = after.id();
        let before = self.scope.measured.get(&id).cloned();
        if let Some(before) = &before {
            after = before.clone();
        }
        let fields: [(_, _, _, Reader); 3] = [
            ("width", &measures.width, &mut after.width, takeoff::length_of),
            ("height", &measures.height, &mut after.height, takeoff::length_of),
            ("rise", &measures.rise, &mut after.rise, takeoff::rise_of),
        ];
        for (field, typed, stands, read) in fields {
            let Some(typed) = typed else { continue };
            check_fits(field, face.shape, typed)?;
            let text = typed::checked(field, typed)?.to_owned();
            if !text.is_empty() && read(&text, self.grammar).is_none() {
                return Err(not_understood(field, &text));
            }
            *stands = Some(Typed { text, who: hand.who.clone(), at: hand.at.clone() });
        }
        Ok(vec![Change::Face { id, before: before.map(Box::new), after: Some(Box::new(after)) }])
    }

    /// Somebody who saw a face as it was before somebody else measured it has to look again.
    pub(super) fn check_face_seen(&self, hand: &Hand, face: &FaceName) -> Result<(), Refusal> {
        let id = self.named(face)?.id();
        let version = face_versions(self.acts).get(&id).copied().unwrap_or_default();
        let seen = hand.seen.get(&id).copied().unwrap_or_default();
        if seen == version { Ok(()) } else { Err(Refusal::FaceChanged { id }) }
    }

    /// The face that is meant, with nothing typed of it.
    fn named(&self, face: &FaceName) -> Result<Measured, Refusal> {
        if face.shape == Shape::Opening {
            return Err(Refusal::Senseless("type an opening as the size of its line".into()));
        }
        if !(1..=MOST_FACES).contains(&face.number) {
            return Err(Refusal::Senseless(format!("number the faces of a side from 1 to {MOST_FACES}")));
        }
        let structure = typed::checked("structure", &face.structure)?.to_lowercase();
        let structure = if structure.is_empty() { HOUSE } else { &structure };
        Ok(Measured::of(structure, face.side, face.shape, face.number))
    }
}

/// The number of the last act on each face that was measured, by the face's id.
pub fn face_versions(acts: &[Act]) -> BTreeMap<String, u64> {
    let faces = |act: &'_ Act| {
        let faces = act.changes.iter().filter_map(|change| match change {
            Change::Face { id, .. } => Some(id.clone()),
            _ => None,
        });
        faces.map(|id| (id, act.number)).collect::<Vec<_>>()
    };
    acts.iter().flat_map(faces).collect()
}

/// Reads what is typed; none where it can't be understood.
type Reader = fn(&str, &Grammar) -> Option<Exact>;

/// A slope is told of a roof, and a hip or valley has a run and no height.
fn check_fits(field: &'static str, shape: Shape, typed: &str) -> Result<(), Refusal> {
    let sloping = matches!(shape, Shape::RoofSlope | Shape::HipOrValley);
    let fits = match field {
        "rise" => sloping,
        "height" => shape != Shape::HipOrValley,
        _ => true,
    };
    if fits || typed.trim().is_empty() {
        return Ok(());
    }
    let message = match field {
        "rise" => format!("a {} has no slope: type it for the roof slope", wording::shape(shape)),
        _ => "a hip or valley has a run and a slope, and no height".to_owned(),
    };
    Err(Refusal::NotUnderstood { field, message })
}

fn not_understood(field: &'static str, text: &str) -> Refusal {
    let how = if field == "rise" { "6, 6/12" } else { "26, 26' 4\", 316 in" };
    let what = if field == "rise" { "slope" } else { "length" };
    let message = format!("“{}” is no {what}: type it as {how}", typed::shortened(text));
    Refusal::NotUnderstood { field, message }
}

/// What was measured, in plain words: `front wall: width 26' 4"`.
pub(super) fn told(changes: &[Change]) -> String {
    let faces = changes.iter().filter_map(|change| match change {
        Change::Face { before, after: Some(after), .. } => Some((before.as_deref(), after)),
        _ => None,
    });
    let told = faces.map(|(before, after)| {
        let names = [("width", &after.width), ("height", &after.height), ("rise in twelve", &after.rise)];
        let known = |name: &str| {
            before.and_then(|b| match name {
                "width" => b.width.as_ref(),
                "height" => b.height.as_ref(),
                _ => b.rise.as_ref(),
            })
        };
        let new = names.into_iter().filter(|(name, typed)| typed.as_ref() != known(name));
        let new: Vec<String> = new
            .filter_map(|(name, typed)| Some((name, typed.as_ref()?)))
            .map(|(name, typed)| match typed.text.as_str() {
                "" => format!("no {name}"),
                text => format!("{name} {text}"),
            })
            .collect();
        format!("{}: {}", name(after), new.join(", "))
    });
    told.collect::<Vec<_>>().join("; ")
}

/// A face in plain words: `front wall`, `second front gable of the garage`.
fn name(face: &Measured) -> String {
    let place = wording::whereabouts(&face.structure, face.side);
    let number = if face.number > 1 { format!(" {}", face.number) } else { String::new() };
    format!("{place}, {}{number}", wording::shape(face.shape))
}
