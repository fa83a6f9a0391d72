//! The reader at work: from the words of a narration to what it makes of them.

use super::chain::sides;
use super::heads::{AnchorHeads, AnchorOdds, Near, NearParts, PartHeads, PartOdds, Spans, WordHeads};
use super::input::Input;
use super::network::{Encoder, Memory, Norm, Rows};
use super::parts::{Stretch, stretches};
use super::pointer::Between;
use super::reading::{Anchor, Number, Part, Reading, SIDES};
use super::weights::{ReaderError, Weights};
use super::wordpiece::{CLOSES, OPENS, Pieces};
use rustc_hash::FxHashMap;

/// Pieces of words that the encoder sees at once, and how many it moves on.
const WINDOW: usize = 254;
const STRIDE: usize = 190;

/// A word whose chance of talk is below this is an anchor.
const TALK: f32 = 0.9;

/// Chances below these are left out.
const FAINT: f32 = 0.005;
const FAINT_ITEM: f32 = 0.01;

/// A trained reader.
pub struct Reader {
    pieces: Pieces,
    marks: FxHashMap<String, usize>,
    items: Vec<String>,
    encoder: Encoder,
    mark_rows: Rows,
    memories: [Memory; 2],
    norm: Norm,
    start: [f32; SIDES],
    words: WordHeads,
    anchors: AnchorHeads,
    parts: PartHeads,
}

impl Reader {
    /// Loads a reader from its file.
    ///
    /// # Errors
    /// Where the file is no reader's, is cut off, or doesn't fit together.
    pub fn load(bytes: &[u8]) -> Result<Self, ReaderError> {
        let weights = Weights::read(bytes)?;
        let encoder = Encoder::new(&weights)?;
        let (numbers, width) = weights.rows("marks.weight")?;
        let mark_rows = Rows { numbers, width };
        if mark_rows.count() <= weights.marks.len() || width != encoder.width() {
            return Err(ReaderError::Missing("marks.weight".into()));
        }
        let first = Memory::new(&weights, "memory1", width)?;
        let second = Memory::new(&weights, "memory2", first.width())?;
        let wide = width + second.width();
        let start = <[f32; SIDES]>::try_from(weights.rows("start")?.0);
        Ok(Self {
            pieces: Pieces::new(&weights.pieces),
            marks: weights.marks.iter().cloned().zip(1..).collect(),
            items: weights.items.clone(),
            encoder,
            mark_rows,
            memories: [first, second],
            norm: Norm::after_memory(&weights)?,
            start: start.map_err(|_| ReaderError::Missing("start".into()))?,
            words: WordHeads::new(&weights, wide)?,
            anchors: AnchorHeads::new(&weights, wide)?,
            parts: PartHeads::new(&weights, wide)?,
        })
    }

    /// Reads a narration. `place_of` tells the place of an item in the catalogue by its id.
    ///
    /// # Errors
    /// Where the arithmetic fails, as on a machine that runs out of memory.
    pub fn read(
        &self,
        input: &Input,
        place_of: &dyn Fn(&str) -> Option<u16>,
    ) -> Result<Reading, ReaderError> {
        if input.words.is_empty() {
            return Ok(Reading::default());
        }
        let words = self.vectors(input)?;
        let status = chances_of(self.words.status.rows(&words)?);
        let tags = chances_of(self.words.tags.rows(&words)?);
        let (moves, stays) = (self.words.moves.rows(&words)?, self.words.stays.rows(&words)?);
        let where_at = sides(&of_sides(&moves), &of_sides(&stays), &self.start);
        let begins = (0..input.words.len()).filter(|at| input.marks[*at].iter().any(|m| m == super::input::SENTENCE));
        let between = Between::new(input.words.len(), input.things.iter().map(|t| t.last), begins);
        let spans = Spans::new(&words, input);
        let mut places: Vec<usize> = input.things.iter().map(|thing| thing.last).collect();
        places.extend((0..status.len()).filter(|at| status[*at][0] < TALK));
        places.sort_unstable();
        places.dedup();
        let near = Near::new(input, &between, places);
        let odds = self.anchors.of(&words, &spans, &near)?;
        let told = stretches(&tags);
        let near_parts = NearParts::new(input, &between, told.iter().map(|s| (s.first, s.last)).collect());
        let part_odds = self.parts.of(&words, &spans, &near_parts)?;
        let catalogue: Vec<Option<u16>> = self.items.iter().map(|id| place_of(id)).collect();
        let anchor = |n: usize| anchor(n, &near, &odds, &status, &where_at, input, &catalogue);
        let part = |(n, stretch): (usize, &Stretch)| part(n, stretch, &near_parts, &part_odds, &where_at);
        Ok(Reading {
            anchors: (0..near.anchors.len()).map(anchor).collect(),
            parts: told.iter().enumerate().map(part).collect(),
            sides: where_at.iter().map(|row| row.map(rounded)).collect(),
        })
    }

