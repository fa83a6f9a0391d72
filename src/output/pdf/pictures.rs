//! Photos side by side, each with what stands under it.

use super::letters::Cut;
use super::sheets::{Ink, Mark, SIDE, Set, Sheets, WIDTH};
use super::tree::Role;
use crate::output::page::Picture;

const CAPTION: Set = Set { cut: Cut::Regular, size: 7.5, ink: Ink::Soft };
/// As many stand side by side.
const ACROSS: usize = 3;
const GAP: f32 = 10.0;
const WIDE: f32 = (WIDTH - GAP * (ACROSS as f32 - 1.0)) / ACROSS as f32;
/// No picture is higher.
const HIGH: f32 = 150.0;

/// Draws the photos, a row at a time.
pub(super) fn pictures(sheets: &mut Sheets, pictures: &[Picture]) {
    for row in pictures.chunks(ACROSS) {
        let captions: Vec<Vec<String>> = row
            .iter()
            .map(|picture| sheets.letters.lines(&picture.caption, CAPTION.cut, CAPTION.size, WIDE))
            .collect();
        let lines = captions.iter().map(Vec::len).max().unwrap_or(0);
        let high = row.iter().map(|picture| size(picture)[1]).fold(0.0, f32::max);
        sheets.need(high + lines as f32 * CAPTION.leading() + GAP);
        let top = sheets.y;
        for ((n, picture), caption) in row.iter().enumerate().zip(captions) {
            let left = SIDE + n as f32 * (WIDE + GAP);
            let [width, height] = size(picture);
            let figure = Some(sheets.tree.part(Role::Figure(picture.told.clone())));
            let at = [left, top, width, height];
            sheets.draw(figure, Mark::Picture { at, jpeg: picture.jpeg.clone() });
            let part = Some(sheets.tree.part(Role::Paragraph));
            for (line, text) in caption.into_iter().enumerate() {
                sheets.line(part, text, CAPTION, left, top + high + 2.0 + line as f32 * CAPTION.leading());
            }
        }
        sheets.y = top + high + lines as f32 * CAPTION.leading() + GAP;
    }
}

/// As wide as there is room, in its own shape.
fn size(picture: &Picture) -> [f32; 2] {
    let (width, height) = (picture.width.max(1) as f32, picture.height.max(1) as f32);
    let scale = (WIDE / width).min(HIGH / height);
    [width * scale, height * scale]
}
