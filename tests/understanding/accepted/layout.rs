//! How the entries of labels and drafts are laid out as tables that a person reads.

use crate::harness::narration::{HOUSE, LISTS, List, MARKS, Narration, SELDOM};
use serde_json::Value;

/// How wide a line of the text may be.
const WIDTH: usize = 110;

/// How wide the columns are. They are the same in all files, so that a change of one entry changes one line.
const WIDTHS: [(&str, usize); 19] = [
    ("verdict", 8),
    ("place", 12),
    ("item", 18),
    ("work", 14),
    ("amount", 14),
    ("size", 12),
    ("marks", 9),
    ("flags", 22),
    ("sure", 4),
    ("said", 16),
    ("named", 18),
    ("number_said", 12),
    ("work_said", 16),
    ("kind", 7),
    ("shape", 10),
    ("width_ft", 8),
    ("height_ft", 9),
    ("area", 7),
    ("rise", 6),
];

/// The head of a narration's page, its text and its labels.
pub fn narration(narration: &Narration) -> String {
    let read = narration.first_read.as_ref().map(|read| format!("first read: {read}\n")).unwrap_or_default();
    let head = format!("# {}\n\nid: {}\n{read}", narration.scenario, narration.id);
    let tables = LISTS.iter().filter_map(|list| Some(wanted(list, narration.wanted[list.key].as_array()?)));
    let tables: String = tables.map(|table| format!("\n{table}")).collect();
    format!("{head}\n## Said\n\n{}\n## Wanted\n{tables}", quoted(narration.text.split('\n')))
}

/// Lines of text, each wrapped, with a mark alone between them.
pub fn quoted<'a>(lines: impl Iterator<Item = &'a str>) -> String {
    let lines = lines.map(|line| {
        let mut wrapped = String::new();
        let mut width = WIDTH;
        for word in line.split_whitespace() {
            let length = word.chars().count();
            let fits = width + 1 + length <= WIDTH;
            wrapped += &if fits { format!(" {word}") } else { format!("\n> {word}") };
            width = if fits { width + 1 + length } else { 2 + length };
        }
        wrapped.trim_start().to_owned() + "\n"
    });
    lines.collect::<Vec<_>>().join(">\n")
}

fn wanted(list: &List, entries: &[Value]) -> String {
    let told =
        |column: &&&str| !SELDOM.contains(*column) || entries.iter().any(|e| e.get(**column).is_some());
    let columns: Vec<&str> = list.columns.iter().filter(told).copied().collect();
    let rows = entries.iter().map(|entry| columns.iter().map(|column| cell(column, entry)).collect());
    table(list.heading, &columns, &rows.collect::<Vec<_>>())
}

/// A heading with a table, or `none`.
pub fn table(heading: &str, columns: &[&str], rows: &[Vec<String>]) -> String {
    if rows.is_empty() {
        return format!("### {heading}\n\nnone\n");
    }
    let under: String = widths(columns)
        .map(|width| if width > 0 { "-".repeat(width + 2) } else { "---".to_owned() } + "|")
        .collect();
    let head = row(columns, &columns.iter().map(|column| (*column).to_owned()).collect::<Vec<_>>());
    let rows: String = rows.iter().map(|cells| row(columns, cells)).collect();
    format!("### {heading}\n\n{head}|{}\n{rows}", under.trim_end_matches('|'))
}

/// Where a cell is too wide, those behind it give way until they stand in their places again.
fn row(columns: &[&str], cells: &[String]) -> String {
    let (mut row, mut at, mut begins) = (String::new(), 0, 0);
    for (width, cell) in widths(columns).zip(cells) {
        let gap = " ".repeat(usize::saturating_sub(begins, at));
        row += &format!("{gap}| {cell} ");
        at += gap.len() + 3 + cell.chars().count();
        begins += width + 3;
    }
    row.trim_end().to_owned() + "\n"
}

/// The last column, of words, is as wide as they are.
fn widths(columns: &[&str]) -> impl Iterator<Item = usize> {
    columns.iter().map(|column| WIDTHS.iter().find(|(name, _)| name == column).map_or(0, |(_, width)| *width))
}

pub fn cell(column: &str, entry: &Value) -> String {
    match column {
        "place" if entry["structure"] == HOUSE => values(&entry["side"]),
        "place" => format!("{}, {}", values(&entry["structure"]), values(&entry["side"])),
        "amount" => format!("{} {}", quantity(entry), values(&entry["unit"])),
        "marks" => {
            let set = MARKS.iter().filter(|(field, _)| entry[*field] == true);
            set.map(|(_, mark)| *mark).collect::<Vec<_>>().join(", ")
        }
        _ if SELDOM.contains(&column) => entry.get(column).map(values).unwrap_or_default(),
        _ => values(&entry[column]),
    }
}

/// Of a range, its bounds.
fn quantity(entry: &Value) -> String {
    match (&entry["low"], &entry["high"]) {
        (low, high) if low != high => format!("{} to {}", values(low), values(high)),
        _ => values(&entry["quantity"]),
    }
}

/// A value, or several of which any will do; a list of one in brackets.
fn values(value: &Value) -> String {
    match value {
        Value::Null => "-".to_owned(),
        Value::String(text) => text.clone(),
        Value::Array(only) if only.len() == 1 => format!("({})", values(&only[0])),
        Value::Array(several) => several.iter().map(values).collect::<Vec<_>>().join(" / "),
        number => number.as_f64().map_or_else(|| number.to_string(), |number| number.to_string()),
    }
}