    /// The vector of each word.
    fn vectors(&self, input: &Input) -> Result<Rows, ReaderError> {
        let cut: Vec<Vec<u32>> = input.words.iter().map(|word| self.pieces.of(word)).collect();
        let flat: Vec<u32> = cut.iter().flatten().copied().collect();
        let pieces = self.encoded(&flat)?;
        let width = self.encoder.width();
        let mut numbers = vec![0.0; cut.len() * width];
        let mut at = 0;
        for (word, own) in cut.iter().enumerate() {
            let row = &mut numbers[word * width..(word + 1) * width];
            let share = 1.0 / own.len() as f32;
            for piece in at..at + own.len() {
                row.iter_mut().zip(pieces.row(piece)).for_each(|(sum, x)| *sum += share * x);
            }
            at += own.len();
            let known: Vec<usize> = input.marks[word].iter().filter_map(|m| self.marks.get(m).copied()).collect();
            for mark in if known.is_empty() { vec![0] } else { known } {
                row.iter_mut().zip(self.mark_rows.row(mark)).for_each(|(sum, x)| *sum += x);
            }
        }
        let seen = Rows { numbers, width };
        let first = self.memories[0].of(&seen)?;
        let mut kept = self.memories[1].of(&first)?;
        kept.numbers.iter_mut().zip(&first.numbers).for_each(|(sum, x)| *sum += x);
        let both = |word: usize| [seen.row(word), kept.row(word)].concat();
        let joined = Rows { numbers: (0..cut.len()).flat_map(both).collect(), width: width + kept.width };
        Rows::from(&self.norm.of(&joined.tensor()?)?)
    }

    /// The vector of each piece, out of the window in which it stands most central.
    fn encoded(&self, pieces: &[u32]) -> Result<Rows, ReaderError> {
        let (count, width) = (pieces.len(), self.encoder.width());
        let mut starts = vec![0];
        while starts[starts.len() - 1] + WINDOW < count {
            starts.push((starts[starts.len() - 1] + STRIDE).min(count - WINDOW));
        }
        let mut numbers = Vec::with_capacity(count * width);
        for (n, start) in starts.iter().copied().enumerate() {
            let end = (start + WINDOW).min(count);
            let window: Vec<u32> =
                std::iter::once(OPENS).chain(pieces[start..end].iter().copied()).chain([CLOSES]).collect();
            let told = self.encoder.of(&window)?;
            let next = starts.get(n + 1).copied();
            // As central in the next window as here: the earlier one has it.
            let until = next.map_or(end, |next| (start + WINDOW - 1 + next) / 2 + 1);
            let done = numbers.len() / width;
            numbers.extend_from_slice(&told.numbers[(done - start + 1) * width..(until - start + 1) * width]);
        }
        Ok(Rows { numbers, width })
    }
}

fn anchor(
    n: usize,
    near: &Near,
    odds: &AnchorOdds,
    status: &[Vec<f32>],
    where_at: &[[f32; SIDES]],
    input: &Input,
    catalogue: &[Option<u16>],
) -> Anchor {
    let at = near.anchors[n];
    let sure = |row: &[f32], column: usize| rounded(logistic(row[column]));
    let told = |row: &[f32], places: &dyn Fn(usize) -> usize, fixed: usize| pointed(row, places, fixed);
    let number = told(&odds.number[n], &|k| near.numbers[n][k].0, 2);
    let antecedent = told(&odds.antecedent[n], &|k| near.things[n][k].0, 1);
    Anchor {
        at,
        status: std::array::from_fn(|k| rounded(status[at][k])),
        works: std::array::from_fn(|k| sure(odds.works.row(n), k)),
        only_if: sure(odds.yes.row(n), 0),
        look: sure(odds.yes.row(n), 1),
        unit: soft(odds.unit.row(n)).try_into().unwrap_or_default(),
        item: items(odds.item.row(n), &odds.antecedent[n], &near.things[n], input, catalogue),
        antecedent: plain(antecedent),
        side: where_told(odds.own_side.row(n), &where_at[at]),
        number: number
            .into_iter()
            .map(|(to, p)| match to {
                Err(0) => (Number::Unsaid, p),
                Err(_) => (Number::One, p),
                Ok(n) => (Number::Amount(n), p),
            })
            .collect(),
        size: plain(told(&odds.size[n], &|k| near.numbers[n][k].0, 1)),
        structure: plain(told(&odds.structure[n], &|k| near.structures[n][k].0, 1)),
    }
}

