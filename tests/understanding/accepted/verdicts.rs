//! What the program drafts, a row an entry, each held against the labels.
//!
//! A line is `right` or `wrong` as the scores count it, `almost` where it is right but for its size, its condition or
//! the look it should ask for, and `too much` where no label is about it. What was `wanted` instead stands below it; what
//! was `missed`, at the end of the list.

use super::layout::{cell, table};
use crate::understanding::scoring::{BESIDE, is_right, list, needs_look, optional, pair_lines, same};
use serde_json::Value;

const VERDICTS: [&str; 5] = ["right", "almost", "wrong", "too much", "missed"];

const OF_LINES: [&str; 9] = ["verdict", "place", "item", "work", "amount", "size", "flags", "sure", "quote"];

/// The other lists that labels are held against: the name in the JSON, the heading and the columns.
const OF_OTHERS: [(&str, &str, &[&str]); 3] = [
    ("no_work", "No work", &["verdict", "place", "item", "quote"]),
    ("follow_ups", "Follow-ups", &["verdict", "kind", "place", "item", "quote"]),
    ("dimensions", "Dimensions", &["verdict", "place", "shape", "width_ft", "height_ft", "quote"]),
];

/// The lists that no label tells of.
const UNJUDGED: [(&str, &str, &[&str]); 4] = [
    ("mentioned", "Mentioned", &["place", "item", "quote"]),
    ("unused", "Not used", &["place", "item", "quote"]),
    ("slopes", "Slopes", &["place", "rise", "quote"]),
    ("totals", "Totals", &["item", "amount", "quote"]),
];

/// What a draft holds, beside what was wanted.
pub fn drafted(draft: &Value, wanted: &Value) -> String {
    let mut page = format!("\n## Drafted\n\n{}", lines(draft, wanted));
    for (key, heading, columns) in OF_OTHERS {
        page += &format!("\n{}", others(heading, columns, key, draft, wanted));
    }
    for (key, heading, columns) in UNJUDGED.iter().filter(|(key, ..)| !list(draft, key).is_empty()) {
        let rows: Vec<_> = list(draft, key).iter().map(|entry| row(columns, "", entry)).collect();
        page += &format!("\n{}", table(heading, columns, &rows));
    }
    let cautions = list(draft, "cautions").iter().map(|caution| &caution["name"]);
    page += &points("Cautions", cautions);
    page + &points("Notices", list(draft, "notices").iter())
}

fn lines(draft: &Value, wanted: &Value) -> String {
    let (labels, drafted) = (list(wanted, "lines"), list(draft, "lines"));
    let pairs = pair_lines(labels, drafted);
    let mut rows = Vec::new();
    for (n, line) in drafted.iter().enumerate() {
        let label = pairs.iter().find(|pair| pair.1 == n).map(|pair| &labels[pair.0]);
        let verdict = verdict(label, line);
        rows.push(row(&OF_LINES, verdict, line));
        let otherwise = label.filter(|_| verdict != "right");
        rows.extend(otherwise.map(|label| row(&OF_LINES, "wanted", label)));
    }
    rows.extend(missed(labels, &pairs).map(|label| row(&OF_LINES, "missed", label)));
    judged("Lines", &OF_LINES, &rows)
}

fn verdict(label: Option<&Value>, line: &Value) -> &'static str {
    let Some(label) = label else { return "too much" };
    let looks = label["look"] != true || needs_look(line);
    match is_right(label, line) {
        false => "wrong",
        true if looks && same(label, line, "size") && same(label, line, "only_if") => "right",
        true => "almost",
    }
}

fn others(heading: &str, columns: &[&str], key: &str, draft: &Value, wanted: &Value) -> String {
    let (labels, drafted) = (list(wanted, key), list(draft, key));
    let beside = BESIDE.into_iter().find(|beside| beside.key == key).unwrap();
    let pairs = beside.pair(labels, drafted);
    let verdict = |n: usize| if pairs.iter().any(|pair| pair.1 == n) { "right" } else { "too much" };
    let entries = drafted.iter().enumerate().map(|(n, entry)| row(columns, verdict(n), entry));
    let rows: Vec<_> =
        entries.chain(missed(labels, &pairs).map(|label| row(columns, "missed", label))).collect();
    judged(heading, columns, &rows)
}

/// Labels that no entry is about, and that may not be left out.
fn missed<'a>(labels: &'a [Value], pairs: &[(usize, usize)]) -> impl Iterator<Item = &'a Value> {
    let unpaired = labels.iter().enumerate().filter(|(n, _)| !pairs.iter().any(|pair| pair.0 == *n));
    unpaired.map(|(_, label)| label).filter(|label| !optional(label))
}

/// A table that says in its heading how many there are of each verdict.
fn judged(heading: &str, columns: &[&str], rows: &[Vec<String>]) -> String {
    let count = |verdict: &str| rows.iter().filter(|row| row[0] == verdict).count();
    let counts = VERDICTS.iter().map(|verdict| (count(verdict), verdict)).filter(|(count, _)| *count > 0);
    let told: Vec<String> = counts.map(|(count, verdict)| format!("{count} {verdict}")).collect();
    let heading =
        if told.is_empty() { heading.to_owned() } else { format!("{heading}: {}", told.join(", ")) };
    table(&heading, columns, rows)
}

fn row(columns: &[&str], verdict: &str, entry: &Value) -> Vec<String> {
    let cell = |column: &&str| match *column {
        "verdict" => verdict.to_owned(),
        "flags" => flags(entry),
        "sure" => entry["confidence"].as_f64().map(|sure| format!("{sure:.2}")).unwrap_or_default(),
        column => cell(column, entry),
    };
    columns.iter().map(cell).collect()
}

/// The flags of a line, or the marks of a label.
fn flags(entry: &Value) -> String {
    let marks = cell("marks", entry);
    let flags = list(entry, "flags").iter().filter_map(Value::as_str).filter(|flag| *flag != "only-if");
    std::iter::once(marks.as_str())
        .filter(|marks| !marks.is_empty())
        .chain(flags)
        .collect::<Vec<_>>()
        .join(", ")
}

fn points<'a>(heading: &str, told: impl Iterator<Item = &'a Value>) -> String {
    let told: String = told.filter_map(Value::as_str).map(|told| format!("- {told}\n")).collect();
    if told.is_empty() { told } else { format!("\n### {heading}\n\n{told}") }
}
