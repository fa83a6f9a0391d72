//! Narrations as they stand in `tests/narrations`: what was said, and what an estimator would write from it.
//!
//! The form is told in `tests/narrations/README.md`. Tests, examples and benches all read it through this file.

use anyhow::{Context, Result, anyhow, ensure};
use serde_json::{Map, Value};
use std::path::{Path, PathBuf};

/// A walk-around, and what an estimator would write from it.
pub struct Narration {
    /// The file, from the root of the repository.
    pub path: PathBuf,
    /// The short name that the history knows it by.
    pub id: String,
    /// When the program first read it, where that is told.
    pub first_read: Option<String>,
    pub scenario: String,
    pub text: String,
    /// The labels: lists by their names in the JSON of a draft.
    pub wanted: Value,
}

/// A narration that was spoken, heard once by the recogniser, and stored.
pub struct Recording {
    /// The file, from the root of the repository.
    pub path: PathBuf,
    pub id: String,
    /// Where the narration stands, from the folder of this file.
    pub spoken_at: String,
    pub spoken: Narration,
}

/// A list of entries as a table.
pub struct List {
    /// Its name in the JSON of a draft.
    pub key: &'static str,
    pub heading: &'static str,
    /// Those of `SELDOM` may be left out.
    pub columns: &'static [&'static str],
}

pub const LISTS: [List; 5] = [
    List {
        key: "lines",
        heading: "Lines",
        columns: &[
            "place",
            "item",
            "work",
            "amount",
            "size",
            "marks",
            "said",
            "named",
            "number_said",
            "work_said",
            "quote",
        ],
    },
    List {
        key: "no_work",
        heading: "No work",
        columns: &["place", "item", "marks", "said", "named", "quote"],
    },
    List { key: "follow_ups", heading: "Follow-ups", columns: &["kind", "place", "item", "marks", "quote"] },
    List {
        key: "dimensions",
        heading: "Dimensions",
        columns: &["place", "shape", "width_ft", "height_ft", "marks", "quote"],
    },
    List { key: "moves", heading: "Moves", columns: &["place", "area", "marks", "words"] },
];

/// Columns for words that few entries tell apart from their quote; an empty cell is a field that isn't there.
pub const SELDOM: [&str; 4] = ["said", "named", "number_said", "work_said"];

/// What an entry may be marked with: the field, and the word that sets it.
pub const MARKS: [(&str, &str); 4] =
    [("only_if", "only-if"), ("look", "look"), ("optional", "optional"), ("back", "back")];

/// Marks that a line says it doesn't have; elsewhere a mark that isn't set isn't there.
const OF_LINES: [&str; 2] = ["only_if", "look"];

/// The structure where none is told.
pub const HOUSE: &str = "house";

pub fn folder() -> PathBuf {
    root().join("tests/narrations")
}

pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// All narrations of one kind of speech, `clean` or `captions`, in the order of their ids.
pub fn narrations(kind: &str) -> Result<Vec<Narration>> {
    let files = files(kind, "md")?;
    let mut all = files.iter().map(|path| Narration::read(path)).collect::<Result<Vec<_>>>()?;
    all.sort_by(|a, b| a.id.cmp(&b.id));
    Ok(all)
}

/// All recordings, `quiet` or `noisy`, in the order of their ids.
pub fn recordings(kind: &str) -> Result<Vec<Recording>> {
    let files = files(&format!("recogniser/{kind}"), "md")?;
    let mut all = files.iter().map(|path| Recording::read(path)).collect::<Result<Vec<_>>>()?;
    all.sort_by(|a, b| a.id.cmp(&b.id));
    Ok(all)
}

/// The files of one ending in the authors' folders of one kind, from the root of the repository, in order.
pub fn files(kind: &str, ending: &str) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for author in entries(&folder().join(kind))? {
        let names =
            entries(&author)?.into_iter().filter(|path| path.extension().is_some_and(|e| e == ending));
        files.extend(names.filter_map(|path| path.strip_prefix(root()).ok().map(Path::to_owned)));
    }
    files.sort();
    Ok(files)
}

fn entries(folder: &Path) -> Result<Vec<PathBuf>> {
    let told = || folder.display().to_string();
    std::fs::read_dir(folder).with_context(told)?.map(|entry| Ok(entry.with_context(told)?.path())).collect()
}

impl Narration {
    /// # Errors
    /// Where the file isn't of the form: which line, what was found, what was expected.
    pub fn read(path: &Path) -> Result<Self> {
        let written =
            std::fs::read_to_string(root().join(path)).with_context(|| path.display().to_string())?;
        Self::of(path, &written)
    }

