//! The comparison as a table for spreadsheets: CSV by RFC 4180, in which no cell is ever taken for a formula.

use crate::scope::compare::{Comparison, Finding, OurLine, Shown};

/// How the first row begins, by which the program knows its own tables.
pub const TABLE_MARK: &str = "result,certainty,our lines,their rows,our quantity,their quantity,difference,";

/// The first row. What is added later stands last, so that programs that count columns go on working.
const HEADINGS: [&str; 18] = [
    "result",
    "certainty",
    "our lines",
    "their rows",
    "our quantity",
    "their quantity",
    "difference",
    "unit",
    "item",
    "size",
    "work",
    "side",
    "their words",
    "our words",
    "time",
    "why",
    "question",
    "photos",
];

/// The bytes of the table.
pub fn table(comparison: &Comparison) -> Vec<u8> {
    let rows = comparison.findings.iter().map(finding);
    let rows = rows.chain(comparison.to_confirm.iter().map(to_confirm));
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    // Writing to memory can't fail, nor can rows of one length.
    let _ = writer.write_record(HEADINGS);
    rows.for_each(|row| {
        let _ = writer.write_record(row.map(|cell| harmless(&cell)));
    });
    writer.into_inner().unwrap_or_default()
}

fn finding(finding: &Finding) -> [String; 18] {
    let result = [finding.outcome.words(), finding.certainty.word()].map(str::to_owned);
    let why = [finding.because.join(" "), finding.question.clone().unwrap_or_default()];
    row(result, Shown::of(finding), &finding.ours, why)
}

fn to_confirm(line: &OurLine) -> [String; 18] {
    let why = "Conditional: not in totals until confirmed.".to_owned();
    row(
        ["only if".to_owned(), String::new()],
        Shown::of_ours(line),
        std::slice::from_ref(line),
        [why, String::new()],
    )
}

fn row(
    [result, certainty]: [String; 2],
    shown: Shown,
    ours: &[OurLine],
    [why, question]: [String; 2],
) -> [String; 18] {
    let quotes: Vec<&str> = ours.iter().map(|our| our.quote.as_str()).collect();
    let photos: Vec<&str> = ours.iter().flat_map(|our| our.photos.iter().map(String::as_str)).collect();
    let times: Vec<&str> = ours.iter().filter_map(|our| our.time.as_deref()).collect();
    [
        result,
        certainty,
        shown.our_lines,
        shown.their_rows,
        shown.our_quantity,
        shown.their_quantity,
        shown.difference.trim_start_matches('+').to_owned(),
        shown.unit,
        shown.item,
        shown.size,
        shown.work,
        shown.side,
        shown.their_words,
        quotes.join(" | "),
        times.join(" | "),
        why,
        question,
        photos.join(" | "),
    ]
}

/// A cell that no spreadsheet takes for a formula: one that begins like one gets an apostrophe, unless it is a number.
fn harmless(cell: &str) -> String {
    let like_a_formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let digits = cell.strip_prefix('-').unwrap_or(cell);
    let number = digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || c == '.')
        && digits.parse::<f64>().is_ok();
    if like_a_formula && !number { format!("'{cell}") } else { cell.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn its_first_row_is_what_its_tables_are_known_by() {
        assert!(HEADINGS.join(",").starts_with(TABLE_MARK));
    }

    #[test]
    fn what_begins_like_a_formula_is_made_harmless_and_numbers_stay_numbers() {
        for cell in ["=1+1", "+1", "-1+2", "@sum", "\t=1", "\r1", "-", "-1e5"] {
            assert_eq!(harmless(cell), format!("'{cell}"));
        }
        for cell in ["", "-12", "-12.5", "12", "gutter", "'=1"] {
            assert_eq!(harmless(cell), cell);
        }
    }
}
