//! Roof and its edge: rakes, eaves, slopes, shingles.

use super::cover::{self, Covering};
use super::face::{Face, steepness};
use super::figure::Part;
use super::formula::{Formula, Measure};
use super::geometry::{hip, rafter, rake, rectangle, slope_area};
use super::sheet::{Row, Sheet};
use crate::model::{Shape, Side};

/// What the measured gables and slopes come to.
pub(super) fn write(sheet: &mut Sheet) {
    let (rakes, eaves) = (rakes(sheet), eaves(sheet));
    edge(sheet, &rakes, &eaves);
    for_one_foot(sheet);
    if !slopes(sheet) {
        over_the_walls(sheet);
        unmeasured(sheet);
    }
    hips(sheet);
}

fn faces(sheet: &Sheet, shape: Shape) -> Vec<Face> {
    sheet.house.faces_of(sheet.structure, shape).cloned().collect()
}

/// Two rakes a gable.
fn rakes(sheet: &mut Sheet) -> Vec<Formula> {
    let mut rakes = Vec::new();
    for gable in faces(sheet, Shape::Gable) {
        let Some([width, rise]) = sheet.gable(&gable) else { continue };
        let row = Row::new(Part::Eaves, gable.side, "rake", Measure::Foot);
        if let Some(one) = sheet.put(row, rake(width, rise)) {
            rakes.push(Formula::number(2).times(one));
        }
    }
    rakes
}

/// An eave along each slope.
fn eaves(sheet: &Sheet) -> Vec<Formula> {
    let slopes = sheet.house.faces_of(sheet.structure, Shape::RoofSlope);
    slopes.filter_map(|slope| Some(slope.length(slope.width.as_ref()?, "along the eave"))).collect()
}

/// What runs along eaves and rakes: fascia and soffit, drip edge.
fn edge(sheet: &mut Sheet, rakes: &[Formula], eaves: &[Formula]) {
    let mut whole_edge = Vec::new();
    for (name, parts) in [("rakes in all", rakes), ("eaves in all", eaves)] {
        if !parts.is_empty() {
            let row = Row::new(Part::Eaves, Side::None, name, Measure::Foot);
            whole_edge.extend(sheet.put(row, Formula::sum(parts.to_vec())));
        }
    }
    if whole_edge.len() < 2 {
        wanted(sheet, rakes.is_empty(), eaves.is_empty());
        return;
    }
    let row = Row::new(Part::Eaves, Side::None, "roof edge, for soffit, fascia and drip edge", Measure::Foot);
    let Some(edge) = sheet.put(row, Formula::sum(whole_edge)) else { return };
    for (item, stock) in [("fascia", "fascia-piece"), ("drip-edge", "drip-edge-piece")] {
        if sheet.house.renewed(sheet.structure, item).next().is_some() {
            let what = crate::model::wording::item(Some(item), item);
            sheet.pieces(Part::Eaves, &what, edge.clone(), stock);
        }
    }
}

/// The tapes that are lacking where soffit or fascia is to be renewed by no number of its own.
fn wanted(sheet: &mut Sheet, no_rakes: bool, no_eaves: bool) {
    for item in ["soffit", "fascia", "drip-edge"] {
        let house = sheet.house;
        let what = crate::model::wording::item(Some(item), item);
        for line in house.renewed(sheet.structure, item).filter(|line| line.quantity.is_none()) {
            match line.side {
                Side::None => {
                    if no_rakes {
                        sheet.lacks(line.side, "width and rise of the gables, or the rakes", &what);
                    }
                    if no_eaves {
                        sheet.lacks(line.side, "length of the eaves", &what);
                    }
                }
                side => sheet.lacks(side, format!("length of the {what}"), &what),
            }
        }
    }
}

/// What a framing square shows for each slope: a rafter, a hip and a valley over one foot of run.
fn for_one_foot(sheet: &mut Sheet) {
    let valleys = sheet.house.renewed(sheet.structure, "valley").next().is_some();
    let hips = valleys || !faces(sheet, Shape::HipOrValley).is_empty();
    let mut known = Vec::new();
    for slope in faces(sheet, Shape::RoofSlope) {
        let Some((told, rise)) = slope.rise.clone().zip(slope.slope()) else { continue };
        if known.contains(&told.value) {
            continue;
        }
        known.push(told.value);
        let row = Row::new(Part::Roof, slope.side, "rafter for one foot of run", Measure::Foot);
        sheet.put(row, rafter(Formula::number(1), rise.clone()));
        if hips {
            let row = Row::new(Part::Roof, slope.side, "hip or valley for one foot of run", Measure::Foot);
            sheet.put(row, hip(Formula::number(1), rise));
        }
    }
}

