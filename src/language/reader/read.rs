//! The reader at work: from the words of a narration to what it makes of them.

use super::answers::{anchor, part, rounded, softmax};
use super::chain::sides;
use super::encoder::Encoder;
use super::heads::{AnchorHeads, Near, NearParts, PartHeads, Spans, WordHeads};
use super::input::Input;
use super::network::{Memory, Norm, Rows};
use super::parts::{Stretch, stretches};
use super::pointer::Between;
use super::reading::{Reading, SIDES};
use super::weights::{ReaderError, Weights};
use super::wordpiece::{CLOSES, OPENS, Pieces};
use rustc_hash::FxHashMap;
use std::panic::resume_unwind;

/// Pieces of words that the encoder sees at once, and how many it moves on.
const WINDOW: usize = 254;
const STRIDE: usize = 190;

/// A word whose chance of talk is below this is an anchor.
const TALK: f32 = 0.9;

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
        let encoder = Encoder::new(&weights, WINDOW + 2)?;
        let mark_rows = weights.rows("marks.weight")?;
        let width = mark_rows.width;
        if mark_rows.count() <= weights.marks.len() || width != encoder.width() {
            return Err(ReaderError::Missing("marks.weight".into()));
        }
        let first = Memory::new(&weights, "memory1", width)?;
        let second = Memory::new(&weights, "memory2", first.width())?;
        let wide = width + second.width();
        let start = <[f32; SIDES]>::try_from(weights.rows("start")?.numbers);
        Ok(Self {
            pieces: Pieces::new(&weights.pieces),
            marks: weights.marks.iter().cloned().zip(1..).collect(),
            items: weights.items.clone(),
            encoder,
            mark_rows,
            memories: [first, second],
            norm: Norm::after_memory(&weights, wide)?,
            start: start.map_err(|_| ReaderError::Missing("start".into()))?,
            words: WordHeads::new(&weights, wide)?,
            anchors: AnchorHeads::new(&weights, wide)?,
            parts: PartHeads::new(&weights, wide)?,
        })
    }

    /// Reads a narration. `place_of` tells the place of an item in the catalogue by its id.
    pub fn read(&self, input: &Input, place_of: &dyn Fn(&str) -> Option<u16>) -> Reading {
        if input.words.is_empty() {
            return Reading::default();
        }
        let words = self.vectors(input);
        let status = chances_of(self.words.status.rows(&words));
        let tags = chances_of(self.words.tags.rows(&words));
        let (moves, stays) = (self.words.moves.rows(&words), self.words.stays.rows(&words));
        let where_at = sides(&of_sides(&moves), &of_sides(&stays), &self.start);
        let begins =
            (0..input.words.len()).filter(|at| input.marks[*at].iter().any(|m| m == super::input::SENTENCE));
        let between = Between::new(input.words.len(), input.things.iter().map(|t| t.last), begins);
        let spans = Spans::new(&words, input);
        let mut places: Vec<usize> = input.things.iter().map(|thing| thing.last).collect();
        places.extend((0..status.len()).filter(|at| status[*at][0] < TALK));
        places.sort_unstable();
        places.dedup();
        let near = Near::new(input, &between, places);
        let odds = self.anchors.of(&words, &spans, &near);
        let told = stretches(&tags);
        let near_parts = NearParts::new(input, &between, told.iter().map(|s| (s.first, s.last)).collect());
        let part_odds = self.parts.of(&words, &spans, &near_parts);
        let catalogue: Vec<Option<u16>> = self.items.iter().map(|id| place_of(id)).collect();
        let anchor = |n: usize| anchor(n, &near, &odds, &status, &where_at, input, &catalogue);
        let part = |(n, stretch): (usize, &Stretch)| part(n, stretch, &near_parts, &part_odds, &where_at);
        Reading {
            anchors: (0..near.anchors.len()).map(anchor).collect(),
            parts: told.iter().enumerate().map(part).collect(),
            sides: where_at.iter().map(|row| row.map(rounded)).collect(),
        }
    }

    /// The vector of each word.
    fn vectors(&self, input: &Input) -> Rows {
        let cut: Vec<Vec<u32>> = input.words.iter().map(|word| self.pieces.of(word)).collect();
        let flat: Vec<u32> = cut.iter().flatten().copied().collect();
        let pieces = self.encoded(&flat);
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
            let known: Vec<usize> =
                input.marks[word].iter().filter_map(|m| self.marks.get(m).copied()).collect();
            for mark in if known.is_empty() { vec![0] } else { known } {
                row.iter_mut().zip(self.mark_rows.row(mark)).for_each(|(sum, x)| *sum += x);
            }
        }
        let seen = Rows { numbers, width };
        let first = self.memories[0].of(&seen);
        let mut kept = self.memories[1].of(&first);
        kept.numbers.iter_mut().zip(&first.numbers).for_each(|(sum, x)| *sum += x);
        let both = |word: usize| [seen.row(word), kept.row(word)].concat();
        let joined = Rows { numbers: (0..cut.len()).flat_map(both).collect(), width: width + kept.width };
        self.norm.rows(joined)
    }

    /// The vector of each piece, out of the window in which it stands most central.
    fn encoded(&self, pieces: &[u32]) -> Rows {
        let (count, width) = (pieces.len(), self.encoder.width());
        let mut starts = vec![0];
        while starts[starts.len() - 1] + WINDOW < count {
            starts.push((starts[starts.len() - 1] + STRIDE).min(count - WINDOW));
        }
        let mut numbers = Vec::with_capacity(count * width);
        for (n, told) in self.all_windows(pieces, &starts).into_iter().enumerate() {
            let (start, end) = (starts[n], (starts[n] + WINDOW).min(count));
            let next = starts.get(n + 1).copied();
            // As central in the next window as here: the earlier one has it.
            let until = next.map_or(end, |next| (start + WINDOW - 1 + next) / 2 + 1);
            let done = numbers.len() / width;
            numbers.extend_from_slice(&told.numbers[(done - start + 1) * width..(until - start + 1) * width]);
        }
        Rows { numbers, width }
    }

    /// Each window by itself, shared out among the cores: no window's numbers depend on how many there are.
    fn all_windows(&self, pieces: &[u32], starts: &[usize]) -> Vec<Rows> {
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        let window = |start: &usize| {
            let own = &pieces[*start..(start + WINDOW).min(pieces.len())];
            let window: Vec<u32> =
                std::iter::once(OPENS).chain(own.iter().copied()).chain([CLOSES]).collect();
            self.encoder.of(&window)
        };
        if starts.len() == 1 {
            return vec![window(&starts[0])];
        }
        let each = |own: &[usize]| own.iter().map(window).collect::<Vec<Rows>>();
        let share = starts.len().div_ceil(cores);
        std::thread::scope(|scope| {
            let at_work: Vec<_> = starts.chunks(share).map(|own| scope.spawn(move || each(own))).collect();
            let done =
                at_work.into_iter().map(|share| share.join().unwrap_or_else(|panic| resume_unwind(panic)));
            done.flatten().collect()
        })
    }
}

fn of_sides(rows: &Rows) -> Vec<[f32; SIDES]> {
    (0..rows.count()).map(|at| std::array::from_fn(|side| rows.row(at)[side])).collect()
}

fn chances_of(rows: Rows) -> Vec<Vec<f32>> {
    (0..rows.count()).map(|at| softmax(rows.row(at))).collect()
}
