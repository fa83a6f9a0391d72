//! The listener: what is in mind at a moment of the talk.

use super::account::{Account, ClearedThing, DimensionSaid, FollowUpSaid, Place, RoofSlope, Span};
use super::entity::Entity;
use super::place::Places;
use crate::language::mentions::{Kind, Mention};
use crate::language::rules::{Form, Grammar, Meaning};
use crate::language::tokens::{Break, Tokens};
use crate::model::{FollowUpKind, Shape, Work};

/// A cue that waits for its object.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Pending {
    Work { work: Work, rule: usize, span: Span },
    Clear { span: Span },
    Scratch { span: Span },
    FollowUp { kind: FollowUpKind, span: Span },
}

/// A stretch of talk that changes how what is in it is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scope {
    /// Where it opened.
    pub first: usize,
    /// Something was already bound in it.
    pub used: bool,
}

/// Follows the talk.
pub(super) struct Tracker<'a> {
    pub tokens: &'a Tokens,
    pub mentions: &'a [Mention],
    pub grammar: &'a Grammar,
    /// The sentence each token is in.
    sentences: Vec<u32>,
    pub places: Places,
    /// The side was read from its sound, and no line tells of it yet.
    pub side_by_sound: bool,
    pub entities: Vec<Entity>,
    pub follow_ups: Vec<FollowUpSaid>,
    pub dimensions: Vec<DimensionSaid>,
    pub slopes: Vec<RoofSlope>,
    pub cleared: Vec<ClearedThing>,
    /// The entities in mind, the latest last.
    pub focus: Vec<usize>,
    /// The first entity of the run of things listed since something was last settled.
    pub run: usize,
    pub pending: Option<Pending>,
    pub last_work: Option<(Work, usize)>,
    /// "if".
    pub condition: Option<Scope>,
    /// Work is only asked about: "should we replace".
    pub question: Option<usize>,
    /// "might".
    pub might: Option<usize>,
    /// "people forget …".
    pub aside: Option<Scope>,
    /// "when the siding comes off".
    pub beside: Option<Scope>,
    /// "no, make that".
    pub correcting: Option<usize>,
    /// "it never had one".
    pub lacking: Option<usize>,
    /// "totals again for the office".
    pub recap: Option<Scope>,
    /// "except".
    pub except: Option<usize>,
    /// The last thing said not to be there, in case it was only cleared: "no shingles, they're okay".
    pub negated: Option<(u16, Place, Span)>,
    /// What begins before this token was taken already.
    pub passed_until: usize,
    /// One past the last thing that only told where another one is.
    pub passed: usize,
    /// That thing's mention, if it was said in the plural.
    pub passed_many: Option<usize>,
    /// Work said of no one thing yet: "the whole roof's getting replaced, and that's eighteen square of shingles".
    pub unbound: Option<super::entity::WorkHeard>,
    /// Work said of a list that follows: "next group, detach and reset".
    pub heading: Option<super::headings::Heading>,
    /// What was just cleared with a pronoun, and where: "nothing wrong with any of it, it just comes off".
    pub just_cleared: (Vec<usize>, usize),
    /// The thing that last only told where another one is, and where it was named: a part of it may be meant next.
    pub landmark: Option<(u16, usize)>,
    /// Work and lengths heard, with where the narrator stood.
    pub heard: Vec<(usize, super::account::Place)>,
    /// Two sides were named together: "front and back".
    pub two_sides: Option<usize>,
    /// One of several that was singled out: "that one".
    pub single: Option<super::single::Single>,
    /// A number said before its thing.
    pub loose: Option<crate::language::numbers::Amount>,
    /// "the rest of the line is": the next number is of a further piece.
    pub rest: Option<usize>,
    /// An amount to be taken over by the next thing: "same footage on the leaf guard".
    pub like_before: Option<(super::account::Quantity, Span)>,
    /// The first entity and the token since the narrator came to this side.
    pub arrived: (usize, usize),
    /// The face spoken of.
    pub face: Option<(Shape, Place, Span)>,
    /// A length said to be a width or a height, waiting for the other.
    pub one_length: Option<super::dimensions::OneLength>,
    pub groups: usize,
}

