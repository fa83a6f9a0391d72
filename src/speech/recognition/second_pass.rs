//! Which chunks get a second pass: those that are so doubtful that they are worth hearing once more with another engine.

use super::engine::Segments;
use super::spelling;

/// Chunks whose words are doubted this much on average get a second pass. Of the lines without a flag that were wrong
/// most came from such chunks; clear speech seldom is so doubtful (measurements in `models.md`).
const DOUBTFUL: f32 = 0.08;

/// Which chunks get a second pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SecondPass {
    /// None.
    Never,
    /// Those of whose words the engine is unsure.
    #[default]
    Doubtful,
    /// All.
    Always,
}

impl SecondPass {
    /// Whether a chunk in which this was heard gets one.
    pub(super) fn is_due(self, heard: &Segments) -> bool {
        match self {
            SecondPass::Never => false,
            SecondPass::Doubtful => doubt(heard) >= DOUBTFUL,
            SecondPass::Always => true,
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
    use super::super::engine::Token;
    use super::*;

    fn heard(probabilities: &[f32]) -> Segments {
        let token = |&probability: &f32| Token { text: b" vent".to_vec(), start: 0.0, end: 1.0, probability };
        vec![probabilities.iter().map(token).collect()]
    }

    #[test]
    fn what_is_doubtful_on_average_gets_a_second_pass() {
        assert!(SecondPass::Doubtful.is_due(&heard(&[0.99, 0.60, 0.95])));
        assert!(!SecondPass::Doubtful.is_due(&heard(&[0.99, 0.80, 0.99])));
        assert!(!SecondPass::Doubtful.is_due(&heard(&[])));
        assert!(!SecondPass::Never.is_due(&heard(&[0.1])));
        assert!(SecondPass::Always.is_due(&heard(&[1.0])));
    }
}
