//! How alike two runs of phones are: the best alignment's score by ALINE, against that of a run with itself.

use super::phone::Phone;
use std::sync::OnceLock;

/// A phone that answers to none, in hundredths.
const SKIP: i32 = -1000;

/// What is known of each pair of phones, worked out once.
struct Pairs {
    score: Table,
    apart: Table,
}

type Table = [[i32; Phone::COUNT as usize]; Phone::COUNT as usize];

fn pairs() -> &'static Pairs {
    static PAIRS: OnceLock<Pairs> = OnceLock::new();
    let table = |tell: fn(Phone, Phone) -> i32| -> Table {
        std::array::from_fn(|a| std::array::from_fn(|b| tell(Phone(a as u8), Phone(b as u8))))
    };
    PAIRS.get_or_init(|| Pairs { score: table(Phone::score), apart: table(Phone::apart) })
}

impl Pairs {
    fn score(&self, a: Phone, b: Phone) -> i32 {
        self.score[usize::from(a.0)][usize::from(b.0)]
    }

    /// The score of hearing one for two.
    fn score_two(&self, one: Phone, two: [Phone; 2]) -> i32 {
        let apart = |other: Phone| self.apart[usize::from(one.0)][usize::from(other.0)];
        one.most_for_two(two) - apart(two[0]) - apart(two[1])
    }
}

/// The score of a run with itself.
pub fn own_score(phones: &[Phone]) -> i32 {
    phones.iter().map(|p| p.score(*p)).sum()
}

/// How alike two runs are: 1 where they are the same, 0 or less where nothing agrees.
pub fn likeness(a: &[Phone], b: &[Phone]) -> f64 {
    let whole = own_score(a).max(own_score(b)).max(1);
    f64::from(score(a, b)) / f64::from(whole)
}

/// The most that [`likeness`] can come to for runs of these scores and lengths.
pub fn most_alike(own: (i32, i32), lengths: (usize, usize)) -> f64 {
    let skipped = lengths.0.abs_diff(lengths.1) as i32 / 2;
    f64::from(own.0.min(own.1) + skipped * SKIP) / f64::from(own.0.max(own.1).max(1))
}

/// The score of the best alignment of two whole runs, in hundredths.
fn score(a: &[Phone], b: &[Phone]) -> i32 {
    let pairs = pairs();
    let skipped = |n: usize| n as i32 * SKIP;
    // The rows of one and two phones ago: one phone may answer to two.
    let mut older: Vec<i32> = Vec::new();
    let mut old: Vec<i32> = (0..=b.len()).map(skipped).collect();
    let mut row = vec![0; b.len() + 1];
    for (n, p) in a.iter().enumerate() {
        row[0] = skipped(n + 1);
        for (m, q) in b.iter().enumerate() {
            let mut best = old[m] + pairs.score(*p, *q);
            best = best.max(old[m + 1] + SKIP).max(row[m] + SKIP);
            if m > 0 {
                best = best.max(old[m - 1] + pairs.score_two(*p, [b[m - 1], *q]));
            }
            if n > 0 {
                best = best.max(older[m] + pairs.score_two(*q, [a[n - 1], *p]));
            }
            row[m + 1] = best;
        }
        older = std::mem::replace(&mut old, std::mem::replace(&mut row, older));
        row.resize(b.len() + 1, 0);
    }
    old[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn phones(signs: &str) -> Vec<Phone> {
        signs.split(' ').flat_map(|sign| Phone::read(sign).unwrap()).collect()
    }

    /// Expected: `sigma_exp` of `nltk.metrics.aline` (NLTK 3.10.4) for the same phones in IPA.
    #[test]
    fn one_for_two_scores_as_in_the_reference_implementation() {
        let two = |signs| <[Phone; 2]>::try_from(phones(signs)).unwrap();
        assert_eq!(pairs().score_two(phones("SH")[0], two("S T")), 2950);
    }

    #[test]
    fn likeness_is_one_for_the_same_and_falls_with_every_difference() {
        let siding = phones("S AY D IH NG");
        assert_eq!(likeness(&siding, &siding), 1.0);
        let near = likeness(&siding, &phones("S AY T IH NG"));
        let far = likeness(&siding, &phones("G AH T ER"));
        assert!(near > 0.9 && near < 1.0 && far < 0.5, "{near} {far}");
        assert_eq!(likeness(&siding, &phones("S AY T IH NG")), likeness(&phones("S AY T IH NG"), &siding));
    }

    #[test]
    fn the_bound_is_never_below_the_likeness() {
        let runs = ["S AY D IH NG", "G AH T ER", "G AH T ER Z", "W IH N D OW S K R IY N", "B"].map(phones);
        for (a, b) in runs.iter().flat_map(|a| runs.iter().map(move |b| (a, b))) {
            let most = most_alike((own_score(a), own_score(b)), (a.len(), b.len()));
            assert!(likeness(a, b) <= most + 1e-9);
        }
    }
}
