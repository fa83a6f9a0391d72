//! The network's parts, as `training/model.py` has them: dense layers, a transformer over a window of pieces, and a running
//! memory over all words.

use super::weights::{ReaderError, Weights};
use candle_core::{D, Device, Tensor};

/// How wide one head of attention is.
const HEAD: usize = 32;

/// Added to a variance before it divides.
const TINY: f64 = 1e-12;
const TINY_AFTER_MEMORY: f64 = 1e-5;

/// Numbers of many words: a row a word.
#[derive(Debug, Clone, Default)]
pub(super) struct Rows {
    pub numbers: Vec<f32>,
    pub width: usize,
}

impl Rows {
    pub fn count(&self) -> usize {
        self.numbers.len().checked_div(self.width).unwrap_or(0)
    }

    pub fn row(&self, at: usize) -> &[f32] {
        &self.numbers[at * self.width..(at + 1) * self.width]
    }

    pub fn from(tensor: &Tensor) -> Result<Self, ReaderError> {
        let width = tensor.dim(D::Minus1)?;
        Ok(Self { numbers: tensor.flatten_all()?.to_vec1()?, width })
    }

    pub fn tensor(&self) -> Result<Tensor, ReaderError> {
        Ok(Tensor::from_slice(&self.numbers, (self.count(), self.width), &Device::Cpu)?)
    }

    /// The rows of these places side by side: of each list one row.
    pub fn gather(&self, places: impl Iterator<Item = usize>) -> Self {
        let numbers = places.flat_map(|at| self.row(at).iter().copied()).collect();
        Self { numbers, width: self.width }
    }

    /// The mean of each stretch of rows, from the first to the last.
    pub fn means(&self, stretches: impl Iterator<Item = (usize, usize)>) -> Self {
        let mut numbers = Vec::new();
        for (first, last) in stretches {
            let share = 1.0 / (last + 1 - first) as f32;
            let from = numbers.len();
            numbers.extend(self.row(first));
            for at in first + 1..=last {
                numbers[from..].iter_mut().zip(self.row(at)).for_each(|(sum, x)| *sum += x);
            }
            numbers[from..].iter_mut().for_each(|sum| *sum *= share);
        }
        Self { numbers, width: self.width }
    }
}

/// A dense layer.
pub(super) struct Dense {
    weight: Tensor,
    bias: Tensor,
}

impl Dense {
    /// `inputs`: the weights may have been filled up behind these.
    pub fn new(weights: &Weights, name: &str, inputs: usize) -> Result<Self, ReaderError> {
        let weight = weights.get(&format!("{name}.weight"))?;
        let wrong = |w: &Tensor| ReaderError::Shape { name: name.to_owned(), shape: w.dims().to_vec() };
        if weight.rank() != 2 || weight.dim(1)? < inputs {
            return Err(wrong(&weight));
        }
        let bias = weights.get(&format!("{name}.bias"))?;
        if bias.dims() != [weight.dim(0)?] {
            return Err(wrong(&bias));
        }
        Ok(Self { weight: weight.narrow(1, 0, inputs)?.t()?.contiguous()?, bias })
    }

    /// How many numbers it gives.
    pub fn outputs(&self) -> usize {
        self.bias.elem_count()
    }

    pub fn of(&self, x: &Tensor) -> Result<Tensor, ReaderError> {
        Ok(x.matmul(&self.weight)?.broadcast_add(&self.bias)?)
    }

    pub fn rows(&self, x: &Rows) -> Result<Rows, ReaderError> {
        if x.count() == 0 {
            return Ok(Rows { numbers: Vec::new(), width: self.outputs() });
        }
        Rows::from(&self.of(&x.tensor()?)?)
    }
}

/// Brings each row to mean 0 and variance 1, then to learned ones.
pub(super) struct Norm {
    weight: Tensor,
    bias: Tensor,
    tiny: f64,
}

impl Norm {
    fn new(weights: &Weights, name: &str, tiny: f64) -> Result<Self, ReaderError> {
        let part = |part: &str| weights.get(&format!("{name}.{part}"));
        Ok(Self { weight: part("weight")?, bias: part("bias")?, tiny })
    }

    /// The one behind the running memory.
    pub fn after_memory(weights: &Weights) -> Result<Self, ReaderError> {
        Self::new(weights, "norm", TINY_AFTER_MEMORY)
    }

    pub fn of(&self, x: &Tensor) -> Result<Tensor, ReaderError> {
        let x = x.broadcast_sub(&x.mean_keepdim(D::Minus1)?)?;
        let spread = (x.sqr()?.mean_keepdim(D::Minus1)? + self.tiny)?.sqrt()?;
        Ok(x.broadcast_div(&spread)?.broadcast_mul(&self.weight)?.broadcast_add(&self.bias)?)
    }
}

/// One layer of the transformer.
struct Layer {
    query: Dense,
    key: Dense,
    value: Dense,
    out: Dense,
    inner: Dense,
    outer: Dense,
    norms: [Norm; 2],
}

