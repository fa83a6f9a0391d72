//! The plan of the house: its sides as seen from above, the street at the bottom, with what was measured and how many
//! lines stand there. It is a sketch, not to scale.

use crate::model::wording::{self, capital};
use crate::model::{Shape, Side};
use crate::output::job::Job;
use crate::output::page::{Block, Drawing, Label, Section};
use crate::scope::takeoff::{Measure, Told, faces, told};

/// The plans of all structures with a line on a side.
pub(super) fn section(job: &Job) -> Option<Section> {
    let mut structures: Vec<&str> = Vec::new();
    let on_a_side = job.now.lines.iter().filter(|line| line.side != Side::None);
    for structure in on_a_side.map(|line| line.structure.as_str()) {
        if !structures.contains(&structure) {
            structures.push(structure);
        }
    }
    let mut blocks: Vec<Block> =
        structures.iter().map(|structure| Block::Drawing(drawing(job, structure))).collect();
    if !blocks.is_empty() {
        blocks.insert(0, Block::Text("Not to scale. Street at bottom.".to_owned()));
    }
    Section::of("Plan", blocks)
}

/// The size of the drawing and of the house in it, in points.
const SHEET: [f32; 2] = [420.0, 150.0];
const HOUSE: [f32; 4] = [120.0, 38.0, 180.0, 72.0];
const LEADING: f32 = 11.0;

fn drawing(job: &Job, structure: &str) -> Drawing {
    let [left, top, width, height] = HOUSE;
    let middle = [left + width / 2.0, top + height / 2.0];
    let places = [
        (Side::Rear, middle[0], top - 3.0 * LEADING + 2.0),
        (Side::Front, middle[0], top + height + LEADING + 3.0),
        (Side::Left, left / 2.0, middle[1] - LEADING),
        (Side::Right, left + width + (SHEET[0] - left - width) / 2.0, middle[1] - LEADING),
    ];
    let mut words = vec![Label { x: middle[0], y: middle[1] + 4.0, text: capital(structure), strong: true }];
    let mut sides = Vec::new();
    for (side, x, y) in places {
        let mut lines = vec![capital(wording::side(side))];
        lines.push(measured(job, structure, side).unwrap_or_else(|| "not measured".to_owned()));
        let here =
            |line: &&crate::model::Line| line.structure == structure && line.side == side && !line.only_if;
        lines.push(wording::count(job.now.lines.iter().filter(here).count(), "line", "lines"));
        sides.push(lines.join(", "));
        for (n, text) in lines.into_iter().enumerate() {
            words.push(Label { x, y: y + n as f32 * LEADING, text, strong: n == 0 });
        }
    }
    let told = format!("Plan of the {structure}, street at bottom. {}.", sides.join("; "));
    Drawing { told, width: SHEET[0], height: SHEET[1], boxes: vec![HOUSE], words }
}

/// The first wall that was measured on a side.
fn measured(job: &Job, structure: &str, side: Side) -> Option<String> {
    let faces = faces(&job.now, job.grammar);
    let wall = faces.iter().find(|f| f.structure == structure && f.side == side && f.shape == Shape::Wall)?;
    let feet = |measure: &Option<Told>| measure.as_ref().map(|m| told(m.value, Measure::Foot));
    match (feet(&wall.width), feet(&wall.height)) {
        (Some(width), Some(height)) => Some(format!("{width} × {height}")),
        (Some(width), None) => Some(format!("{width} wide")),
        (None, Some(height)) => Some(format!("{height} high")),
        (None, None) => None,
    }
}
