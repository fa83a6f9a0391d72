//! What the workbook is, what keeps it a draft, what its sheets hold and what they don't say.

use super::grid::{Cell, Grid};
use crate::model::wording;
use crate::output::job::Job;
use crate::output::scope::{closing, day, kind};

/// The sheets, for whoever opens the workbook first.
const SHEETS: [(&str, &str); 6] = [
    ("Lines", "One line for a thing in a place with a work. Its number is the same in every paper."),
    ("To confirm", wording::ONLY_IF),
    (
        "Takeoff",
        "What the measures come to. A figure is computed from the values above it: type another value, and it follows.",
    ),
    ("Sums", "How much of each thing with each work, over all sides, computed from Lines by the column Sum."),
    ("Follow-ups", "Photos to take, tapes to run, things to look into, and which of them were done."),
    ("History", "What people did to the draft, in order."),
];

/// The sheet.
pub(super) fn grid(job: &Job) -> Grid {
    let row = |name: &str, text: String| vec![Cell::text(name), Cell::Text(text)];
    let mut rows = vec![row("Property", job.property().to_owned()), row("Paper", kind(job).to_owned())];
    rows.extend(wording::recording(&job.now).map(|told| row("Recording", told.trim_end().to_owned())));
    rows.extend(job.now.clips.iter().map(|clip| row("Clip", wording::clip(clip))));
    let settled = job.scope.signed_off.iter();
    rows.extend(settled.map(|done| row("Settled", format!("by {} on {}", done.who, day(&done.at)))));
    rows.extend(job.now.notices.iter().map(|notice| row("Notice", wording::sentence(notice))));
    rows.extend(job.open().into_iter().map(|open| row("Open", open)));
    rows.extend(SHEETS.map(|(name, text)| row(&format!("Sheet {name}"), text.to_owned())));
    rows.extend(job.now.cautions.iter().map(|caution| {
        let text = format!("{} ({})", caution.text, caution.source);
        row("Caution", text)
    }));
    rows.extend(closing().into_iter().map(|text| row("Note", text)));
    Grid { name: "About", columns: vec![("What", 18.0), ("Told", 110.0)], rows }
}