impl Layer {
    fn new(weights: &Weights, name: &str, width: usize) -> Result<Self, ReaderError> {
        let dense = |part: &str, inputs| Dense::new(weights, &format!("{name}.{part}"), inputs);
        let inner = dense("inner", width)?;
        let wide = inner.outputs();
        let norm = |part: &str| Norm::new(weights, &format!("{name}.{part}"), TINY);
        Ok(Self {
            query: dense("query", width)?,
            key: dense("key", width)?,
            value: dense("value", width)?,
            out: dense("out", width)?,
            outer: dense("outer", wide)?,
            inner,
            norms: [norm("norm1")?, norm("norm2")?],
        })
    }

    fn of(&self, x: &Tensor) -> Result<Tensor, ReaderError> {
        let x = self.norms[0].of(&(x + self.out.of(&self.attend(x)?)?)?)?;
        let inner = self.inner.of(&x)?.gelu_erf()?;
        self.norms[1].of(&(&x + self.outer.of(&inner)?)?)
    }

    fn attend(&self, x: &Tensor) -> Result<Tensor, ReaderError> {
        let (count, width) = x.dims2()?;
        let heads = |x: Tensor| x.reshape((count, width / HEAD, HEAD))?.transpose(0, 1)?.contiguous();
        let (q, k, v) = (heads(self.query.of(x)?)?, heads(self.key.of(x)?)?, heads(self.value.of(x)?)?);
        let near = (q.matmul(&k.t()?.contiguous()?)? * (1.0 / (HEAD as f64).sqrt()))?;
        let near = near.broadcast_sub(&near.max_keepdim(D::Minus1)?)?.exp()?;
        let near = near.broadcast_div(&near.sum_keepdim(D::Minus1)?)?;
        Ok(near.matmul(&v)?.transpose(0, 1)?.contiguous()?.reshape((count, width))?)
    }
}

/// The transformer over one window.
pub(super) struct Encoder {
    words: Rows,
    places: Rows,
    norm: Norm,
    layers: Vec<Layer>,
}

impl Encoder {
    pub fn new(weights: &Weights) -> Result<Self, ReaderError> {
        let rows = |name: &str| {
            let (numbers, width) = weights.rows(name)?;
            Ok::<_, ReaderError>(Rows { numbers, width })
        };
        let words = rows("encoder.words.weight")?;
        let width = words.width;
        let layer = |n| Layer::new(weights, &format!("encoder.layers.{n}"), width);
        if words.count() < weights.pieces.len() || width % HEAD != 0 {
            return Err(ReaderError::Missing("encoder.words.weight".into()));
        }
        Ok(Self {
            words,
            places: rows("encoder.places.weight")?,
            norm: Norm::new(weights, "encoder.norm", TINY)?,
            layers: (0..weights.layers()).map(layer).collect::<Result<_, _>>()?,
        })
    }

    pub fn width(&self) -> usize {
        self.words.width
    }

    /// The vectors of the pieces of a window.
    pub fn of(&self, pieces: &[u32]) -> Result<Rows, ReaderError> {
        let sum = |(at, piece): (usize, &u32)| {
            let (word, place) = (self.words.row(*piece as usize), self.places.row(at));
            word.iter().zip(place).map(|(a, b)| a + b).collect::<Vec<f32>>()
        };
        let numbers: Vec<f32> = pieces.iter().enumerate().flat_map(sum).collect();
        let mut x = self.norm.of(&Rows { numbers, width: self.words.width }.tensor()?)?;
        for layer in &self.layers {
            x = layer.of(&x)?;
        }
        Rows::from(&x)
    }
}

/// A running average both ways, of which each word says how much of it to keep.
pub(super) struct Memory {
    both: Dense,
    inner: usize,
}

impl Memory {
    pub fn new(weights: &Weights, name: &str, inputs: usize) -> Result<Self, ReaderError> {
        let both = Dense::new(weights, &format!("{name}.both"), inputs)?;
        Ok(Self { inner: both.outputs() / 4, both })
    }

    /// How many numbers it gives for each word.
    pub fn width(&self) -> usize {
        2 * self.inner
    }

    pub fn of(&self, x: &Rows) -> Result<Rows, ReaderError> {
        let told = self.both.rows(x)?;
        let (count, width) = (x.count(), self.width());
        let mut numbers = vec![0.0; count * width];
        let mut kept = vec![0.0; width];
        for step in 0..count {
            // The first half runs from the front, the second from the back.
            for half in 0..2 {
                let at = if half == 0 { step } else { count - 1 - step };
                let row = told.row(at);
                for n in half * self.inner..(half + 1) * self.inner {
                    let new = 1.0 / (1.0 + (-row[n]).exp());
                    kept[n] += new * (row[width + n].tanh() - kept[n]);
                    numbers[at * width + n] = kept[n];
                }
            }
        }
        Ok(Rows { numbers, width })
    }
}
