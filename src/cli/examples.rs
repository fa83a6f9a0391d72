//! The examples that close the help pages.

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

pub(super) const DRAFT: &str = "\
Examples:
  eavesdraft draft walk.m4a
  eavesdraft draft monday/*.m4a --out scopes/
  eavesdraft draft walk.transcript.json --why
  echo 'On the front, two lights, detach and reset' | eavesdraft draft - --json

Exit codes:
  0 drafted; 1 with --strict, while a line needs a look; 2 a file could not be drafted";

pub(super) const HEAR: &str = "\
Examples:
  eavesdraft hear walk.m4a
  eavesdraft hear monday/*.m4a --out words/
  eavesdraft hear walk.m4a --json | eavesdraft draft -";

pub(super) const DAY: &str = "\
Examples:
  eavesdraft day monday/                    hear and draft what is new there
  eavesdraft day monday/ --out scopes/      write elsewhere, in the same folders
  eavesdraft day monday/ --json             an event a line, for another program
  eavesdraft review monday/                 then settle the drafts

Exit codes:
  0 all is done; 1 with --strict, while a line needs a look; 2 something needs attention: a file is set apart or still
  being copied, or the run was stopped";

pub(super) const WATCH: &str = "\
Examples:
  eavesdraft watch ~/recordings/            until Ctrl-C
  systemctl --user start eavesdraft-watch   as a service: see deploy/systemd";

pub(super) const REVIEW: &str = "\
Examples:
  eavesdraft review monday/                            all that is drafted there
  eavesdraft review walk.m4a                           one recording
  eavesdraft review monday/ --listen 0.0.0.0:8000      for others on the network, with a token";

pub(super) const PAPERS: &str = "\
Examples:
  eavesdraft papers monday/                            of all that is drafted there
  eavesdraft papers walk.m4a --only pdf,field          of one recording, two kinds
  eavesdraft papers monday/ --out letters/             written elsewhere, in the same folders
  eavesdraft papers walk.m4a --photos pictures/        with the photos, where they belong
  eavesdraft papers walk.m4a --prices ours.csv --percent overhead=10 --percent profit=10

Exit codes:
  0 written; 1 with --strict, while a scope is still a draft; 2 a scope's papers could not be written";

pub(super) const COMPARE: &str = "\
Examples:
  eavesdraft compare walk.m4a their-list.csv
  eavesdraft compare walk.scope.json list.xlsx --sheet Exterior
  eavesdraft compare walk.m4a list.csv --save-columns theirs.toml    then adjust it, and next time:
  eavesdraft compare walk.m4a list.csv --columns theirs.toml
  eavesdraft compare walk.m4a list.csv --photos pictures/            with the photos of our lines
  eavesdraft compare walk.m4a list.csv --north front                 where they name sides by the compass

Exit codes:
  0 compared; 1 with --strict, while anything is missing there, short there or unclear; 2 it could not be compared";

pub(super) const POOL: &str = "\
Examples:
  eavesdraft pool put monday/ /shared/monday           recordings into a folder that all machines see
  eavesdraft pool hear /shared/monday --part 2/8       on the second of eight machines
  eavesdraft pool status s3://walks/monday             how far it has come, in a bucket

Exit codes:
  0 done; 2 something could not be done, or a recording is set apart";

pub(super) const MODEL: &str = "\
Examples:
  eavesdraft model fetch     get the usual model, once
  eavesdraft model verify    check that it is whole";

pub(super) const COMPLETIONS: &str = "\
Examples:
  eavesdraft completions bash > ~/.local/share/bash-completion/completions/eavesdraft
  eavesdraft completions fish > ~/.config/fish/completions/eavesdraft.fish";
