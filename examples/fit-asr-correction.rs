//! Fits the weights of `models/asr_correction.toml`: when words are read as a name that they only sound like. Takes the
//! stored transcripts of `tests/narrations/recogniser` whose spoken words are known, both hearings; a candidate is right
//! where the words that were spoken are the name. Tells on standard error how a fit to the others, and the weights as
//! they stand, do on the first hearing of each narration, and writes the file to standard output.
//!
//! ```sh
//! cargo run --release --no-default-features --example fit-asr-correction > /tmp/asr_correction.toml
//! ```

#[path = "fit/logistic.rs"]
mod logistic;
#[allow(dead_code)]
#[path = "../tests/harness/narration.rs"]
mod narration;
#[path = "fit/spoken.rs"]
mod spoken;

use eavesdraft::language::asr_correction::{self, Candidate, Clues};
use eavesdraft::language::phrases::Groundwork;
use eavesdraft::language::rules::{CorrectionWeights, Grammar};
use eavesdraft::language::tokens::Tokens;
use eavesdraft::model::span::Moment;
use eavesdraft::speech::{Transcript, Word};
use logistic::Row;
use spoken::Alignment;
use std::io::Write;

/// How strongly the weights are held down.
const PENALTY: f64 = 1.0 / 30.0;

/// What stands above the weights; what was measured is told on standard error.
const HEADER: &str = "\
# When words are read as a name that they only sound like. Each clue's value times its weight, and the base, make the
# log-odds that the name was said; above zero it is read so. Raise the base and more is read so; lower it and less.
#
# A logistic regression, fitted to the stored transcripts of tests/narrations/recogniser whose spoken words are known,
# both hearings. To fit again, into a file that may then take the place of this one:
#
#     cargo run --release --no-default-features --example fit-asr-correction > /tmp/asr_correction.toml
#
# An office may put weights of its own in their place, in an [asr_correction] table of its rules folder: all of them,
# since they are one fit.

[asr_correction]
";

fn main() -> anyhow::Result<()> {
    let grammar = Grammar::built_in()?;
    let mut narrations = Vec::new();
    for kind in ["quiet", "noisy"] {
        narrations.extend(recordings(kind, &grammar)?);
    }
    let all: Vec<&Judged> = narrations.iter().flatten().flatten().collect();
    let right = all.iter().filter(|judged| judged.right).count();
    let mut told = std::io::stderr().lock();
    writeln!(told, "{} narrations, {} candidates, {right} of them right", narrations.len(), all.len())?;

    let (mut held_out, mut as_it_stands) = (Found::default(), Found::default());
    for (n, hearings) in narrations.iter().enumerate() {
        let others = narrations.iter().enumerate().filter(|(other, _)| *other != n);
        let weights = fit(&others.flat_map(|(_, hearings)| hearings.iter().flatten()).collect::<Vec<_>>())?;
        held_out.add(&hearings[0], &weights);
        as_it_stands.add(&hearings[0], &grammar.asr_correction);
    }
    writeln!(told, "a fit to the others: {held_out}")?;
    writeln!(told, "the weights as they stand: {as_it_stands}")?;
    write!(std::io::stdout().lock(), "{}", table(&all))?;
    Ok(())
}

/// A candidate, and whether its name was said.
struct Judged {
    candidate: Candidate,
    /// From when to when its words were said.
    times: [Option<Moment>; 2],
    right: bool,
}

/// The candidates of one narration: of the first hearing, and what the second one has besides.
type Hearings = [Vec<Judged>; 2];

/// All recordings of a kind. Raw captions are left out: the words of their labels are misheard themselves.
fn recordings(kind: &str, grammar: &Grammar) -> anyhow::Result<Vec<Hearings>> {
    let mut recordings = Vec::new();
    for recording in narration::recordings(kind)? {
        let text = recording.spoken.text.as_str();
        if !text.contains('.') {
            continue;
        }
        let first: Transcript = serde_json::from_str(&std::fs::read_to_string(recording.transcript())?)?;
        let second = first.of_second_pass().unwrap_or_default();
        let told = judged(&first, text, grammar);
        let mut besides = judged(&second, text, grammar);
        let same = |a: &Judged, b: &Judged| a.times == b.times && a.candidate.words == b.candidate.words;
        besides.retain(|judged| !told.iter().any(|other| same(judged, other)));
        recordings.push([told, besides]);
    }
    Ok(recordings)
}

