//! Usual numbers of the trade, such as waste and stock lengths, and by which rule openings are deducted. They are
//! data, so that an office puts its own in their place.

use crate::model::Exact;
use serde::{Deserialize, Deserializer};

/// A usual number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Usual {
    /// How much.
    pub value: Exact,
    /// What it tells, with its unit.
    pub says: String,
    /// Where it is published, or that it is common practice.
    pub source: String,
}

/// Which openings are deducted from a wall. Published practice differs, so a document names the rule it used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum OpeningRule {
    /// All whose size is known.
    #[default]
    All,
    /// Those larger than so many square feet.
    Over(u32),
    /// None: they balance the waste.
    None,
}

impl OpeningRule {
    /// The rule in a sentence.
    pub fn told(self) -> String {
        match self {
            Self::All => "Openings whose size is known are deducted from the walls.".to_owned(),
            Self::Over(least) => {
                format!(
                    "Openings larger than {least} sq ft are deducted from the walls, smaller ones are not."
                )
            }
            Self::None => "Openings are not deducted from the walls: they balance the waste.".to_owned(),
        }
    }
}

/// What channel runs around.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Opening {
    /// Four sides of it.
    Window,
    /// Both sides of it and its top.
    Door,
}

/// A number as it is written in the rules: whole, or one by another in quotes: `"25/2"`.
pub(super) fn number<'de, D: Deserializer<'de>>(from: D) -> Result<Exact, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Written {
        Whole(i64),
        Text(String),
    }
    let wrong = "a number is whole, or one by another in quotes, such as \"25/2\"";
    let value = match Written::deserialize(from)? {
        Written::Whole(number) => Exact::from_integer(number),
        Written::Text(text) => text.parse().map_err(|_| serde::de::Error::custom(wrong))?,
    };
    if value < Exact::from_integer(0) {
        return Err(serde::de::Error::custom("a usual number is zero or more"));
    }
    Ok(value)
}

/// What the program asks for by name.
pub(super) const ASKED: [&str; 12] = [
    "siding-waste",
    "shingle-waste",
    "bundles-a-square",
    "starter-piece",
    "channel-piece",
    "corner-piece",
    "fascia-piece",
    "drip-edge-piece",
    "gutter-piece",
    "downspout-piece",
    "fence-posts",
    "chain-link-posts",
];
