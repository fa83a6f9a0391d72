//! `eavesdraft pool`: the hearing of many recordings, shared among machines.

use super::Outcome;
use super::args::{DayArgs, PoolCommand, PoolHearArgs};
use super::day;
use super::engine::{Hearing, Load};
use super::request::DayRequest;
use crate::cli::terminal::Terminal;
use crate::model::wording::count;
use crate::office::day::find;
use crate::office::pool::{self, Heard, Part, Pool, PoolError, PoolRecognizer, Put, Status};
use crate::speech::Recognizer;
use anyhow::{Context, bail};
use std::fmt::Write;
use std::path::Path;
use std::time::Instant;

/// Does what a `pool` subcommand asks.
pub(super) fn run(command: PoolCommand, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    match command {
        PoolCommand::Put { folder, pool } => put(&folder, &pool, terminal),
        PoolCommand::Hear(args) => hear(args, terminal, load),
        PoolCommand::Gather { pool, day } => gather(&pool, day, terminal, load),
        PoolCommand::Status { pool, hearing } => status(&pool, &hearing.into(), terminal, load),
    }
}

/// Puts every recording into the pool. A file that can't be read doesn't hold up the others.
fn put(folder: &Path, pool: &str, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let found = find(folder, None)?.into_iter().filter(|file| file.is_sound);
    let files: Vec<_> = found.map(|file| file.path).collect();
    if files.is_empty() {
        return Err(PoolError::Empty(folder.to_owned()).into());
    }
    let pool = Pool::make(pool)?;
    let (mut sent, mut there, mut outcome) = (0, 0, Outcome::Done);
    for file in files {
        match pool::put(&file, &pool) {
            Ok(Put::Sent) => {
                sent += 1;
                terminal.note(format_args!("Put {}", file.display()));
            }
            Ok(Put::There) => there += 1,
            Err(error @ (PoolError::File { .. } | PoolError::Changed(_))) => {
                terminal.error(error);
                outcome = Outcome::Failed;
            }
            Err(error) => return Err(error.into()),
        }
    }
    let put = count(sent, "recording", "recordings");
    terminal.note(format_args!("{put} put into {}; {there} there already", pool.name()));
    Ok(outcome)
}

/// Hears what is open in a part. What fails at one recording doesn't hold up the others.
fn hear(args: PoolHearArgs, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let part = match args.part {
        Some(part) => part,
        None => Part::of_environment(&|name| std::env::var(name).ok())?,
    };
    let pool = Pool::open(&args.pool)?;
    let recognizer = load(&args.hearing.into())?;
    recognizer.lacks().into_iter().for_each(|lack| terminal.note(lack));
    let fingerprint = recognizer.fingerprint()?;
    let mut share = pool::share(&pool, part, &fingerprint)?;
    if args.retry {
        share.open.append(&mut share.skipped);
    }
    let (open, heard, skipped) = (share.open.len(), share.heard, share.skipped.len());
    terminal.note(format_args!("Part {part}: {open} to hear, {heard} heard already, {skipped} skipped"));
    let mut outcome = if skipped == 0 { Outcome::Done } else { Outcome::Failed };
    for (n, digest) in share.open.iter().enumerate() {
        let name = pool::name(&pool, digest)?;
        terminal.note(format_args!("{} of {open}: {name}", n + 1));
        outcome = outcome.max(hear_one(&pool, digest, &name, (&*recognizer, &fingerprint), terminal)?);
    }
    if skipped > 0 {
        let pool = pool.name();
        terminal.note(format_args!(
            "`eavesdraft pool status {pool}` tells what was skipped; --retry tries it again"
        ));
    }
    Ok(outcome)
}

fn hear_one(
    pool: &Pool,
    digest: &str,
    name: &str,
    (recognizer, fingerprint): (&dyn Recognizer, &str),
    terminal: &mut Terminal,
) -> anyhow::Result<Outcome> {
    let begun = Instant::now();
    let bar = terminal.bar(name);
    let heard = pool::hear(pool, digest, name, recognizer, fingerprint, &mut |progress| bar.show(&progress))?;
    drop(bar);
    match heard {
        Heard::Words(words) => {
            let words = count(words.words().count(), "word", "words");
            terminal.note(format_args!("  {words} in {:.1} s", begun.elapsed().as_secs_f64()));
            return Ok(Outcome::Done);
        }
        Heard::Skipped(reason) => terminal.error(format_args!("skipped: {reason}")),
        Heard::Damaged(told) => terminal.error(told),
    }
    Ok(Outcome::Failed)
}

/// Does what `day` does, with the words that the pool has in place of hearing; what it lacks is told.
fn gather(pool: &str, args: DayArgs, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let from_pool = |hearing: &Hearing| {
        let opened = Pool::open(pool)?;
        let fingerprint = which(&opened, hearing, load)?;
        let recognizer: Box<dyn Recognizer> = Box::new(PoolRecognizer::new(opened, fingerprint));
        Ok(recognizer)
    };
    day::run(&DayRequest::from(args), terminal, &from_pool)
}

/// Whose words are taken: those of the model at hand where the pool has some, else those of the only one.
fn which(pool: &Pool, hearing: &Hearing, load: Load) -> anyhow::Result<String> {
    let known = pool::fingerprints(pool)?;
    if known.len() == 1 && hearing.model.is_none() {
        return Ok(known.into_iter().next().unwrap_or_default());
    }
    if known.is_empty() {
        bail!("nothing is heard yet in {0}: run `eavesdraft pool hear {0}`, then gather again", pool.name());
    }
    let here =
        load(hearing).context("the pool has words of several ways of hearing: choose one with --model")?;
    Ok(here.fingerprint()?)
}

/// Tells how far the model at hand has come, or every one that heard something where none is here.
fn status(pool: &str, hearing: &Hearing, terminal: &mut Terminal, load: Load) -> anyhow::Result<Outcome> {
    let pool = Pool::open(pool)?;
    let known = pool::fingerprints(&pool)?;
    let here = match load(hearing) {
        Ok(recognizer) => Some(recognizer.fingerprint()?),
        // One that was named must be there.
        Err(error) if hearing.model.is_some() => return Err(error),
        Err(_) => None,
    };
    let told = match &here {
        Some(here) => vec![here.clone()],
        // Nothing was heard yet: this tells how many recordings there are.
        None if known.is_empty() => vec!["none".to_owned()],
        None => known.iter().cloned().collect(),
    };
    for fingerprint in &told {
        terminal.show(&page(&pool::status(&pool, fingerprint)?)?)?;
    }
    let others = known.iter().filter(|known| !told.contains(known)).count();
    if others > 0 {
        let others = count(others, "another recognizer or way", "other recognizers or ways");
        terminal.note(format_args!("The pool has words of {others} of hearing, too"));
    }
    Ok(Outcome::Done)
}

fn page(status: &Status) -> Result<String, std::fmt::Error> {
    let mut page = String::new();
    writeln!(
        page,
        "{}: {} heard, {} skipped, {} to hear  (recognizer {:.12})",
        count(status.recordings(), "recording", "recordings"),
        status.heard,
        status.skipped.len(),
        status.missing,
        status.fingerprint
    )?;
    for skipped in &status.skipped {
        writeln!(page, "  {}: {}", skipped.source, skipped.reason)?;
    }
    Ok(page)
}
