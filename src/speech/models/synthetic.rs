//! A toy Whisper for tests: the right tensors under the right names, 32 numbers wide, with made-up weights.

use super::arrange::arrange;
use super::catalogue::{Carrier, KnownModel, Precision};
use super::{container, ggml, vocabulary};
use crate::model::digest;
use half::f16;

/// Numbers that stand for a moment or a token.
pub const WIDTH: usize = 32;
/// Tokens, with room for control tokens.
pub const TOKENS: usize = 51865;
/// Layers that listen: as many as Whisper tiny has, so that the toy passes for one.
pub const AUDIO_LAYERS: usize = 4;
/// Layers that write.
pub const TEXT_LAYERS: usize = 1;

/// A tokenizer file with three tokens, a control token that is also listed among them, and one that isn't.
pub const TOKENIZER: &str = r#"{
    "version": "1.0",
    "added_tokens": [{"id": 3, "content": "<|endoftext|>"}, {"id": 4, "content": "<|en|>"}],
    "model": {"type": "BPE", "vocab": {"Ġsiding": 1, "!": 0, "": 2, "<|endoftext|>": 3}}
}"#;

/// A variable to be written: its name, its dimensions, its element type and its bytes.
#[derive(Clone)]
pub struct Written {
    pub name: String,
    pub dims: Vec<u32>,
    pub element: u8,
    pub bytes: Vec<u8>,
}

/// 16-bit floats that differ from place to place.
pub fn halves(name: &str, dims: &[usize]) -> Written {
    let count = dims.iter().product();
    let seed = name.len();
    let number = |n: usize| f16::from_f32(((n * 7 + seed) % 61) as f32 / 8.0 - 3.5);
    let bytes = (0..count).flat_map(|n| number(n).to_le_bytes()).collect();
    Written { name: name.to_owned(), dims: dims.iter().map(|&dim| dim as u32).collect(), element: 4, bytes }
}

fn number(name: &str, number: i16) -> Written {
    let bytes = number.to_le_bytes().into();
    Written { name: name.to_owned(), dims: vec![], element: 2, bytes }
}

/// Every variable of the toy.
pub fn variables() -> Vec<Written> {
    let mut all = vec![
        halves("decoder/embeddings/weight", &[TOKENS, WIDTH]),
        halves("decoder/position_encodings/encodings", &[6, WIDTH]),
        halves("encoder/position_encodings/encodings", &[5, WIDTH]),
        halves("encoder/conv1/weight", &[WIDTH, 80, 3]),
        halves("encoder/conv1/bias", &[WIDTH]),
        halves("encoder/conv2/weight", &[WIDTH, WIDTH, 3]),
        halves("encoder/conv2/bias", &[WIDTH]),
        number("encoder/num_heads", 2),
        number("decoder/num_heads", 4),
    ];
    all.extend(norm("encoder/layer_norm"));
    all.extend(norm("decoder/layer_norm"));
    (0..AUDIO_LAYERS).for_each(|layer| all.extend(block(&format!("encoder/layer_{layer}"))));
    for layer in 0..TEXT_LAYERS {
        let name = format!("decoder/layer_{layer}");
        all.extend(block(&name));
        all.extend(norm(&format!("{name}/attention/layer_norm")));
        all.extend(linear(&format!("{name}/attention/linear_0"), [WIDTH, WIDTH]));
        all.extend(keyed(&format!("{name}/attention/linear_1"), 2, 0));
        all.extend(linear(&format!("{name}/attention/linear_2"), [WIDTH, WIDTH]));
    }
    all
}

fn block(name: &str) -> Vec<Written> {
    let mut all = norm(&format!("{name}/self_attention/layer_norm"));
    all.extend(keyed(&format!("{name}/self_attention/linear_0"), 3, 1));
    all.extend(linear(&format!("{name}/self_attention/linear_1"), [WIDTH, WIDTH]));
    all.extend(norm(&format!("{name}/ffn/layer_norm")));
    all.extend(linear(&format!("{name}/ffn/linear_0"), [4 * WIDTH, WIDTH]));
    all.extend(linear(&format!("{name}/ffn/linear_1"), [WIDTH, 4 * WIDTH]));
    all
}

fn norm(name: &str) -> Vec<Written> {
    vec![halves(&format!("{name}/gamma"), &[WIDTH]), halves(&format!("{name}/beta"), &[WIDTH])]
}

fn linear(name: &str, [out, into]: [usize; 2]) -> Vec<Written> {
    vec![halves(&format!("{name}/weight"), &[out, into]), halves(&format!("{name}/bias"), &[out])]
}

/// Projections fused into one, with the bias of the one for the keys at zero.
fn keyed(name: &str, parts: usize, key: usize) -> Vec<Written> {
    let mut both = linear(name, [parts * WIDTH, WIDTH]);
    both[1].bytes[2 * key * WIDTH..2 * (key + 1) * WIDTH].fill(0);
    both
}

/// A weights file.
pub fn container(variables: &[Written]) -> Vec<u8> {
    let mut bytes = 6_u32.to_le_bytes().to_vec();
    push_name(&mut bytes, "WhisperSpec");
    bytes.extend(3_u32.to_le_bytes());
    bytes.extend((variables.len() as u32).to_le_bytes());
    for variable in variables {
        push_name(&mut bytes, &variable.name);
        bytes.push(variable.dims.len() as u8);
        variable.dims.iter().for_each(|dim| bytes.extend(dim.to_le_bytes()));
        bytes.push(variable.element);
        bytes.extend((variable.bytes.len() as u32).to_le_bytes());
        bytes.extend(&variable.bytes);
    }
    push_aliases(&mut bytes, &[]);
    bytes
}

/// Names that stand for other names.
pub fn push_aliases(bytes: &mut Vec<u8>, aliases: &[(&str, &str)]) {
    bytes.extend((aliases.len() as u32).to_le_bytes());
    for (alias, of) in aliases {
        push_name(bytes, alias);
        push_name(bytes, of);
    }
}

pub fn push_name(bytes: &mut Vec<u8>, name: &str) {
    bytes.extend((name.len() as u16 + 1).to_le_bytes());
    bytes.extend(name.as_bytes());
    bytes.push(0);
}

/// The finished model file of the toy.
pub fn model_file(precision: Precision) -> Vec<u8> {
    let weights = container(&variables());
    let container = container::read(&weights).unwrap();
    let (shape, tensors) = arrange(&container).unwrap();
    let tokens = vocabulary::read(TOKENIZER.as_bytes()).unwrap();
    let mut out = Vec::new();
    ggml::write(&mut out, &shape, &tokens, &tensors, precision).unwrap();
    out
}

/// The toy as a known model with two carriers, the second of which carries it.
pub fn known() -> &'static KnownModel {
    let file = model_file(Precision::Bytes);
    let carrier = |name, weights: String| Carrier {
        packages: Box::leak(Box::new([name])),
        version: "1.0.0",
        weights: weights.leak(),
        vocabulary: digest::of_bytes(TOKENIZER.as_bytes()).leak(),
        megabytes: 1,
    };
    let right = digest::of_bytes(&container(&variables()));
    Box::leak(Box::new(KnownModel {
        name: "toy",
        file: "ggml-toy.bin",
        bytes: file.len() as u64,
        sha256: digest::of_bytes(&file).leak(),
        precision: Precision::Bytes,
        about: "a toy",
        carriers: Box::leak(Box::new([
            carrier("first", digest::of_bytes(b"others")),
            carrier("second", right),
        ])),
    }))
}
