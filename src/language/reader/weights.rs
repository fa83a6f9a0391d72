//! The reader's file: what was learned, in safetensors. Most weights have four bits: `NAME.q4` holds two of them in a byte, the
//! lower half first, each 8 too great, and `NAME.scale` what 64 of them side by side are multiplied by. What the reader must know
//! besides stands in the file's own notes: the names of the marks, of the items and of the pieces of words.

use super::network::Rows;
use half::f16;
use ndarray::{Array1, Array2};
use safetensors::SafeTensors;
use safetensors::tensor::{Dtype, TensorView};
use std::collections::HashMap;
use thiserror::Error;

/// The form of the file that this program reads.
const FORM: &str = "eavesdraft-reader/1";

/// How many weights of a row share one scale.
const GROUP: usize = 64;

/// Why a reader can't be loaded.
#[derive(Debug, Error)]
pub enum ReaderError {
    /// It is no safetensors file, or only a part of one.
    #[error("the reader's weights can't be read: {0}; get the file again, it may be cut off")]
    Unreadable(String),
    /// It is a file of another kind.
    #[error("the file isn't a reader of this program: its form is {0:?}, wanted is \"eavesdraft-reader/1\"")]
    Form(Option<String>),
    /// Something is missing in it.
    #[error("the reader's weights lack {0:?}; the file belongs to another version of the program")]
    Missing(String),
    /// Something in it has another shape than it should.
    #[error("the reader's weights {name:?} have the shape {shape:?}, which doesn't fit the rest of the file")]
    Shape {
        /// The weights.
        name: String,
        /// Their shape.
        shape: Vec<usize>,
    },
}

/// Weights of one name: their shape, and the numbers a row after the other.
struct Stored {
    shape: Vec<usize>,
    numbers: Vec<f32>,
}

/// All that the file holds.
pub(super) struct Weights {
    stored: HashMap<String, Stored>,
    /// The names of the marks; the first has row 1.
    pub marks: Vec<String>,
    /// The ids of the items; the class behind the last is what isn't in the catalogue.
    pub items: Vec<String>,
    /// The pieces of words.
    pub pieces: Vec<String>,
}

impl Weights {
    /// Reads the file.
    pub fn read(bytes: &[u8]) -> Result<Self, ReaderError> {
        let unreadable = |cause: &dyn std::fmt::Display| ReaderError::Unreadable(cause.to_string());
        let (_, head) = SafeTensors::read_metadata(bytes).map_err(|e| unreadable(&e))?;
        let notes = head.metadata().clone().unwrap_or_default();
        if notes.get("form").is_none_or(|form| form != FORM) {
            return Err(ReaderError::Form(notes.get("form").cloned()));
        }
        let list = |name: &str| {
            let text = notes.get(name).ok_or_else(|| ReaderError::Missing(name.to_owned()))?;
            serde_json::from_str::<Vec<String>>(text).map_err(|e| unreadable(&e))
        };
        let file = SafeTensors::deserialize(bytes).map_err(|e| unreadable(&e))?;
        let mut stored = HashMap::new();
        for (name, view) in file.iter() {
            if let Some(plain) = name.strip_suffix(".q4") {
                let scale = file.tensor(&format!("{plain}.scale"));
                let scale = scale.map_err(|_| ReaderError::Missing(format!("{plain}.scale")))?;
                stored.insert(plain.to_owned(), four_bits(plain, &view, &scale)?);
            } else if !name.ends_with(".scale") {
                let numbers = numbers(name, &view)?;
                stored.insert(name.to_owned(), Stored { shape: view.shape().to_vec(), numbers });
            }
        }
        Ok(Self { stored, marks: list("marks")?, items: list("items")?, pieces: list("pieces")? })
    }

    fn get(&self, name: &str) -> Result<&Stored, ReaderError> {
        self.stored.get(name).ok_or_else(|| ReaderError::Missing(name.to_owned()))
    }

    /// Weights in rows.
    pub fn matrix(&self, name: &str) -> Result<Array2<f32>, ReaderError> {
        let stored = self.get(name)?;
        let wrong = || ReaderError::Shape { name: name.to_owned(), shape: stored.shape.clone() };
        let &[rows, columns] = stored.shape.as_slice() else { return Err(wrong()) };
        Array2::from_shape_vec((rows, columns), stored.numbers.clone()).map_err(|_| wrong())
    }

    /// Weights in one row.
    pub fn vector(&self, name: &str) -> Result<Array1<f32>, ReaderError> {
        Ok(Array1::from(self.get(name)?.numbers.clone()))
    }

    /// Weights as rows to be picked out.
    pub fn rows(&self, name: &str) -> Result<Rows, ReaderError> {
        let stored = self.get(name)?;
        Ok(Rows { numbers: stored.numbers.clone(), width: stored.shape.last().copied().unwrap_or(1) })
    }

    /// How many layers the encoder has.
    pub fn layers(&self) -> usize {
        (0..).take_while(|n| self.stored.contains_key(&format!("encoder.layers.{n}.query.weight"))).count()
    }
}

/// Weights stored as plain numbers.
fn numbers(name: &str, view: &TensorView) -> Result<Vec<f32>, ReaderError> {
    match view.dtype() {
        Dtype::F32 => Ok(each(view.data(), f32::from_le_bytes)),
        Dtype::F16 => Ok(each(view.data(), |bytes| f16::from_le_bytes(bytes).to_f32())),
        _ => Err(ReaderError::Shape { name: name.to_owned(), shape: view.shape().to_vec() }),
    }
}

/// Each number of so many bytes.
fn each<const N: usize>(data: &[u8], number: impl Fn([u8; N]) -> f32) -> Vec<f32> {
    data.as_chunks().0.iter().map(|bytes| number(*bytes)).collect()
}

/// Weights stored in four bits.
fn four_bits(name: &str, packed: &TensorView, scale: &TensorView) -> Result<Stored, ReaderError> {
    let wrong = || ReaderError::Shape { name: name.to_owned(), shape: packed.shape().to_vec() };
    let (&[rows, bytes], &[scaled, groups]) = (packed.shape(), scale.shape()) else { return Err(wrong()) };
    if packed.dtype() != Dtype::U8 || rows != scaled || bytes * 2 != groups * GROUP {
        return Err(wrong());
    }
    let scales = numbers(name, scale)?;
    let level = |half: u8| f32::from(half) - 8.0;
    let pair = |(at, byte): (usize, &u8)| {
        let scale = scales[at * 2 / GROUP];
        [level(byte & 15) * scale, level(byte >> 4) * scale]
    };
    let numbers: Vec<f32> = packed.data().iter().enumerate().flat_map(pair).collect();
    Ok(Stored { shape: vec![rows, bytes * 2], numbers })
}
