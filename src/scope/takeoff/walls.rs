//! Walls: gross areas, openings, net areas, and the siding with its waste as a line of its own.

use super::cover::{self, Covering};
use super::face::Face;
use super::figure::Part;
use super::formula::{Formula, Input, Measure, Origin};
use super::geometry::{rectangle, triangle};
use super::house::OpeningSize;
use super::sheet::{Row, SIDES, Sheet};
use crate::language::rules::OpeningRule;
use crate::model::{Exact, Line, Shape, Side, wording};

/// What is left of the walls of a side without their openings.
pub const NET_AREA: &str = "net wall area";

/// Areas of walls and gables by side, less openings, and what siding they take.
pub(super) fn write(sheet: &mut Sheet) {
    let mut nets = Vec::new();
    for side in sides(sheet) {
        let gross = gross(sheet, side);
        if gross.is_empty() {
            continue;
        }
        let openings = openings(sheet, side);
        let net = match openings {
            Some(openings) => {
                let row = Row::new(Part::Walls, side, NET_AREA, Measure::SquareFoot);
                sheet.put(row, Formula::sum(gross).less(openings))
            }
            None if gross.len() > 1 => {
                let row = Row::new(Part::Walls, side, "wall area", Measure::SquareFoot);
                sheet.put(row, Formula::sum(gross))
            }
            None => gross.into_iter().next(),
        };
        nets.extend(net.map(|net| (side, net)));
    }
    lacking(sheet);
    let (whole, parts): (Vec<_>, Vec<_>) =
        nets.iter().cloned().partition(|(side, _)| is_measured(sheet, *side));
    if nets.len() > 1 {
        let mut row = Row::new(Part::Walls, Side::None, "walls in all", Measure::SquareFoot);
        if !parts.is_empty() {
            let sides: Vec<&str> = parts.iter().map(|(side, _)| wording::side(*side)).collect();
            row = row.by(format!("without what isn't measured on the {}", sides.join(", ")));
        }
        let all = sheet.put(row, Formula::sum(nets.into_iter().map(|(_, net)| net).collect()));
        if let Some(all) =
            all.filter(|_| parts.is_empty() && SIDES.iter().all(|side| is_measured(sheet, *side)))
        {
            sheet.covers(Side::None, Shape::Wall, &all);
        }
    }
    whole.iter().for_each(|(side, net)| sheet.covers(*side, Shape::Wall, net));
    let all_around = SIDES.iter().all(|side| whole.iter().any(|(known, _)| known == side));
    cover::write(sheet, &SIDING, &whole, all_around);
}

/// Whether all of a side is measured that siding would cover, its wall among it: the area of a gable alone isn't that of
/// its side.
fn is_measured(sheet: &mut Sheet, side: Side) -> bool {
    let wall = faces(sheet, side, Shape::Wall).iter().any(|wall| wall.measures().is_some());
    let all: Vec<Face> = COVERED.iter().flat_map(|(shape, _)| faces(sheet, side, *shape)).collect();
    wall && all.iter().all(|face| match face.shape {
        Shape::Gable => sheet.gable(face).is_some(),
        _ => face.measures().is_some(),
    })
}

const SIDING: Covering = Covering { item: "siding", part: Part::Walls, waste: "siding-waste" };

/// What siding covers, with its name among the figures.
const COVERED: [(Shape, &str); 3] =
    [(Shape::Wall, "wall"), (Shape::Gable, "gable"), (Shape::DormerSides, "dormer sides")];

/// The sides that something was measured on that siding covers.
fn sides(sheet: &Sheet) -> Vec<Side> {
    let faces = |(shape, _)| sheet.house.faces_of(sheet.structure, shape);
    let mut sides: Vec<Side> = COVERED.into_iter().flat_map(faces).map(|face| face.side).collect();
    sides.sort();
    sides.dedup();
    sides
}

