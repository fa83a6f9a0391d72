//! The draft scope: lines with their doubts, and what stands beside them.
//!
//! Takes a transcript and the grammars and gives a [`Draft`]: the pieces of the narration are found, the talk is
//! followed, and what was understood is written down line by line. Pure; it can't fail,
//! and the same words give the same draft.

mod beside;
mod confidence;
mod doubts;
mod judge;
mod lines;
mod readings;
mod second;
mod source;

#[cfg(feature = "compare")]
pub(in crate::scope) use lines::unit_of;

use crate::language::discourse::{self, Account, Status, Thing};
use crate::language::pieces::{self, Pieces};
use crate::language::reader::{Input, Reader};
use crate::language::rules::Grammar;
use crate::model::{Cleared, Draft, FollowUp, Line};
use crate::speech::Transcript;
use judge::{Judge, RuleLine};
use rustc_hash::FxHashMap;
use source::Source;

/// Who drafts.
#[derive(Clone, Copy)]
pub enum Drafter<'a> {
    /// The rules with a reader, judged together.
    Judge(&'a Reader),
    /// The rules alone.
    Rules,
}

impl Drafter<'static> {
    /// The rules with the reader that the program carries; the rules alone where it can't be loaded.
    pub fn built_in() -> Self {
        Reader::built_in().map_or(Self::Rules, Self::Judge)
    }
}

/// Drafts a scope from what was said. What was heard twice is drafted twice, and the drafts are compared.
pub fn draft(transcript: &Transcript, grammar: &Grammar) -> Draft {
    let drafter = Drafter::built_in();
    let mut draft = draft_by(transcript, grammar, drafter);
    if matches!(drafter, Drafter::Rules) {
        draft.notices.push(WITHOUT_READER.to_owned());
    }
    draft
}

/// Drafts a scope by the rules alone: what they find and how they relate it is one of the judge's two witnesses.
pub fn by_rules(transcript: &Transcript, grammar: &Grammar) -> Draft {
    draft_by(transcript, grammar, Drafter::Rules)
}

/// Drafts a scope with a reader of one's own, or by the rules alone, to measure what each is worth.
pub fn draft_by(transcript: &Transcript, grammar: &Grammar, drafter: Drafter) -> Draft {
    let first = draft_once(transcript, grammar, drafter);
    match transcript.of_second_pass() {
        Some(again) => {
            let second = draft_once(&again, grammar, drafter);
            second::compare(first, second, transcript, &again)
        }
        None => first,
    }
}

fn draft_once(transcript: &Transcript, grammar: &Grammar, drafter: Drafter) -> Draft {
    let pieces = pieces::find(transcript, grammar);
    let account = discourse::observe(&pieces, grammar);
    let source = Source::new(transcript, &pieces.tokens, grammar);
    let by_rules = lines::lines(&source, things(&account, Status::Scope));
    match drafter {
        Drafter::Judge(reader) if pieces.tokens.list.len() >= A_WALK => {
            judged(&source, &pieces, &account, by_rules, reader)
        }
        _ => written(&source, &account, by_rules.into_iter().map(|rule| rule.line).collect()),
    }
}

/// Fewer words than this are no walk. The reader was trained on whole walks and is at a loss with a few sentences, so
/// the rules draft those alone.
const A_WALK: usize = 60;

/// What a draft says that only the rules made.
const WITHOUT_READER: &str = "Drafted without the reader: review every line.";

/// What rules and reader say of the same words, judged.
fn judged(
    source: &Source,
    pieces: &Pieces,
    account: &Account,
    by_rules: Vec<RuleLine>,
    reader: &Reader,
) -> Draft {
    let input = Input::of(pieces, source.grammar);
    let items: FxHashMap<&str, u16> =
        source.grammar.items.iter().zip(0..).map(|(item, place)| (item.id.as_str(), place)).collect();
    let reading = reader.read(&input, &|id| items.get(id).copied());
    let Some(judge) = Judge::new(source, pieces, &input, &reading) else {
        let mut draft = written(source, account, by_rules.into_iter().map(|rule| rule.line).collect());
        draft.notices.push(WITHOUT_READER.to_owned());
        return draft;
    };
    let judged = judge.lines(&by_rules);
    let mut draft = written(source, account, judged.lines);
    let kept = |words: &Cleared| !judge.holds(words, &draft.lines);
    draft.mentioned.retain(kept);
    draft.unused.retain(kept);
    draft.unused.extend(judged.dropped.iter().map(beside::of_line));
    let (follow_ups, again) = judge::follow_ups(&judge);
    draft.unused.extend(again.iter().map(beside::of_follow_up));
    let said =
        |todo: &FollowUp, all: &[FollowUp]| all.iter().any(|other| same_words(&other.quote, &todo.quote));
    let taken = |todo: &FollowUp| said(todo, &follow_ups) || said(todo, &again);
    // What the rules heard as still to do and the reader didn't is told all the same.
    draft.unused.extend(draft.follow_ups.iter().filter(|todo| !taken(todo)).map(beside::of_follow_up));
    draft.unused.sort_by(|a, b| a.start.partial_cmp(&b.start).unwrap_or(std::cmp::Ordering::Equal));
    draft.no_work = judge::cleared(&judge, &draft.no_work);
    draft.follow_ups = follow_ups;
    draft.dimensions = judge::dimensions(&judge, &draft.dimensions);
    draft
}

/// Whether one quotation stands in the other.
fn same_words(one: &str, other: &str) -> bool {
    one.contains(other) || other.contains(one)
}

fn things(account: &Account, status: Status) -> impl Iterator<Item = &Thing> {
    account.things.iter().filter(move |thing| thing.status == status)
}

/// What was understood, written down.
fn written(source: &Source, account: &Account, mut lines: Vec<Line>) -> Draft {
    lines::tell_apart(&mut lines);
    let transcript = source.transcript;
    let passing = things(account, Status::Mentioned);
    Draft {
        source: transcript.source.clone(),
        digest: transcript.digest.clone(),
        length: transcript.length,
        notices: transcript.notices.clone(),
        clips: transcript.clips.clone(),
        cautions: beside::cautions(source, account, &lines),
        lines,
        no_work: beside::no_work(source, account),
        mentioned: passing.map(|t| beside::words_at(source, t.item, t.span, &t.place)).collect(),
        unused: account.unused.iter().map(|u| beside::words_at(source, None, u.span, &u.place)).collect(),
        follow_ups: account.follow_ups.iter().map(|todo| beside::follow_up(source, todo)).collect(),
        dimensions: account.dimensions.iter().map(|said| beside::dimension(source, said)).collect(),
        slopes: account.slopes.iter().map(|slope| beside::slope(source, slope)).collect(),
        measured: Vec::new(),
        totals: account.totals.iter().map(|total| beside::total(source, total)).collect(),
    }
}
