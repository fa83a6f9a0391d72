//! Renames and splits the tensors of a CTranslate2 Whisper model into those that whisper.cpp expects.
//!
//! The weights stay as they are. Only the fused projections are taken apart: CTranslate2 keeps query, key
//! and value of a self-attention in one block, and key and value of a cross-attention. The order is that
//! of the files that whisper.cpp's project publishes, as its quantiser lists them.

use super::container::{Container, Element, Variable};

/// How many tokens a model of many languages has at least.
pub const MANY_LANGUAGES: usize = 51_865;

/// The sizes of a Whisper model.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shape {
    /// Tokens, control tokens among them.
    pub vocabulary: usize,
    /// Numbers that stand for one moment of sound or one token.
    pub width: usize,
    /// Bands of sound that go in.
    pub mel_bands: usize,
    /// The half that listens.
    pub audio: Half,
    /// The half that writes.
    pub text: Half,
}

/// The sizes of one half of a model.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Half {
    /// Moments, or tokens, that it sees at once.
    pub context: usize,
    /// Attention heads of each layer.
    pub heads: usize,
    /// Layers.
    pub layers: usize,
}

/// A block of weights under whisper.cpp's name.
#[derive(Debug, PartialEq)]
pub struct Tensor<'a> {
    /// The name.
    pub name: String,
    /// How many along each axis, the slowest first.
    pub dims: Vec<usize>,
    /// 16-bit floats, little-endian.
    pub halves: &'a [u8],
}

/// Weights that aren't those of a Whisper model in 16-bit floats.
#[expect(missing_docs, reason = "each message says what its fields are")]
#[derive(Debug, PartialEq, Eq, thiserror::Error)]
pub enum ArrangeError {
    /// Another kind of model.
    #[error("the weights file holds a `{0}`, expected a `WhisperSpec`")]
    Kind(String),
    /// A tensor that a Whisper model must have.
    #[error("the weights file has no `{0}`")]
    Absent(String),
    /// A tensor with other dimensions than the rest of the model asks for.
    #[error("`{name}` in the weights file has dimensions {found:?}, expected {expected:?}")]
    Dims { name: String, found: Vec<usize>, expected: Vec<usize> },
    /// A tensor with the wrong number of axes.
    #[error("`{name}` in the weights file has {found} axes, expected {expected}")]
    Axes { name: String, found: usize, expected: usize },
    /// Numbers of another type.
    #[error("`{name}` in the weights file holds {found:?}, expected {expected:?}")]
    Element { name: String, found: Element, expected: Element },
    /// Whisper's keys have no bias, and whisper.cpp has no place for one.
    #[error("`{0}` in the weights file adds something to the keys, which no Whisper model does")]
    KeyBias(String),
}

/// The model's sizes, and its tensors in the order in which they are written.
///
/// # Errors
/// The first thing that a Whisper model in 16-bit floats wouldn't have.
pub fn arrange<'a>(from: &Container<'a>) -> Result<(Shape, Vec<Tensor<'a>>), ArrangeError> {
    if from.kind != "WhisperSpec" {
        return Err(ArrangeError::Kind(from.kind.to_owned()));
    }
    let shape = Shape::of(from)?;
    let mut arranger = Arranger { from, width: shape.width, tensors: Vec::new() };
    arranger.model(&shape)?;
    Ok((shape, arranger.tensors))
}

impl Shape {
    /// Models for English alone have one token less than the smallest of the others.
    pub fn knows_many_languages(&self) -> bool {
        self.vocabulary >= MANY_LANGUAGES
    }

    fn of(from: &Container) -> Result<Self, ArrangeError> {
        let [vocabulary, width] = dims(from, "decoder/embeddings/weight")?;
        let [_, mel_bands, _] = dims(from, "encoder/conv1/weight")?;
        let (audio, text) = (Half::of(from, "encoder")?, Half::of(from, "decoder")?);
        Ok(Self { vocabulary, width, mel_bands, audio, text })
    }
}

impl Half {
    fn of(from: &Container, side: &str) -> Result<Self, ArrangeError> {
        let [context, _] = dims(from, &format!("{side}/position_encodings/encodings"))?;
        let heads = number(from, &format!("{side}/num_heads"))?;
        let has = |layer: &usize| from.get(&format!("{side}/layer_{layer}/ffn/linear_0/weight")).is_some();
        Ok(Self { context, heads, layers: (0..).take_while(has).count() })
    }
}

