//! How long each stage takes from words to a draft, on the narrations of the writers of the rules joined (some 14,700
//! words).
//!
//! `cargo bench --no-default-features`; one core. The throughput of `draft` counts words, not bytes.

// A bench may unwrap: its failure is the message.
#![allow(clippy::unwrap_used, missing_docs)]

#[allow(dead_code)]
#[path = "../tests/harness/narration.rs"]
mod written;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use eavesdraft::language::phrases::Groundwork;
use eavesdraft::language::rules::Grammar;
use eavesdraft::language::tokens::{Break, Tokens};
use eavesdraft::language::{discourse, mentions, pieces, punctuation};
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use std::hint::black_box;

/// The narrations of the writers of the rules, one after the other.
fn narrations() -> Transcript {
    let all = ["clean", "captions"].into_iter().flat_map(|kind| written::narrations(kind).unwrap());
    let texts: Vec<String> =
        all.filter(|told| told.author() == "rule-writers").map(|told| told.text).collect();
    Transcript::from_plain(&texts.join("\n"))
}

fn stages(criterion: &mut Criterion) {
    let grammar = Grammar::built_in().unwrap();
    let transcript = narrations();
    let tokens = Tokens::new(&transcript, &grammar.vocabulary);
    let ground = Groundwork::new(tokens.clone(), &grammar);
    let found = pieces::find(&transcript, &grammar);
    let mut group = criterion.benchmark_group("from words");
    group.throughput(Throughput::Elements(transcript.words().count() as u64));
    group.bench_function("tokens", |b| b.iter(|| Tokens::new(black_box(&transcript), &grammar.vocabulary)));
    group.bench_function("phrases", |b| b.iter(|| Groundwork::new(black_box(tokens.clone()), &grammar)));
    group.bench_function("breaks of bare words", |b| {
        b.iter(|| {
            let mut bare = tokens.clone();
            bare.list.iter_mut().for_each(|t| t.before = Break::None);
            let mut ground = Groundwork::new(bare, &grammar);
            punctuation::restore(black_box(&mut ground));
        });
    });
    group.bench_function("mentions", |b| b.iter(|| mentions::find(black_box(&ground))));
    group.bench_function("pieces", |b| b.iter(|| pieces::find(black_box(&transcript), &grammar)));
    group.bench_function("narration", |b| b.iter(|| discourse::observe(black_box(&found), &grammar)));
    group.bench_function("draft", |b| b.iter(|| drafting::draft(black_box(&transcript), &grammar)));
    group.finish();
    criterion.bench_function("load the rules", |b| b.iter(|| Grammar::built_in().unwrap()));
}

criterion_group!(benches, stages);
criterion_main!(benches);
