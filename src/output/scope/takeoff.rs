//! The figures of the takeoff with their formulas, by structure and part, and the rules they go by.

use crate::model::Side;
use crate::model::wording::{self, capital};
use crate::output::job::Job;
use crate::output::page::{Block, Column, Group, Row, Section, Table};
use crate::scope::takeoff::{Figure, PARTS, Part, told};

/// The section; none where nothing was measured.
pub(super) fn section(job: &Job) -> Option<Section> {
    let figures = &job.takeoff.figures;
    if figures.is_empty() {
        return None;
    }
    let columns = vec![
        Column::names("Figure"),
        Column::numbers("Amount"),
        Column::text("How it is calculated"),
        Column::text("Rule"),
    ];
    let structures = figures.chunk_by(|a, b| a.structure == b.structure);
    let groups = structures.flat_map(|figures| PARTS.into_iter().filter_map(|part| group(figures, part)));
    let table = Table { columns, groups: groups.collect() };
    Section::of("Takeoff", vec![Block::Text(job.takeoff.openings.clone()), Block::Table(table)])
}

/// The figures of one part of a structure.
fn group(figures: &[Figure], part: Part) -> Option<Group> {
    let rows: Vec<Row> = figures.iter().filter(|figure| figure.part == part).map(row).collect();
    let heading = format!("{}: {}", figures[0].structure, part.heading().to_lowercase());
    (!rows.is_empty()).then(|| Group { heading: Some(capital(&heading)), rows })
}

fn row(figure: &Figure) -> Row {
    let name = match figure.side {
        Side::None => capital(&figure.name),
        side => capital(&format!("{}: {}", wording::side(side), figure.name)),
    };
    let rule = figure.rule.as_deref().map(wording::source).unwrap_or_default();
    Row::of([name, told(figure.value, figure.unit), figure.formula.text(), rule])
}