fn faces(sheet: &Sheet, side: Side, shape: Shape) -> Vec<Face> {
    sheet.house.faces_of(sheet.structure, shape).filter(|face| face.side == side).cloned().collect()
}

fn gross(sheet: &mut Sheet, side: Side) -> Vec<Formula> {
    let mut areas = Vec::new();
    for (shape, name) in COVERED {
        for face in faces(sheet, side, shape) {
            if let Some(area) = area(sheet, &face) {
                areas.extend(sheet.put(Row::new(Part::Walls, side, name, Measure::SquareFoot), area));
            }
        }
    }
    areas
}

fn area(sheet: &mut Sheet, face: &Face) -> Option<Formula> {
    if face.shape != Shape::Gable {
        let [width, height] = face.measures()?;
        let two = || Formula::number(2);
        return Some(match face.shape {
            Shape::DormerSides => two().times(triangle(width, height)),
            _ => rectangle(width, height),
        });
    }
    let measures = sheet.gable(face);
    if measures.is_none() && face.width.is_some() {
        sheet.lacks(face.side, "height of the gable at its peak, or the slope of the roof", "gable");
    }
    let [width, height] = measures?;
    Some(triangle(width, height))
}

/// What is deducted for the openings of a side, by the office's rule.
fn openings(sheet: &mut Sheet, side: Side) -> Option<Formula> {
    let rule = sheet.house.grammar.openings;
    let at = |opening: &&OpeningSize| opening.structure == sheet.structure && opening.side == side;
    let openings: Vec<OpeningSize> = sheet.house.openings.iter().filter(at).cloned().collect();
    let mut terms = Vec::new();
    for opening in &openings {
        match opening.size {
            Some([width, height]) if deducts(rule, width * height) => {
                let [width, height] = [(width, "width"), (height, "height")].map(|of| measure(opening, of));
                let count = of(opening, format!("{}, how many", opening.name), opening.count, Measure::Each);
                let one = rectangle(width, height);
                terms.push(if opening.count == Exact::ONE { one } else { count.times(one) });
            }
            Some(_) => {}
            None if rule != OpeningRule::None => {
                sheet.lacks(side, format!("width and height of the {}", opening.name), NET_AREA);
            }
            None => {}
        }
    }
    let row = Row::new(Part::Walls, side, "openings", Measure::SquareFoot).by(rule.told());
    (!terms.is_empty()).then(|| sheet.put(row, Formula::sum(terms))).flatten()
}

fn deducts(rule: OpeningRule, area: Exact) -> bool {
    match rule {
        OpeningRule::All => true,
        OpeningRule::Over(least) => area > Exact::from_integer(least),
        OpeningRule::None => false,
    }
}

fn measure(opening: &OpeningSize, (feet, what): (Exact, &str)) -> Formula {
    of(opening, format!("{}, {what}", opening.name), feet, Measure::Foot)
}

fn of(opening: &OpeningSize, name: String, value: Exact, unit: Measure) -> Formula {
    let origin = Origin::Said { quote: opening.quote.clone(), start: opening.start };
    Formula::Of(Input { name, value, unit, origin })
}

/// The tapes that siding takes where no wall was measured: of each side with a line for it and no number of its own.
fn lacking(sheet: &mut Sheet) {
    let house = sheet.house;
    let sided: Vec<&Line> =
        house.renewed(sheet.structure, "siding").filter(|line| line.quantity.is_none()).collect();
    for line in sided {
        let wall = faces(sheet, line.side, Shape::Wall);
        let missing = |of: fn(&Face) -> bool| wall.is_empty() || wall.iter().any(of);
        let [width, height] = [missing(|face| face.width.is_none()), missing(|face| face.height.is_none())];
        let measure = match (width, height) {
            (true, true) => "width and height of the wall",
            (true, false) => "width of the wall",
            (false, true) => "height of the wall",
            (false, false) => continue,
        };
        sheet.lacks(line.side, measure, "siding");
    }
}
