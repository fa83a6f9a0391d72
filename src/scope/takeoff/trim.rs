//! Trim: starter along the base, channel around openings and up the gables, corner posts by height.

use super::face::Face;
use super::figure::Part;
use super::formula::{Formula, Input, Measure, Origin};
use super::geometry::rake;
use super::house::OpeningSize;
use super::sheet::{Row, SIDES, Sheet};
use crate::language::rules::Opening;
use crate::model::{Exact, Shape, Side, Unit};

/// What trim the measured walls take.
pub(super) fn write(sheet: &mut Sheet) {
    starter(sheet);
    channel(sheet);
    channel_at_gables(sheet);
    corners(sheet);
}

/// Starter runs along the base of every wall: the perimeter, where all four widths are known.
fn starter(sheet: &mut Sheet) {
    let mut widths = Vec::new();
    let mut lacking = Vec::new();
    for side in SIDES {
        let walls = sheet.house.faces_of(sheet.structure, Shape::Wall).filter(|wall| wall.side == side);
        let known: Vec<Formula> =
            walls.filter_map(|wall| Some(wall.length(wall.width.as_ref()?, "width"))).collect();
        if known.is_empty() {
            lacking.push(side);
        }
        widths.extend(known);
    }
    let wanted = sheet.house.renewed(sheet.structure, "starter-strip").any(|line| line.quantity.is_none());
    if lacking.is_empty() {
        let row = Row::new(Part::Trim, Side::None, "perimeter at the base", Measure::Foot);
        if let Some(perimeter) = sheet.put(row, Formula::sum(widths)) {
            sheet.pieces(Part::Trim, "starter", perimeter, "starter-piece");
        }
    } else if wanted {
        lacking.into_iter().for_each(|side| sheet.lacks(side, "width of the wall", "starter"));
    }
}

/// Channel runs around every window, and up both sides and over the top of a door.
fn channel(sheet: &mut Sheet) {
    let at = |opening: &&OpeningSize| opening.structure == sheet.structure;
    let openings: Vec<OpeningSize> = sheet.house.openings.iter().filter(at).cloned().collect();
    let around = openings.iter().filter_map(|opening| Some((opening, around(opening)?)));
    let terms: Vec<Formula> = around
        .map(|(opening, feet)| {
            let origin = Origin::Said { quote: opening.quote.clone(), start: opening.start };
            let name = format!("{}, around", opening.name);
            let one = Formula::Of(Input { name, value: feet, unit: Measure::Foot, origin: origin.clone() });
            let name = format!("{}, how many", opening.name);
            let count = Input { name, value: opening.count, unit: Measure::Each, origin };
            if opening.count == Exact::ONE { one } else { Formula::Of(count).times(one) }
        })
        .collect();
    if terms.is_empty() {
        return;
    }
    let rule = "around windows on four sides, around doors on three: common practice, no source";
    let row = Row::new(Part::Trim, Side::None, "channel around openings", Measure::Foot).by(rule.to_owned());
    if let Some(length) = sheet.put(row, Formula::sum(terms)) {
        sheet.pieces(Part::Trim, "channel around openings", length, "channel-piece");
    }
}

/// Channel runs up both rakes of a gable, under the soffit.
fn channel_at_gables(sheet: &mut Sheet) {
    let gables: Vec<Face> = sheet.house.faces_of(sheet.structure, Shape::Gable).cloned().collect();
    let measured: Vec<[Formula; 2]> = gables.iter().filter_map(|gable| sheet.gable(gable)).collect();
    if measured.is_empty() {
        return;
    }
    let rakes = measured.into_iter().map(|[width, height]| Formula::number(2).times(rake(width, height)));
    let rule = "up both rakes of a gable: common practice, no source";
    let row = Row::new(Part::Trim, Side::None, "channel at gables", Measure::Foot).by(rule.to_owned());
    if let Some(length) = sheet.put(row, Formula::sum(rakes.collect())) {
        sheet.pieces(Part::Trim, "channel at gables", length, "channel-piece");
    }
}

/// How far it is around an opening, as far as channel runs.
fn around(opening: &OpeningSize) -> Option<Exact> {
    let [width, height] = opening.size?;
    Some(match opening.kind {
        Opening::Window => (width + height) * 2,
        Opening::Door => width + height * 2,
    })
}

/// Corner posts: those that are lines, by the height of the walls beside them.
fn corners(sheet: &mut Sheet) {
    for item in ["outside-corner", "inside-corner"] {
        let house = sheet.house;
        for line in house.renewed(sheet.structure, item) {
            let (Some(quantity), Unit::Each) = (line.quantity, line.unit) else { continue };
            let beside = |side| line.side == Side::None || side == line.side;
            let walls = house.faces_of(sheet.structure, Shape::Wall).filter(|wall| beside(wall.side));
            let tallest =
                walls.filter_map(|wall| Some((wall.height.as_ref()?, wall))).max_by_key(|(h, _)| h.value);
            let name = crate::model::wording::item_of(line);
            let Some((height, wall)) = tallest else {
                sheet.lacks(line.side, "height of the wall", &name);
                continue;
            };
            let height = wall.length(height, "height");
            let origin = Origin::Said { quote: line.quote.clone(), start: line.start };
            let count = Formula::Of(Input {
                name: format!("{name}, how many"),
                value: quantity.value(),
                unit: Measure::Each,
                origin,
            });
            let row = Row::new(Part::Trim, line.side, format!("{name} height"), Measure::Foot);
            sheet.put(row, count.clone().times(height.clone()));
            if let Some((piece, rule)) = sheet.usual("corner-piece", Measure::Foot) {
                let row = Row::new(Part::Trim, line.side, format!("{name}, pieces"), Measure::Each).by(rule);
                sheet.put(row, count.times(height.over(piece).up()));
            }
        }
    }
}