/// How far behind two sides the thing on both may be named where no mark stands between, in tokens.
const TWO_SIDES_REACH: usize = 8;

/// How far a question reaches where no mark closes it, in tokens.
const QUESTION_REACH: usize = 8;

/// How far a condition, an aside and the like reach where no punctuation closes them, in tokens.
const REACH: usize = 26;
const ASIDE_REACH: usize = 14;
const BESIDE_REACH: usize = 8;
const CORRECTING_REACH: usize = 20;
const MIGHT_REACH: usize = 8;
const RECAP_REACH: usize = 60;
const LACKING_REACH: usize = 18;

/// No phrase that matters spans more tokens.
const LONGEST_PHRASE: usize = 24;

impl<'a> Tracker<'a> {
    pub(super) fn new(tokens: &'a Tokens, mentions: &'a [Mention], grammar: &'a Grammar) -> Self {
        let mut sentence = 0;
        let number = |t: &crate::language::tokens::Token| {
            sentence += u32::from(t.before == Break::Sentence);
            sentence
        };
        let sentences = tokens.list.iter().map(number).collect();
        Self {
            tokens,
            mentions,
            grammar,
            sentences,
            places: Places::new(),
            entities: Vec::new(),
            follow_ups: Vec::new(),
            dimensions: Vec::new(),
            slopes: Vec::new(),
            cleared: Vec::new(),
            focus: Vec::new(),
            run: 0,
            side_by_sound: false,
            pending: None,
            last_work: None,
            condition: None,
            question: None,
            might: None,
            aside: None,
            beside: None,
            correcting: None,
            lacking: None,
            recap: None,
            except: None,
            negated: None,
            passed_until: 0,
            passed: 0,
            passed_many: None,
            unbound: None,
            heading: None,
            just_cleared: (Vec::new(), 0),
            landmark: None,
            heard: Vec::new(),
            two_sides: None,
            single: None,
            loose: None,
            rest: None,
            like_before: None,
            arrived: (0, 0),
            face: None,
            one_length: None,
            groups: 0,
        }
    }

    /// Takes in the next mention.
    pub(super) fn observe(&mut self, at: usize) {
        let mention = &self.mentions[at];
        self.close_scopes(mention.first);
        if mention.first < self.passed_until {
            return;
        }
        self.note_heard(at);
        match &mention.kind {
            Kind::Thing(thing) => self.thing(at, mention, thing),
            Kind::Amount(amount) => self.amount(at, amount),
            Kind::Slope(slope) => self.see_rise(slope),
            Kind::Cue(rule) => {
                self.cue(at, usize::from(*rule), Span { first: mention.first, end: mention.end })
            }
        }
    }

    pub(super) fn cue(&mut self, at: usize, rule: usize, span: Span) {
        match self.grammar.rules[rule].meaning {
            Meaning::Work(work, form) => self.work(at, rule, span, Some(work), form),
            Meaning::Off(form) => self.work(at, rule, span, None, form),
            Meaning::Same(form) => self.same(at, rule, span, form),
            Meaning::Clear(form) | Meaning::Leave(form) => self.clear(at, span, form),
            Meaning::Absent(_) => self.absent(),
            Meaning::Side(side) => self.side(side, span),
            Meaning::Compass(compass) => self.compass(compass, span),
            Meaning::AllAround => self.all_around(span),
            Meaning::Roof => self.roof(span),
            Meaning::LastSide => self.last_side(span),
            Meaning::Structure => self.structure(rule, span),
            Meaning::If => self.condition_opens(span),
            Meaning::Might => self.might = Some(span.end),
            Meaning::Ask => self.question = Some(span.first),
            Meaning::OnlyThen => self.only_then(),
            Meaning::Correct => self.correct(span),
            Meaning::Recap => {
                let used = self.last().is_some_and(|l| {
                    let said = self.entities[l].span.end;
                    said + 3 >= span.first && self.sentence(said - 1) == self.sentence(span.first)
                });
                self.recap = Some(Scope { first: span.first, used }); // gutter so far, 80
            }
            Meaning::Scratch => self.scratch(at, span),
            Meaning::FollowUp(kind, form) => self.follow_up(at, kind, span, form),
            Meaning::Aside => self.aside = Some(Scope { first: span.first, used: false }),
            Meaning::Beside => self.beside = Some(Scope { first: span.first, used: false }),
            Meaning::Unsure => self.unsure(span),
            Meaning::Lacking => self.lacking = Some(span.end),
            Meaning::Except => self.except = Some(span.end),
            Meaning::Face(shape) => self.see_face(shape, span),
            Meaning::Another => self.another_one(span),
            Meaning::SameAmount => self.same_amount(span),
            Meaning::Refer(reach) => {
                if !self.was_object(span) {
                    self.note_single(reach, span);
                }
                self.count_pronoun(reach, span);
            }
            Meaning::Rough | Meaning::Forgot | Meaning::Total | Meaning::Nothing | Meaning::Noun => {}
        }
    }

