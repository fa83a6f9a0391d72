//! What was spoken beside what was heard: the words of both, aligned so that the fewest have to be changed (Levenshtein).

use num2words::Num2Words;

/// Sounds that say nothing.
const FILLERS: [&str; 8] = ["uh", "um", "hmm", "er", "ah", "mm", "hm", "mhm"];

/// Spoken and heard words side by side.
pub struct Alignment {
    spoken: Vec<String>,
    heard: Vec<String>,
    /// By their places; none where a word was left out, or stands for none.
    pairs: Vec<(Option<usize>, Option<usize>)>,
    /// The transcript's word that each heard word is part of.
    part_of: Vec<usize>,
}

impl Alignment {
    /// Aligns a text with a transcript's words.
    pub fn new<'a>(spoken: &str, heard: impl Iterator<Item = &'a str>) -> Self {
        let spoken: Vec<String> = spoken.split_whitespace().flat_map(plain).collect();
        let words = heard.enumerate().flat_map(|(n, word)| plain(word).into_iter().map(move |w| (n, w)));
        let (part_of, heard): (Vec<usize>, Vec<String>) = words.unzip();
        let pairs = align(&spoken, &heard);
        Self { spoken, heard, pairs, part_of }
    }

    /// Whether the spoken words beside some of the transcript's words are a name, one more or less at either end,
    /// whatever is joined, in the singular or the plural; none where nothing stands beside them.
    pub fn is_spoken(&self, first: usize, last: usize, name: &str) -> Option<bool> {
        let (from, to) = self.pairs_of(first, last)?;
        let name = singular(name);
        let from = from.saturating_sub(1)..=from + 1;
        let mut runs = from.flat_map(|from| (to.saturating_sub(1)..=to + 1).map(move |to| (from, to)));
        Some(runs.any(|(from, to)| singular(&self.spoken(from, to).concat()) == name))
    }

    /// Whether something else was written than was spoken.
    pub fn misheard(&self, first: usize, last: usize) -> bool {
        self.pairs_of(first, last).is_some_and(|(from, to)| {
            let heard =
                self.pairs[from..=to].iter().filter_map(|pair| pair.1).map(|n| self.heard[n].as_str());
            !heard.eq(self.spoken(from, to))
        })
    }

    /// The first and the last pair of some of the transcript's words.
    fn pairs_of(&self, first: usize, last: usize) -> Option<(usize, usize)> {
        let inside =
            |pair: &(_, Option<usize>)| pair.1.is_some_and(|n| (first..=last).contains(&self.part_of[n]));
        Some((self.pairs.iter().position(inside)?, self.pairs.iter().rposition(inside)?))
    }

    fn spoken(&self, from: usize, to: usize) -> Vec<&str> {
        let pairs = self.pairs.get(from..(to + 1).min(self.pairs.len())).unwrap_or_default();
        pairs.iter().filter_map(|pair| pair.0).map(|n| self.spoken[n].as_str()).collect()
    }
}

fn singular(word: &str) -> &str {
    word.strip_suffix("'s").unwrap_or(word).trim_end_matches('s')
}

/// A written word as words that are spoken: small letters, numbers spelled out, signs of units too; no fillers.
fn plain(written: &str) -> Vec<String> {
    let signs: Vec<char> = written.to_lowercase().replace('’', "'").chars().collect();
    let mut words = vec![String::new()];
    let mut at = 0;
    while at < signs.len() {
        if signs[at].is_ascii_digit() {
            let length = digits(&signs[at..]);
            let number: String = signs[at..at + length].iter().filter(|c| **c != ',').collect();
            words.extend(spelled(&number));
            at += length;
            let behind = match (signs.get(at), signs.get(at + 1)) {
                (Some('\''), next) if next.is_none_or(|c| !c.is_alphabetic()) => Some("foot"),
                (Some('"'), _) => Some("inch"),
                (Some('x'), Some(next)) if next.is_ascii_digit() => Some("by"),
                _ => None,
            };
            words.extend(behind.map(str::to_owned));
            at += usize::from(behind.is_some());
            words.push(String::new());
            continue;
        }
        match (signs[at], words.last_mut()) {
            ('-' | '–' | '—', _) => words.push(String::new()),
            (c, Some(word)) if c.is_alphabetic() || c == '\'' => word.push(c),
            _ => {}
        }
        at += 1;
    }
    let words = words.iter().map(|word| word.trim_matches('\''));
    words.filter(|word| !word.is_empty() && !FILLERS.contains(word)).map(str::to_owned).collect()
}

/// How many signs a number takes: digits, with commas and points between them.
fn digits(signs: &[char]) -> usize {
    let digit = |n: usize| signs.get(n).is_some_and(char::is_ascii_digit);
    (0..).take_while(|n| digit(*n) || (matches!(signs.get(*n), Some(',' | '.')) && digit(n + 1))).count()
}

fn spelled(number: &str) -> Vec<String> {
    let said = number.parse().ok().and_then(|n: f64| Num2Words::new(n).to_words().ok());
    said.unwrap_or_else(|| number.to_owned()).split([' ', '-']).map(str::to_owned).collect()
}

fn align(spoken: &[String], heard: &[String]) -> Vec<(Option<usize>, Option<usize>)> {
    let width = heard.len() + 1;
    let mut cost = vec![0_u32; (spoken.len() + 1) * width];
    let unlike = |s: usize, h: usize| u32::from(spoken[s] != heard[h]);
    for s in 0..=spoken.len() {
        for h in 0..width {
            let ways = [
                (s > 0 && h > 0).then(|| cost[(s - 1) * width + h - 1] + unlike(s - 1, h - 1)),
                (s > 0).then(|| cost[(s - 1) * width + h] + 1),
                (h > 0).then(|| cost[s * width + h - 1] + 1),
            ];
            cost[s * width + h] = ways.into_iter().flatten().min().unwrap_or(0);
        }
    }
    let (mut s, mut h) = (spoken.len(), heard.len());
    let mut pairs = Vec::new();
    while s > 0 || h > 0 {
        let here = cost[s * width + h];
        if s > 0 && h > 0 && here == cost[(s - 1) * width + h - 1] + unlike(s - 1, h - 1) {
            (s, h) = (s - 1, h - 1);
            pairs.push((Some(s), Some(h)));
        } else if s > 0 && here == cost[(s - 1) * width + h] + 1 {
            s -= 1;
            pairs.push((Some(s), None));
        } else {
            h -= 1;
            pairs.push((None, Some(h)));
        }
    }
    pairs.reverse();
    pairs
}
