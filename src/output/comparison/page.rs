//! The comparison as a paper: a letter with the places of its head left blank, the questions that are open, and what was
//! found.

use super::findings;
use crate::language::rules::lists;
use crate::model::wording::{capital, count, sentence};
use crate::output::page::{Block, Column, Entry, Page, Row, Section, Table, list};
use crate::output::parts;
use crate::scope::compare::{ColumnUse, Comparison, Finding, Outcome, Shown, column_name};

/// What whoever sends it fills in by hand.
const BLANKS: [&str; 4] = ["From", "To", "Property", "Date"];

/// What the paper is, and what it isn't.
const ABOUT: &str = "Both lists describe physical work on this property. This page shows where they differ. It does not say what \
                     any policy covers, what caused the damage or what will be paid.";

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
        kind: "Two lists of work, compared line by line".to_owned(),
        title: format!("Our scope compared with {}", parts::property(&comparison.theirs)),
        blanks: BLANKS.to_vec(),
        summary: head(comparison),
        sections,
        closing: closing(),
        ..Page::default()
    }
}

fn head(comparison: &Comparison) -> Vec<String> {
    let Comparison { ours, theirs, sheet, .. } = comparison;
    let sheet = sheet.as_deref().map(|sheet| format!(", sheet {sheet}")).unwrap_or_default();
    let sources = format!("Ours: {ours}. Theirs: {theirs}{sheet}.");
    vec![sentence(&summary(comparison)), sources, ABOUT.to_owned()]
}

/// What it came to: `18 missing from their list, 2 with the quantity short, 1 conditional line of ours`.
fn summary(comparison: &Comparison) -> String {
    let found = |outcome: Outcome| Some((comparison.of(outcome).count(), outcome)).filter(|(n, _)| *n > 0);
    let told = |(number, outcome): (usize, Outcome)| format!("{number} {}", counted(outcome));
    let conditional = Some(comparison.to_confirm.len()).filter(|lines| *lines > 0);
    let conditional =
        conditional.map(|lines| count(lines, "conditional line of ours", "conditional lines of ours"));
    let all = Outcome::ALL.into_iter().filter_map(found).map(told).chain(conditional);
    let all: Vec<String> = all.collect();
    if all.is_empty() { "Neither list has a line to compare".to_owned() } else { all.join(", ") }
}

/// How findings of one kind are counted in a sentence.
fn counted(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::MissingThere => "missing from their list",
        Outcome::ShortThere => "with their quantity short",
        Outcome::Unclear => "unclear",
        Outcome::MoreThere => "with their quantity over",
        Outcome::OnlyThere => "only on their list",
        Outcome::Same => "the same",
    }
}

/// What the reading rests on; none where there is nothing to tell of it.
fn notices(comparison: &Comparison) -> Option<Section> {
    let entries = comparison.notices.iter().map(|notice| Entry::text(sentence(notice)));
    Section::of("Notes", list(false, entries.collect()))
}

fn questions(comparison: &Comparison) -> Option<Section> {
    let entry = |finding: &Finding| {
        let shown = Shown::of(finding);
        let name = [shown.item, shown.side].into_iter().filter(|part| !part.is_empty());
        Some(Entry {
            name: capital(&name.collect::<Vec<_>>().join(", ")),
            text: finding.question.clone()?,
            source: findings::said(&finding.ours).join(" "),
            ..Entry::default()
        })
    };
    Section::listing("Open questions", true, comparison.of(Outcome::Unclear).filter_map(entry).collect())
}

fn columns_used(comparison: &Comparison) -> Option<Section> {
    let columns = [Column::words("Column"), Column::names("Heading"), Column::text("Read as")];
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
    let columns = [Column::numbers("Row"), Column::names("Words"), Column::text("Read as")];
    let rows: Vec<Row> = comparison
        .passed_over
        .iter()
        .map(|over| Row::of([over.row.to_string(), over.text.clone(), over.why.clone()]))
        .collect();
    table(&format!("Rows that are not lines of work ({})", rows.len()), columns, rows)
}

/// A section that is one table; none where it has no rows.
fn table<const N: usize>(heading: &str, columns: [Column; N], rows: Vec<Row>) -> Option<Section> {
    let all = (!rows.is_empty()).then(|| Block::Table(Table::plain(columns, rows)));
    Section::of(heading, all.into_iter().collect())
}

fn closing() -> Vec<String> {
    let mut closing = parts::closing();
    closing.push("Line numbers are those of our scope; row numbers are those of their file.".to_owned());
    closing
}
