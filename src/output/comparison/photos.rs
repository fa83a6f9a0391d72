//! Which photos show our lines.

use crate::model::wording::count;
use crate::output::photos::Tied;
use crate::scope::compare::{Comparison, OurLine};

/// Names the photos that show our lines, and tells how many of all don't.
pub fn name_photos(comparison: &mut Comparison, shown: &Tied, of: usize) {
    let found = comparison.findings.iter_mut().flat_map(|finding| &mut finding.ours);
    let mut lines: Vec<&mut OurLine> = found.chain(&mut comparison.to_confirm).collect();
    for photo in &shown.photos {
        let of_it = lines.iter_mut().find(|line| photo.line.as_deref() == Some(&line.id));
        of_it.into_iter().for_each(|line| line.photos.push(photo.file.clone()));
    }
    let left = of.saturating_sub(shown.photos.len());
    let photos = || count(left, "photo shows", "photos show");
    match (left, shown.clock) {
        (0, _) => {}
        (_, None) => comparison.notices.push(
            "no photo can be matched to a line, because it isn't known when the recording began: give the time with --recorded-at"
                .to_owned(),
        ),
        _ => comparison.notices.push(format!("{} no line of ours for certain: see the papers of the scope", photos())),
    }
}
