//! The network's parts, as `training/model.py` has them: rows of numbers, dense layers, norms, and a running memory over all
//! words.

use super::weights::{ReaderError, Weights};
use ndarray::{Array1, Array2, ArrayView2, Axis, Slice};

/// Added to a variance before it divides, behind the running memory.
const TINY_AFTER_MEMORY: f32 = 1e-5;

/// Numbers of many words: a row a word.
#[derive(Debug, Clone, Default)]
pub(super) struct Rows {
    pub numbers: Vec<f32>,
    pub width: usize,
}

impl From<Array2<f32>> for Rows {
    fn from(array: Array2<f32>) -> Self {
        let width = array.ncols();
        Self { numbers: array.into_iter().collect(), width }
    }
}

impl Rows {
    pub fn count(&self) -> usize {
        self.numbers.len().checked_div(self.width).unwrap_or(0)
    }

    pub fn row(&self, at: usize) -> &[f32] {
        &self.numbers[at * self.width..(at + 1) * self.width]
    }

    pub fn view(&self) -> ArrayView2<'_, f32> {
        ArrayView2::from_shape((self.count(), self.width), &self.numbers)
            .unwrap_or_else(|_| unreachable!("rows are of one width"))
    }

    /// With something done to each number.
    pub fn each(mut self, change: impl Fn(f32) -> f32) -> Self {
        self.numbers.iter_mut().for_each(|x| *x = change(*x));
        self
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
    /// A row for each number it gives.
    weight: Array2<f32>,
    bias: Array1<f32>,
}

impl Dense {
    /// `inputs`: the weights may have been filled up behind these.
    pub fn new(weights: &Weights, name: &str, inputs: usize) -> Result<Self, ReaderError> {
        let mut weight = weights.matrix(&format!("{name}.weight"))?;
        let bias = weights.vector(&format!("{name}.bias"))?;
        if weight.ncols() < inputs || bias.len() != weight.nrows() {
            return Err(ReaderError::Shape { name: name.to_owned(), shape: weight.shape().to_vec() });
        }
        weight.slice_axis_inplace(Axis(1), Slice::from(..inputs));
        Ok(Self { weight, bias })
    }

    /// One that must give so many numbers.
    pub fn giving(weights: &Weights, name: &str, inputs: usize, outputs: usize) -> Result<Self, ReaderError> {
        let dense = Self::new(weights, name, inputs)?;
        let shape = || ReaderError::Shape { name: name.to_owned(), shape: dense.weight.shape().to_vec() };
        if dense.outputs() == outputs { Ok(dense) } else { Err(shape()) }
    }

    /// How many numbers it gives.
    pub fn outputs(&self) -> usize {
        self.bias.len()
    }

    pub fn of(&self, x: &ArrayView2<f32>) -> Array2<f32> {
        let mut told = x.dot(&self.weight.t());
        told += &self.bias;
        told
    }

    pub fn rows(&self, x: &Rows) -> Rows {
        if x.count() == 0 {
            return Rows { numbers: Vec::new(), width: self.outputs() };
        }
        self.of(&x.view()).into()
    }
}

/// The Gaussian error linear unit: each number times the chance that a normal one is less.
pub(super) fn gelu(x: f32) -> f32 {
    0.5 * x * (1.0 + libm::erff(x * std::f32::consts::FRAC_1_SQRT_2))
}

/// Brings each row to mean 0 and variance 1, then to learned ones.
pub(super) struct Norm {
    weight: Array1<f32>,
    bias: Array1<f32>,
    tiny: f32,
}

impl Norm {
    pub fn new(weights: &Weights, name: &str, width: usize, tiny: f32) -> Result<Self, ReaderError> {
        let part = |part: &str| {
            let name = format!("{name}.{part}");
            let numbers = weights.vector(&name)?;
            let shape = numbers.shape().to_vec();
            if numbers.len() == width { Ok(numbers) } else { Err(ReaderError::Shape { name, shape }) }
        };
        Ok(Self { weight: part("weight")?, bias: part("bias")?, tiny })
    }

    /// The one behind the running memory.
    pub fn after_memory(weights: &Weights, width: usize) -> Result<Self, ReaderError> {
        Self::new(weights, "norm", width, TINY_AFTER_MEMORY)
    }

    pub fn of(&self, mut x: Array2<f32>) -> Array2<f32> {
        for mut row in x.rows_mut() {
            let share = 1.0 / row.len() as f32;
            let mean = row.sum() * share;
            row -= mean;
            let spread = row.dot(&row) * share + self.tiny;
            row *= 1.0 / spread.sqrt();
            row *= &self.weight;
            row += &self.bias;
        }
        x
    }

    pub fn rows(&self, x: Rows) -> Rows {
        self.of(x.view().to_owned()).into()
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

    pub fn of(&self, x: &Rows) -> Rows {
        let told = self.both.rows(x);
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
        Rows { numbers, width }
    }
}
