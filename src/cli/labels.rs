//! `eavesdraft labels`: what reviewers decided, as figures and as labeled narrations.

use super::Outcome;
use super::args::LabelsArgs;
use super::grammar;
use crate::cli::terminal::Terminal;
use crate::language::vocabulary::UNKNOWN;
use crate::model::wording::count;
use crate::office::labels::{self, Signed};
use crate::office::store::{FILE, Store};
use crate::output::files::{self, Paper, Place, Saved};
use anyhow::bail;
use std::path::Path;

/// Tells how the drafts of a folder did, and writes the labels where they are asked for.
pub(super) fn run(args: &LabelsArgs, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let folder = args.folder.display();
    if !args.folder.join(FILE).exists() {
        bail!(
            "{folder}: nothing has been reviewed here: there is no {FILE}. Run “eavesdraft review {folder}” first."
        );
    }
    let all = labels::signed(&Store::open(&args.folder)?, args.last)?;
    if all.is_empty() {
        bail!(
            "{folder}: no scope has been signed off yet. Sign one off on the review page, then run this again."
        );
    }
    if let Some(out) = &args.out {
        for saved in write(args, &all, out)? {
            if let Some(kept) = saved.kept {
                terminal.note(format_args!("Kept the earlier one as {}", kept.display()));
            }
            let narrations = count(all.len(), "narration", "narrations");
            terminal.note(format_args!("Wrote {narrations} to {}", saved.file.display()));
        }
    }
    terminal.show_page(&labels::page(&all))?;
    Ok(Outcome::Done)
}

fn write(args: &LabelsArgs, all: &[Signed], out: &Path) -> anyhow::Result<Vec<Saved>> {
    let grammar = grammar::load(args.grammar.as_deref())?;
    let known = |word: &str| grammar.vocabulary.id(word) != UNKNOWN;
    let narration = |signed: &Signed| {
        let said: Vec<&str> = signed.drafted.transcript.words().map(|word| word.text.as_str()).collect();
        let as_said = || said.iter().map(|word| (*word).to_owned()).collect();
        let name = &signed.drafted.recording.name;
        let told = if args.no_names { labels::struck(&said, name, &known) } else { as_said() };
        format!("{}\n", labels::labeled(signed, &told))
    };
    let bytes: String = all.iter().map(narration).collect();
    let place = Place::inside(out, "labels".to_owned());
    Ok(files::save(&place, &[Paper { ending: "jsonl", bytes: bytes.into_bytes() }])?)
}
