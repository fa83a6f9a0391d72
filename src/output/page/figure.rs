//! Drawings and photos.

/// A photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// The picture as JPEG, upright, without any data but its dots.
    pub jpeg: Vec<u8>,
    /// How wide it is, in dots.
    pub width: u32,
    /// How high it is, in dots.
    pub height: u32,
    /// What stands under it.
    pub caption: String,
    /// What it shows, for whoever doesn't see it: the words that were being said.
    pub told: String,
}

/// A drawing of lines and words, in points from its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// What it shows, for whoever doesn't see it.
    pub told: String,
    /// How wide it is.
    pub width: f32,
    /// How high it is.
    pub height: f32,
    /// The rectangles: left, top, width, height.
    pub boxes: Vec<[f32; 4]>,
    /// The words.
    pub words: Vec<Label>,
}

/// Words in a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The middle of the words, from the left.
    pub x: f32,
    /// Their base line, from the top.
    pub y: f32,
    /// The words.
    pub text: String,
    /// Whether they are set off.
    pub strong: bool,
}
