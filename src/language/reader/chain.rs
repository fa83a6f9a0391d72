//! Where the narrator stands at each word, decided once over the whole narration: a chain over all words, of which each may
//! move him to a side. Forward and backward together give the chance of each side at each word.

use super::reading::SIDES;

/// How much a word that only smells of a side counts, beside one that moves there.
const STAY: f64 = 0.3;

/// The log of the sum of exponentials.
fn log_sum(terms: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = terms.clone().fold(f64::NEG_INFINITY, f64::max);
    most + terms.map(|term| (term - most).exp()).sum::<f64>().ln()
}

/// The chance of each side at each word. `moves` and `stays` have a row a word; `start` speaks for the first.
pub(super) fn sides(
    moves: &[[f32; SIDES]],
    stays: &[[f32; SIDES]],
    start: &[f32; SIDES],
) -> Vec<[f32; SIDES]> {
    let count = moves.len();
    let here = |at: usize, side: usize| STAY * f64::from(stays[at][side]);
    let step = |at: usize, from: usize, to: usize| {
        here(at, to) + if from == to { 0.0 } else { f64::from(moves[at][to]) }
    };
    let each = |of: &dyn Fn(usize) -> f64| std::array::from_fn::<f64, SIDES, _>(of);
    let mut ahead: Vec<[f64; SIDES]> = Vec::with_capacity(count);
    for at in 0..count {
        let next = match ahead.last() {
            None => each(&|side| f64::from(start[side]) + here(0, side)),
            Some(before) => each(&|to| log_sum((0..SIDES).map(|from| before[from] + step(at, from, to)))),
        };
        ahead.push(next);
    }
    let mut behind = [0.0; SIDES];
    let mut chances = vec![[0.0; SIDES]; count];
    for at in (0..count).rev() {
        let both = each(&|side| ahead[at][side] + behind[side]);
        let all = log_sum(both.iter().copied());
        chances[at] = std::array::from_fn(|side| (both[side] - all).exp() as f32);
        if at > 0 {
            behind = each(&|from| log_sum((0..SIDES).map(|to| step(at, from, to) + behind[to])));
        }
    }
    chances
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers that look random and are the same every time.
    fn numbers(seed: usize) -> Vec<[f32; SIDES]> {
        let number = |at: usize, side: usize| ((seed + at * 31 + side * 17) as f32 * 12.9898).sin() * 3.0;
        (0..4).map(|at| std::array::from_fn(|side| number(at, side))).collect()
    }

    /// All walks over four words, weighed one by one.
    #[test]
    fn the_chances_are_those_of_all_walks_weighed_one_by_one() {
        let (moves, stays, start) = (numbers(1), numbers(90), [-1.0, -3.0, -3.0, -3.0, 0.0]);
        let mut sums = [[0.0; SIDES]; 4];
        let mut all = 0.0;
        for walk in 0..SIDES.pow(4) {
            let side: Vec<usize> = (0..4).map(|at| walk / SIDES.pow(at) % SIDES).collect();
            let mut weight = f64::from(start[side[0]]);
            for at in 0..4 {
                weight += STAY * f64::from(stays[at][side[at]]);
                if at > 0 && side[at] != side[at - 1] {
                    weight += f64::from(moves[at][side[at]]);
                }
            }
            all += weight.exp();
            (0..4).for_each(|at| sums[at][side[at]] += weight.exp());
        }
        let chances = sides(&moves, &stays, &start);
        for at in 0..4 {
            for side in 0..SIDES {
                assert!((f64::from(chances[at][side]) - sums[at][side] / all).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn no_words_have_no_sides() {
        assert!(sides(&[], &[], &[0.0; SIDES]).is_empty());
    }
}
