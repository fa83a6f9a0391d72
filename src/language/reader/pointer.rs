//! Pointers: which of the candidates near a place belongs to it. Besides the words themselves it counts how far apart the two
//! stand, what stands between, and whether the rules hold one for a part of the other.

use super::network::{Dense, Rows};
use super::weights::{ReaderError, Weights};

/// How many of each kind of mark there are.
const DISTANCES: usize = 24;
const BETWEEN: usize = 6;
const SENTENCES: usize = 4;

/// Points from places to candidates, or to one of a few fixed answers.
pub(super) struct Pointer {
    query: Dense,
    key: Dense,
    fixed: Dense,
    marks: Vec<f32>,
    /// How many numbers a query and a key come to.
    width: usize,
}

/// Candidates of one place: which, and how they stand to it.
pub(super) type Candidates = Vec<(usize, [usize; 4])>;

impl Pointer {
    pub fn new(weights: &Weights, name: &str, query: usize, key: usize) -> Result<Self, ReaderError> {
        let dense = |part: &str, inputs| Dense::new(weights, &format!("{name}.{part}"), inputs);
        let marks = weights.rows(&format!("{name}.marks.weight"))?.numbers;
        let (query, key, fixed) = (dense("query", query)?, dense("key", key)?, dense("fixed", query)?);
        if marks.len() < DISTANCES + BETWEEN + SENTENCES + 4 {
            return Err(ReaderError::Missing(format!("{name}.marks.weight")));
        }
        Ok(Self { width: query.outputs(), query, key, fixed, marks })
    }

    /// For each query the odds of the fixed answers, then of its candidates.
    pub fn odds(&self, queries: &Rows, keys: &Rows, candidates: &[Candidates]) -> Vec<Vec<f32>> {
        let (q, k) = (self.query.rows(queries), self.key.rows(keys));
        let fixed = self.fixed.rows(queries);
        let root = (self.width as f32).sqrt();
        let near = |at: usize, (key, marks): &(usize, [usize; 4])| {
            let dot: f32 = q.row(at).iter().zip(k.row(*key)).map(|(a, b)| a * b).sum();
            dot / root + marks.iter().map(|mark| self.marks[*mark]).sum::<f32>()
        };
        let row = |(at, own): (usize, &Candidates)| {
            fixed.row(at).iter().copied().chain(own.iter().map(|one| near(at, one))).collect()
        };
        candidates.iter().enumerate().map(row).collect()
    }
}

/// What stands before each word: how many things are named, how many sentences begin.
pub(super) struct Between {
    things: Vec<usize>,
    sentences: Vec<usize>,
}

impl Between {
    pub fn new(count: usize, ends: impl Iterator<Item = usize>, begins: impl Iterator<Item = usize>) -> Self {
        let counted = |places: &mut dyn Iterator<Item = usize>| {
            let mut there = vec![false; count];
            places.filter(|at| *at < count).for_each(|at| there[at] = true);
            let mut sums = vec![0];
            for is in there {
                sums.push(sums[sums.len() - 1] + usize::from(is));
            }
            sums
        };
        let (mut ends, mut begins) = (ends, begins);
        Self { things: counted(&mut ends), sentences: counted(&mut begins) }
    }

    /// How a stretch of words stands to a place. `role`: 0 where nothing may hold it, 1 where the place does, 2 where another
    /// does, 3 where none does.
    pub fn marks(&self, at: usize, (first, last): (usize, usize), role: usize) -> [usize; 4] {
        let far = if first > at {
            first as i64 - at as i64
        } else if last < at {
            last as i64 - at as i64
        } else {
            0
        };
        let (low, high) = (at.min(first), at.max(first));
        let things = if high > low { self.things[high].saturating_sub(self.things[low + 1]) } else { 0 };
        let sentences = self.sentences[high + 1] - self.sentences[low + 1];
        [
            bucket(far),
            DISTANCES + things.min(BETWEEN - 1),
            DISTANCES + BETWEEN + sentences.min(SENTENCES - 1),
            DISTANCES + BETWEEN + SENTENCES + role.min(3),
        ]
    }
}

/// Distances in steps that grow with them, 12 for none.
fn bucket(far: i64) -> usize {
    if far == 0 {
        return 12;
    }
    let steps = (2.0 * (far.unsigned_abs() as f64 + 1.0).log2()).round_ties_even().min(11.0) as i64;
    (12 + far.signum() * steps) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_fall_into_steps() {
        let told: Vec<usize> = [0, 1, 2, 4, 100, -1, -3, -1000].map(bucket).to_vec();
        assert_eq!(told, [12, 14, 15, 17, 23, 10, 8, 1]);
    }

    #[test]
    fn what_stands_between_is_counted() {
        let between = Between::new(10, [2, 5].into_iter(), [0, 4].into_iter());
        // From word 1 to word 8: two names end, one sentence begins.
        assert_eq!(between.marks(1, (8, 8), 0), [bucket(7), 24 + 2, 30 + 1, 34]);
        assert_eq!(between.marks(8, (1, 1), 3), [bucket(-7), 24 + 2, 30 + 1, 37]);
        assert_eq!(between.marks(3, (3, 3), 1), [12, 24, 30, 35]);
    }
}
