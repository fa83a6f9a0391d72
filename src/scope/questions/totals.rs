//! Totals said aloud, compared with the lines that they add up. A total that became a line of its own counts everything
//! twice.

use super::HouseUnderReview;
use super::house::{amount, same};
use super::question::{Effect, Kind, Question, Reading, much};
use crate::language::rules::Ground;
use crate::model::{Exact, Line, SaidTotal, Side, Unit};

pub(super) fn ask(house: &HouseUnderReview) -> Vec<Question> {
    let rules = house.grammar.house.sums.iter();
    rules
        .flat_map(|ground| house.draft.totals.iter().filter_map(|t| Total::of(house, t)?.ask(house, ground)))
        .collect()
}

/// A total, and the lines that it may add up.
struct Total<'a> {
    total: &'a SaidTotal,
    unit: Unit,
    /// The lines that the total itself became: one a work.
    own: Vec<&'a Line>,
    /// Those that were said before it.
    parts: Vec<&'a Line>,
    /// All lines of the thing, later ones too.
    all: Vec<&'a Line>,
}

impl<'a> Total<'a> {
    /// None where a number is missing, so that nothing can be added up, and where there is nothing to add.
    fn of(house: &HouseUnderReview<'a>, total: &'a SaidTotal) -> Option<Self> {
        let item = house.grammar.item_named(&total.item)?;
        let is_of = |line: &&Line| {
            let known = line.item.as_deref().and_then(|id| house.grammar.item_named(id));
            known.is_some_and(|known| known == item || house.grammar.is_kind_of(known, item))
        };
        let all: Vec<&Line> = house.counted().filter(is_of).collect();
        let unit = total.unit.or_else(|| one_unit(&all))?;
        let itself = |line: &&Line| said_in(line, total) && is(line, unit, total);
        let (own, others): (Vec<&Line>, Vec<&Line>) = all.iter().copied().partition(itself);
        let before = |line: &&Line| line.words.is_some_and(|[first, _]| first < total.words[1]);
        let parts: Vec<&Line> = others.into_iter().filter(before).collect();
        let known = all.iter().all(|line| amount(line, unit).is_some());
        let enough = !parts.is_empty() && parts.len() + own.len() > 1;
        (known && enough).then_some(Self { total, unit, own, parts, all })
    }

    /// What things come to: two works on one thing are one.
    fn sum(&self, lines: &[&Line]) -> Exact {
        let again = |at: usize| lines[..at].iter().any(|other| is_same_thing(other, lines[at]));
        let things = (0..lines.len()).filter(|at| !again(*at));
        things.filter_map(|at| amount(lines[at], self.unit)).sum()
    }

    fn ask(&self, house: &HouseUnderReview, ground: &Ground) -> Option<Question> {
        match self.own.first() {
            Some(own) => self.became_a_line(house, ground, own),
            None => self.differs(house, ground),
        }
    }

    /// Where work was said of it, and nothing else of its kind stands on its side, it adds up that side alone.
    fn became_a_line(&self, house: &HouseUnderReview, ground: &Ground, own: &Line) -> Option<Question> {
        let beside = self.parts.iter().any(|line| line.side == own.side);
        if own.work.is_some() && !beside {
            return None;
        }
        let (parts, with) = (self.sum(&self.parts), self.sum(&self.all));
        let drop =
            |line: &&Line| Effect::Drop { line: line.id.clone(), reason: "the total of other lines".into() };
        let without = Reading {
            label: format!("{} in all", much(with - self.total.quantity, own.unit)),
            hint: "the line with the total is dropped".into(),
            effects: self.own.iter().map(drop).collect(),
        };
        let asks = format!(
            "{}: “{}” was said, and the lines before it add up to {}. Is it their total, not a line of its own?",
            house.named(own),
            self.total.quote,
            much(parts, own.unit)
        );
        let as_it_is = Reading::as_noted(format!("{} in all", much(with, own.unit)));
        let question = self.question(ground, &[&self.parts[..], &self.own[..]].concat());
        Some(question.asking(asks).offering(vec![without, as_it_is]))
    }

    fn differs(&self, house: &HouseUnderReview, ground: &Ground) -> Option<Question> {
        let first = *self.parts.first().filter(|_| !self.adds_up())?;
        let parts = much(self.sum(&self.parts), self.unit);
        let asks = format!(
            "{}: “{}” was said, but the lines before it add up to {parts}. Are the lines right?",
            house.named(first),
            self.total.quote
        );
        let readings = vec![Reading::as_noted(format!("the lines are right: {parts}"))];
        Some(self.question(ground, &self.parts).asking(asks).offering(readings))
    }

    /// Whether it is the total of all, of some sides, or only says a line over again.
    fn adds_up(&self) -> bool {
        let fits = |lines: &[&Line]| same(self.sum(lines), self.total.quantity);
        let some_sides = (1..1_u8 << SIDES.len()).any(|chosen| {
            let taken = |side| SIDES.iter().position(|s| *s == side).is_some_and(|at| chosen >> at & 1 == 1);
            fits(&self.parts.iter().copied().filter(|line| taken(line.side)).collect::<Vec<_>>())
        });
        some_sides || fits(&self.all) || self.all.iter().any(|line| is(line, self.unit, self.total))
    }

    fn question(&self, ground: &Ground, lines: &[&Line]) -> Question {
        Question::of(Kind::SaidTotal, ground, lines).about(&format!("{:?}", self.total.words))
    }
}

const SIDES: [Side; 5] = [Side::Front, Side::Right, Side::Rear, Side::Left, Side::None];

/// The unit of all lines, where they have one.
fn one_unit(lines: &[&Line]) -> Option<Unit> {
    let first = lines.first()?.unit;
    lines.iter().all(|line| line.unit == first).then_some(first)
}

/// Whether two lines tell of one thing that is worked on twice: they come from one word and have one number.
fn is_same_thing(a: &Line, b: &Line) -> bool {
    let word = |line: &Line| line.id.trim_end_matches(|c: char| c.is_ascii_lowercase()).to_owned();
    word(a) == word(b) && a.quantity == b.quantity && a.side == b.side && a.work != b.work
}

/// Whether the line came from the words of the total.
fn said_in(line: &Line, total: &SaidTotal) -> bool {
    line.words.is_some_and(|[first, last]| first <= total.words[1] && total.words[0] <= last)
}

fn is(line: &Line, unit: Unit, total: &SaidTotal) -> bool {
    amount(line, unit).is_some_and(|much| same(much, total.quantity))
}
