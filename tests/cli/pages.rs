//! Help, completions and manual pages.

use crate::harness::Desk;
use insta::assert_snapshot;

#[test]
fn the_help_of_each_subcommand_is_a_page_with_examples() {
    let desk = Desk::with([]);
    for command in ["draft", "hear", "review", "compare", "pool", "model", "completions"] {
        let run = desk.run(&[command, "--help"]);
        assert_eq!(run.code, 0);
        assert!(run.out.contains("Examples:\n"), "{command}: {}", run.out);
    }
}

#[test]
fn the_short_help_of_draft_reads_so() {
    assert_snapshot!("draft_help", Desk::with([]).run(&["draft", "-h"]).out);
}

#[test]
fn the_long_help_reads_so() {
    assert_snapshot!("help", Desk::with([]).run(&["--help"]).out);
}

#[test]
fn completions_know_the_subcommands() {
    let desk = Desk::with([]);
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let run = desk.run(&["completions", shell]);
        assert!(run.code == 0 && run.out.contains("draft") && run.out.contains("strict"), "{shell}: {run:?}");
    }
}

#[test]
fn every_subcommand_has_a_manual_page() {
    let desk = Desk::with([]);
    assert!(desk.run(&["man"]).out.contains(".TH eavesdraft 1"));
    for command in ["draft", "hear", "review", "compare", "pool", "model", "grammar"] {
        let page = desk.run(&["man", command]).out;
        assert!(page.contains(".SH SYNOPSIS") && page.contains(command), "{page}");
    }
    assert_eq!(desk.run(&["man", "nothing"]).code, 2);
}
