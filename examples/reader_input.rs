//! What the reader is given, for training: a narration a line comes in as JSON (`id`, `text`), its words with what the
//! rules found on them and the draft by the rules goes out. With `--narrations` the labelled narrations of
//! `tests/narrations` come in, and their labels go out beside it.

#[path = "../tests/harness/narration.rs"]
#[allow(dead_code)]
mod narration;

use eavesdraft::language::pieces;
use eavesdraft::language::reader::Input;
use eavesdraft::language::rules::Grammar;
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use serde_json::{Value, json};
use std::io::Write;

fn main() -> anyhow::Result<()> {
    let grammar = Grammar::built_in()?;
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    if std::env::args().any(|arg| arg == "--items") {
        let items: Vec<&str> = grammar.items.iter().map(|item| item.id.as_str()).collect();
        writeln!(out, "{}", json!(items))?;
        return Ok(());
    }
    if std::env::args().any(|arg| arg == "--narrations") {
        for kind in ["clean", "captions", "unread"] {
            for one in narration::narrations(kind)? {
                let path = one.path.to_string_lossy();
                let mut told = json!({
                    "id": one.id, "path": path, "kind": kind, "author": one.author(), "labels": one.wanted,
                    "text": one.text,
                });
                read(&mut told, &grammar);
                writeln!(out, "{told}")?;
            }
        }
        return Ok(());
    }
    for line in std::io::stdin().lines() {
        let mut narration: Value = serde_json::from_str(&line?)?;
        read(&mut narration, &grammar);
        writeln!(out, "{narration}")?;
    }
    Ok(())
}

/// Adds what the reader is given, and the draft by the rules.
fn read(narration: &mut Value, grammar: &Grammar) {
    let transcript = Transcript::from_plain(narration["text"].as_str().unwrap_or_default());
    narration["input"] = json!(Input::of(&pieces::find(&transcript, grammar), grammar));
    narration["draft"] = json!(drafting::by_rules(&transcript, grammar));
}
