//! Roof and its edge: rakes, eaves, slopes, shingles.

use super::cover::{self, Covering};
use super::figure::Part;
use super::formula::{Formula, Measure};
use super::geometry::{rake, rectangle};
use super::house::Face;
use super::sheet::{Row, Sheet};
use crate::draft::{Shape, Side};

/// What the measured gables and slopes come to.
pub(super) fn write(sheet: &mut Sheet) {
    let (rakes, eaves) = (rakes(sheet), eaves(sheet));
    edge(sheet, &rakes, &eaves);
    slopes(sheet);
}

fn faces(sheet: &Sheet, shape: Shape) -> Vec<Face> {
    sheet.house.faces_of(sheet.structure, shape).cloned().collect()
}

/// Two rakes a gable.
fn rakes(sheet: &mut Sheet) -> Vec<Formula> {
    let mut rakes = Vec::new();
    for gable in faces(sheet, Shape::Gable) {
        let Some([width, rise]) = gable.measures() else { continue };
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
            let what = crate::documents::wording::item(Some(item), item);
            sheet.pieces(Part::Eaves, &what, edge.clone(), stock);
        }
    }
}

/// The tapes that are lacking where soffit or fascia is to be renewed by no number of its own.
fn wanted(sheet: &mut Sheet, no_rakes: bool, no_eaves: bool) {
    for item in ["soffit", "fascia", "drip-edge"] {
        let house = sheet.house;
        let what = crate::documents::wording::item(Some(item), item);
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

fn slopes(sheet: &mut Sheet) {
    let mut areas = Vec::new();
    for slope in faces(sheet, Shape::RoofSlope) {
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
    if areas.len() > 1 {
        let row = Row::new(Part::Roof, Side::None, "slopes in all", Measure::SquareFoot);
        sheet.put(row, Formula::sum(areas.iter().map(|(_, area)| area.clone()).collect()));
    }
    let with_waste = cover::write(sheet, &SHINGLES, &areas);
    if let (Some(with_waste), Some((bundles, rule))) =
        (with_waste, sheet.usual("bundles-a-square", Measure::Each))
    {
        let row = Row::new(Part::Roof, Side::None, "shingles, bundles", Measure::Each).by(rule);
        sheet.put(row, with_waste.times(bundles).up());
    }
}

const SHINGLES: Covering = Covering { item: "shingles", part: Part::Roof, waste: "shingle-waste" };
