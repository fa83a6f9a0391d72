//! What covers walls and slopes: siding and shingles in squares, with their waste as a line of its own. A line that tells
//! how much of it there is counts with that; one that doesn't, with the faces that were measured where it stands.

use super::figure::Part;
use super::formula::{Formula, Input, Measure, Origin};
use super::sheet::{Row, Sheet};
use crate::model::unit::SQUARE;
use crate::model::{Line, Side, Unit, wording};

/// A covering.
pub(super) struct Covering {
    /// Its item in the catalogue.
    pub item: &'static str,
    /// What kind of figures it stands with.
    pub part: Part,
    /// The usual number that tells its waste.
    pub waste: &'static str,
}

/// A covering's squares, its waste, and both; gives the last. `faces` are the areas that it may cover, by side, and `whole`
/// tells whether they are all there are.
pub(super) fn write(
    sheet: &mut Sheet,
    covering: &Covering,
    faces: &[(Side, Formula)],
    whole: bool,
) -> Option<Formula> {
    let Covering { item, part, waste } = *covering;
    let name = wording::item(Some(item), item);
    let (terms, without) = areas(sheet, item, faces, whole);
    if terms.is_empty() {
        return None;
    }
    let mut row = Row::new(part, Side::None, name.clone(), Measure::Square);
    if !without.is_empty() {
        row = row.by(format!("without {}, where it isn't measured", without.join(", ")));
    }
    let net = sheet.put(row, Formula::sum(terms).over(Formula::number(SQUARE)))?;
    let (percent, rule) = sheet.usual(waste, Measure::Percent)?;
    let row = Row::new(part, Side::None, format!("{name}, waste"), Measure::Square).by(rule);
    let waste = sheet.put(row, net.clone().times(percent).over(Formula::number(100)));
    let row = Row::new(part, Side::None, format!("{name} with waste"), Measure::Square);
    sheet.put(row, Formula::sum([Some(net), waste].into_iter().flatten().collect()))
}

/// What each line of new material covers, in square feet, and where that isn't known. A face is covered once.
fn areas(sheet: &Sheet, item: &str, faces: &[(Side, Formula)], whole: bool) -> (Vec<Formula>, Vec<String>) {
    let (mut terms, mut without, mut covered) = (Vec::new(), Vec::new(), Vec::new());
    for line in sheet.house.renewed(sheet.structure, item) {
        if line.quantity.is_some() {
            match told(line) {
                Some(area) => terms.push(area),
                None => without.push(wording::side(line.side).to_owned()),
            }
            continue;
        }
        let here = |side: Side| line.side == Side::None || side == line.side;
        let measured = faces.iter().enumerate().filter(|(_, (side, _))| here(*side));
        let mut known = false;
        for (n, (_, area)) in measured {
            known = true;
            if !covered.contains(&n) {
                covered.push(n);
                terms.push(area.clone());
            }
        }
        match line.side {
            Side::None if !whole => without.push("the other sides".to_owned()),
            side if !known => without.push(wording::side(side).to_owned()),
            _ => {}
        }
    }
    (terms, without)
}

/// How much a line tells, in square feet; none where it is told in pieces or in running feet.
fn told(line: &Line) -> Option<Formula> {
    let unit = match line.unit {
        Unit::SquareFoot => Measure::SquareFoot,
        Unit::Square => Measure::Square,
        _ => return None,
    };
    let origin = Origin::Said { quote: line.quote.clone(), start: line.start };
    let name = format!("{}, {}", wording::item_of(line), wording::side(line.side));
    let told = Formula::Of(Input { name, value: line.quantity?.value(), unit, origin });
    Some(if unit == Measure::Square { told.times(Formula::number(SQUARE)) } else { told })
}
