//! How written lists of work are laid out: the headings of their columns, their spellings of units, their short words.

use super::load::{Layer, Over};
use crate::model::Unit;
use rustc_hash::FxHashMap;
use serde::{Deserialize, Serialize};
use serde_spanned::Spanned;

/// What a column of a written list holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Column {
    /// Money: not read, and never taken for a quantity.
    Price,
    /// How much.
    Quantity,
    /// What the quantity counts.
    Unit,
    /// The thing, often with its work, size and place.
    Item,
    /// What is to be done.
    Work,
    /// Where.
    Side,
    /// How large each is.
    Size,
    /// What somebody noted.
    Note,
    /// The running number of the row.
    Number,
    /// Nothing that is looked at.
    Nothing,
}

/// What a row or a cell of a written list says that is no work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ListedText {
    /// The row adds up others.
    Total,
    /// The row is money, where it names no thing.
    Money,
    /// The row is a remark.
    Note,
    /// No one side.
    Around,
}

/// A column's meaning, and how sure its heading tells it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Headed {
    /// What it holds.
    pub column: Column,
    /// Lower is surer: the place among the headings of that meaning, those that only hold such words behind all others.
    pub rank: usize,
}

/// A spelling of a unit, and how many of the unit one of them is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ListedUnit {
    /// The unit.
    pub unit: Unit,
    /// How many of it.
    pub times: u32,
}

/// The words of written lists.
#[derive(Debug, Default)]
pub struct ListWords {
    columns: FxHashMap<String, Headed>,
    units: FxHashMap<String, ListedUnit>,
    texts: FxHashMap<String, ListedText>,
    short: FxHashMap<String, String>,
}

/// Headings that only hold the words stand behind all that are the words.
const WITHIN: usize = 10_000;

/// The longest short phrase, in words.
const LONGEST_SHORT: usize = 6;

/// A heading, unit or other cell as it is looked up: small letters, single blanks, no marks but `#`, `$` and `²`, and
/// nothing that stands in brackets.
pub fn plain(text: &str) -> String {
    let mut depth = 0usize;
    let mut kept = String::new();
    for letter in text.to_lowercase().chars() {
        match letter {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            _ if depth > 0 => {}
            '#' | '$' | '²' => kept.push(letter),
            _ if letter.is_alphanumeric() => kept.push(letter),
            _ => kept.push(' '),
        }
    }
    kept.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl ListWords {
    /// What a column under that heading holds; none where no rule knows it.
    pub fn column(&self, heading: &str) -> Option<Headed> {
        let heading = plain(heading);
        self.columns.get(&heading).copied().or_else(|| self.within(&heading))
    }

    /// The longest known heading among the words of this one: "scope item description", "qty approved".
    fn within(&self, heading: &str) -> Option<Headed> {
        let words: Vec<&str> = heading.split(' ').collect();
        let runs = |length: usize| words.windows(length).filter_map(|run| self.columns.get(&run.join(" ")));
        let longest =
            (1..words.len()).rev().find_map(|length| runs(length).min_by_key(|h| (h.column, h.rank)));
        longest.map(|headed| Headed { rank: headed.rank + WITHIN, ..*headed })
    }

    /// The unit that a cell spells.
    pub fn unit(&self, cell: &str) -> Option<ListedUnit> {
        self.units.get(&plain(cell)).copied()
    }

    /// What a cell says that is no work: exactly, or with the words it begins with.
    pub fn text(&self, cell: &str) -> Option<ListedText> {
        self.texts.get(&plain(cell)).copied()
    }

    /// What a row begins with that is no work: "Total front elevation", "Note: color to match".
    pub fn opening(&self, cell: &str) -> Option<ListedText> {
        let cell = plain(cell);
        let words: Vec<&str> = cell.split(' ').collect();
        let opens = (1..=words.len().min(LONGEST_SHORT)).rev();
        opens.into_iter().find_map(|length| self.texts.get(&words[..length].join(" "))).copied()
    }

    /// The text with its short words written out.
    pub fn written_out(&self, text: &str) -> String {
        let words: Vec<&str> = text.split_whitespace().collect();
        let mut out: Vec<&str> = Vec::new();
        let mut at = 0;
        while at < words.len() {
            let lengths = (1..=LONGEST_SHORT.min(words.len() - at)).rev();
            let found =
                lengths.into_iter().find_map(|length| Some((length, self.short(&words[at..at + length])?)));
            match found {
                Some((length, long)) => {
                    out.push(long);
                    // The mark behind a word parts it from the next: "repl, alum".
                    out.extend(words[at + length - 1].ends_with([',', ';', ':']).then_some(","));
                    at += length;
                }
                None => {
                    let unit = self.unit_behind_a_number(&words, at);
                    out.push(unit.unwrap_or(words[at]));
                    out.extend(unit.filter(|_| words[at].ends_with([',', ';'])).map(|_| ","));
                    at += 1;
                }
            }
        }
        out.join(" ").replace(" ,", ",")
    }

    /// "3 in", "24 SQ": a short unit behind a number as it is spoken, but for a pitch of "4 in 12".
    fn unit_behind_a_number(&self, words: &[&str], at: usize) -> Option<&'static str> {
        let is_number = |word: &&str| word.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
        let before = at.checked_sub(1).and_then(|before| words.get(before)).is_some_and(is_number);
        let pitch = words[at].ends_with(char::is_alphabetic) && words.get(at + 1).is_some_and(is_number);
        let listed = self.unit(words[at]).filter(|listed| listed.times == 1 && before && !pitch)?;
        match listed.unit {
            Unit::Inch => Some("inch"),
            Unit::Foot => Some("foot"),
            Unit::SquareFoot => Some("square foot"),
            Unit::Square => Some("square"),
            Unit::Yard => Some("yard"),
            Unit::Pair => Some("pair"),
            _ => None,
        }
    }

    fn short(&self, words: &[&str]) -> Option<&str> {
        let key = words.join(" ").to_lowercase();
        let bare = key.trim_end_matches(['.', ',', ';', ':']);
        self.short.get(&key).or_else(|| self.short.get(bare)).map(String::as_str)
    }

    /// Takes a file's words in, and gives those that another meaning has already. A user's folder may give a word another
    /// meaning.
    pub(super) fn add<'l>(&mut self, layer: &'l Layer) -> Vec<(&'l Spanned<String>, String)> {
        let rules = &layer.rules;
        let mut faults = Vec::new();
        let columns = rules.column.iter().flat_map(|entry| entry.said.iter().map(|said| (said, entry.means)));
        for (said, column) in columns {
            let headed = Headed { column, rank: self.columns.len() };
            faults.extend(put(&mut self.columns, layer.over, said, headed, |a, b| a.column == b.column));
        }
        for entry in &rules.listed_unit {
            let unit = ListedUnit { unit: entry.unit, times: entry.times };
            let said = entry.said.iter();
            faults
                .extend(said.filter_map(|said| put(&mut self.units, layer.over, said, unit, |a, b| a == b)));
        }
        for entry in &rules.listed_text {
            let said = entry.said.iter();
            faults
                .extend(said.filter_map(|s| put(&mut self.texts, layer.over, s, entry.means, |a, b| a == b)));
        }
        let short = rules.listed_words.iter();
        self.short.extend(short.map(|(short, long)| (short.get_ref().to_lowercase(), long.clone())));
        faults
    }
}

