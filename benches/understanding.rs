//! How long each stage takes from words to a draft, on the labelled narrations joined (some 14,700 words).
//!
//! `cargo bench --no-default-features`; one core. The throughput of `draft` counts words, not bytes.

// A bench may unwrap: its failure is the message.
#![allow(clippy::unwrap_used, missing_docs)]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use eavesdraft::language::rules::Grammar;
use eavesdraft::language::tokens::{Break, Tokens};
use eavesdraft::language::{discourse, mentions, punctuation};
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use std::hint::black_box;

/// All labelled narrations, one after the other.
fn narrations() -> Transcript {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/narrations/labelled");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.sort();
    let text = |path| {
        let label: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        label["text"].as_str().unwrap().to_owned()
    };
    Transcript::from_plain(&paths.into_iter().map(text).collect::<Vec<_>>().join("\n"))
}

fn stages(criterion: &mut Criterion) {
    let grammar = Grammar::built_in().unwrap();
    let transcript = narrations();
    let tokens = Tokens::new(&transcript, &grammar.vocabulary);
    let found = mentions::find(&tokens, &grammar);
    let mut group = criterion.benchmark_group("from words");
    group.throughput(Throughput::Elements(transcript.words().count() as u64));
    group.bench_function("tokens", |b| b.iter(|| Tokens::new(black_box(&transcript), &grammar.vocabulary)));
    group.bench_function("breaths of bare words", |b| {
        b.iter(|| {
            let mut bare = tokens.clone();
            bare.list.iter_mut().for_each(|t| t.before = Break::None);
            punctuation::mark(black_box(&mut bare), &grammar);
        });
    });
    group.bench_function("mentions", |b| b.iter(|| mentions::find(black_box(&tokens), &grammar)));
    group.bench_function("narration", |b| b.iter(|| discourse::follow(&tokens, black_box(&found), &grammar)));
    group.bench_function("draft", |b| b.iter(|| drafting::draft(black_box(&transcript), &grammar)));
    group.finish();
    criterion.bench_function("load the rules", |b| b.iter(|| Grammar::built_in().unwrap()));
}

criterion_group!(benches, stages);
criterion_main!(benches);
