//! The transformer over a window of pieces, as `training/model.py` has it.

use super::network::{Dense, Norm, Rows, gelu};
use super::weights::{ReaderError, Weights};
use ndarray::linalg::general_mat_mul;
use ndarray::{Array2, ArrayView2, ArrayViewMut1, Axis, Slice};

/// How wide one head of attention is.
const HEAD: usize = 32;

/// Added to a variance before it divides.
const TINY: f32 = 1e-12;

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
        let as_wide = |part: &str, inputs| Dense::giving(weights, &format!("{name}.{part}"), inputs, width);
        let inner = Dense::new(weights, &format!("{name}.inner"), width)?;
        let norm = |part: &str| Norm::new(weights, &format!("{name}.{part}"), width, TINY);
        Ok(Self {
            query: as_wide("query", width)?,
            key: as_wide("key", width)?,
            value: as_wide("value", width)?,
            out: as_wide("out", width)?,
            outer: as_wide("outer", inner.outputs())?,
            inner,
            norms: [norm("norm1")?, norm("norm2")?],
        })
    }

    fn of(&self, x: Array2<f32>) -> Array2<f32> {
        let attended = self.out.of(&self.attend(&x.view()).view());
        let x = self.norms[0].of(x + attended);
        let inner = self.inner.of(&x.view()).mapv_into(gelu);
        let outer = self.outer.of(&inner.view());
        self.norms[1].of(x + outer)
    }

    fn attend(&self, x: &ArrayView2<f32>) -> Array2<f32> {
        let (q, k, v) = (self.query.of(x), self.key.of(x), self.value.of(x));
        let (count, width) = x.dim();
        let mut told = Array2::zeros((count, width));
        let mut near = Array2::zeros((count, count));
        let scale = 1.0 / (HEAD as f32).sqrt();
        for from in (0..width).step_by(HEAD) {
            let head = Slice::from(from..from + HEAD);
            general_mat_mul(
                scale,
                &q.slice_axis(Axis(1), head),
                &k.slice_axis(Axis(1), head).t(),
                0.0,
                &mut near,
            );
            near.axis_iter_mut(Axis(0)).for_each(to_shares);
            let mut own = told.slice_axis_mut(Axis(1), head);
            general_mat_mul(1.0, &near, &v.slice_axis(Axis(1), head), 0.0, &mut own);
        }
        told
    }
}

/// Odds as shares of one.
fn to_shares(mut row: ArrayViewMut1<f32>) {
    let most = row.fold(f32::NEG_INFINITY, |most, x| most.max(*x));
    row.mapv_inplace(|x| (x - most).exp());
    let sum = row.sum();
    row /= sum;
}

/// The transformer over one window.
pub(super) struct Encoder {
    words: Rows,
    places: Rows,
    norm: Norm,
    layers: Vec<Layer>,
}

impl Encoder {
    /// `window`: how many pieces it must be able to take.
    pub fn new(weights: &Weights, window: usize) -> Result<Self, ReaderError> {
        let (words, places) = (weights.rows("encoder.words.weight")?, weights.rows("encoder.places.weight")?);
        let width = words.width;
        let layer = |n| Layer::new(weights, &format!("encoder.layers.{n}"), width);
        if words.count() < weights.pieces.len() || width % HEAD != 0 {
            return Err(ReaderError::Missing("encoder.words.weight".into()));
        }
        if places.count() < window || places.width != width {
            return Err(ReaderError::Missing("encoder.places.weight".into()));
        }
        Ok(Self {
            words,
            places,
            norm: Norm::new(weights, "encoder.norm", width, TINY)?,
            layers: (0..weights.layers()).map(layer).collect::<Result<_, _>>()?,
        })
    }

    pub fn width(&self) -> usize {
        self.words.width
    }

    /// The vectors of the pieces of a window.
    pub fn of(&self, pieces: &[u32]) -> Rows {
        let sum = |(at, piece): (usize, &u32)| {
            let (word, place) = (self.words.row(*piece as usize), self.places.row(at));
            word.iter().zip(place).map(|(a, b)| a + b).collect::<Vec<f32>>()
        };
        let numbers: Vec<f32> = pieces.iter().enumerate().flat_map(sum).collect();
        let begun = self.norm.of(Rows { numbers, width: self.words.width }.view().to_owned());
        self.layers.iter().fold(begun, |x, layer| layer.of(x)).into()
    }
}
