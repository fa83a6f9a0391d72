//! Reading rules files: the embedded set, the embedded weights, and an office's folder, strictly.

use super::error::{Fault, GrammarError, did_you_mean};
use super::schema::RulesFile;
use rust_embed::Embed;
use std::borrow::Cow;
use std::path::Path;
use std::sync::LazyLock;

/// A rules file as read, with the text its spans point into.
#[derive(Debug)]
pub(super) struct Layer {
    pub file: String,
    pub text: String,
    pub rules: RulesFile,
    /// From a user's folder: may take the place of what is built in.
    pub over: Over,
}

/// Whose file it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Over {
    BuiltIn,
    User,
}

/// The files of `grammars/`: inside the program where it is optimised; read from the folder in a debug build, so that a
/// changed rule can be tried without compiling anything.
#[derive(Embed)]
#[folder = "grammars/"]
struct Grammars;

/// The fitted weights, which are read in the same way.
#[derive(Embed)]
#[folder = "models/"]
struct Models;

/// The Carnegie Mellon Pronouncing Dictionary.
static DICTIONARY: LazyLock<String> =
    LazyLock::new(|| text_of::<Grammars>("sounds/cmudict.txt").unwrap_or_default().into_owned());

/// The text of one of the files; none where it isn't text.
fn text_of<Folder: Embed>(name: &str) -> Option<Cow<'static, str>> {
    match Folder::get(name)?.data {
        Cow::Borrowed(bytes) => std::str::from_utf8(bytes).ok().map(Cow::Borrowed),
        Cow::Owned(bytes) => String::from_utf8(bytes).ok().map(Cow::Owned),
    }
}

/// One of the files of `models/`, as the program carries it; none where there is no such file.
pub fn stored(name: &str) -> Option<Cow<'static, [u8]>> {
    Some(Models::get(name)?.data)
}

/// How words sound, by the dictionary that the program carries.
pub(super) fn dictionary() -> &'static str {
    &DICTIONARY
}

/// The files the program carries: the rules in the order of their names, then the fitted weights.
pub(super) fn built_in() -> Result<Vec<Layer>, GrammarError> {
    let mut files = embedded::<Grammars>("");
    files.extend(embedded::<Models>("models/"));
    parse_all(files, Over::BuiltIn)
}

/// The `.toml` files of an embedded folder with their texts, in the order of their names.
fn embedded<Folder: Embed>(under: &str) -> Vec<(String, String)> {
    let rules = Folder::iter().filter(|name| name.ends_with(".toml"));
    let text =
        |name: Cow<'static, str>| Some((format!("{under}{name}"), text_of::<Folder>(&name)?.into_owned()));
    let mut files: Vec<(String, String)> = rules.filter_map(text).collect();
    files.sort();
    files
}

/// The `.toml` files of a user's folder and of the folders in it.
pub(super) fn folder(path: &Path) -> Result<Vec<Layer>, GrammarError> {
    let mut files = Vec::new();
    walk(path, "", &mut files)?;
    files.sort();
    parse_all(files, Over::User)
}

/// The digest of the `.toml` files of a user's folder and of the folders in it, with their names.
///
/// # Errors
/// Where the folder can't be read.
pub fn folder_digest(path: &Path) -> Result<String, GrammarError> {
    let mut files = Vec::new();
    walk(path, "", &mut files)?;
    files.sort();
    let all: String = files.iter().map(|(name, text)| format!("{name} {} {text}", text.len())).collect();
    Ok(crate::model::digest::of_bytes(all.as_bytes()))
}

/// The same, with other text for one of the files.
pub(super) fn folder_but(path: &Path, file: &str, text: &str) -> Result<Vec<Layer>, GrammarError> {
    let mut files = Vec::new();
    walk(path, "", &mut files)?;
    files.retain(|(name, _)| name != file);
    files.push((file.to_owned(), text.to_owned()));
    files.sort();
    parse_all(files, Over::User)
}

fn walk(path: &Path, under: &str, out: &mut Vec<(String, String)>) -> Result<(), GrammarError> {
    let unreadable = |path: &Path| {
        let path = path.to_owned();
        move |cause| GrammarError::Unreadable { path, cause }
    };
    for entry in std::fs::read_dir(path).map_err(unreadable(path))? {
        let entry = entry.map_err(unreadable(path))?.path();
        let name = format!("{under}{}", entry.file_name().unwrap_or_default().to_string_lossy());
        if entry.is_dir() {
            walk(&entry, &format!("{name}/"), out)?;
        } else if name.ends_with(".toml") {
            out.push((name, std::fs::read_to_string(&entry).map_err(unreadable(&entry))?));
        }
    }
    Ok(())
}

fn parse_all(files: Vec<(String, String)>, over: Over) -> Result<Vec<Layer>, GrammarError> {
    let mut layers = Vec::new();
    let mut faults = Vec::new();
    for (file, text) in files {
        match toml::from_str(&text) {
            Ok(rules) => layers.push(Layer { file, text, rules, over }),
            Err(error) => faults.push(unparsed(file, &text, &error)),
        }
    }
    if faults.is_empty() { Ok(layers) } else { Err(GrammarError::Faults(faults)) }
}

fn unparsed(file: String, text: &str, error: &toml::de::Error) -> Fault {
    let line = error.span().map_or(1, |span| line_of(text, span.start));
    Fault {
        file,
        line,
        entry: entry_at(text, line),
        message: format!("{}{}", error.message(), hint(error.message())),
    }
}

/// The id or name of the entry that a line belongs to.
fn entry_at(text: &str, line: usize) -> Option<String> {
    let lines: Vec<&str> = text.lines().collect();
    let upto = lines.get(..line.min(lines.len()))?;
    let from = upto.iter().rposition(|l| l.starts_with("[["))?;
    let named = lines[from..].iter().find(|l| l.starts_with("id ") || l.starts_with("name "))?;
    named.split('"').nth(1).map(str::to_owned)
}

/// What was probably meant, where a message names a word and the words that would do.
fn hint(message: &str) -> String {
    let mut quoted = message.split('`').skip(1).step_by(2);
    match quoted.next() {
        Some(found) if message.starts_with("unknown") => did_you_mean(found, quoted),
        _ => String::new(),
    }
}

/// The line, from 1, that a byte stands on.
pub(super) fn line_of(text: &str, byte: usize) -> usize {
    1 + text.as_bytes().iter().take(byte).filter(|b| **b == b'\n').count()
}
