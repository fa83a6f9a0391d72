//! What was found, as tables on paper. A row tells what stands where, and the notes under it what that rests on: the words
//! that were said and when, the photo, their words, and why the lines were put together.

use crate::model::wording::capital;
use crate::output::{Block, Column, Group, Row, Section, Table};
use crate::scope::compare::{
    Comparison, Finding, OurLine, Outcome, Shown, TheirLine, our_amount, their_amount,
};

/// The columns of what stands in both lists.
const BOTH: [Column; 8] = [
    Column::numbers("Our line", 8.0),
    Column::words("Item", 22.0),
    Column::words("Work", 18.0),
    Column::words("Side", 13.0),
    Column::numbers("Ours", 12.0),
    Column::numbers("Theirs", 12.0),
    Column::numbers("Difference", 13.0),
    Column::numbers("Their row", 8.0),
];

/// Which of them is the difference.
const DIFFERENCE: usize = 6;

/// Of what isn't decided no difference is told.
fn without_difference<T>(mut columns: Vec<T>) -> Vec<T> {
    columns.remove(DIFFERENCE);
    columns
}

/// The findings of one kind; none where there are none.
pub(super) fn section(comparison: &Comparison, outcome: Outcome) -> Option<Section> {
    let rows: Vec<Row> = comparison.of(outcome).map(row).collect();
    let heading = format!("{} ({})", capital(outcome.words()), rows.len());
    let columns = match outcome {
        Outcome::MissingThere => alone("Our line"),
        Outcome::OnlyThere => alone("Their row"),
        Outcome::Unclear => without_difference(BOTH.to_vec()),
        _ => BOTH.to_vec(),
    };
    table(heading, explained(outcome), columns, rows)
}

/// Our conditional lines; none where there are none.
pub(super) fn to_confirm(comparison: &Comparison) -> Option<Section> {
    let row = |line: &OurLine| {
        let shown = Shown::of_ours(line);
        let number = shown.our_lines.clone();
        Row { notes: said(std::slice::from_ref(line)), ..Row::of(cells(number, shown, our_amount(line))) }
    };
    let told =
        "Our conditional lines. They take no part in what is counted above until somebody confirms them.";
    let rows: Vec<Row> = comparison.to_confirm.iter().map(row).collect();
    table(format!("To confirm ({})", rows.len()), told, alone("Our line"), rows)
}

fn table(heading: String, told: &str, columns: Vec<Column>, rows: Vec<Row>) -> Option<Section> {
    let groups = vec![Group { heading: None, rows }];
    let blocks = [Block::Text(told.to_owned()), Block::Table(Table { columns, groups: groups.clone() })];
    Section::of(heading, if groups[0].rows.is_empty() { Vec::new() } else { blocks.into() })
}

/// The columns of what stands in one list only; `number` is what its lines are known by.
fn alone(number: &'static str) -> Vec<Column> {
    vec![
        Column::numbers(number, 9.0),
        Column::words("Item", 34.0),
        Column::words("Work", 25.0),
        Column::words("Side", 18.0),
        Column::numbers("Quantity", 20.0),
    ]
}

/// What the reader is told under the heading of an outcome.
fn explained(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::MissingThere => "Said on the walk, and in no line of theirs.",
        Outcome::ShortThere => "In both, and less of it in theirs.",
        Outcome::Unclear => "Not decided here: a person has to say whether these are the same work.",
        Outcome::MoreThere => "In both, and more of it in theirs.",
        Outcome::OnlyThere => "In theirs, and in no line of ours.",
        Outcome::Same => "In both, and as much of it.",
    }
}

fn row(finding: &Finding) -> Row {
    let shown = Shown::of(finding);
    let cells = match finding.outcome {
        Outcome::MissingThere => {
            let quantity = finding.ours.first().map(our_amount).unwrap_or_default();
            Vec::from(cells(shown.our_lines.clone(), shown, quantity))
        }
        Outcome::OnlyThere => {
            let quantity = finding.theirs.first().map(their_amount).unwrap_or_default();
            Vec::from(cells(shown.their_rows.clone(), shown, quantity))
        }
        Outcome::Unclear => without_difference(both(shown)),
        _ => both(shown),
    };
    Row { cells, notes: notes(finding), look: finding.outcome == Outcome::Unclear }
}

fn cells(number: String, shown: Shown, quantity: String) -> [String; 5] {
    [number, named(&shown), shown.work, shown.side, quantity]
}

fn both(shown: Shown) -> Vec<String> {
    let [ours, theirs, difference] = amounts(&shown);
    let item = named(&shown);
    vec![shown.our_lines, item, shown.work, shown.side, ours, theirs, difference, shown.their_rows]
}

/// The thing with its size.
fn named(shown: &Shown) -> String {
    let parts = [shown.item.as_str(), shown.size.as_str()];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Ours, theirs and the difference, each with its unit. Where nothing is decided each is told as it stands.
fn amounts(shown: &Shown) -> [String; 3] {
    [or_none(&shown.ours), or_none(&shown.theirs), shown.more.clone()]
}

fn or_none(amount: &str) -> String {
    if amount.is_empty() { "no number".to_owned() } else { amount.to_owned() }
}

fn notes(finding: &Finding) -> Vec<String> {
    let mut notes: Vec<String> =
        finding.question.iter().map(|question| format!("To settle: {question}")).collect();
    notes.extend(said(&finding.ours));
    notes.extend(finding.theirs.iter().map(written));
    let why = finding.because.join(" ");
    notes.push(format!("Certainty {}. {why}", finding.certainty.word()).trim_end().to_owned());
    notes
}

/// What each of our lines rests on: when it was said, the photos that were taken then, and the words.
pub(super) fn said(ours: &[OurLine]) -> Vec<String> {
    let each = |line: &OurLine| {
        if line.quote.is_empty() {
            return format!("Line {}: a person added it; it isn't on the recording.", line.number);
        }
        let photos = match line.photos.as_slice() {
            [] => None,
            [one] => Some(format!("photo {one}")),
            several => Some(format!("photos {}", several.join(", "))),
        };
        let at: Vec<String> = line.time.clone().into_iter().chain(photos).collect();
        let at = if at.is_empty() { String::new() } else { format!(", {}", at.join(", ")) };
        format!("Line {}{at}: “{}”", line.number, line.quote)
    };
    ours.iter().map(each).collect()
}

/// Their line as it is written.
fn written(line: &TheirLine) -> String {
    let amount = if line.amount.is_empty() { String::new() } else { format!(", {}", line.amount) };
    format!("Row {}: “{}”{amount}", line.row, line.text)
}
