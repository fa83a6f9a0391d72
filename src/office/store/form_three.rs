//! The third form of the store: events, the commands in them and what they changed have the names that they have today.
//! This is the only place that knows the names they had before.

use super::StoreError;
use rusqlite::{Connection, params};
use serde_json::{Map, Value};
use std::path::Path;

type Object = Map<String, Value>;

/// Gives every stored event today's names. Its meaning stays.
pub(super) fn rename(connection: &Connection, file: &Path) -> Result<(), StoreError> {
    let failed = |cause| StoreError::Unusable { file: file.to_owned(), cause };
    for (row, json) in rows(connection).map_err(failed)? {
        let unreadable = |cause| StoreError::Unreadable { file: file.to_owned(), cause };
        let mut event: Value = serde_json::from_str(&json).map_err(unreadable)?;
        if let Value::Object(event) = &mut event {
            rename_event(event);
        }
        let sql = "update event set json = ?2 where rowid = ?1";
        connection.execute(sql, params![row, event.to_string()]).map_err(failed)?;
    }
    Ok(())
}

fn rows(connection: &Connection) -> rusqlite::Result<Vec<(i64, String)>> {
    let mut rows = connection.prepare("select rowid, json from event")?;
    rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
}

fn rename_event(event: &mut Object) {
    rename_key(event, "deed", "command");
    rename_key(event, "told", "summary");
    if let Some(Value::Object(command)) = event.get_mut("command") {
        rename_command(command);
    }
    for change in event.get_mut("changes").and_then(Value::as_array_mut).into_iter().flatten() {
        if let Value::Object(change) = change {
            rename_change(change);
        }
    }
}

/// What commands were called, and what they are called now.
const COMMANDS: [(&str, &str); 5] = [
    ("settle", "sign-off"),
    ("confirm", "include"),
    ("refuse", "leave-out"),
    ("tape", "enter-measurement"),
    ("measure", "set-dimension"),
];

/// What the fields of commands were called, and what they are called now.
const FIELDS: [(&str, &str); 4] =
    [("todo", "follow_up"), ("measure", "measurement"), ("face", "dimension"), ("measures", "measurements")];

fn rename_command(command: &mut Object) {
    rename_value(command, "do", &COMMANDS);
    FIELDS.iter().for_each(|(old, new)| rename_key(command, old, new));
    if let Some(Value::Object(measurements)) = command.get_mut("measurements") {
        rename_key(measurements, "rise", "slope");
    }
}

/// What changes were called, and what they are called now.
const CHANGES: [(&str, &str); 3] = [("task", "follow-up"), ("face", "dimension"), ("settled", "sign-off")];

fn rename_change(change: &mut Object) {
    rename_value(change, "of", &CHANGES);
    if change.get("of").and_then(Value::as_str) != Some("line") {
        return;
    }
    for side in ["before", "after"] {
        if let Some(Value::Object(entry)) = change.get_mut(side) {
            rename_state(entry);
        }
    }
}

/// A line that stood was reviewed where somebody had decided on it.
fn rename_state(entry: &mut Object) {
    let reviewed = entry.get("by").is_some_and(Value::is_string);
    let stood = if reviewed { "reviewed" } else { "unflagged" };
    rename_value(entry, "state", &[("open", "flagged"), ("stands", stood)]);
}

fn rename_key(object: &mut Object, old: &str, new: &str) {
    if let Some(value) = object.remove(old) {
        object.insert(new.to_owned(), value);
    }
}

fn rename_value(object: &mut Object, key: &str, names: &[(&str, &str)]) {
    let known = object.get(key).and_then(Value::as_str);
    if let Some((_, new)) = names.iter().find(|(old, _)| known == Some(old)) {
        object.insert(key.to_owned(), Value::from(*new));
    }
}
