//! What was found, as tables on paper. A row tells what stands where, and the notes under it what that rests on: the words
//! that were said and when, the photo, their words, and why the lines were put together.

use crate::model::wording::{ONLY_IF, capital};
use crate::output::page::{Block, Cell, Column, Note, Row, Section, Table};
use crate::scope::compare::{Comparison, Finding, OurLine, Outcome, Shown, TheirLine};

/// The columns of what stands in both lists.
const BOTH: [Column; 8] = [
    Column::numbers("Our line"),
    Column::names("Item"),
    Column::words("Work"),
    Column::text("Side"),
    Column::numbers("Ours"),
    Column::numbers("Theirs"),
    Column::numbers("Difference"),
    Column::numbers("Their row"),
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
        let notes = said(std::slice::from_ref(line)).into_iter().map(Note::plain).collect();
        let quantity = shown.ours.clone();
        Row { notes, ..Row::of(cells(number, shown, &quantity)) }
    };
    let rows: Vec<Row> = comparison.to_confirm.iter().map(row).collect();
    table(format!("Only if ({})", rows.len()), ONLY_IF, alone("Our line"), rows)
}

fn table(heading: String, told: &str, columns: Vec<Column>, rows: Vec<Row>) -> Option<Section> {
    if rows.is_empty() {
        return None;
    }
    Section::of(heading, vec![Block::Text(told.to_owned()), Block::Table(Table::plain(columns, rows))])
}

/// The columns of what stands in one list only; `number` is what its lines are known by.
fn alone(number: &'static str) -> Vec<Column> {
    vec![
        Column::numbers(number),
        Column::names("Item"),
        Column::words("Work"),
        Column::text("Side"),
        Column::numbers("Quantity"),
    ]
}

/// What the reader is told under the heading of an outcome.
fn explained(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::MissingThere => "On our scope, and in no line of theirs.",
        Outcome::ShortThere => "On both lists, with less of it on theirs.",
        Outcome::Unclear => "A person has to say whether these are the same work.",
        Outcome::MoreThere => "On both lists, with more of it on theirs.",
        Outcome::OnlyThere => "On their list, and in no line of ours.",
        Outcome::Same => "On both lists, in the same quantity.",
    }
}

fn row(finding: &Finding) -> Row {
    let shown = Shown::of(finding);
    let cells = match finding.outcome {
        Outcome::MissingThere => {
            let quantity = shown.ours.clone();
            cells(shown.our_lines.clone(), shown, &quantity).into()
        }
        Outcome::OnlyThere => {
            let quantity = shown.theirs.clone();
            cells(shown.their_rows.clone(), shown, &quantity).into()
        }
        Outcome::Unclear => without_difference(both(shown)),
        _ => both(shown),
    };
    let flagged = finding.outcome == Outcome::Unclear;
    Row { anchor: None, cells, notes: notes(finding), flagged }
}

fn cells(number: String, shown: Shown, quantity: &str) -> [Cell; 5] {
    [number.into(), named(&shown), shown.work.into(), shown.side.into(), or_none(quantity)]
}

fn both(shown: Shown) -> Vec<Cell> {
    let [ours, theirs, difference] = amounts(&shown);
    let item = named(&shown);
    let Shown { our_lines, their_rows, work, side, .. } = shown;
    vec![our_lines.into(), item, work.into(), side.into(), ours, theirs, difference, their_rows.into()]
}

/// The thing with its size.
fn named(shown: &Shown) -> Cell {
    Cell::from(shown.item.clone()).and(shown.size.clone())
}

/// Ours, theirs and the difference, each with its unit. Where nothing is decided each is told as it stands.
fn amounts(shown: &Shown) -> [Cell; 3] {
    [or_none(&shown.ours), or_none(&shown.theirs), Cell::from(shown.more.clone())]
}

fn or_none(amount: &str) -> Cell {
    if amount.is_empty() { Cell::missing("no number") } else { Cell::from(amount) }
}

/// What is asked, then what that rests on: our words, theirs, and why they were put together. How certain that is tells
/// the table for spreadsheets; in a letter the reasons say it.
fn notes(finding: &Finding) -> Vec<Note> {
    let asked = finding.question.iter().map(Note::flagged);
    let rests = said(&finding.ours).into_iter().chain(finding.theirs.iter().map(written));
    let why = Some(finding.because.join(" ")).filter(|why| !why.is_empty());
    asked.chain(rests.chain(why).map(Note::plain)).collect()
}

/// What each of our lines rests on: when it was said, the photos that were taken then, and the words.
pub(super) fn said(ours: &[OurLine]) -> Vec<String> {
    let each = |line: &OurLine| {
        if line.quote.is_empty() {
            return format!("Line {}: added by hand; not on the recording.", line.number);
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
