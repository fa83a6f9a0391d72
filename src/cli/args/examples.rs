//! The examples that close the help of the program itself, and of the completions.

pub(super) const SHORT: &str = "\
Examples:
  eavesdraft draft walk.m4a                  draft it; write the scope beside it
  eavesdraft draft notes.txt --out scopes/   draft from words, into a folder
  eavesdraft day monday/                     all that is new in a folder, in one go
  eavesdraft review monday/                  settle the drafts of a folder on a page
  eavesdraft papers monday/                  write what leaves the office
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
      Settle the drafts in that folder on a page in the browser.
  eavesdraft compare walk.m4a their-list.xlsx
      Tell what their list lacks, and write walk.compare.pdf, walk.compare.html and walk.compare.csv.

Exit codes:
  0  done
  1  done, but with --strict a line needs a look
  2  something could not be done; the reason is on standard error, and the other files were done";

pub(super) const COMPLETIONS: &str = "\
Examples:
  eavesdraft completions bash > ~/.local/share/bash-completion/completions/eavesdraft
  eavesdraft completions fish > ~/.config/fish/completions/eavesdraft.fish";