    /// The same, of what is written there.
    ///
    /// # Errors
    /// As above.
    pub fn of(path: &Path, written: &str) -> Result<Self> {
        let mut page = Page::new(path, written);
        let scenario = page.after("# ")?;
        let id = page.after("id: ")?;
        let first_read = page.peek().starts_with("first read: ").then(|| page.after("first read: "));
        let first_read = first_read.transpose()?;
        page.heading("## Said")?;
        let text = page.said()?;
        page.heading("## Wanted")?;
        Ok(Self { path: path.to_owned(), id, first_read, scenario, text, wanted: page.wanted()? })
    }

    /// The folder: whoever wrote it.
    pub fn author(&self) -> &str {
        let folder = self.path.parent().and_then(Path::file_name);
        folder.and_then(|name| name.to_str()).unwrap_or_default()
    }
}

impl Recording {
    /// # Errors
    /// As [`Narration::read`].
    pub fn read(path: &Path) -> Result<Self> {
        let written =
            std::fs::read_to_string(root().join(path)).with_context(|| path.display().to_string())?;
        let mut page = Page::new(path, &written);
        page.after("# ")?;
        let id = page.after("id: ")?;
        let spoken_at = page.after("spoken: ")?;
        let mut at = path.parent().unwrap_or(path);
        let mut steps = spoken_at.as_str();
        while let Some(rest) = steps.strip_prefix("../") {
            (at, steps) = (at.parent().unwrap_or(at), rest);
        }
        let spoken = Narration::read(&at.join(steps))?;
        Ok(Self { path: path.to_owned(), id, spoken_at, spoken })
    }

    /// What the recogniser heard, as the program stores it.
    pub fn transcript(&self) -> PathBuf {
        root().join(self.path.with_extension("transcript.json"))
    }
}

/// The lines of a file that aren't blank, each with its number.
struct Page<'a> {
    path: &'a Path,
    lines: Vec<(usize, &'a str)>,
    at: usize,
}

impl<'a> Page<'a> {
    fn new(path: &'a Path, written: &'a str) -> Self {
        let lines = (1..).zip(written.lines()).filter(|(_, line)| !line.trim().is_empty()).collect();
        Self { path, lines, at: 0 }
    }

    /// The next line; empty at the end.
    fn peek(&self) -> &'a str {
        self.lines.get(self.at).map_or("", |(_, line)| line)
    }

    fn next(&mut self) -> &'a str {
        let line = self.peek();
        self.at += 1;
        line
    }

    /// What is wrong with the line that was read last.
    fn fault(&self, found: &str, expected: &str) -> anyhow::Error {
        let number = self.lines.get(self.at - 1).or(self.lines.last()).map_or(0, |(number, _)| *number);
        let found = if found.is_empty() { "nothing".to_owned() } else { format!("`{found}`") };
        anyhow!("{}:{number}: found {found}, expected {expected}", self.path.display())
    }

    /// What follows a sign at the start of the next line.
    fn after(&mut self, sign: &str) -> Result<String> {
        let line = self.next();
        let rest = line.strip_prefix(sign).filter(|rest| !rest.trim().is_empty());
        Ok(rest.ok_or_else(|| self.fault(line, &format!("a line that begins with `{sign}`")))?.to_owned())
    }

    fn heading(&mut self, heading: &str) -> Result<()> {
        let line = self.next();
        if line == heading { Ok(()) } else { Err(self.fault(line, &format!("`{heading}`"))) }
    }

    /// The quoted text. Lines are joined by a space; a mark of quotation alone breaks the line in the text itself.
    fn said(&mut self) -> Result<String> {
        let mut text = String::new();
        while let Some(line) = self.peek().strip_prefix('>') {
            let line = line.strip_prefix(' ').unwrap_or(line);
            let between = match line {
                "" => "\n",
                _ if text.is_empty() || text.ends_with('\n') => "",
                _ => " ",
            };
            text.push_str(between);
            text.push_str(line);
            self.at += 1;
        }
        if text.is_empty() {
            let line = self.next();
            return Err(self.fault(line, "what was said, each line after `> `"));
        }
        Ok(text)
    }

    /// The tables, up to what the program drafts.
    fn wanted(&mut self) -> Result<Value> {
        let mut wanted = Map::new();
        while !["", "## Drafted"].contains(&self.peek()) {
            let line = self.next();
            let list = LISTS.iter().find(|list| line.strip_prefix("### ") == Some(list.heading));
            let list = list.filter(|list| !wanted.contains_key(list.key));
            let list = list.ok_or_else(|| self.fault(line, &format!("one of {}, each once", headings())))?;
            wanted.insert(list.key.to_owned(), Value::Array(self.table(list)?));
        }
        for list in LISTS.iter().filter(|list| list.key != "moves") {
            let told = format!("{}: there is no `### {}`", self.path.display(), list.heading);
            ensure!(wanted.contains_key(list.key), told);
        }
        Ok(Value::Object(wanted))
    }

    fn table(&mut self, list: &List) -> Result<Vec<Value>> {
        let line = self.next();
        if line == "none" {
            return Ok(Vec::new());
        }
        let columns: Vec<&str> = cells(line).unwrap_or_default();
        let known = list.columns.iter().filter(|c| columns.contains(c) || !SELDOM.contains(c));
        if !known.eq(&columns) {
            return Err(self.fault(line, &format!("`none` or the columns {}", list.columns.join(" | "))));
        }
        let line = self.next();
        if !line.starts_with("|-") {
            return Err(self.fault(line, "the line under a table's columns, `|---`"));
        }
        let mut entries = Vec::new();
        while self.peek().starts_with('|') {
            entries.push(self.entry(list, &columns)?);
        }
        Ok(entries)
    }

    fn entry(&mut self, list: &List, columns: &[&str]) -> Result<Value> {
        let line = self.next();
        let cells = cells(line).filter(|cells| cells.len() == columns.len());
        let cells = cells.ok_or_else(|| self.fault(line, &format!("{} cells", columns.len())))?;
        let mut entry = Map::new();
        for (column, cell) in columns.iter().zip(cells) {
            read_cell(list, column, cell, &mut entry)
                .map_err(|expected| self.fault(cell, &format!("{expected} under `{column}`")))?;
        }
        Ok(Value::Object(entry))
    }
}

