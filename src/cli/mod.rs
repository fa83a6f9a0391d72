//! The command line: a subcommand a stage.
//!
//! Takes the arguments as typed, works out what is meant, and runs the stages. It is the edge of the program: the
//! only place that joins reading, drafting and writing, and that knows exit codes.

mod args;
mod compare;
mod day;
mod draft;
mod ears;
pub mod engine;
mod examples;
mod grammar;
mod hear;
mod inputs;
mod interrupt;
mod jobs;
mod json;
mod model;
mod our_scope;
mod outcome;
mod pages;
mod papers;
mod photos;
mod pool;
mod request;
mod review;
pub mod terminal;
mod watch;

pub use args::Args;
pub use outcome::Outcome;

use crate::cli::terminal::Terminal;
use args::Command;
use engine::Load;
use request::{CompareRequest, DayRequest, DraftRequest, HearRequest};

/// Does what the arguments ask. `load` gets the recogniser ready, once a recording has to be heard.
pub fn run(args: Args, terminal: &mut Terminal, load: Load) -> Outcome {
    let done = match args.command {
        Command::Hear(args) => {
            HearRequest::try_from(args).and_then(|request| hear::run(&request, terminal, load))
        }
        Command::Draft(args) => {
            DraftRequest::try_from(args).and_then(|request| draft::run(&request, terminal, load))
        }
        Command::Day(args) => day::run(&DayRequest::from(args), terminal, load),
        Command::Watch(args) => watch::run(&DayRequest::from(args), terminal, load),
        Command::Review(args) => review::run(&args, terminal),
        Command::Papers(args) => papers::run(&args, terminal),
        Command::Compare(args) => compare::run(&CompareRequest::from(args), terminal),
        Command::Pool { command } => pool::run(command, terminal, load),
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