/// Hips and valleys over a run that was measured.
fn hips(sheet: &mut Sheet) {
    for face in faces(sheet, Shape::HipOrValley) {
        let Some(run) = face.width.as_ref().map(|run| face.length(run, "run")) else { continue };
        let Some(rise) = face.slope() else {
            sheet.lacks(face.side, "slope of the roof", "hip or valley");
            continue;
        };
        let row = Row::new(Part::Roof, face.side, "hip or valley", Measure::Foot);
        sheet.put(row, hip(run, rise));
    }
    let house = sheet.house;
    for line in house.renewed(sheet.structure, "valley").filter(|line| line.quantity.is_none()) {
        sheet.lacks(line.side, "length of each valley, or its run", "valley");
    }
}

/// The roof over the rectangle of the walls, where its slopes weren't measured: less than what is covered, as eaves and
/// rakes reach out.
fn over_the_walls(sheet: &mut Sheet) {
    let width = |sheet: &Sheet, sides: [Side; 2]| {
        let walls = faces(sheet, Shape::Wall);
        let wall =
            sides.iter().find_map(|side| walls.iter().find(|w| w.side == *side && w.width.is_some()))?;
        Some(wall.length(wall.width.as_ref()?, "width"))
    };
    let along = width(sheet, [Side::Front, Side::Rear]);
    let across = width(sheet, [Side::Right, Side::Left]);
    let rise = steepness(&sheet.house.faces, sheet.structure).and_then(|(_, roof)| roof.slope());
    if let (Some(along), Some(across), Some(rise)) = (along, across, rise) {
        let name = "roof over the walls alone, without eaves and rakes";
        let rule = "a hip roof has the area of a gable roof of the same span, slope and length: Estimating in Building \
                    Construction, p. 181";
        let row = Row::new(Part::Roof, Side::None, name, Measure::SquareFoot).by(rule.to_owned());
        sheet.put(row, slope_area(rectangle(along, across), rise));
    }
}

/// The tapes that shingles take where no slope was measured and no number was said.
fn unmeasured(sheet: &mut Sheet) {
    let house = sheet.house;
    for line in house.renewed(sheet.structure, SHINGLES.item).filter(|line| line.quantity.is_none()) {
        sheet.lacks(line.side, "length of each slope, along the eave and up the rafter", "shingles");
    }
}

/// The measured slopes and their shingles; gives whether any was measured.
fn slopes(sheet: &mut Sheet) -> bool {
    let mut areas = Vec::new();
    for slope in faces(sheet, Shape::RoofSlope) {
        if slope.width.is_none() && slope.height.is_none() {
            continue;
        }
        let Some([eave, rafter]) = slope.measures() else {
            let (known, lacks) = match slope.width {
                Some(_) => ("eave", "length of the rafter, from eave to ridge"),
                None => ("rafter", "length along the eave"),
            };
            sheet.lacks(slope.side, lacks, &format!("area of the slope whose {known} is known"));
            continue;
        };
        let row = Row::new(Part::Roof, slope.side, "roof slope", Measure::SquareFoot);
        let area = sheet.put(row, rectangle(eave, rafter));
        areas.extend(area.map(|area| (slope.side, area)));
    }
    let whole = is_whole(&areas);
    if areas.len() > 1 {
        let row = Row::new(Part::Roof, Side::None, "slopes in all", Measure::SquareFoot);
        let all = sheet.put(row, Formula::sum(areas.iter().map(|(_, area)| area.clone()).collect()));
        if let Some(all) = all.filter(|_| whole) {
            sheet.covers(Side::None, Shape::RoofSlope, &all);
        }
    }
    for (side, area) in &areas {
        if areas.iter().filter(|(other, _)| other == side).count() == 1 {
            sheet.covers(*side, Shape::RoofSlope, area);
        }
    }
    let with_waste = cover::write(sheet, &SHINGLES, &areas, whole);
    if let (Some(with_waste), Some((bundles, rule))) =
        (with_waste, sheet.usual("bundles-a-square", Measure::Each))
    {
        let row = Row::new(Part::Roof, Side::None, "shingles, bundles", Measure::Each).by(rule);
        sheet.put(row, with_waste.times(bundles).up());
    }
    !areas.is_empty()
}

/// Whether the measured slopes may be all of a roof: two that face away from each other, or one told of the whole roof.
fn is_whole(areas: &[(Side, Formula)]) -> bool {
    let on = |side: Side| areas.iter().any(|(other, _)| *other == side);
    on(Side::None) || on(Side::Front) && on(Side::Rear) || on(Side::Left) && on(Side::Right)
}

const SHINGLES: Covering = Covering { item: "shingles", part: Part::Roof, waste: "shingle-waste" };
