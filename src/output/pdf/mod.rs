//! A paper as a PDF: US letter, its fonts inside, tagged for whoever hears it read (PDF/UA-1), with bookmarks. The same
//! paper gives the same bytes.

mod lay;
mod letters;
mod pictures;
mod sheets;
mod table;
mod tree;

use super::page::Page;
use krilla::Document;
use krilla::SerializeSettings;
use krilla::color::luma;
use krilla::color::rgb;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{PathBuilder, Point, Rect, Size, Transform};
use krilla::image::Image;
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag};
use krilla::text::TextDirection;
use letters::{Cut, Letters};
use sheets::{Drawn, Ink, Mark, PAPER, SIDE, Set, Sheets, WIDTH};
use tree::{Part, Tree};

/// Why a paper can't be made into a PDF. It is a fault of the program.
#[derive(Debug, thiserror::Error)]
#[error(
    "this paper can't be made into a PDF ({0}). That is a fault of the program: please report it; the other papers don't need it"
)]
pub struct PdfError(String);

/// The paper as a PDF.
///
/// # Errors
/// Where the PDF would break the rules of PDF/UA-1.
pub fn pdf(page: &Page) -> Result<Vec<u8>, PdfError> {
    let letters = Letters::new().ok_or_else(|| PdfError("a font can't be read".to_owned()))?;
    let mut sheets = Sheets::new(letters);
    lay::page(&mut sheets, page);
    furniture(&mut sheets, page);
    let accessible = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1).finish();
    let configuration = accessible.map_err(|error| PdfError(format!("{error:?}")))?;
    let settings = SerializeSettings { configuration, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let Sheets { sheets, mut tree, letters, bookmarks, .. } = sheets;
    for sheet in &sheets {
        draw(&mut document, sheet, &mut tree, &letters)?;
    }
    document.set_tag_tree(tree.finish());
    document.set_outline(outline(bookmarks));
    document.set_metadata(
        Metadata::new()
            .title(format!("{}: {}", page.kind, page.title))
            .language("en".to_owned())
            .creator("Eavesdraft".to_owned()),
    );
    document.finish().map(unsuspected).map_err(|error| PdfError(format!("{error:?}")))
}

/// Leaves out that no tag is suspect: that is so where nothing is told (ISO 32000-1, table 321), and some versions of
/// poppler call the word an error. Spaces in its place keep every offset.
fn unsuspected(mut pdf: Vec<u8>) -> Vec<u8> {
    const TOLD: &[u8] = b"/Suspects false";
    if let Some(at) = pdf.windows(TOLD.len()).rposition(|window| window == TOLD) {
        pdf[at..at + TOLD.len()].fill(b' ');
    }
    pdf
}

/// What stands at the head and at the foot of every sheet.
fn furniture(sheets: &mut Sheets, page: &Page) {
    const SMALL: Set = Set { cut: Cut::Regular, size: 7.5, ink: Ink::Soft };
    let total = sheets.sheets.len();
    let name = sheets.letters.drawable(&format!("{}: {}", page.kind, page.title), SMALL.cut);
    for number in 0..total {
        let count = format!("Page {} of {total}", number + 1);
        let right = SIDE + WIDTH - sheets.letters.width(&count, SMALL.cut, SMALL.size);
        let Set { cut, size, ink } = SMALL;
        let text = |x: f32, y: f32, text: String| (None, Mark::Text { x, y, text, cut, size, ink });
        let sheet = &mut sheets.sheets[number];
        sheet.push(text(right, PAPER[1] - 28.0, count));
        sheet.push(text(SIDE, PAPER[1] - 28.0, name.clone()));
    }
}

/// Draws a sheet. What belongs to one part and is drawn in one go is marked as one.
fn draw(
    document: &mut Document,
    sheet: &[Drawn],
    tree: &mut Tree,
    letters: &Letters,
) -> Result<(), PdfError> {
    let paper = PageSettings::from_wh(PAPER[0], PAPER[1]);
    let mut page = document.start_page_with(paper.ok_or_else(|| PdfError("a sheet has no size".to_owned()))?);
    let mut surface = page.surface();
    for run in sheet.chunk_by(|a, b| a.0 == b.0) {
        let part: Option<Part> = run[0].0;
        let tag = match part {
            Some(_) if run.iter().all(|(_, mark)| matches!(mark, Mark::Text { .. })) => {
                ContentTag::Span(SpanTag::empty())
            }
            Some(_) => ContentTag::Other,
            None => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)),
        };
        let drawn = surface.start_tagged(tag);
        for (_, mark) in run {
            put(&mut surface, mark, letters);
        }
        surface.end_tagged();
        if let Some(part) = part {
            tree.drawn(part, drawn);
        }
    }
    Ok(())
}

fn fill(ink: Ink) -> Fill {
    let paint = match ink {
        Ink::Black => luma::Color::new(15).into(),
        Ink::Soft => luma::Color::new(85).into(),
        Ink::Rule => luma::Color::new(205).into(),
        Ink::Flag => rgb::Color::new(255, 243, 207).into(),
        Ink::Frame => rgb::Color::new(228, 233, 243).into(),
    };
    Fill { paint, opacity: NormalizedF32::ONE, rule: FillRule::default() }
}

fn put(surface: &mut Surface, mark: &Mark, letters: &Letters) {
    match mark {
        Mark::Text { x, y, text, cut, size, ink } => {
            surface.set_stroke(None);
            surface.set_fill(Some(fill(*ink)));
            let at = Point::from_xy(*x, *y);
            surface.draw_text(at, letters.font(*cut), *size, text, false, TextDirection::LeftToRight);
        }
        Mark::Fill { at, ink } => {
            surface.set_stroke(None);
            surface.set_fill(Some(fill(*ink)));
            rectangle(surface, *at);
        }
        Mark::Frame { at } => {
            surface.set_fill(None);
            let paint = luma::Color::new(85).into();
            surface.set_stroke(Some(Stroke { paint, width: 0.9, ..Stroke::default() }));
            rectangle(surface, *at);
        }
        Mark::Picture { at: [x, y, width, height], jpeg } => {
            let (image, size) = (Image::from_jpeg(jpeg.clone().into(), true), Size::from_wh(*width, *height));
            if let (Ok(image), Some(size)) = (image, size) {
                surface.push_transform(&Transform::from_translate(*x, *y));
                surface.draw_image(image, size);
                surface.pop();
            }
        }
    }
}

fn rectangle(surface: &mut Surface, [x, y, width, height]: [f32; 4]) {
    let mut path = PathBuilder::new();
    if let Some(at) = Rect::from_xywh(x, y, width, height) {
        path.push_rect(at);
    }
    if let Some(path) = path.finish() {
        surface.draw_path(&path);
    }
}

/// The bookmarks: sections, and in them the groups of their tables.
fn outline(bookmarks: Vec<(u16, String, usize, f32)>) -> Outline {
    let mut outline = Outline::new();
    let mut section: Option<OutlineNode> = None;
    for (level, text, sheet, y) in bookmarks {
        let node = OutlineNode::new(text, XyzDestination::new(sheet, Point::from_xy(SIDE, y)));
        match &mut section {
            Some(section) if level > 1 => section.push_child(node),
            _ => {
                if let Some(before) = section.replace(node) {
                    outline.push_child(before);
                }
            }
        }
    }
    if let Some(last) = section {
        outline.push_child(last);
    }
    outline
}
