//! The takeoff as a sheet: first every value that was said, typed or goes by a rule, once; then the figures, each
//! computed from those values and from other figures.

use super::grid::{Cell, Grid};
use crate::model::wording;
use crate::output::job::Job;
use crate::output::rows::time_and_clip;
use crate::scope::takeoff::{Figure, Input, Leaf, Measure, Origin};

const COLUMNS: [(&str, f64); 12] = [
    ("Kind", 9.0),
    ("Structure", 12.0),
    ("Side", 9.0),
    ("Part", 18.0),
    ("Name", 30.0),
    ("Value", 12.0),
    ("Unit", 9.0),
    ("How it is calculated", 34.0),
    ("Where it comes from", 44.0),
    ("Time", 8.0),
    ("Clip", 14.0),
    ("Key", 24.0),
];

/// The letter of the column of values.
const VALUE: &str = "F";

/// The sheet.
pub(super) fn grid(job: &Job) -> Grid {
    let figures = &job.takeoff.figures;
    let mut inputs: Vec<&Input> = Vec::new();
    for input in figures.iter().flat_map(|figure| figure.formula.inputs()) {
        if !inputs.contains(&input) {
            inputs.push(input);
        }
    }
    let cell = |leaf: Leaf| {
        let place = match leaf {
            Leaf::Input(input) => inputs.iter().position(|other| *other == input),
            Leaf::Figure(figured) => {
                let place = figures.iter().position(|figure| figure.key == figured.key);
                place.map(|place| place + inputs.len())
            }
        };
        // Every input stands in the list, and a figure is only built on figures that stand in the takeoff.
        place.map_or_else(|| "NA()".to_owned(), |place| format!("{VALUE}{}", place + 2))
    };
    let mut rows: Vec<Vec<Cell>> = inputs.iter().map(|input| value(job, input)).collect();
    rows.extend(figures.iter().map(|f| figure(f, f.formula.cells(&cell))));
    Grid { name: "Takeoff", columns: COLUMNS.to_vec(), rows }
}

fn value(job: &Job, input: &Input) -> Vec<Cell> {
    let (from, (time, clip)) = match &input.origin {
        Origin::Said { quote, start } => {
            (format!("“{quote}”"), start.map(|at| time_and_clip(job, at)).unwrap_or_default())
        }
        Origin::Typed { who } => (format!("typed by {who}"), Default::default()),
        Origin::Rule { source } => (format!("rule: {}", wording::source(source)), Default::default()),
    };
    vec![
        Cell::text("value"),
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::text(&input.name),
        Cell::exact(input.value),
        Cell::text(unit(input.unit)),
        Cell::Empty,
        Cell::Text(from),
        Cell::Text(time),
        Cell::Text(clip),
        Cell::Empty,
    ]
}

fn figure(figure: &Figure, formula: String) -> Vec<Cell> {
    vec![
        Cell::text("figure"),
        Cell::text(&figure.structure),
        Cell::text(wording::side(figure.side)),
        Cell::text(figure.part.heading()),
        Cell::text(&figure.name),
        Cell::Computed(formula, figure.value),
        Cell::text(unit(figure.unit)),
        Cell::text(figure.formula.text()),
        Cell::text(figure.rule.as_deref().map(wording::source).unwrap_or_default()),
        Cell::Empty,
        Cell::Empty,
        Cell::text(&figure.key),
    ]
}

fn unit(unit: Measure) -> &'static str {
    match unit {
        Measure::Foot => "ft",
        Measure::SquareFoot => "sq ft",
        Measure::Square => "square",
        Measure::Each => "each",
        Measure::InTwelve => "in 12",
        Measure::Percent => "percent",
        Measure::Factor => "factor",
    }
}
