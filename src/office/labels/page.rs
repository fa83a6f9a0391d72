//! How the drafts of an office's own recordings did, on one page.

use super::{Signed, Tally};
use crate::model::wording::count;
use crate::output::page::{Block, Column, Page, Row, Section, Table};

/// The page.
pub fn page(all: &[Signed]) -> Page {
    let tallies: Vec<(&Signed, Tally)> = all.iter().map(|signed| (signed, Tally::of(signed))).collect();
    let sum: Tally = tallies.iter().map(|(_, tally)| *tally).sum();
    let columns = [
        Column::names("Recording"),
        Column::text("Signed off"),
        Column::numbers("Lines"),
        Column::numbers("Wrong without a flag"),
        Column::numbers("Right with a flag"),
        Column::numbers("Added"),
    ];
    let row = |(signed, tally): &(&Signed, Tally)| {
        Row::of([
            signed.drafted.recording.name.clone(),
            signed.at.split('T').next().unwrap_or_default().to_owned(),
            tally.drafted.to_string(),
            format!("{} of {}", tally.silent_errors, tally.unflagged),
            format!("{} of {}", tally.flagged_for_nothing, tally.right),
            tally.added.to_string(),
        ])
    };
    let table = Table::plain(columns, tallies.iter().map(row).collect());
    Page {
        kind: "How the drafts did".to_owned(),
        title: count(all.len(), "signed-off recording", "signed-off recordings"),
        summary: vec![
            format!(
                "Of {} without a flag {} were changed or dropped in review ({}).",
                count(sum.unflagged, "line", "lines"),
                sum.silent_errors,
                percent(sum.silent_errors, sum.unflagged)
            ),
            format!(
                "Of {} that were right {} had a flag ({}). {} added.",
                count(sum.right, "line", "lines"),
                sum.flagged_for_nothing,
                percent(sum.flagged_for_nothing, sum.right),
                count(sum.added, "line was", "lines were")
            ),
        ],
        sections: Section::of("Recordings", vec![Block::Table(table)]).into_iter().collect(),
        closing: vec![
            "A line that nobody changed counts as right, even if nobody looked at it: the figures can only be as good as \
             the review was."
                .to_owned(),
        ],
        ..Page::default()
    }
}

fn percent(part: usize, whole: usize) -> String {
    if whole == 0 {
        "none to count".to_owned()
    } else {
        format!("{:.1} %", 100.0 * part as f64 / whole as f64)
    }
}
