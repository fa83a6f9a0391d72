//! What the rules files mean. Takes the files of `grammars/` and the fitted weights of `models/`, both embedded in the
//! program, and over them those of an office's folder; gives a [`Grammar`], wholly checked. Loaded once; every later part
//! only reads it.

pub mod alike;
mod classes;
mod compile;
mod error;
mod grammar;
mod house;
mod house_rules;
mod item;
pub mod lists;
mod load;
mod meaning;
mod means;
mod pattern;
mod plural;
mod schema;
mod sentences;
mod trie;
mod usual;
mod weights;
mod words;

pub use alike::Named;
pub use classes::Classes;
pub use error::{Fault, GrammarError};
pub use grammar::{CautionRule, Grammar, Rule, UnitPhrase};
pub use house::{CountedOnce, Counts, Ground, HouseRules, Need, Sighting, UsualNeed, UsualNumber};
pub use item::{Item, Part};
pub use load::{folder_digest, stored};
pub use meaning::{Compass, Form, Meaning, Reach};
pub use means::{MEANS, Meant};
pub use schema::LengthBefore;
pub use sentences::{Entry, Name, Phrase, Sentence, Trials, trials};
pub use trie::{Match, Target};
pub use usual::{Opening, OpeningRule, Usual};
pub use weights::{CorrectionWeights, PunctuationWeights, Weight};
pub use words::{NumberWord, NumberWords};
