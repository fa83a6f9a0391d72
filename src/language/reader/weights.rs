//! The reader's file: what was learned, in safetensors. Most weights have four bits: `NAME.q4` holds two of them in a byte, the
//! lower half first, each 8 too great, and `NAME.scale` what 64 of them side by side are multiplied by. What the reader must know
//! besides stands in the file's own notes: the names of the marks, of the items and of the pieces of words.

use candle_core::{DType, Device, Tensor};
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
    /// A share of the work stopped in the middle.
    #[error("the reader stopped in the middle of these words")]
    Stopped,
    /// The arithmetic failed.
    #[error("the reader failed on these words: {0}")]
    Arithmetic(#[from] candle_core::Error),
}

/// All that the file holds.
pub(super) struct Weights {
    tensors: HashMap<String, Tensor>,
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
        let mut tensors = HashMap::new();
        for (name, view) in file.iter() {
            if let Some(plain) = name.strip_suffix(".q4") {
                let scale = file.tensor(&format!("{plain}.scale"));
                let scale = scale.map_err(|_| ReaderError::Missing(format!("{plain}.scale")))?;
                tensors.insert(plain.to_owned(), four_bits(plain, &view, &scale)?);
            } else if !name.ends_with(".scale") {
                let numbers = numbers(name, &view)?;
                tensors.insert(name.to_owned(), Tensor::from_vec(numbers, view.shape(), &Device::Cpu)?);
            }
        }
        Ok(Self { tensors, marks: list("marks")?, items: list("items")?, pieces: list("pieces")? })
    }

    /// Weights by their name.
    pub fn get(&self, name: &str) -> Result<Tensor, ReaderError> {
        self.tensors.get(name).cloned().ok_or_else(|| ReaderError::Missing(name.to_owned()))
    }

    /// The same as plain numbers, a row after the other, with the length of a row.
    pub fn rows(&self, name: &str) -> Result<(Vec<f32>, usize), ReaderError> {
        let tensor = self.get(name)?;
        let width = tensor.dims().last().copied().unwrap_or(1);
        Ok((tensor.flatten_all()?.to_vec1()?, width))
    }

    /// How many layers the encoder has.
    pub fn layers(&self) -> usize {
        (0..).take_while(|n| self.tensors.contains_key(&format!("encoder.layers.{n}.query.weight"))).count()
    }
}

/// Weights stored as plain numbers.
fn numbers(name: &str, view: &TensorView) -> Result<Vec<f32>, ReaderError> {
    let kind = match view.dtype() {
        Dtype::F32 => DType::F32,
        Dtype::F16 => DType::F16,
        _ => return Err(ReaderError::Shape { name: name.to_owned(), shape: view.shape().to_vec() }),
    };
    let tensor = Tensor::from_raw_buffer(view.data(), kind, view.shape(), &Device::Cpu)?;
    Ok(tensor.to_dtype(DType::F32)?.flatten_all()?.to_vec1()?)
}

/// Weights stored in four bits.
fn four_bits(name: &str, packed: &TensorView, scale: &TensorView) -> Result<Tensor, ReaderError> {
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
    Ok(Tensor::from_vec(numbers, (rows, bytes * 2), &Device::Cpu)?)
}