    /// A condition opens: for what follows, or behind what "we'd" do.
    fn condition_opens(&mut self, span: Span) {
        let would = |t: usize| matches!(self.word(t), "'d" | "would" | "could");
        let behind = self.last().filter(|l| {
            let work = self.entities[*l].works.last();
            work.is_some_and(|w| {
                let same = self.sentence(w.span.first) == self.sentence(span.first);
                same && w.span.end + 4 >= span.first
                    && (w.span.first.saturating_sub(4)..w.span.first).any(would)
            })
        });
        match behind {
            Some(last) => self.entities[last].works.iter_mut().for_each(|w| w.only_if = true),
            None => self.condition = Some(Scope { first: span.first, used: false }),
        }
    }

    /// "the camera, I don't know": it was pointed out, and what is to be done is open.
    fn unsure(&mut self, span: Span) {
        if let Some(last) =
            self.last().filter(|l| self.open(*l) && self.entities[*l].span.end + 6 >= span.first)
        {
            self.entities[last].presented = true;
        }
    }

    /// Ends what reaches no further than here.
    fn close_scopes(&mut self, here: usize) {
        let over = |l: &Self, from: usize| l.sentence(from) != l.sentence(here);
        let far = |scope: Scope, reach: usize| here > scope.first + reach;
        self.two_sides = self.two_sides.filter(|t| !over(self, *t) && here <= t + TWO_SIDES_REACH);
        self.question = self.question.filter(|q| !over(self, *q) && here <= q + QUESTION_REACH);
        self.condition = self.condition.filter(|c| !(c.used && over(self, c.first) || far(*c, REACH)));
        self.might = self.might.filter(|m| !over(self, m - 1) && here <= m + MIGHT_REACH);
        self.aside = self
            .aside
            .filter(|a| !over(self, a.first) && !far(*a, ASIDE_REACH) && !self.resumes(a.first, here));
        self.beside = self.beside.filter(|b| {
            self.break_between(b.first, here) < Break::Comma
                && !far(*b, BESIDE_REACH)
                && !self.resumes(b.first, here)
                && !self.opens_anew(b.first, here)
                && !(b.first + 3..here)
                    .any(|t| matches!(self.word(t), "i" | "we" | "then" | "figure" | "call"))
        });
        self.recap = self.recap.filter(|r| {
            self.sentence(here) <= self.sentence(r.first) + u32::from(!r.used) && !far(*r, RECAP_REACH)
        });
        self.lacking = self.lacking.filter(|l| here <= l + LACKING_REACH);
        self.correcting = self.correcting.filter(|c| here <= c + CORRECTING_REACH);
        self.except = self.except.filter(|e| !over(self, e - 1));
        self.rest = self.rest.filter(|r| here <= r + 8 && !over(self, r - 1));
        self.like_before = self.like_before.filter(|l| here <= l.1.end + 6);
        self.unbound = self.unbound.take().filter(|u| here <= u.span.end + REACH);
        if self.pending.as_ref().is_some_and(|p| over(self, p.span().first)) {
            self.drop_pending();
        }
        self.places.close(here, &self.sentences, &self.entities);
    }

