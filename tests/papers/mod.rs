//! Papers: the scope as a PDF, the workbook, the tables, the record, chapters, prices, photos.

mod chapters;
mod elements;
mod office;
pub mod pdf;
mod photos;
mod prices;
mod record;
mod table;
mod workbook;

use eavesdraft::draft::{Draft, draft};
use eavesdraft::grammar::Grammar;
use eavesdraft::papers::Job;
use eavesdraft::papers::prices::{PriceList, Priced, priced};
use eavesdraft::review::{Act, Deed, Desk, Fields, Hand, Scope, Seen};
use eavesdraft::span::Moment;
use eavesdraft::words::Transcript;
use std::sync::LazyLock;

static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| Grammar::built_in().unwrap());

/// A walk with measures, a range, a conditional line, follow-ups and lines without a number.
const WALK: &str = "Front elevation. The wall is forty by eight foot four inches. Vinyl siding, remove and replace. One nine \
                    by seven garage door, detach and reset. Two coach lights, detach and reset. Gutter, about fourteen \
                    feet, remove and replace. If the window wrap is dented, replace it. Get a photo of the mailbox. \
                    Right elevation. The wall is twenty six feet wide and nine feet high, and the gable is twenty six \
                    wide and eight at the peak. Vinyl siding, remove and replace. Gutter, ten to twelve feet, remove and \
                    replace. Shutters, paint them. Gas meter, detach and reset. Someone needs to run a tape on the \
                    fence here. Rear elevation. No damage to the deck. Gutter, eight foot four inches, remove and \
                    replace. Check whether the hose bib leaks. Left elevation. Mailbox, replace.";

/// A scope on its way, and all that it is made from.
struct Table {
    transcript: Transcript,
    draft: Draft,
    acts: Vec<Act>,
    scope: Scope,
}

impl Table {
    /// What was said, without times.
    fn new(words: &str) -> Self {
        Self::of(Transcript::from_plain(words))
    }

    /// What was said, a word every half second from the start.
    fn timed(words: &str) -> Self {
        let mut transcript = Transcript::from_plain(words);
        let mut at = 0;
        for word in transcript.utterances.iter_mut().flat_map(|utterance| &mut utterance.words) {
            (word.start, word.end) = (Some(Moment(at)), Some(Moment(at + 400)));
            at += 500;
        }
        transcript.length = Some(Moment(at + 5_000));
        Self::of(transcript)
    }

    fn of(transcript: Transcript) -> Self {
        let transcript = Transcript { source: "14 Elm Street.m4a".to_owned(), ..transcript };
        let draft = draft(&transcript, &GRAMMAR);
        Self { scope: Scope::of(&draft), transcript, draft, acts: Vec::new() }
    }

    /// Somebody does something and has seen everything as it is.
    fn does(&mut self, who: &str, deed: Deed) {
        let lines = self.scope.entries.iter().map(|entry| (entry.id().to_owned(), entry.version));
        let tasks = self.scope.tasks.iter().map(|task| (task.id.clone(), task.version));
        let seen: Seen = lines.chain(tasks).collect();
        let hand = Hand { who: who.to_owned(), at: "2026-01-02T03:04:05Z".to_owned(), seen };
        let Self { transcript, acts, scope, draft } = self;
        let act = Desk { scope, acts, transcript, draft, grammar: &GRAMMAR }.act(&hand, deed).unwrap();
        self.scope.apply(&act);
        self.acts.push(act);
    }

    /// The id of the first line of an item.
    fn line(&self, item: &str) -> String {
        let found = self.scope.entries.iter().find(|entry| entry.line.item.as_deref() == Some(item));
        found.unwrap_or_else(|| panic!("no {item} in {:#?}", self.scope.entries)).id().to_owned()
    }

    fn job(&self) -> Job<'_> {
        Job::new(&self.draft, &self.scope, &self.acts, &GRAMMAR)
    }
}

/// The walk with a few acts on it: a change, a line that is dropped, one that begins like a formula, a task that is done.
fn walked() -> Table {
    let mut table = Table::timed(WALK);
    let lights = table.line("light-fixture");
    let three = Fields { quantity: Some("3".to_owned()), ..Fields::default() };
    table.does("Ann", Deed::Change { line: lights, fields: three });
    let mailbox = table.line("mailbox");
    table.does("Ann", Deed::Drop { lines: vec![mailbox], reason: "=theirs, not ours".to_owned() });
    let fields = Fields {
        item: Some("=HYPERLINK(\"http://example.invalid\")".to_owned()),
        quantity: Some("2".to_owned()),
        detail: Some("+cedar".to_owned()),
        ..Fields::default()
    };
    table.does("@Bo", Deed::Add { words: None, fields });
    let todo = table.scope.tasks[0].id.clone();
    table.does("Bo", Deed::Done { todo });
    table
}

#[test]
fn the_walk_has_something_of_everything() {
    let table = walked();
    let job = table.job();
    let lines = &job.now.lines;
    assert!(lines.iter().any(|line| line.only_if), "{lines:#?}");
    assert!(lines.iter().any(|line| line.low < line.high), "{lines:#?}");
    assert!(lines.iter().any(|line| line.quantity.is_none()), "{lines:#?}");
    assert!(!job.takeoff.figures.is_empty());
    assert!(job.scope.tasks.iter().any(|task| task.done.is_some()));
    assert!(job.scope.tasks.iter().any(|task| task.done.is_none()));
}

/// The walk with prices of the test's own.
fn prices_of_the_walk(job: &Job) -> Priced {
    let list = "item,work,unit,price\ngutter,,ft,7.35\nsiding,,sq ft,4.125\nlight fixture,,each,45.005\ngas meter,,each,99.99\n";
    let list = PriceList::read("prices.csv", list.as_bytes(), &GRAMMAR).unwrap();
    let percents = ["overhead=10", "profit=10:compound"].map(|percent| percent.parse().unwrap());
    priced(job, &list, &percents)
}
