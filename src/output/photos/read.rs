//! Pictures in a folder, and what is read of each. Nothing is written.

use super::taken::Stamp;
use super::thumbnail::{Thumbnail, thumbnail};
use exif::{Exif, In, Tag};
use std::io::Cursor;
use std::path::{Path, PathBuf};

/// How pictures' names end.
const ENDINGS: [&str; 5] = ["jpg", "jpeg", "png", "heic", "heif"];

/// Larger than any picture of a phone: what is larger isn't read.
const LARGEST: u64 = 200 * 1024 * 1024;

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Photo {
    /// The file's name, without folders.
    pub file: String,
    /// When it was taken; none where neither its data nor its name tells.
    pub taken: Option<Stamp>,
    /// Where it was taken, where that was asked for and is told.
    pub location: Option<String>,
    /// A small copy; none of what can't be decoded, such as HEIC.
    pub thumbnail: Option<Thumbnail>,
}

/// A folder or a picture that can't be read.
#[derive(Debug, thiserror::Error)]
#[error("`{}` can't be read ({why}): check the folder of the photos", path.display())]
pub struct PhotoError {
    path: PathBuf,
    why: String,
}

impl PhotoError {
    fn new(path: &Path, why: impl ToString) -> Self {
        Self { path: path.to_owned(), why: why.to_string() }
    }
}

/// The pictures of a folder, by name.
///
/// # Errors
/// A folder that can't be read.
pub fn find(folder: &Path) -> Result<Vec<PathBuf>, PhotoError> {
    let refused = |why: std::io::Error| PhotoError::new(folder, why);
    let is_picture = |path: &Path| {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
        ENDINGS.contains(&ending.as_str()) && path.is_file()
    };
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(refused)? {
        found.push(entry.map_err(refused)?.path());
    }
    found.retain(|path| is_picture(path));
    found.sort();
    Ok(found)
}

/// Reads a picture; where it was taken only if that is asked for.
///
/// # Errors
/// A file that can't be read. One that is damaged is a picture without a small copy.
pub fn read(path: &Path, with_location: bool) -> Result<Photo, PhotoError> {
    let refused = |why: std::io::Error| PhotoError::new(path, why);
    if std::fs::metadata(path).map_err(refused)?.len() > LARGEST {
        return Err(PhotoError::new(path, "it is larger than any picture"));
    }
    let bytes = std::fs::read(path).map_err(refused)?;
    let file = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let exif = exif::Reader::new().read_from_container(&mut Cursor::new(&bytes)).ok();
    let of_exif = exif.as_ref().and_then(Stamp::of_exif);
    Ok(Photo {
        taken: of_exif.or_else(|| Stamp::of_name(&file)),
        location: exif.as_ref().filter(|_| with_location).and_then(location),
        thumbnail: thumbnail(&bytes, exif.as_ref().map_or(1, orientation)),
        file,
    })
}

fn orientation(exif: &Exif) -> u8 {
    let value = exif.get_field(Tag::Orientation, In::PRIMARY).and_then(|field| field.value.get_uint(0));
    value.and_then(|value| u8::try_from(value).ok()).unwrap_or(1)
}

/// Latitude and longitude as the picture tells them.
fn location(exif: &Exif) -> Option<String> {
    let told = |value: Tag, reference: Tag| {
        let value = exif.get_field(value, In::PRIMARY)?.display_value().to_string();
        Some(format!("{value} {}", exif.get_field(reference, In::PRIMARY)?.display_value()))
    };
    let latitude = told(Tag::GPSLatitude, Tag::GPSLatitudeRef)?;
    Some(format!("{latitude}, {}", told(Tag::GPSLongitude, Tag::GPSLongitudeRef)?))
}
