//! The comparison as a paper: a letter with the places of its head left blank, what is to be settled, and what was found.

use super::findings;
use crate::language::rules::lists;
use crate::model::wording::{CLOSING, capital, count, sentence};
use crate::output::{Block, Column, Entry, Group, Page, Row, Section, Table};
use crate::scope::compare::{ColumnUse, Comparison, Finding, Outcome, Shown, column_name};

/// What whoever sends it fills in by hand.
const BLANKS: [&str; 4] = ["From", "To", "Property", "Date"];

/// What the paper is, and what it isn't.
const ABOUT: &str = "Both lists tell physical work on this property. This page says where they differ; it says nothing of what \
                     any policy covers, of what caused the damage, or of what will be paid.";

/// The paper; `photos` are those of our lines.
pub fn page(comparison: &Comparison, photos: Option<Section>) -> Page {
    let mut sections: Vec<Section> = notices(comparison).into_iter().collect();
    sections.extend(questions(comparison));
    sections.extend(Outcome::ALL.into_iter().filter_map(|outcome| findings::section(comparison, outcome)));
    sections.extend(findings::to_confirm(comparison));
    sections.extend(photos);
    sections.extend(columns_used(comparison));
    sections.extend(passed_over(comparison));
    Page {
        kind: "Two lists of work, line by line".to_owned(),
        title: format!("Our scope beside {}", comparison.theirs),
        blanks: BLANKS.to_vec(),
        summary: head(comparison),
        sections,
        closing: closing(comparison),
        ..Page::default()
    }
}

fn head(comparison: &Comparison) -> Vec<String> {
    let Comparison { ours, theirs, sheet, .. } = comparison;
    let sheet = sheet.as_deref().map(|sheet| format!(", sheet {sheet}")).unwrap_or_default();
    let sources = format!("Ours: {ours}. Theirs: {theirs}{sheet}.");
    vec![sentence(&summary(comparison)), sources, ABOUT.to_owned()]
}

/// What it came to, in a sentence.
pub fn summary(comparison: &Comparison) -> String {
    let told = |outcome: Outcome| format!("{} {}", comparison.of(outcome).count(), outcome.words());
    let all: Vec<String> = Outcome::ALL.into_iter().map(told).collect();
    let confirm = match comparison.to_confirm.len() {
        0 => String::new(),
        lines => format!("; {} of ours to confirm", count(lines, "conditional line", "conditional lines")),
    };
    format!("{}{confirm}", all.join(", "))
}

/// What the reading rests on; none where there is nothing to tell of it.
fn notices(comparison: &Comparison) -> Option<Section> {
    let entry = |notice: &String| Entry { text: sentence(notice), ..Entry::default() };
    let entries: Vec<Entry> = comparison.notices.iter().map(entry).collect();
    let all = (!entries.is_empty()).then_some(Block::List { ticks: false, entries });
    Section::of("To know first", all.into_iter().collect())
}

fn questions(comparison: &Comparison) -> Option<Section> {
    let entry = |finding: &Finding| {
        let shown = Shown::of(finding);
        let name = [shown.item, shown.side].into_iter().filter(|part| !part.is_empty());
        Some(Entry {
            name: capital(&name.collect::<Vec<_>>().join(", ")),
            text: finding.question.clone()?,
            said: findings::said(&finding.ours).join(" "),
        })
    };
    let entries: Vec<Entry> = comparison.of(Outcome::Unclear).filter_map(entry).collect();
    let heading = format!("Questions to settle ({})", entries.len());
    let all = (!entries.is_empty()).then_some(Block::List { ticks: true, entries });
    Section::of(heading, all.into_iter().collect())
}

fn columns_used(comparison: &Comparison) -> Option<Section> {
    let columns =
        [Column::words("Column", 12.0), Column::words("Heading", 44.0), Column::words("Read as", 44.0)];
    let row = |used: &ColumnUse| Row::of([used.letter.clone(), used.heading.clone(), read_as(used)]);
    table("How their columns were read", columns, comparison.columns.iter().map(row).collect())
}

fn read_as(used: &ColumnUse) -> String {
    use lists::Column::{Note, Nothing, Number, Price};
    match (&used.instead, used.means) {
        (Some(instead), _) => format!("not read: {instead}"),
        (None, Nothing | Price | Number | Note) => format!("{}, not compared", column_name(used.means)),
        (None, means) => column_name(means).to_owned(),
    }
}

fn passed_over(comparison: &Comparison) -> Option<Section> {
    let columns =
        [Column::numbers("Row", 8.0), Column::words("Words", 52.0), Column::words("Taken for", 40.0)];
    let rows: Vec<Row> = comparison
        .passed_over
        .iter()
        .map(|over| Row::of([over.row.to_string(), over.text.clone(), over.why.clone()]))
        .collect();
    table(&format!("Rows that are no lines of work ({})", rows.len()), columns, rows)
}

/// A section that is one table; none where it has no rows.
fn table<const N: usize>(heading: &str, columns: [Column; N], rows: Vec<Row>) -> Option<Section> {
    let groups = vec![Group { heading: None, rows }];
    let all = (!groups[0].rows.is_empty()).then(|| Block::Table(Table { columns: columns.into(), groups }));
    Section::of(heading, all.into_iter().collect())
}

fn closing(comparison: &Comparison) -> Vec<String> {
    let mut closing: Vec<String> = CLOSING.iter().map(|line| (*line).to_owned()).collect();
    closing.push(
        "Left and right are as seen from the street. Line numbers are those of our scope, as its own page has them; rows are \
         those of their file."
            .to_owned(),
    );
    closing
        .extend(comparison.digest.as_ref().map(|digest| format!("SHA-256 of {}: {digest}", comparison.ours)));
    closing
}
