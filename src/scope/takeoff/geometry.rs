//! The geometry of walls and roofs, as formulas over lengths in feet and rises in twelve of run.

use super::formula::{Formula, Grain};
use crate::model::unit::INCHES;

/// A rectangle: wall, opening, roof slope along the eave and up the rafter.
pub fn rectangle(width: Formula, height: Formula) -> Formula {
    width.times(height)
}

/// A gable, or one side of a dormer: half of what is around it.
pub fn triangle(width: Formula, height: Formula) -> Formula {
    width.times(height).over(Formula::number(2))
}

/// A wall whose top narrows from one width to another, such as the lower part of a gambrel.
pub fn trapezoid(below: Formula, above: Formula, height: Formula) -> Formula {
    Formula::Sum(vec![below, above]).times(height).over(Formula::number(2))
}

/// One rake of a gable: from its corner to its peak, by Pythagoras.
pub fn rake(width: Formula, rise: Formula) -> Formula {
    let half = width.over(Formula::number(2));
    Formula::Sum(vec![half.clone().times(half), rise.clone().times(rise)]).root(Grain::Sixteenth)
}

/// A common rafter, or a rake, over a run: run × √(rise² + 12²) ÷ 12, with the root over the whole product, so that
/// it is rounded once.
pub fn rafter(run: Formula, rise: Formula) -> Formula {
    along(run, rise, 1, Grain::Sixteenth)
}

/// A hip or a valley between roofs of one slope, over the run of the common rafter: run × √(rise² + 12² + 12²) ÷ 12.
pub fn hip(run: Formula, rise: Formula) -> Formula {
    along(run, rise, 2, Grain::Sixteenth)
}

/// The area of a roof of one slope over an area on the flat, hips or gables: both lie as steep.
pub fn slope_area(flat: Formula, rise: Formula) -> Formula {
    along(flat, rise, 1, Grain::Hundredth)
}

/// A measure on the flat, along a slope that also runs `runs` times its run to the side.
fn along(flat: Formula, rise: Formula, runs: i128, grain: Grain) -> Formula {
    let run = Formula::number(runs * INCHES * INCHES);
    let square = Formula::Sum(vec![rise.clone().times(rise), run]);
    flat.clone().times(flat).times(square).over(Formula::number(INCHES * INCHES)).root(grain)
}

/// How high a gable of a width rises at a slope.
pub fn rise_of(width: Formula, rise: Formula) -> Formula {
    width.over(Formula::number(2)).times(rise).over(Formula::number(INCHES))
}

/// Posts of a fence: one a span, and one more.
pub fn posts(length: Formula, span: Formula) -> Formula {
    Formula::Sum(vec![length.over(span).up(), Formula::number(1)])
}