/// Puts a word in under its meaning; the first place a heading was given stays.
fn put<'l, T: Copy>(
    words: &mut FxHashMap<String, T>,
    over: Over,
    said: &'l Spanned<String>,
    means: T,
    same: impl Fn(&T, &T) -> bool,
) -> Option<(&'l Spanned<String>, String)> {
    let word = plain(said.get_ref());
    if word.is_empty() {
        return Some((said, format!("`{}` has no letter, figure, `#` or `$` in it", said.get_ref())));
    }
    match words.get(&word) {
        Some(there) if same(there, &means) => None,
        Some(_) if over == Over::BuiltIn => {
            Some((said, format!("`{}` has another meaning already", said.get_ref())))
        }
        _ => {
            words.insert(word, means);
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::rules::Grammar;

    fn words() -> ListWords {
        Grammar::built_in().unwrap().lists
    }

    #[test]
    fn headings_are_known_however_they_are_written() {
        let words = words();
        let headed = [
            ("Qty.", Column::Quantity),
            ("QTY (approx)", Column::Quantity),
            ("Unit of Measure", Column::Unit),
            ("Unit price", Column::Price),
            ("Price / unit", Column::Price),
            ("Item #", Column::Number),
            ("Item", Column::Item),
            ("Line item description", Column::Item),
            ("Type of work", Column::Work),
            ("House side", Column::Side),
        ];
        for (heading, column) in headed {
            assert_eq!(words.column(heading).map(|h| h.column), Some(column), "{heading}");
        }
        assert_eq!(words.column("Weather"), None);
    }

    #[test]
    fn of_two_headings_the_one_that_is_listed_first_is_surer() {
        let words = words();
        let rank = |heading| words.column(heading).unwrap().rank;
        assert!(rank("Qty") < rank("Amount"));
        assert!(rank("Amount") < rank("Qty approved"));
    }

    #[test]
    fn short_words_are_written_out_and_marks_between_them_stay() {
        let words = words();
        assert_eq!(words.written_out("R/R gutter, alum."), "remove and replace gutter, aluminum");
        assert_eq!(words.written_out("Repl, gutter / downspout"), "replace, gutter and downspout");
        assert_eq!(words.written_out("Tear off shingles"), "remove shingles");
        assert_eq!(words.written_out("Pipe jack, 3 in, 24 SQ"), "Pipe jack, 3 inch, 24 square");
        assert_eq!(words.written_out("shingles, 4 in 12"), "shingles, 4 in 12");
    }

    #[test]
    fn rows_that_hold_no_work_are_known_by_how_they_begin() {
        let words = words();
        assert_eq!(words.opening("Total front elevation:"), Some(ListedText::Total));
        assert_eq!(words.opening("Note: color to match"), Some(ListedText::Note));
        assert_eq!(words.opening("Gutter"), None);
        assert_eq!(words.text("Whole house"), Some(ListedText::Around));
    }
}
