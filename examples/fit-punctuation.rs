//! Fits the weights of `models/punctuation.toml`: what speaks for a comma, and for a full stop, between two words that
//! were written down without marks. Takes the narrations in `tests/narrations/clean`, which have marks, and
//! `tests/narrations/marked`, where captions have theirs; tells on standard error how a fit to the others marks each
//! fifth of them, and writes the file to standard output.
//!
//! ```sh
//! cargo run --release --no-default-features --example fit-punctuation > /tmp/punctuation.toml
//! ```

#[path = "fit/logistic.rs"]
mod logistic;
#[allow(dead_code)]
#[path = "../tests/harness/narration.rs"]
mod narration;

use eavesdraft::language::phrases::Groundwork;
use eavesdraft::language::punctuation::{self, Gap};
use eavesdraft::language::rules::{Grammar, Weight};
use eavesdraft::language::tokens::{Break, Tokens};
use eavesdraft::speech::Transcript;
use logistic::Row;
use std::collections::{BTreeMap, HashMap};
use std::io::Write;

/// How strongly the weights are held down. This and the two below were chosen among eighteen sets, by the fifths
/// (F1 0.877 to 0.887 then) and by the drafts that came of some, so the figures flatter a little.
const PENALTY: f64 = 1.0;

/// Clues that were met less often tell of single narrations.
const LEAST_MET: usize = 3;

/// Clues of which both weights are smaller are left out.
const LEAST_WEIGHT: f64 = 0.15;

/// A narration has marks if it has a full stop every so many words.
const SENTENCE: usize = 40;

const FIFTHS: usize = 5;

/// The file's first lines; what was measured follows.
const HEADER: &str = "\
# Where commas and full stops belong in words that were written down without marks: what each clue adds to the log-odds
# of any break, and to those of a full stop. The names of the clues read like `thing | work`: a thing left of the gap,
# work right of it; src/language/punctuation/clues.rs tells what each means.
#
# Fitted to speech with marks: the narrations in tests/narrations/clean and in tests/narrations/marked.
# To fit again, into a file that may then take the place of this one:
#
#     cargo run --release --no-default-features --example fit-punctuation > /tmp/punctuation.toml
#
# An office may lay weights of its own over these, clue by clue, in a [punctuation] table of its rules folder.
#
";

fn main() -> anyhow::Result<()> {
    let mut told = std::io::stderr().lock();
    let mut grammar = Grammar::built_in()?;
    let narrations = narrations(&grammar)?;
    let gaps: usize = narrations.iter().map(|n| n.gaps.len()).sum();
    writeln!(told, "{} narrations, {gaps} gaps", narrations.len())?;

    let mut all = Found::default();
    for fifth in 0..FIFTHS {
        let held_out = |n: &usize| n % FIFTHS == fifth;
        let others = (0..narrations.len()).filter(|n| !held_out(n)).map(|n| &narrations[n]);
        grammar.punctuation = fit(&others.collect::<Vec<_>>()).into_iter().collect();
        let mut found = Found::default();
        (0..narrations.len()).filter(held_out).for_each(|n| found.add(&narrations[n].tokens, &grammar));
        writeln!(told, "fifth {}: {found}", fifth + 1)?;
        all = all.with(&found);
    }
    writeln!(told, "together: {all}")?;

    let weights = fit(&narrations.iter().collect::<Vec<_>>());
    writeln!(told, "{} clues", weights.len())?;
    let mut out = std::io::stdout().lock();
    write!(out, "{HEADER}")?;
    writeln!(out, "# Each fifth of {} narrations marked by a fit to the others: {all}.\n", narrations.len())?;
    writeln!(out, "[punctuation]")?;
    for (clue, [any, full_stop]) in weights {
        writeln!(out, "{clue:?} = [{any:.2}, {full_stop:.2}]")?;
    }
    Ok(())
}

/// Speech with its marks.
struct Narration {
    tokens: Tokens,
    gaps: Vec<Gap>,
}

