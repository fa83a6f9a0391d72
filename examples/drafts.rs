//! Drafts many narrations, to be measured: a narration a line comes in as JSON (`id`, `text`, or `transcript`, a stored file); its draft, or with `--reading`
//! what the reader makes of it, goes out. `--reader FILE` takes another reader than the program's, `--rules` none.

use anyhow::Context;
use eavesdraft::language::pieces;
use eavesdraft::language::reader::{Input, Reader};
use eavesdraft::language::rules::Grammar;
use eavesdraft::scope::drafting::{Drafter, draft_by};
use eavesdraft::speech::{Transcript, read};
use serde_json::{Value, json};
use std::io::Write;

fn main() -> anyhow::Result<()> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let given = |name: &str| args.iter().position(|arg| arg == name);
    let grammar = Grammar::built_in()?;
    let own = match given("--reader").map(|at| args.get(at + 1).context("--reader needs a file")) {
        Some(file) => Some(Reader::load(&std::fs::read(file?)?)?),
        None => None,
    };
    let drafter = match &own {
        Some(reader) => Drafter::Judge(reader),
        None if given("--rules").is_some() => Drafter::Rules,
        None => Drafter::built_in(),
    };
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    for line in std::io::stdin().lines() {
        let narration: Value = serde_json::from_str(&line?)?;
        let transcript = match narration["transcript"].as_str() {
            Some(path) => read::transcript(&std::fs::read(path)?, path)?,
            None => Transcript::from_plain(narration["text"].as_str().unwrap_or_default()),
        };
        let told = match (given("--reading"), drafter) {
            (Some(_), Drafter::Judge(reader)) => {
                let input = Input::of(&pieces::find(&transcript, &grammar), &grammar);
                let place =
                    |id: &str| grammar.items.iter().position(|item| item.id == id).map(|at| at as u16);
                json!(reader.read(&input, &place))
            }
            _ => json!(draft_by(&transcript, &grammar, drafter)),
        };
        writeln!(out, "{}", json!({ "id": narration["id"], "told": told }))?;
    }
    Ok(())
}