fn headings() -> String {
    LISTS.map(|list| format!("`### {}`", list.heading)).join(", ")
}

fn cells(line: &str) -> Option<Vec<&str>> {
    Some(line.strip_prefix('|')?.split('|').map(str::trim).collect())
}

/// Reads a cell into the fields it stands for, or tells what was expected.
fn read_cell(list: &List, column: &str, cell: &str, entry: &mut Map<String, Value>) -> Result<(), String> {
    let mut put = |field: &str, value: Value| entry.insert(field.to_owned(), value);
    match column {
        "place" => {
            let (structure, side) = cell.rsplit_once(", ").unwrap_or((HOUSE, cell));
            put("structure", values("structure", structure)?);
            put("side", values("side", side)?);
        }
        "amount" => {
            let (quantity, unit) = amount(cell).ok_or("a number or `-`, and a unit")?;
            put("quantity", values("quantity", quantity)?);
            put("unit", values("unit", unit)?);
        }
        "marks" => {
            let set: Vec<&str> = cell.split(", ").filter(|mark| !mark.is_empty()).collect();
            let known = MARKS.map(|(_, mark)| mark);
            if !set.iter().all(|mark| known.contains(mark)) {
                return Err(format!("some of {}", known.join(", ")));
            }
            for (field, mark) in MARKS {
                if set.contains(&mark) || list.key == "lines" && OF_LINES.contains(&field) {
                    put(field, Value::Bool(set.contains(&mark)));
                }
            }
        }
        _ if cell.is_empty() && SELDOM.contains(&column) => {}
        _ => {
            put(column, values(column, cell)?);
        }
    }
    Ok(())
}

/// Splits an amount where its unit begins: behind the first value that no slash follows.
fn amount(cell: &str) -> Option<(&str, &str)> {
    let mut from = 0;
    loop {
        let gap = from + cell.get(from..)?.find(' ')?;
        if !cell[gap..].starts_with(" / ") {
            return Some((&cell[..gap], &cell[gap + 1..]));
        }
        from = gap + 3;
    }
}

/// A value, or several of which any will do: `1 / -`. A list of one stands in brackets.
fn values(field: &str, cell: &str) -> Result<Value, String> {
    if let Some(only) = cell.strip_prefix('(').and_then(|cell| cell.strip_suffix(')')) {
        return Ok(Value::Array(vec![value(field, only)?]));
    }
    if !cell.contains(" / ") {
        return value(field, cell);
    }
    cell.split(" / ").map(|one| value(field, one)).collect()
}

fn value(field: &str, written: &str) -> Result<Value, String> {
    let words: &[&str] = match field {
        _ if written == "-" => return Ok(Value::Null),
        _ if written.is_empty() => return Err("a value, or `-` for none".to_owned()),
        "quantity" | "width_ft" | "height_ft" => {
            let number: Option<serde_json::Number> = written.parse().ok();
            return number.map(Value::Number).ok_or_else(|| "a number".to_owned());
        }
        "side" => &["front", "right", "rear", "left", "none"],
        "area" => &["wall", "roof", "grounds"],
        "kind" => &["photo", "measure", "check"],
        "shape" => &["wall", "gable", "opening", "roof-slope"],
        "work" => &[
            "detach-reset",
            "remove-replace",
            "remove",
            "install",
            "repair",
            "clean",
            "paint",
            "stain",
            "protect",
        ],
        "unit" => &[
            "each",
            "foot",
            "square-foot",
            "square",
            "pair",
            "set",
            "roll",
            "sheet",
            "bundle",
            "box",
            "inch",
            "yard",
        ],
        _ => return Ok(Value::String(written.to_owned())),
    };
    if words.contains(&written) {
        return Ok(Value::String(written.to_owned()));
    }
    Err(format!("one of {}, or `-`", words.join(", ")))
}
