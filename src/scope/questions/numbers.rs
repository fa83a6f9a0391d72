//! Numbers out of the ordinary: each is asked about once, and stands as it is when the reviewer says so.

use super::HouseUnderReview;
use super::house::{amount, same};
use super::question::{Kind, Question, Reading, building, much, on_the};
use crate::language::rules::{Counts, UsualNumber};
use crate::model::{Dimension, Exact, Flag, Length, Line, Shape, Side, Size, Slope, Unit, Work, wording};

/// A downspout of a single storey: a length is taken for as many of them as fit, so that too few are never made up.
const ONE_STOREY: i32 = 8;

pub(super) fn ask(house: &HouseUnderReview) -> Vec<Question> {
    house.grammar.house.numbers.iter().flat_map(|rule| of_rule(house, rule)).collect()
}

fn of_rule(house: &HouseUnderReview, rule: &UsualNumber) -> Vec<Question> {
    let lines = house.counted_of(&rule.of);
    match &rule.counts {
        Counts::Line(most, unit) => lines.iter().filter_map(|l| line(house, rule, l, *most, *unit)).collect(),
        Counts::Size(most) => lines.iter().filter_map(|l| size(house, rule, l, *most)).collect(),
        Counts::Height(shape, most) => heights(house, rule, *shape, *most),
        Counts::Structure(most, unit) => {
            each_structure(house, &lines, |lines| structure(house, rule, lines, *most, *unit))
        }
        Counts::Slope(least, most) => slopes(house, rule, *least, *most),
        Counts::Odd(works) => each_side(&lines, works, |lines| odd(house, rule, lines)),
        Counts::Few { beside, for_each } => {
            let gutters = house.counted_of(beside);
            each_structure(house, &gutters, |gutters| few(house, rule, gutters, *for_each))
        }
    }
}

