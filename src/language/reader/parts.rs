//! Stretches of words that tell what is still to do, or what was measured.

use super::reading::PARTS;

/// A word belongs to no part where the chance of none is greater than this.
const NONE: f32 = 0.6;

/// A new part begins where the chance that one does is greater than this.
const BEGINS: f32 = 0.5;

/// A part: its first and its last word, and the chance of each kind.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stretch {
    pub first: usize,
    pub last: usize,
    pub kinds: [f32; PARTS],
}

/// The parts, from the chances of each word: none, then for each kind that it begins there and that it goes on.
pub(super) fn stretches(tags: &[Vec<f32>]) -> Vec<Stretch> {
    let mut all: Vec<(Stretch, usize)> = Vec::new();
    let mut open = false;
    for (word, row) in tags.iter().enumerate() {
        let kinds: [f32; PARTS] = std::array::from_fn(|kind| row[1 + 2 * kind] + row[2 + 2 * kind]);
        let kind = likeliest(&kinds);
        if row[0] > NONE {
            open = false;
            continue;
        }
        match all.last_mut().filter(|_| open) {
            Some((part, known)) if *known == kind && row[1 + 2 * kind] <= BEGINS => {
                part.last = word;
                part.kinds.iter_mut().zip(kinds).for_each(|(sum, chance)| *sum += chance);
            }
            _ => all.push((Stretch { first: word, last: word, kinds }, kind)),
        }
        open = true;
    }
    let mean = |(mut part, _): (Stretch, usize)| {
        let count = (part.last + 1 - part.first) as f32;
        part.kinds.iter_mut().for_each(|sum| *sum /= count);
        part
    };
    all.into_iter().map(mean).collect()
}

/// The first of the greatest.
fn likeliest(chances: &[f32; PARTS]) -> usize {
    let first = |best: usize, at: usize| if chances[at] > chances[best] { at } else { best };
    (0..PARTS).fold(0, first)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A word that is surely of a kind, or of none.
    fn tag(kind: Option<(usize, bool)>) -> Vec<f32> {
        let mut row = vec![0.0; 1 + 2 * PARTS];
        row[kind.map_or(0, |(kind, goes_on)| 1 + 2 * kind + usize::from(goes_on))] = 1.0;
        row
    }

    #[test]
    fn words_of_one_kind_are_one_part_until_another_begins() {
        let words = [None, Some((0, false)), Some((0, true)), Some((0, false)), None, Some((4, true))];
        let parts = stretches(&words.map(tag));
        let told: Vec<_> = parts.iter().map(|p| (p.first, p.last, likeliest(&p.kinds))).collect();
        assert_eq!(told, [(1, 2, 0), (3, 3, 0), (5, 5, 4)]);
    }
}
