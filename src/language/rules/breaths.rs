//! What each clue says of a breath, as written in `breaths.toml`.

use rustc_hash::FxHashMap;

/// The log-odds a clue adds: of any break, and of a full stop.
pub type Weight = [f32; 2];

/// Clues and their weights.
#[derive(Debug, Default)]
pub struct Breaths {
    weights: FxHashMap<String, Weight>,
}

impl FromIterator<(String, Weight)> for Breaths {
    fn from_iter<T: IntoIterator<Item = (String, Weight)>>(weights: T) -> Self {
        Self { weights: weights.into_iter().collect() }
    }
}

impl Breaths {
    pub(super) fn add(&mut self, entries: &std::collections::BTreeMap<String, Weight>) {
        self.weights.extend(entries.iter().map(|(clue, weight)| (clue.clone(), *weight)));
    }

    /// The weight of a clue; none for what was never met.
    pub fn get(&self, clue: &str) -> Option<Weight> {
        self.weights.get(clue).copied()
    }
}