fn part(n: usize, told: &Stretch, near: &NearParts, odds: &PartOdds, where_at: &[[f32; SIDES]]) -> Part {
    let length = |row: &[f32]| {
        let found = plain(pointed(row, &|k| near.lengths[n][k].0, 1));
        found.into_iter().map(|(to, p)| (to.map(|n| (n / 2, n % 2 == 1)), p)).collect()
    };
    Part {
        first: told.first,
        last: told.last,
        kind: told.kinds.map(rounded),
        side: where_told(odds.side.row(n), &where_at[told.last]),
        item: plain(pointed(&odds.item[n], &|k| near.things[n][k].0, 1)),
        width: length(&odds.wide[n]),
        height: length(&odds.high[n]),
    }
}

/// The chances of the items: of the anchor's own name, and of the things it may stand for.
fn items(
    own: &[f32],
    antecedent: &[f32],
    things: &[(usize, [usize; 4])],
    input: &Input,
    catalogue: &[Option<u16>],
) -> Vec<(Option<u16>, f32)> {
    let back = softmax(antecedent);
    let mut sums: FxHashMap<Option<u16>, f32> = FxHashMap::default();
    for (class, chance) in softmax(own).into_iter().enumerate() {
        // The class behind the last item is what isn't in the catalogue; an item that the catalogue lacks is nothing.
        let item = match catalogue.get(class) {
            Some(None) => continue,
            Some(Some(item)) => Some(*item),
            None => None,
        };
        *sums.entry(item).or_default() += back[0] * chance;
    }
    for ((thing, _), chance) in things.iter().zip(&back[1..]) {
        *sums.entry(input.things[*thing].item).or_default() += chance;
    }
    let mut all: Vec<(Option<u16>, f32)> = sums.into_iter().map(|(item, p)| (item, rounded(p))).collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let likely = all.iter().take_while(|(_, p)| *p > FAINT_ITEM).count().max(1);
    all.truncate(likely);
    all
}

/// What a pointer's odds come to, the likeliest first: fixed answers as `Err`, candidates as `Ok`.
fn pointed(
    odds: &[f32],
    places: &dyn Fn(usize) -> usize,
    fixed: usize,
) -> Vec<(Result<usize, usize>, f32)> {
    let answer = |k: usize| if k < fixed { Err(k) } else { Ok(places(k - fixed)) };
    let each = softmax(odds).into_iter().enumerate().map(|(k, p)| (answer(k), rounded(p)));
    let mut all: Vec<_> = each.filter(|(_, p)| *p > FAINT).collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    all
}

/// The same with one fixed answer, which is none.
fn plain(all: Vec<(Result<usize, usize>, f32)>) -> Vec<(Option<usize>, f32)> {
    all.into_iter().map(|(to, p)| (to.ok(), p)).collect()
}

/// Where something is: where the narrator stands, unless its own words say otherwise.
fn where_told(own: &[f32], stands: &[f32; SIDES]) -> [f32; SIDES] {
    let says = logistic(own[0]);
    let said = softmax(&own[1..]);
    std::array::from_fn(|side| rounded((1.0 - says) * stands[side] + says * said[side]))
}

fn of_sides(rows: &Rows) -> Vec<[f32; SIDES]> {
    (0..rows.count()).map(|at| std::array::from_fn(|side| rows.row(at)[side])).collect()
}

fn chances_of(rows: Rows) -> Vec<Vec<f32>> {
    (0..rows.count()).map(|at| softmax(rows.row(at))).collect()
}

fn soft(odds: &[f32]) -> Vec<f32> {
    softmax(odds).into_iter().map(rounded).collect()
}

fn softmax(odds: &[f32]) -> Vec<f32> {
    let most = odds.iter().copied().fold(f32::NEG_INFINITY, f32::max);
    let raised: Vec<f32> = odds.iter().map(|z| (z - most).exp()).collect();
    let sum: f32 = raised.iter().sum();
    raised.into_iter().map(|z| z / sum).collect()
}

fn logistic(odds: f32) -> f32 {
    1.0 / (1.0 + (-odds).exp())
}

/// To four decimals: what machines compute differently lies below.
fn rounded(chance: f32) -> f32 {
    (chance * 10_000.0).round() / 10_000.0
}