/// All narrations that have marks.
fn narrations(grammar: &Grammar) -> anyhow::Result<Vec<Narration>> {
    let mut texts: Vec<String> = narration::narrations("clean")?.into_iter().map(|told| told.text).collect();
    for path in narration::files("marked", "txt")? {
        texts.push(std::fs::read_to_string(narration::root().join(path))?);
    }
    let mut narrations = Vec::new();
    for text in texts {
        let tokens = Tokens::new(&Transcript::from_plain(&text), &grammar.vocabulary);
        let stops = tokens.list.iter().filter(|t| t.before == Break::Sentence).count();
        if stops * SENTENCE >= tokens.list.len() {
            let gaps = punctuation::gaps(&tokens, grammar);
            narrations.push(Narration { tokens, gaps });
        }
    }
    Ok(narrations)
}

/// The weights that a fit to some narrations gives, as they stand in the file.
fn fit(narrations: &[&Narration]) -> BTreeMap<String, Weight> {
    let gaps: Vec<&Gap> = narrations.iter().flat_map(|n| &n.gaps).collect();
    let clues = clues(&gaps);
    let numbers: HashMap<&str, u32> = clues.iter().zip(0..).map(|(clue, n)| (*clue, n)).collect();
    let fitted = |is: fn(Break) -> bool| {
        let row = |gap: &&Gap| Row {
            features: gap.clues.iter().filter_map(|c| Some((*numbers.get(c.as_str())?, 1.0))).collect(),
            is: is(gap.written),
        };
        let rows: Vec<Row> = gaps.iter().map(row).collect();
        logistic::fit(&rows.iter().collect::<Vec<_>>(), clues.len(), PENALTY)
    };
    let (any, full_stop) = (fitted(|b| b != Break::None), fitted(|b| b == Break::Sentence));
    let weights = clues.iter().zip(any.iter().zip(&full_stop));
    let telling = weights.filter(|(_, (a, f))| a.abs() >= LEAST_WEIGHT || f.abs() >= LEAST_WEIGHT);
    telling.map(|(clue, (a, f))| ((*clue).to_owned(), [rounded(*a), rounded(*f)])).collect()
}

/// The clues that were met often enough; the first is that of every gap.
fn clues<'a>(gaps: &[&'a Gap]) -> Vec<&'a str> {
    let mut met: BTreeMap<&str, usize> = BTreeMap::new();
    gaps.iter().flat_map(|gap| &gap.clues).for_each(|clue| *met.entry(clue).or_default() += 1);
    let often = met.into_iter().filter(|(clue, times)| *times >= LEAST_MET && *clue != "|");
    std::iter::once("|").chain(often.map(|(clue, _)| clue)).collect()
}

fn rounded(weight: f64) -> f32 {
    ((weight * 100.0).round() / 100.0) as f32
}

/// Breaks of narrations whose marks were taken away.
#[derive(Default)]
struct Found {
    /// Guessed where one was written.
    right: usize,
    guessed: usize,
    written: usize,
}

impl Found {
    /// Has a narration marked, as it would be in a draft, and compares.
    fn add(&mut self, written: &Tokens, grammar: &Grammar) {
        let mut bare = written.clone();
        bare.list.iter_mut().for_each(|token| token.before = Break::None);
        let mut ground = Groundwork::new(bare, grammar);
        punctuation::restore(&mut ground);
        for (written, bare) in written.list.iter().zip(&ground.tokens().list).skip(1) {
            let (written, guessed) = (written.before != Break::None, bare.before != Break::None);
            self.right += usize::from(written && guessed);
            self.guessed += usize::from(guessed);
            self.written += usize::from(written);
        }
    }

    fn with(&self, other: &Self) -> Self {
        Self {
            right: self.right + other.right,
            guessed: self.guessed + other.guessed,
            written: self.written + other.written,
        }
    }
}

impl std::fmt::Display for Found {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let of = |whole: usize| self.right as f64 / whole.max(1) as f64;
        let (precision, recall) = (of(self.guessed), of(self.written));
        let f1 = 2.0 * precision * recall / (precision + recall);
        write!(f, "precision {precision:.3}, recall {recall:.3}, F1 {f1:.3} of {} breaks", self.written)
    }
}
