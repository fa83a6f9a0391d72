//! What is told in running feet: gutters, downspouts, fences.

use super::figure::Part;
use super::formula::{Formula, Input, Measure, Origin};
use super::geometry::{posts, rectangle};
use super::sheet::{Row, Sheet};
use crate::model::{Line, Side, Size, Unit, Work, wording};

/// Gutters, downspouts and fences.
pub(super) fn write(sheet: &mut Sheet) {
    water(sheet);
    fences(sheet);
}

/// How long a line is, as an input.
fn length(line: &Line) -> Option<Formula> {
    let feet = line.quantity?.value() * line.unit.in_unit(Unit::Foot)?;
    let origin = Origin::Said { quote: line.quote.clone(), start: line.start };
    let name = format!("{}, length", wording::item_of(line));
    Some(Formula::Of(Input { name, value: feet, unit: Measure::Foot, origin }))
}

fn water(sheet: &mut Sheet) {
    for (item, stock) in [("gutter", "gutter-piece"), ("downspout", "downspout-piece")] {
        let name = wording::item(Some(item), item);
        let house = sheet.house;
        let lines: Vec<&Line> = house.renewed(sheet.structure, item).collect();
        for line in lines.iter().filter(|line| line.quantity.is_none()) {
            sheet.lacks(line.side, format!("length of the {name}"), &name);
        }
        let lengths: Vec<Formula> = lines.iter().filter_map(|line| length(line)).collect();
        if lengths.is_empty() {
            continue;
        }
        let row = Row::new(Part::Water, Side::None, format!("{name}, new"), Measure::Foot);
        if let Some(total) = sheet.put(row, Formula::sum(lengths)) {
            sheet.pieces(Part::Water, &name, total, stock);
        }
    }
}

/// Each run of fence: its faces, and its posts where they are new.
fn fences(sheet: &mut Sheet) {
    let house = sheet.house;
    let here = |line: &&&Line| line.structure == sheet.structure;
    let lines: Vec<&Line> = house.lines.iter().filter(here).copied().collect();
    for line in lines {
        let Some(item) =
            house.item(line).filter(|i| i.id == "fence" || i.kind_of.as_deref() == Some("fence"))
        else {
            continue;
        };
        let name = wording::item_of(line);
        let Some(length) = length(line) else {
            if line.quantity.is_none() {
                sheet.lacks(line.side, format!("length of the {name}"), &name);
            }
            continue;
        };
        faces(sheet, line, &name, &length);
        if matches!(line.work, Some(Work::RemoveReplace | Work::Install)) {
            let stock = if item.id == "chain-link-fence" { "chain-link-posts" } else { "fence-posts" };
            if let Some((span, rule)) = sheet.usual(stock, Measure::Foot) {
                let row = Row::new(Part::Fences, line.side, format!("{name}, posts"), Measure::Each).by(rule);
                sheet.put(row, posts(length, span));
            }
        }
    }
}

/// The area that is painted, stained or washed: both faces.
fn faces(sheet: &mut Sheet, line: &Line, name: &str, length: &Formula) {
    if !matches!(line.work, Some(Work::Paint | Work::Stain | Work::Clean)) {
        return;
    }
    let Some(height) = line.size.as_ref().and_then(Size::feet) else {
        sheet.lacks(line.side, format!("height of the {name}"), "its area");
        return;
    };
    let origin = Origin::Said { quote: line.quote.clone(), start: line.start };
    let height =
        Formula::Of(Input { name: format!("{name}, height"), value: height, unit: Measure::Foot, origin });
    let row = Row::new(Part::Fences, line.side, format!("{name}, one face"), Measure::SquareFoot);
    if let Some(one) = sheet.put(row, rectangle(length.clone(), height)) {
        let row = Row::new(Part::Fences, line.side, format!("{name}, both faces"), Measure::SquareFoot);
        sheet.put(row, Formula::number(2).times(one));
    }
}
