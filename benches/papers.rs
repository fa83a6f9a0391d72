//! How long papers take, of a scope of sixty sheets: a walk many times over.
//!
//! `cargo bench --no-default-features --bench papers`; one core.

// A bench may unwrap: its failure is the message.
#![allow(clippy::unwrap_used, missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use eavesdraft::language::rules::Grammar;
use eavesdraft::model::Draft;
use eavesdraft::output::{Beside, Job, html, pdf, scope};
use eavesdraft::scope::drafting::draft;
use eavesdraft::scope::review::Scope;
use eavesdraft::speech::Transcript;
use std::hint::black_box;

const WALK: &str = include_str!("../audio-fixtures/demo.txt");

/// How many sheets a PDF has.
fn sheets(pdf: &[u8]) -> usize {
    let kind = b"/Type/Page/";
    pdf.windows(kind.len()).filter(|window| window == kind).count()
}

fn papers(criterion: &mut Criterion) {
    let grammar = Grammar::built_in().unwrap();
    let walk = draft(&Transcript::from_plain(WALK), &grammar);
    let times = |times: usize| {
        let lines = std::iter::repeat_n(walk.lines.clone(), times).flatten().collect();
        Draft { lines, ..walk.clone() }
    };
    let page =
        |draft: &Draft| scope::page(&Job::new(draft, &Scope::of(draft), &[], &grammar), &Beside::default());
    let enough = (1..).find(|n| sheets(&pdf::pdf(&page(&times(*n))).unwrap()) >= 60).unwrap();
    let long = times(enough);
    let mut group = criterion.benchmark_group(format!("{} lines on 60 sheets", long.lines.len()));
    group.sample_size(10);
    group.bench_function("takeoff and arrangement", |b| b.iter(|| page(black_box(&long))));
    let page = page(&long);
    group.bench_function("PDF", |b| b.iter(|| pdf::pdf(black_box(&page)).unwrap()));
    group.bench_function("HTML", |b| b.iter(|| html::html(black_box(&page))));
    group.finish();
}

criterion_group!(benches, papers);
criterion_main!(benches);