/// Puts one tensor after another.
struct Arranger<'c, 'a> {
    from: &'c Container<'a>,
    width: usize,
    tensors: Vec<Tensor<'a>>,
}

impl<'a> Arranger<'_, 'a> {
    fn model(&mut self, shape: &Shape) -> Result<(), ArrangeError> {
        let width = self.width;
        self.positions("decoder", shape.text.context)?;
        self.positions("encoder", shape.audio.context)?;
        let words = [shape.vocabulary, width];
        self.copy("decoder.token_embedding.weight", "decoder/embeddings/weight", &words)?;
        for layer in 0..shape.text.layers {
            let (to, from) = (format!("decoder.blocks.{layer}"), format!("decoder/layer_{layer}"));
            self.block(&to, &from)?;
            self.norm(&format!("{to}.cross_attn_ln"), &format!("{from}/attention/layer_norm"))?;
            self.cross_attention(&format!("{to}.cross_attn"), &format!("{from}/attention"))?;
        }
        self.norm("decoder.ln", "decoder/layer_norm")?;
        self.convolution("conv1", shape.mel_bands)?;
        self.convolution("conv2", width)?;
        for layer in 0..shape.audio.layers {
            self.block(&format!("encoder.blocks.{layer}"), &format!("encoder/layer_{layer}"))?;
        }
        self.norm("encoder.ln_post", "encoder/layer_norm")
    }

    /// What the layers of both halves have.
    fn block(&mut self, to: &str, from: &str) -> Result<(), ArrangeError> {
        let (width, inner) = (self.width, 4 * self.width);
        self.norm(&format!("{to}.mlp_ln"), &format!("{from}/ffn/layer_norm"))?;
        self.linear(&format!("{to}.mlp.0"), &format!("{from}/ffn/linear_0"), [inner, width])?;
        self.linear(&format!("{to}.mlp.2"), &format!("{from}/ffn/linear_1"), [width, inner])?;
        self.norm(&format!("{to}.attn_ln"), &format!("{from}/self_attention/layer_norm"))?;
        self.self_attention(&format!("{to}.attn"), &format!("{from}/self_attention"))
    }

    fn self_attention(&mut self, to: &str, from: &str) -> Result<(), ArrangeError> {
        let square = [self.width, self.width];
        self.fused(to, &format!("{from}/linear_0"), &["query", "key", "value"])?;
        self.linear(&format!("{to}.out"), &format!("{from}/linear_1"), square)
    }

    fn cross_attention(&mut self, to: &str, from: &str) -> Result<(), ArrangeError> {
        let square = [self.width, self.width];
        self.linear(&format!("{to}.query"), &format!("{from}/linear_0"), square)?;
        self.fused(to, &format!("{from}/linear_1"), &["key", "value"])?;
        self.linear(&format!("{to}.out"), &format!("{from}/linear_2"), square)
    }

    /// A block that holds several square projections one after another.
    fn fused(&mut self, to: &str, from: &str, parts: &[&str]) -> Result<(), ArrangeError> {
        let width = self.width;
        let (weight, bias) = (format!("{from}/weight"), format!("{from}/bias"));
        let weights = self.halves(&weight, &[parts.len() * width, width])?;
        let biases = self.halves(&bias, &[parts.len() * width])?;
        let split = weights.chunks_exact(2 * width * width).zip(biases.chunks_exact(2 * width));
        for (part, (weights, biases)) in parts.iter().zip(split) {
            self.push(format!("{to}.{part}.weight"), &[width, width], weights);
            if *part != "key" {
                self.push(format!("{to}.{part}.bias"), &[width], biases);
            } else if biases.chunks_exact(2).any(|half| half != [0, 0] && half != [0, 0x80]) {
                return Err(ArrangeError::KeyBias(bias));
            }
        }
        Ok(())
    }

    fn linear(&mut self, to: &str, from: &str, [out, into]: [usize; 2]) -> Result<(), ArrangeError> {
        self.copy(&format!("{to}.weight"), &format!("{from}/weight"), &[out, into])?;
        self.copy(&format!("{to}.bias"), &format!("{from}/bias"), &[out])
    }

    fn norm(&mut self, to: &str, from: &str) -> Result<(), ArrangeError> {
        let width = self.width;
        self.copy(&format!("{to}.weight"), &format!("{from}/gamma"), &[width])?;
        self.copy(&format!("{to}.bias"), &format!("{from}/beta"), &[width])
    }

    fn positions(&mut self, side: &str, context: usize) -> Result<(), ArrangeError> {
        let (to, from) =
            (format!("{side}.positional_embedding"), format!("{side}/position_encodings/encodings"));
        self.copy(&to, &from, &[context, self.width])
    }

    /// A convolution three moments wide. Its bias becomes a column, so that whisper.cpp can add it.
    fn convolution(&mut self, name: &str, into: usize) -> Result<(), ArrangeError> {
        let width = self.width;
        self.copy(&format!("encoder.{name}.weight"), &format!("encoder/{name}/weight"), &[width, into, 3])?;
        let bias = self.halves(&format!("encoder/{name}/bias"), &[width])?;
        self.push(format!("encoder.{name}.bias"), &[width, 1], bias);
        Ok(())
    }

    fn copy(&mut self, to: &str, from: &str, dims: &[usize]) -> Result<(), ArrangeError> {
        let halves = self.halves(from, dims)?;
        self.push(to.to_owned(), dims, halves);
        Ok(())
    }

    fn push(&mut self, name: String, dims: &[usize], halves: &'a [u8]) {
        self.tensors.push(Tensor { name, dims: dims.to_vec(), halves });
    }

    /// The 16-bit floats of that name, if they have those dimensions.
    fn halves(&self, name: &str, expected: &[usize]) -> Result<&'a [u8], ArrangeError> {
        let variable = find(self.from, name, Element::Float16)?;
        if variable.dims != expected {
            let (found, expected) = (variable.dims.clone(), expected.to_vec());
            return Err(ArrangeError::Dims { name: name.to_owned(), found, expected });
        }
        Ok(variable.bytes)
    }
}

