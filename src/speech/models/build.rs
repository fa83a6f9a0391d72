//! Builds a model file from its material and puts it in the store, whole and checked or not at all.

use super::catalogue::KnownModel;
use super::error::ModelError;
use super::material::Material;
use super::store::{Store, Workshop};
use super::{arrange, container, ggml, vocabulary};
use crate::model::digest::Hashing;
use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::PathBuf;

/// Builds `model` in the workshop and moves it to its place in the store. Needs about as much memory as
/// the weights take, and as much disk again as the model.
///
/// # Errors
/// The material isn't a Whisper model, the disk is full, or what came out isn't what was pinned.
pub(super) fn build(
    material: &Material,
    model: &KnownModel,
    store: &Store,
    workshop: &Workshop,
) -> Result<PathBuf, ModelError> {
    let container = container::read(&material.weights)?;
    let (shape, tensors) = arrange::arrange(&container)?;
    let mut tokens = vocabulary::read(&material.vocabulary)?;
    if !shape.knows_many_languages() {
        // The published files for English alone count it among the ordinary tokens.
        tokens.push(vocabulary::END_OF_TEXT.to_vec());
    }
    let draft = workshop.folder().join(model.file);
    let file = File::create(&draft).map_err(ModelError::file("create", &draft))?;
    let mut out = Hashing::new(BufWriter::new(file));
    ggml::write(&mut out, &shape, &tokens, &tensors, model.precision)
        .map_err(ModelError::file("write", &draft))?;
    let (out, found) = out.finish();
    settle(out).map_err(ModelError::file("write", &draft))?;
    if found != model.sha256 {
        return Err(ModelError::Odd { name: model.name, found, expected: model.sha256 });
    }
    let path = store.path(model);
    fs::rename(&draft, &path).map_err(ModelError::file("move the finished model to", &path))?;
    Ok(path)
}

/// Waits until everything is on the disk, so that a power cut can't leave a hole under a finished name.
fn settle(mut out: BufWriter<File>) -> io::Result<()> {
    out.flush()?;
    out.get_ref().sync_all()
}