/// The candidates of one hearing that can be told right or wrong. What stands as it was spoken wasn't misheard.
fn judged(transcript: &Transcript, text: &str, grammar: &Grammar) -> Vec<Judged> {
    let tokens = Tokens::new(transcript, &grammar.vocabulary);
    let words: Vec<&Word> = transcript.words().collect();
    let alignment = Alignment::new(text, words.iter().map(|word| word.text.as_str()));
    let judge = |candidate: Candidate| {
        let first = tokens.list[candidate.first].heard as usize;
        let last = tokens.list[candidate.end - 1].heard_last as usize;
        let name: String = candidate.words.iter().map(|word| grammar.vocabulary.word(*word)).collect();
        let right = alignment.is_spoken(first, last, &name)?;
        let times = [words[first].start, words[last].end];
        (!right || alignment.misheard(first, last)).then_some(Judged { candidate, times, right })
    };
    let ground = Groundwork::new(tokens.clone(), grammar);
    asr_correction::candidates(&ground, transcript, |_| 0.0).into_iter().filter_map(judge).collect()
}

/// The weights that a fit to some candidates gives, as they stand in the table.
fn fit(judged: &[&Judged]) -> anyhow::Result<CorrectionWeights> {
    let file: toml::Table = table(judged).parse()?;
    Ok(file["asr_correction"].clone().try_into()?)
}

fn table(judged: &[&Judged]) -> String {
    let values = |clues: &Clues| clues.by_name().map(|(_, value)| value as f32);
    let row = |judged: &&Judged| Row {
        features: (0..).zip([1.0].into_iter().chain(values(&judged.candidate.clues))).collect(),
        is: judged.right,
    };
    let rows: Vec<Row> = judged.iter().map(row).collect();
    let names = judged.first().map(|judged| judged.candidate.clues.by_name().map(|(name, _)| name));
    let names: Vec<&str> = std::iter::once("base").chain(names.into_iter().flatten()).collect();
    let weights = logistic::fit(&rows.iter().collect::<Vec<_>>(), names.len(), PENALTY);
    let lines = names.iter().zip(weights).map(|(name, weight)| format!("{name} = {weight:.1}\n"));
    HEADER.to_owned() + &lines.collect::<String>()
}

/// Names that were misheard, and what they were taken for.
#[derive(Default)]
struct Found {
    right: usize,
    wrong: usize,
    /// To be found.
    names: usize,
}

impl Found {
    /// Adds what some weights take for misheard in one hearing.
    fn add(&mut self, judged: &[Judged], weights: &CorrectionWeights) {
        let odds = |judged: &Judged| asr_correction::log_odds(&judged.candidate.clues, weights);
        let taken = apart(judged.iter().filter(|judged| odds(judged) > 0.0), odds);
        let right = taken.iter().filter(|judged| judged.right).count();
        self.right += right;
        self.wrong += taken.len() - right;
        self.names +=
            apart(judged.iter().filter(|judged| judged.right), |judged| judged.candidate.clues.alike).len();
    }
}

/// The likeliest of those that overlap, as the program takes them.
fn apart<'a>(judged: impl Iterator<Item = &'a Judged>, odds: impl Fn(&Judged) -> f64) -> Vec<&'a Judged> {
    let mut likely: Vec<&Judged> = judged.collect();
    likely.sort_by(|a, b| odds(b).total_cmp(&odds(a)).then(a.candidate.first.cmp(&b.candidate.first)));
    let mut taken: Vec<&Judged> = Vec::new();
    for judged in likely {
        let (first, end) = (judged.candidate.first, judged.candidate.end);
        if taken.iter().all(|other| other.candidate.end <= first || end <= other.candidate.first) {
            taken.push(judged);
        }
    }
    taken
}

impl std::fmt::Display for Found {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{} of {} names found, {} times something else taken for one",
            self.right, self.names, self.wrong
        )
    }
}
