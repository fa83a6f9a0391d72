//! What documents are called.

use std::path::{Path, PathBuf};

/// Endings of the program's own files, which are more than what follows the last dot.
const OWN_ENDINGS: [&str; 2] = [".transcript.json", ".scope.json"];

/// The name that the documents of an input share: its file name without its ending.
pub fn stem(file: &Path) -> String {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    match OWN_ENDINGS.iter().find_map(|ending| name.strip_suffix(ending)) {
        Some(stem) if !stem.is_empty() => stem.to_owned(),
        _ => Path::new(&*name).file_stem().unwrap_or_default().to_string_lossy().into_owned(),
    }
}

/// Where the documents of one input go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    folder: PathBuf,
    stem: String,
}

impl Place {
    /// Beside the input.
    pub fn beside(file: &Path) -> Self {
        let folder = match file.parent() {
            Some(folder) if folder != Path::new("") => folder.to_owned(),
            _ => PathBuf::from("."),
        };
        Self { folder, stem: stem(file) }
    }

    /// In a folder, under the input's name.
    pub fn inside(folder: &Path, stem: String) -> Self {
        Self { folder: folder.to_owned(), stem }
    }

    /// The folder that all documents of the input go into.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The document's path.
    pub fn file(&self, ending: &str) -> PathBuf {
        let name = format!("{}.{ending}", self.stem);
        if self.folder == Path::new(".") { PathBuf::from(name) } else { self.folder.join(name) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stem_is_the_name_without_its_ending() {
        let named = [
            ("a/walk.m4a", "walk"),
            ("walk.transcript.json", "walk"),
            ("walk.json", "walk"),
            ("14 Elm.side.2.vtt", "14 Elm.side.2"),
            ("notes", "notes"),
            (".transcript.json", ".transcript"),
        ];
        for (file, expected) in named {
            assert_eq!(stem(Path::new(file)), expected);
        }
    }

    #[test]
    fn documents_go_beside_the_input_or_into_the_folder() {
        assert_eq!(Place::beside(Path::new("walk.m4a")).file("vtt"), Path::new("walk.vtt"));
        assert_eq!(Place::beside(Path::new("a/walk.m4a")).file("vtt"), Path::new("a/walk.vtt"));
        assert_eq!(Place::inside(Path::new("out"), "walk".to_owned()).file("vtt"), Path::new("out/walk.vtt"));
    }
}
