//! The command line of Eavesdraft.

use clap::Parser;
use eavesdraft::cli::terminal::Terminal;
use eavesdraft::cli::{self, Args, engine};
use std::process::ExitCode;

fn main() -> ExitCode {
    cli::run(Args::parse(), &mut Terminal::of_process(), &engine::load).into()
}
