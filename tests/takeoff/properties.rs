//! What holds of every takeoff.

use super::{GRAMMAR, decimal, feet};
use eavesdraft::model::{Dimension, Draft, Exact, Shape, Side};
use eavesdraft::scope::drafting::by_rules as draft;
use eavesdraft::scope::takeoff::geometry::{rake, rectangle, triangle};
use eavesdraft::scope::takeoff::{Figure, Leaf, Measure, takeoff};
use eavesdraft::speech::Transcript;
use proptest::prelude::*;

fn dimension(side: Side, shape: Shape, width: Exact, height: Exact) -> Dimension {
    Dimension {
        structure: "house".to_owned(),
        side,
        shape,
        width_ft: Some(width),
        height_ft: Some(height),
        quote: "as measured".to_owned(),
        start: None,
        end: None,
    }
}

fn measured(dimensions: Vec<Dimension>) -> Draft {
    Draft { dimensions, ..draft(&Transcript::from_plain("Siding, replace all around."), &GRAMMAR) }
}

fn value(figures: &[Figure], name: &str) -> Exact {
    figures.iter().filter(|figure| figure.name == name).map(|figure| figure.value).sum()
}

const SIDES: [Side; 4] = [Side::Front, Side::Right, Side::Rear, Side::Left];

proptest! {
    /// Twice as wide and twice as high is four times the area, and twice the rake, to the rounding of the tape.
    #[test]
    fn scaling(width in 1..200i128, height in 1..60i128) {
        let area = |by: i128| triangle(feet(width * by), feet(height * by)).value().unwrap();
        prop_assert_eq!(area(2), area(1) * 4);
        let slope = |by: i128| rake(feet(width * by), feet(height * by)).value().unwrap();
        let gap = slope(2) - slope(1) * 2;
        prop_assert!(gap <= Exact::new(1, 96) && gap >= Exact::new(-1, 96), "{}", gap);
    }

    /// A wall is as large whichever of its lengths is told first.
    #[test]
    fn symmetry(a in 1..500i128, b in 1..500i128) {
        prop_assert_eq!(rectangle(feet(a), feet(b)).value(), rectangle(feet(b), feet(a)).value());
    }

    /// A wall in two parts comes to the whole wall.
    #[test]
    fn additivity(left in 1..100u32, right in 1..100u32, height in 1..30u32) {
        let wall = |width: u32| dimension(Side::Front, Shape::Wall, width.into(), height.into());
        let parts = takeoff(&measured(vec![wall(left), wall(right)]), &GRAMMAR);
        let one = takeoff(&measured(vec![wall(left + right)]), &GRAMMAR);
        prop_assert_eq!(value(&parts.figures, "siding"), value(&one.figures, "siding"));
        prop_assert_eq!(value(&parts.figures, "siding with waste"), value(&one.figures, "siding with waste"));
    }

    /// The order in which sides are walked changes no figure.
    #[test]
    fn order(widths in prop::array::uniform4(1..100u32), shift in 0..4usize) {
        let walls = |sides: Vec<Side>| {
            let wall = |side: Side| dimension(side, Shape::Wall, widths[side as usize].into(), 9.into());
            takeoff(&measured(sides.into_iter().map(wall).collect()), &GRAMMAR)
        };
        let mut turned = SIDES.to_vec();
        turned.rotate_left(shift);
        prop_assert_eq!(walls(SIDES.to_vec()), walls(turned));
    }

    /// What a spreadsheet computes from the formula is the figure.
    #[test]
    fn the_text_of_a_formula_computes_to_its_value(width in 1..400u32, height in 1..100u32) {
        let gable = dimension(Side::Left, Shape::Gable, Exact::new(width, 4), Exact::new(height, 8));
        for figure in takeoff(&measured(vec![gable]), &GRAMMAR).figures {
            let cell = |leaf: Leaf| match leaf {
                Leaf::Input(input) => format!("({}/{})", input.value.numer(), input.value.denom()),
                Leaf::Figure(figured) => format!("({}/{})", figured.value.numer(), figured.value.denom()),
            };
            let computed = computed(&figure.formula.cells(&cell));
            prop_assert!((computed - decimal(figure.value)).abs() < 0.001, "{}: {}", figure.name, computed);
        }
    }
}

/// Computes what a spreadsheet would, by a reader of formulas that knows nothing of ours.
fn computed(formula: &str) -> f64 {
    let mut functions = |name: &str, arguments: Vec<f64>| match (name, arguments.as_slice()) {
        ("SQRT", [value]) => Some(value.sqrt()),
        ("ROUND", [value, places]) => Some((value * 10f64.powf(*places)).round() / 10f64.powf(*places)),
        ("ROUNDUP", [value, places]) => Some((value * 10f64.powf(*places)).ceil() / 10f64.powf(*places)),
        _ => None,
    };
    fasteval::ez_eval(formula, &mut functions).unwrap()
}

#[test]
fn conditional_lines_take_no_part() {
    let said = "Front elevation. If the fence is cracked, replace fifty feet of six foot wood fence.";
    let figures = takeoff(&draft(&Transcript::from_plain(said), &GRAMMAR), &GRAMMAR).figures;
    assert!(figures.is_empty(), "{figures:?}");
}

#[test]
fn figures_have_keys_of_their_own() {
    let walls = SIDES.map(|side| dimension(side, Shape::Wall, 40.into(), 9.into())).to_vec();
    let figures = takeoff(&measured([walls.clone(), walls].concat()), &GRAMMAR).figures;
    let mut keys: Vec<&str> = figures.iter().map(|figure| figure.key.as_str()).collect();
    keys.sort_unstable();
    let count = keys.len();
    keys.dedup();
    assert_eq!(keys.len(), count);
    assert!(figures.iter().any(|figure| figure.unit == Measure::Square));
}
