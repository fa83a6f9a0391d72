//! Small copies of pictures: upright, without any data of the camera's.

use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageReader, Limits};
use std::io::Cursor;

/// The longer side, in dots.
const SIDE: u32 = 320;

/// A picture may be so wide and so high; what claims more is no picture of a phone.
const LARGEST_SIDE: u32 = 30_000;

/// Good enough for print at this size.
const QUALITY: u8 = 80;

/// A small copy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thumbnail {
    /// As JPEG.
    pub jpeg: Vec<u8>,
    /// How wide, in dots.
    pub width: u32,
    /// How high.
    pub height: u32,
}

/// A small copy of a picture that stands as `orientation` (of EXIF) tells; none where it can't be decoded.
pub(super) fn thumbnail(bytes: &[u8], orientation: u8) -> Option<Thumbnail> {
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().ok()?;
    let mut limits = Limits::default();
    (limits.max_image_width, limits.max_image_height) = (Some(LARGEST_SIDE), Some(LARGEST_SIDE));
    reader.limits(limits);
    let picture = reader.decode().ok()?;
    let fits = picture.width() <= SIDE && picture.height() <= SIDE;
    let mut small = if fits { picture } else { picture.thumbnail(SIDE, SIDE) };
    small.apply_orientation(Orientation::from_exif(orientation).unwrap_or(Orientation::NoTransforms));
    // Dots alone go into the copy: the encoder is given no other data.
    let small = DynamicImage::ImageRgb8(small.to_rgb8());
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&small).ok()?;
    Some(Thumbnail { jpeg, width: small.width(), height: small.height() })
}