fn find<'c, 'a>(
    from: &'c Container<'a>,
    name: &str,
    expected: Element,
) -> Result<&'c Variable<'a>, ArrangeError> {
    let variable = from.get(name).ok_or_else(|| ArrangeError::Absent(name.to_owned()))?;
    if variable.element != expected {
        return Err(ArrangeError::Element { name: name.to_owned(), found: variable.element, expected });
    }
    Ok(variable)
}

fn dims<const N: usize>(from: &Container, name: &str) -> Result<[usize; N], ArrangeError> {
    let found = &find(from, name, Element::Float16)?.dims;
    let axes = |_| ArrangeError::Axes { name: name.to_owned(), found: found.len(), expected: N };
    found.as_slice().try_into().map_err(axes)
}

/// A single whole number.
fn number(from: &Container, name: &str) -> Result<usize, ArrangeError> {
    match find(from, name, Element::Int16)? {
        &Variable { bytes: &[low, high], .. } => Ok(usize::from(u16::from_le_bytes([low, high]))),
        variable => {
            Err(ArrangeError::Axes { name: name.to_owned(), found: variable.dims.len(), expected: 0 })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::{self, AUDIO_LAYERS, TEXT_LAYERS, TOKENS, WIDTH, Written};
    use super::super::{container, synthetic::variables};
    use super::*;

    /// What becomes of a change to the toy.
    fn refused(change: impl FnOnce(&mut Vec<Written>)) -> String {
        let mut variables = variables();
        change(&mut variables);
        let bytes = synthetic::container(&variables);
        arrange(&container::read(&bytes).unwrap()).unwrap_err().to_string()
    }

    fn named<'v>(variables: &'v mut [Written], name: &str) -> &'v mut Written {
        variables.iter_mut().find(|variable| variable.name == name).unwrap()
    }

    #[test]
    fn sizes_are_read_off_the_tensors() {
        let bytes = synthetic::container(&variables());
        let (shape, _) = arrange(&container::read(&bytes).unwrap()).unwrap();
        assert_eq!(
            shape,
            Shape {
                vocabulary: TOKENS,
                width: WIDTH,
                mel_bands: 80,
                audio: Half { context: 5, heads: 2, layers: AUDIO_LAYERS },
                text: Half { context: 6, heads: 4, layers: TEXT_LAYERS },
            }
        );
    }

    #[test]
    fn every_tensor_has_whispers_name_and_place() {
        let bytes = synthetic::container(&variables());
        let (_, tensors) = arrange(&container::read(&bytes).unwrap()).unwrap();
        let names: Vec<&str> = tensors.iter().map(|tensor| tensor.name.as_str()).collect();
        // The order in which whisper.cpp's quantiser lists the tensors of the published base model.
        let listed = "decoder.positional_embedding encoder.positional_embedding \
            decoder.token_embedding.weight \
            decoder.blocks.0.mlp_ln.weight decoder.blocks.0.mlp_ln.bias \
            decoder.blocks.0.mlp.0.weight decoder.blocks.0.mlp.0.bias \
            decoder.blocks.0.mlp.2.weight decoder.blocks.0.mlp.2.bias \
            decoder.blocks.0.attn_ln.weight decoder.blocks.0.attn_ln.bias \
            decoder.blocks.0.attn.query.weight decoder.blocks.0.attn.query.bias \
            decoder.blocks.0.attn.key.weight \
            decoder.blocks.0.attn.value.weight decoder.blocks.0.attn.value.bias \
            decoder.blocks.0.attn.out.weight decoder.blocks.0.attn.out.bias \
            decoder.blocks.0.cross_attn_ln.weight decoder.blocks.0.cross_attn_ln.bias \
            decoder.blocks.0.cross_attn.query.weight decoder.blocks.0.cross_attn.query.bias \
            decoder.blocks.0.cross_attn.key.weight \
            decoder.blocks.0.cross_attn.value.weight decoder.blocks.0.cross_attn.value.bias \
            decoder.blocks.0.cross_attn.out.weight decoder.blocks.0.cross_attn.out.bias";
        let listed: Vec<&str> = listed.split_whitespace().collect();
        assert_eq!(names[..listed.len()], listed);
        assert_eq!(names.len(), 11 + 15 * AUDIO_LAYERS + 24 * TEXT_LAYERS);
        assert_eq!(names.last(), Some(&"encoder.ln_post.bias"));
    }

    #[test]
    fn fused_projections_are_taken_apart_in_order() {
        let all = variables();
        let bytes = synthetic::container(&all);
        let (_, tensors) = arrange(&container::read(&bytes).unwrap()).unwrap();
        let fused = |name: &str| &all.iter().find(|variable| variable.name == name).unwrap().bytes;
        let tensor = |name: &str| tensors.iter().find(|tensor| tensor.name == name).unwrap();
        let (block, row) = (2 * WIDTH * WIDTH, 2 * WIDTH);

        let own = fused("encoder/layer_3/self_attention/linear_0/weight");
        for (n, part) in ["query", "key", "value"].into_iter().enumerate() {
            let found = tensor(&format!("encoder.blocks.3.attn.{part}.weight"));
            assert_eq!(found.halves, &own[n * block..(n + 1) * block], "{part}");
            assert_eq!(found.dims, [WIDTH, WIDTH]);
        }
        let other = fused("decoder/layer_0/attention/linear_1/bias");
        assert_eq!(tensor("decoder.blocks.0.cross_attn.value.bias").halves, &other[row..]);
    }

    #[test]
    fn a_bias_on_the_keys_is_refused_rather_than_lost() {
        let why = refused(|variables| {
            named(variables, "encoder/layer_0/self_attention/linear_0/bias").bytes[2 * WIDTH] = 1;
        });
        assert!(why.starts_with("`encoder/layer_0/self_attention/linear_0/bias`"), "{why}");
    }

    #[test]
    fn a_missing_tensor_is_named() {
        let why = refused(|variables| variables.retain(|variable| variable.name != "encoder/conv2/bias"));
        assert_eq!(why, "the weights file has no `encoder/conv2/bias`");
    }

    #[test]
    fn other_dimensions_are_named() {
        let why = refused(|variables| named(variables, "encoder/conv1/weight").dims = vec![80, 32, 3]);
        assert_eq!(
            why,
            "`encoder/conv1/weight` in the weights file has dimensions [80, 32, 3], expected [32, 32, 3]"
        );
        let why = refused(|variables| named(variables, "encoder/conv1/weight").dims = vec![80, 96]);
        assert_eq!(why, "`encoder/conv1/weight` in the weights file has 2 axes, expected 3");
    }

    #[test]
    fn other_numbers_than_halves_are_named() {
        let why = refused(|variables| named(variables, "encoder/layer_norm/beta").element = 5);
        assert_eq!(why, "`encoder/layer_norm/beta` in the weights file holds BFloat16, expected Float16");
    }
}