    /// "before anybody sprays | the air conditioner's here": a thing with a verb of its own.
    fn opens_anew(&self, from: usize, here: usize) -> bool {
        here >= from + 3
            && self
                .mentions_in(here, here + 1)
                .iter()
                .any(|m| matches!(&m.kind, Kind::Thing(_)) && self.is(m.end, self.grammar.classes.be))
    }

    /// Whether the narrator comes back to the matter between two tokens: "but it's bent, so".
    fn resumes(&self, from: usize, here: usize) -> bool {
        (from + 3..here).any(|t| matches!(self.word(t), "but" | "so" | "now" | "okay"))
    }

    /// The sentence a token is in.
    pub(super) fn sentence(&self, token: usize) -> u32 {
        self.sentences.get(token).or(self.sentences.last()).copied().unwrap_or(0)
    }

    /// The strongest break after one token up to and before another.
    pub(super) fn break_between(&self, from: usize, to: usize) -> Break {
        let inside = self.tokens.list.get(from + 1..=to).unwrap_or_default();
        inside.iter().map(|t| t.before).max().unwrap_or(Break::None)
    }

    /// The word at a token; empty past the end.
    pub(super) fn word(&self, at: usize) -> &'a str {
        self.tokens.list.get(at).map_or("", |t| self.grammar.vocabulary.word(t.word))
    }

    /// Whether a token's word is in a class.
    pub(super) fn is(&self, at: usize, class: crate::language::vocabulary::ClassId) -> bool {
        self.tokens.list.get(at).is_some_and(|t| self.grammar.vocabulary.is(t.word, class))
    }

    /// The mentions that begin from one token on and before another.
    pub(super) fn mentions_in(&self, from: usize, to: usize) -> &'a [Mention] {
        let at = |token: usize| self.mentions.partition_point(|m| m.first < token);
        &self.mentions[at(from)..at(to)]
    }

    /// The mentions that begin a few tokens before one, as long as any phrase is.
    pub(super) fn mentions_before(&self, token: usize) -> &'a [Mention] {
        self.mentions_in(token.saturating_sub(LONGEST_PHRASE), token)
    }

    /// The next mention.
    pub(super) fn after(&self, at: usize) -> Option<&'a Mention> {
        self.mentions.get(at + 1)
    }

    /// What a cue means.
    pub(super) fn meaning(&self, mention: &Mention) -> Option<Meaning> {
        mention.meaning(self.grammar)
    }

    /// A cue waiting for its object that never came speaks of what was said before.
    fn drop_pending(&mut self) {
        if let Some(Pending::FollowUp { kind, span }) = self.pending.take() {
            self.follow_up_without_object(kind, span);
        }
    }

    /// Whether what is said now is about another house, a lesson, or only tells when.
    pub(super) fn ignoring(&self) -> bool {
        self.aside.is_some() || self.beside.is_some()
    }

    /// Whether what is bound now is only a possibility.
    pub(super) fn conditional(&self) -> bool {
        self.condition.is_some() || self.might.is_some() || self.question.is_some()
    }

    /// Whether the cue's object follows it.
    pub(super) fn takes_object(form: Form) -> bool {
        form != Form::Predicate
    }

    pub(super) fn finish(mut self) -> Account {
        self.drop_pending();
        self.note_one_length();
        self.narrow_by_stuff();
        self.fold_totals();
        let (unused, totals) = (self.unused(), self.said_totals());
        let things = self.things_of_scope();
        let named = self.entities.iter().filter_map(|e| Some((e.item, &e.place, e.cleared?)));
        let cleared: Vec<ClearedThing> =
            named.map(|(item, place, span)| ClearedThing { item, place: place.clone(), span }).collect();
        Account {
            things,
            cleared: cleared.into_iter().chain(self.cleared).collect(),
            follow_ups: self.follow_ups,
            dimensions: self.dimensions,
            slopes: self.slopes,
            unused,
            totals,
        }
    }
}

impl Pending {
    pub(super) fn span(&self) -> Span {
        match self {
            Pending::Work { span, .. }
            | Pending::Clear { span }
            | Pending::Scratch { span }
            | Pending::FollowUp { span, .. } => *span,
        }
    }
}
