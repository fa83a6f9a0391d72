//! The command line: a subcommand a stage.
//!
//! Takes the arguments as typed, works out what is meant, and runs the stages. It is the edge of the program: the
//! only place that joins reading, drafting and writing, and that knows exit codes.

mod args;
mod draft;

pub mod engine;
mod grammar;
mod hear;
mod inputs;
mod jobs;
mod json;
mod outcome;
mod pages;
mod recognizer;
mod request;
pub mod terminal;

#[cfg(feature = "compare")]
mod compare;
#[cfg(feature = "server")]
mod day;
#[cfg(feature = "server")]
mod interrupt;
#[cfg(feature = "papers")]
mod labels;
#[cfg(feature = "models")]
mod model;
#[cfg(feature = "compare")]
mod our_scope;
#[cfg(feature = "papers")]
mod papers;
#[cfg(feature = "papers")]
mod photos;
#[cfg(feature = "pool")]
mod pool;
#[cfg(feature = "server")]
mod review;
#[cfg(feature = "server")]
mod rules;
#[cfg(feature = "server")]
mod watch;

pub use args::Args;
pub use outcome::Outcome;

use crate::cli::terminal::Terminal;
use args::Command;
use engine::Load;
#[cfg(feature = "compare")]
use request::CompareRequest;
#[cfg(feature = "server")]
use request::DayRequest;
use request::{DraftRequest, HearRequest};

/// Does what the arguments ask. `load` gets the recognizer ready, once a recording has to be heard.
pub fn run(args: Args, terminal: &mut Terminal, load: Load) -> Outcome {
    let done = match args.command {
        Command::Hear(args) => {
            HearRequest::try_from(args).and_then(|request| hear::run(&request, terminal, load))
        }
        Command::Draft(args) => {
            DraftRequest::try_from(args).and_then(|request| draft::run(&request, terminal, load))
        }
        #[cfg(feature = "server")]
        Command::Day(args) => day::run(&DayRequest::from(args), terminal, load),
        #[cfg(feature = "server")]
        Command::Watch(args) => watch::run(&DayRequest::from(args), terminal, load),
        #[cfg(feature = "server")]
        Command::Review(args) => review::run(&args, terminal),
        #[cfg(feature = "papers")]
        Command::Papers(args) => papers::run(&args, terminal),
        #[cfg(feature = "compare")]
        Command::Compare(args) => compare::run(&CompareRequest::from(args), terminal),
        #[cfg(feature = "papers")]
        Command::Labels(args) => labels::run(&args, terminal),
        #[cfg(feature = "pool")]
        Command::Pool { command } => pool::run(command, terminal, load),
        #[cfg(feature = "models")]
        Command::Model { command } => model::run(&command, terminal),
        Command::Grammar { command } => grammar::run(&command, terminal),
        Command::Completions { shell } => pages::completions(shell, terminal),
        Command::Man { command } => pages::man(command.as_deref(), terminal),
    };
    done.unwrap_or_else(|error| {
        terminal.error(format_args!("{error:#}"));
        Outcome::Failed
    })
}
