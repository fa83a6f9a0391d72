//! What the workbook is, what keeps it a draft, what its sheets hold and what they don't say.

use super::grid::{Cell, Grid};
use crate::model::wording;
use crate::output::job::Job;
use crate::output::parts::closing;

/// The sheets, for whoever opens the workbook first.
const SHEETS: [(&str, &str); 6] = [
    (
        "Lines",
        "One line for each item in one place with one kind of work. Line numbers are the same on every paper.",
    ),
    ("Only if", wording::ONLY_IF),
    (
        "Takeoff",
        "What the measurements come to. Figures are calculated from the values above them: change a value, and they follow.",
    ),
    ("Totals", "How much there is of each item and kind of work, calculated from Lines by the column Total."),
    ("Follow-ups", "Photos, measurements and checks still needed, and those that are done."),
    ("History", "What people changed, in order."),
];

/// The sheet.
pub(super) fn grid(job: &Job) -> Grid {
    let row = |name: &str, text: String| vec![Cell::text(name), Cell::Text(text)];
    let mut rows = vec![row("Property", job.property().to_owned()), row("Paper", job.kind().to_owned())];
    rows.extend(wording::recording(&job.now).map(|told| row("Recording", told)));
    rows.extend(job.now.clips.iter().map(|clip| row("Clip", wording::clip(clip))));
    let signed = job.scope.signed_off.iter();
    rows.extend(
        signed.map(|done| row("Signed off", format!("by {} on {}", done.who, wording::date(&done.at)))),
    );
    rows.extend(job.now.notices.iter().map(|notice| row("Notice", wording::sentence(notice))));
    rows.extend(job.open().into_iter().map(|open| row("Open", open)));
    rows.extend(SHEETS.map(|(name, text)| row(&format!("Sheet {name}"), text.to_owned())));
    rows.extend(job.now.cautions.iter().map(|caution| {
        let text = format!(
            "{}: {} ({})",
            wording::caution(&caution.name),
            caution.text,
            wording::source(&caution.source)
        );
        row("Caution", text)
    }));
    rows.extend(closing().into_iter().map(|text| row("Note", text)));
    Grid { name: "About", columns: vec![("About", 18.0), ("Details", 110.0)], rows }
}
