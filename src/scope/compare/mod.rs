//! Our scope beside another party's list of lines: what is missing there, short there, the same, only there, and what
//! isn't clear.
//!
//! Takes the bytes of their list, whatever its columns are called, and a draft. Their words are read by the rules that
//! read what is said. Nothing is decided that a person has to: where two lines may or may not be the same, it asks, and
//! wherever several lines are taken together, it says so. Pure: it opens no file and writes none.

mod alone;
mod amount;
mod ask;
mod below;
mod columns;
mod columns_file;
mod entry;
mod error;
mod facts;
mod finding;
mod group;
mod list;
mod model;
mod named;
mod our;
mod pair;
mod place;
mod question;
mod rows;
mod said;
mod settle;
mod sheet;
mod shown;
mod sums;
mod their;
mod words;

pub use columns::name as column_name;
pub use columns_file::{COLUMNS_MARK, ColumnsFile};
pub use error::ListError;
pub use list::{List, Reading};
pub use model::*;
pub use shown::Shown;

use crate::language::rules::Grammar;
use crate::model::{Draft, HOUSE};
use entry::entries;
use group::Pairing;
use our::ours;

/// Holds our scope beside their list. The draft is the scope as it stands: the lines that people dropped are no part of it.
pub fn compare(draft: &Draft, list: &List, grammar: &Grammar) -> Comparison {
    let (ours, only_if) = ours(draft, grammar);
    let entries = entries(&list.lines, &ours, grammar);
    let pairing = Pairing {
        ours: &ours,
        only_if: &only_if,
        cleared: &draft.no_work,
        theirs: &list.lines,
        entries: &entries,
        grammar,
        any_building: ours.iter().any(|our| our.line.structure != HOUSE)
            && list.lines.iter().all(|their| their.facts.structure.is_none()),
    };
    let findings = pair::findings(&pairing);
    Comparison {
        ours: draft.source.clone(),
        digest: draft.digest.clone(),
        theirs: list.file.clone(),
        sheet: list.sheet.clone(),
        notices: list.notices.clone(),
        counts: Counts::of(&findings),
        findings,
        to_confirm: only_if.into_iter().map(|our| our.line).collect(),
        columns: list.columns.uses.clone(),
        passed_over: list.passed_over.clone(),
    }
}
