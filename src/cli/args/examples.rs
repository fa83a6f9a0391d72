//! The examples that close the help of the program itself, and of the completions.

pub(super) const SHORT: &str = "\
Examples:
  eavesdraft draft walk.m4a                  draft it; write the scope beside it
  eavesdraft draft notes.txt --out scopes/   draft from words, into a folder
  eavesdraft day monday/                     everything new in a folder, in one run
  eavesdraft review monday/                  review the drafts in a folder on a page
  eavesdraft papers monday/                  make the documents that leave the office
  eavesdraft compare walk.m4a list.csv       hold the scope beside another party's list
  eavesdraft help draft                      all about one subcommand";

pub(super) const LONG: &str = "\
Examples:
  eavesdraft draft walk.m4a
      Hear the recording, draft the scope, show it, and write walk.scope.json, walk.scope.html,
      walk.transcript.json and walk.vtt beside it.
  eavesdraft hear walk.m4a --json | eavesdraft draft - --json | jq '.lines[].quote'
      Each stage alone, piped into the next.
  eavesdraft draft walk.transcript.json --why
      Draft again from the stored words, and show what gave each line.
  eavesdraft review monday/
      Review the drafts in that folder on a page in the browser.
  eavesdraft compare walk.m4a their-list.xlsx
      Show what is missing from their list, and write walk.compare.pdf, walk.compare.html and walk.compare.csv.

Exit codes:
  0  done
  1  done, but with --strict a line needs review
  2  something could not be done; the reason is on standard error, and the other files were done";

pub(super) const COMPLETIONS: &str = "\
Examples:
  eavesdraft completions bash > ~/.local/share/bash-completion/completions/eavesdraft
  eavesdraft completions fish > ~/.config/fish/completions/eavesdraft.fish";
