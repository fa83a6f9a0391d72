//! `eavesdraft compare`: our scope beside another party's list.

use super::Outcome;
use super::grammar;
use super::our_scope::our_scope;
use super::photos::Photos;
use super::request::{CompareRequest, Filing, Looks, Show};
use crate::cli::terminal::Terminal;
use crate::output::files::{self, Paper, Place, Register};
use crate::output::page::{Page, Section};
use crate::output::photos::{of_lines, section};
use crate::output::{Job, comparison, html, pdf};
use crate::scope::compare::{self, ColumnsFile, Comparison, List, Reading};
use anyhow::{Context, bail};
use std::path::Path;

/// The documents of a comparison.
const ENDINGS: [&str; 3] = ["compare.pdf", "compare.html", "compare.csv"];

/// What ends the name of a file of columns.
const COLUMNS_ENDING: &str = "toml";

/// Compares, shows what came of it, and writes it down.
pub(super) fn run(request: &CompareRequest, terminal: &mut Terminal) -> anyhow::Result<Outcome> {
    let grammar = grammar::load(request.grammar.as_deref())?;
    let places = Places::of(request)?;
    let scope = our_scope(&request.ours)?;
    let columns = request.columns.as_deref().map(columns).transpose()?;
    let reading =
        Reading { sheet: request.sheet.as_deref(), columns: columns.as_ref(), north: request.north };
    let list =
        List::new(&bytes(&request.theirs)?, &request.theirs.display().to_string(), &reading, &grammar)?;
    let job = scope.job(&grammar);
    let mut comparison = compare::compare(&job.now, &list, &grammar);
    comparison.notices.splice(0..0, scope.notices.iter().cloned());
    let photos =
        request.photos.as_ref().map(|photos| name_photos(&mut comparison, &job, photos)).transpose()?;
    let page = comparison::page(&comparison, photos.flatten());
    let told = places.file(&comparison, &page, &list)?;
    match request.show {
        Show::Page => terminal.show_page(&page)?,
        Show::Json => terminal.show(&(serde_json::to_string_pretty(&comparison)? + "\n"))?,
    }
    told.iter().for_each(|told| terminal.note(told));
    let open = comparison.is_open() && request.looks == Looks::Forbidden;
    Ok(if open { Outcome::NeedsLook } else { Outcome::Done })
}

/// Names the photos of our lines, and gives them as a section of the paper.
fn name_photos(comparison: &mut Comparison, job: &Job, photos: &Photos) -> anyhow::Result<Option<Section>> {
    let pictures = photos.read()?;
    let shown = of_lines(job, &photos.tie(job, &pictures));
    crate::output::comparison::name_photos(comparison, &shown, pictures.len());
    Ok(if shown.photos.is_empty() { None } else { section(job, &shown, &pictures) })
}

fn bytes(file: &Path) -> anyhow::Result<Vec<u8>> {
    let name = file.display();
    if !file.exists() {
        bail!("`{name}`: there is no such file: check the name and the folder");
    }
    if file.is_dir() {
        bail!("`{name}`: this is a folder: name the list in it");
    }
    std::fs::read(file).with_context(|| format!("`{name}`: it can't be read"))
}

fn columns(file: &Path) -> anyhow::Result<ColumnsFile> {
    let name = file.display().to_string();
    let text = String::from_utf8(bytes(file)?)
        .map_err(|_| anyhow::anyhow!("`{name}`: this is no text: give a TOML file"))?;
    Ok(ColumnsFile::new(&text, &name)?)
}

/// Where the documents go; none where none are written.
struct Places {
    documents: Option<Place>,
    columns: Option<Place>,
}

impl Places {
    /// Keeps the places, before anything is read.
    fn of(request: &CompareRequest) -> anyhow::Result<Self> {
        let inputs = [Some(&request.ours), Some(&request.theirs), request.columns.as_ref()];
        let mut register = Register::new(inputs.into_iter().flatten().map(|file| file.as_path()));
        let documents = match &request.filing {
            Filing::Nowhere => None,
            Filing::Beside => Some(Place::beside(&request.ours)),
            Filing::Into(folder) => Some(Place::inside(folder, files::stem(&request.ours))),
        };
        let ours = request.ours.display().to_string();
        if let Some(place) = &documents {
            register.claim(place, &ENDINGS, &ours)?;
        }
        let columns = request.save_columns.as_deref().map(columns_place).transpose()?;
        if let Some(place) = &columns {
            register.claim(place, &[COLUMNS_ENDING], &ours)?;
        }
        Ok(Self { documents, columns })
    }

    /// Writes what is to be written, and gives what there is to tell of it.
    fn file(&self, comparison: &Comparison, page: &Page, list: &List) -> anyhow::Result<Vec<String>> {
        let mut told = Vec::new();
        if let Some(place) = &self.columns {
            let paper = Paper { ending: COLUMNS_ENDING, bytes: list.columns_file().into_bytes() };
            told.extend(save(place, &[paper])?);
        }
        if let Some(place) = &self.documents {
            let bytes = [pdf::pdf(page)?, html::html(page), comparison::table(comparison)];
            let papers: Vec<Paper> =
                ENDINGS.into_iter().zip(bytes).map(|(ending, bytes)| Paper { ending, bytes }).collect();
            told.extend(save(place, &papers)?);
        }
        Ok(told)
    }
}

fn save(place: &Place, papers: &[Paper]) -> anyhow::Result<Vec<String>> {
    let saved = files::save(place, papers)?;
    let kept = saved.iter().filter_map(|saved| saved.kept.as_ref());
    let kept = kept.map(|kept| format!("Kept the earlier columns as {}", kept.display()));
    let names: Vec<String> = saved.iter().map(|saved| saved.file.display().to_string()).collect();
    Ok(kept.chain([format!("Wrote {}", names.join(", "))]).collect())
}

fn columns_place(file: &Path) -> anyhow::Result<Place> {
    let place = Place::beside(file);
    if file.extension().is_none_or(|ending| ending != COLUMNS_ENDING) {
        bail!("`{}`: a file of columns ends in .toml: name it so", file.display());
    }
    Ok(place)
}
