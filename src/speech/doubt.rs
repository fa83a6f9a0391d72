//! How doubtful a chunk is, and so whether it is worth hearing once more with another engine.

use super::ear::Segments;
use super::spelling;

/// Chunks whose words are doubted this much on average are heard again. Of the lines without a flag that were wrong
/// most came from such chunks; clear speech seldom is so doubtful (measurements in `models.md`).
const DOUBTFUL: f32 = 0.08;

/// Which chunks are heard a second time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Again {
    /// None.
    Never,
    /// Those of whose words the engine is unsure.
    #[default]
    Doubtful,
    /// All.
    Always,
}

impl Again {
    /// Whether a chunk in which this was heard is heard again.
    pub(super) fn wanted(self, heard: &Segments) -> bool {
        match self {
            Again::Never => false,
            Again::Doubtful => doubt(heard) >= DOUBTFUL,
            Again::Always => true,
        }
    }
}

/// The mean doubt of the words, from 0 to 1; none where nothing was said.
fn doubt(heard: &Segments) -> f32 {
    let words = spelling::words(heard);
    let doubts: f32 = words.iter().map(|word| 1.0 - word.probability).sum();
    doubts / words.len().max(1) as f32
}

#[cfg(test)]
mod tests {
    use super::super::ear::Token;
    use super::*;

    fn heard(probabilities: &[f32]) -> Segments {
        let token = |&probability: &f32| Token { text: b" vent".to_vec(), start: 0.0, end: 1.0, probability };
        vec![probabilities.iter().map(token).collect()]
    }

    #[test]
    fn what_is_doubtful_on_average_is_heard_again() {
        assert!(Again::Doubtful.wanted(&heard(&[0.99, 0.60, 0.95])));
        assert!(!Again::Doubtful.wanted(&heard(&[0.99, 0.80, 0.99])));
        assert!(!Again::Doubtful.wanted(&heard(&[])));
        assert!(!Again::Never.wanted(&heard(&[0.1])));
        assert!(Again::Always.wanted(&heard(&[1.0])));
    }
}
