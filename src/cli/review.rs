//! `eavesdraft review`: the page on which a draft becomes a scope.

use super::Outcome;
use super::args::ReviewArgs;
use super::{grammar, interrupt};
use crate::cli::terminal::Terminal;
use crate::model::wording::count;
use crate::office::server::{self, Review};
use crate::office::store::{FILE, Store, Taken, drafts, take_in, unreadable};
use anyhow::{Context, bail};
use std::fmt::Write;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::Path;
use tokio::net::TcpListener;

/// The bytes of a token: more than can ever be guessed.
const TOKEN_BYTES: usize = 24;

/// Puts the drafts into the folder's store, and serves the page until it is interrupted.
pub(super) fn run(args: &ReviewArgs, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let grammar = grammar::load(args.grammar.as_deref())?;
    let drafts = drafts(&args.target)?;
    let (folder, recordings) = (folder(&args.target), args.recordings.as_deref());
    if !folder.join(FILE).exists()
        && let Some(faults) = unreadable(&drafts, recordings)
    {
        return Ok(told(&faults, terminal));
    }
    let mut store = Store::open(folder)?;
    let now = jiff::Timestamp::now().to_string();
    let Taken { shown, redrafted, failed } = take_in(&mut store, &drafts, recordings, &now)?;
    let outcome = told(&failed, terminal);
    if shown.is_empty() {
        return Ok(outcome);
    }
    terminal.note(format_args!("{} to review", count(shown.len(), "recording", "recordings")));
    if redrafted > 0 {
        terminal.note(format_args!(
            "{} drafted again since the last time; what was reviewed stays",
            count(redrafted, "recording was", "recordings were")
        ));
    }
    let beyond = args.listen.is_some_and(|listen| !listen.ip().is_loopback());
    let token = beyond.then(token).transpose()?;
    let review = Review { store, grammar, own_rules: args.grammar.clone(), shown, token: token.clone() };
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
    runtime.block_on(async {
        let listener = listener(args.listen).await?;
        let address = address(listener.local_addr()?, token.as_deref());
        terminal.show(&format!("{address}\n"))?;
        terminal.note("Press Ctrl-C to stop. Changes save as you make them.");
        if token.is_some() {
            terminal.note(
                "Others on the network can open this page with the address above, token included. The connection isn't encrypted.",
            );
        } else if !args.no_browser && open::that_detached(&address).is_err() {
            terminal.note("No browser could be opened: open the address above yourself.");
        }
        tokio::select! {
            served = server::serve(review, listener) => served.context("the page can no longer be served"),
            () = interrupt::interrupted() => Ok(()),
        }
    })?;
    Ok(outcome)
}

fn told(faults: &[anyhow::Error], terminal: &mut Terminal) -> Outcome {
    faults.iter().for_each(|fault| terminal.error(format_args!("{fault:#}")));
    if faults.is_empty() { Outcome::Done } else { Outcome::Failed }
}

fn folder(target: &Path) -> &Path {
    if target.is_dir() {
        return target;
    }
    target.parent().filter(|parent| *parent != Path::new("")).unwrap_or(Path::new("."))
}

/// Listens where it is asked to; else at the usual port of this machine, or at any where that is taken.
async fn listener(listen: Option<SocketAddr>) -> anyhow::Result<TcpListener> {
    let here = |port| SocketAddr::from((Ipv4Addr::LOCALHOST, port));
    if listen.is_none()
        && let Ok(usual) = TcpListener::bind(here(server::USUAL_PORT)).await
    {
        return Ok(usual);
    }
    let address = listen.unwrap_or(here(0));
    TcpListener::bind(address).await.with_context(|| {
        format!("can't listen on {address}: choose another address with --listen, or leave it out")
    })
}

/// Where the page is opened.
fn address(listens: SocketAddr, token: Option<&str>) -> String {
    let token = token.map(|token| format!("#token={token}")).unwrap_or_default();
    format!("http://{listens}/{token}")
}

fn token() -> anyhow::Result<String> {
    let mut bytes = [0; TOKEN_BYTES];
    if let Err(error) = getrandom::fill(&mut bytes) {
        bail!("no token can be made, since this machine gives no random numbers: {error}");
    }
    let mut token = String::new();
    bytes.iter().try_for_each(|byte| write!(token, "{byte:02x}"))?;
    Ok(token)
}