fn each_structure<'a>(
    house: &HouseUnderReview<'a>,
    lines: &[&'a Line],
    ask: impl Fn(&[&'a Line]) -> Option<Question>,
) -> Vec<Question> {
    let here = |s: &str| lines.iter().copied().filter(|l| l.structure == s).collect::<Vec<_>>();
    house.structures().into_iter().filter_map(|s| ask(&here(s))).collect()
}

/// The lines of one side of a structure with one of these works, side by side.
fn each_side<'a>(
    lines: &[&'a Line],
    works: &[Work],
    ask: impl Fn(&[&'a Line]) -> Option<Question>,
) -> Vec<Question> {
    let wanted = |l: &&&Line| works.is_empty() || l.work.is_some_and(|w| works.contains(&w));
    let mut all: Vec<Vec<&Line>> = Vec::new();
    for line in lines.iter().filter(wanted) {
        let beside = |l: &Line| (&l.structure, l.side, l.work) == (&line.structure, line.side, line.work);
        match all.iter_mut().find(|group| beside(group[0])) {
            Some(group) => group.push(line),
            None => all.push(vec![line]),
        }
    }
    all.iter().filter_map(|lines| ask(lines)).collect()
}

/// Whether the draft's own flag asks, or asked, about this very number.
fn flagged(house: &HouseUnderReview, line: &Line) -> bool {
    let drafted = house.drafted(&line.id).filter(|drafted| drafted.flags.contains(&Flag::OddSize));
    drafted.is_some_and(|drafted| drafted.quantity == line.quantity)
}

fn right() -> Vec<Reading> {
    vec![Reading::as_noted("that's right")]
}

fn line(
    house: &HouseUnderReview,
    rule: &UsualNumber,
    line: &Line,
    most: Exact,
    unit: Unit,
) -> Option<Question> {
    let quantity = amount(line, unit).filter(|much| *much > most && !flagged(house, line))?;
    let asks = format!("{}: {}. Is that right?", house.placed(line), much(line.quantity?.value(), line.unit));
    let question = Question::of(Kind::Number, &rule.ground, &[line]).about(&quantity.text());
    Some(question.asking(asks).offering(right()))
}

fn structure(
    house: &HouseUnderReview,
    rule: &UsualNumber,
    lines: &[&Line],
    most: Exact,
    unit: Unit,
) -> Option<Question> {
    let lines: Vec<&Line> = lines.iter().copied().filter(|line| amount(line, unit).is_some()).collect();
    // Works on the same stuff don't add up: shingles torn off and shingles put on are one roof.
    let of_work =
        |work| lines.iter().filter(|l| l.work == work).filter_map(|l| amount(l, unit)).sum::<Exact>();
    let sum = lines.iter().map(|line| of_work(line.work)).max().unwrap_or_default();
    let first = *lines.first()?;
    if sum <= most || lines.iter().any(|line| flagged(house, line)) {
        return None;
    }
    let asks = format!("{}: {} in all. Is that right?", house.named(first), much(sum, unit));
    let question = Question::of(Kind::Number, &rule.ground, &lines).about(&sum.text());
    Some(question.asking(asks).offering(right()))
}

fn size(house: &HouseUnderReview, rule: &UsualNumber, line: &Line, most: Exact) -> Option<Question> {
    let size = line.size.as_ref()?;
    let inches = size.feet()? * Unit::Foot.in_unit(Unit::Inch)?;
    if inches <= most || flagged(house, line) {
        return None;
    }
    let asks = format!("{}: {}. Is the size right?", house.placed(line), wording::size(size));
    let question = Question::of(Kind::Number, &rule.ground, &[line]).about(&size.to_string());
    Some(question.asking(asks).offering(right()))
}

fn heights(house: &HouseUnderReview, rule: &UsualNumber, shape: Shape, most: Exact) -> Vec<Question> {
    let high = |d: &&Dimension| d.shape == shape && d.height_ft.is_some_and(|feet| feet > most);
    let ask = |dimension: &Dimension| {
        let height = dimension.height_ft.unwrap_or_default();
        let feet = wording::length(height);
        let face = format!("{} {}", wording::shape(shape), on_the(dimension.side));
        let asks = format!(
            "{}A {} was said to be {feet} high (“{}”). Is that right?",
            building(&dimension.structure),
            face.trim_end(),
            dimension.quote
        );
        let height = Size::of([Length { value: height, unit: Some(Unit::Foot) }]);
        let what = format!("{} {} {height}", dimension.structure, wording::side(dimension.side));
        let question = Question::of(Kind::Number, &rule.ground, &[]).about(&what).asking(asks);
        let (structure, side) = (dimension.structure.clone(), dimension.side);
        Question { structure, side, ..question.offering(right()) }
    };
    house.draft.dimensions.iter().filter(high).map(ask).collect()
}

/// Roofs that lie flatter or steeper than usual; where the rule is of some covering, those that it is on.
fn slopes(
    house: &HouseUnderReview,
    rule: &UsualNumber,
    least: Option<Exact>,
    most: Option<Exact>,
) -> Vec<Question> {
    let odd = |rise: Exact| least.is_some_and(|least| rise < least) || most.is_some_and(|most| rise > most);
    let covered = house.counted_of(&rule.of);
    let meant = |structure: &str| rule.of.is_empty() || covered.iter().any(|l| l.structure == structure);
    let ask = |slope: &Slope| {
        let rise = slope.rise.text();
        let roof = format!("roof {}", on_the(slope.side));
        let asks = format!(
            "{}The {} was said to have a slope of {rise} in 12 (“{}”). Is that right?",
            building(&slope.structure),
            roof.trim_end(),
            slope.quote
        );
        let what = format!("{} {} {rise}", slope.structure, wording::side(slope.side));
        let question = Question::of(Kind::Number, &rule.ground, &[]).about(&what).asking(asks);
        Question { structure: slope.structure.clone(), side: slope.side, ..question.offering(right()) }
    };
    let slopes = house.draft.slopes.iter().filter(|slope| odd(slope.rise) && meant(&slope.structure));
    slopes.map(ask).collect()
}

fn odd(house: &HouseUnderReview, rule: &UsualNumber, lines: &[&Line]) -> Option<Question> {
    let pieces: Option<Exact> = lines.iter().map(|line| amount(line, Unit::Each)).sum();
    let pieces = pieces.filter(|n| !same(*n % 2, Exact::ZERO))?;
    let first = *lines.first()?;
    let asks = format!("{}: {} counted, an odd number. Is that right?", house.placed(first), pieces.text());
    let question = Question::of(Kind::Number, &rule.ground, lines).about(&pieces.text());
    Some(question.asking(asks).offering(right()))
}

/// Renewed gutters with fewer of what takes their water down than is usual. Where what is there was cleared or no number
/// was said of it, nobody knows how many there are.
fn few(house: &HouseUnderReview, rule: &UsualNumber, gutters: &[&Line], for_each: Exact) -> Option<Question> {
    let renewed = |l: &&Line| matches!(l.work, Some(Work::RemoveReplace | Work::Install));
    let gutters: Vec<&Line> = gutters.iter().copied().filter(renewed).collect();
    let first = *gutters.first()?;
    let feet: Exact = gutters.iter().filter_map(|line| amount(line, Unit::Foot)).sum();
    let of_structure = |line: &&Line| line.structure == first.structure;
    let there: Vec<&Line> = house.counted_of(&rule.of).into_iter().filter(of_structure).collect();
    let known: Option<Exact> = there.iter().map(|line| pieces(line)).sum();
    let cleared = there.is_empty() && house.mentions(&rule.of, &first.structure, Side::None);
    let (known, least) = (known.filter(|_| !cleared)?, (feet / for_each).floor());
    if known >= least {
        return None;
    }
    let name = wording::item(rule.of.first().map(String::as_str), "");
    let asks = format!(
        "{}{}: {} for {} of {}; {} or more would be usual. Are there more?",
        building(&first.structure),
        wording::capital(&name),
        if known > Exact::ZERO { known.text() } else { "none".to_owned() },
        much(feet, Unit::Foot),
        wording::item_of(first),
        least.text()
    );
    let lines: Vec<&Line> = gutters.iter().chain(&there).copied().collect();
    let question = Question::of(Kind::Number, &rule.ground, &lines).about(&known.text());
    Some(question.asking(asks).offering(vec![Reading::as_noted("no more")]))
}

fn pieces(line: &Line) -> Option<Exact> {
    match amount(line, Unit::Foot) {
        Some(feet) => Some((feet / ONE_STOREY).ceil()),
        None => amount(line, Unit::Each),
    }
}
