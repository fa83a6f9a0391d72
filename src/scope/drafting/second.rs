//! Two hearings of one recording, set beside each other line by line. Two engines seldom mishear the same words in the
//! same way: what both drafts say is surer than either alone, and what they say differently is to be looked at.

use super::confidence;
use super::readings;
use crate::model::Flag;
use crate::model::span::Moment;
use crate::model::{Draft, FollowUp, Line};
use crate::speech::{Transcript, Word};

/// Lines of the two hearings that stand this near each other, in seconds, may speak of the same thing.
const NEAR: f64 = 2.0;

/// Lines that share this much of the shorter one's time rest on the same words.
const SAME_WORDS: f64 = 0.5;

/// A line that shares no more than this with any other rests on words that made no line the first time.
const NEW_WORDS: f64 = 0.2;

/// Words as far as this outside a line, in seconds, belong to its words: the two engines' times differ a little.
const EDGE: f64 = 0.2;

/// Sets the draft of the first hearing beside that of the second, and gives what is to be relied on: the lines of the
/// first one, where they differ with what was heard the second time; another reading of the same words where the first
/// makes less sense; and what only the second one heard.
pub(super) fn compare(first: Draft, second: Draft, heard: &Transcript, again: &Transcript) -> Draft {
    let hearings = Hearings { first: heard.words().collect(), second: again.words().collect() };
    let mut used = vec![false; second.lines.len()];
    let mut lines: Vec<Line> =
        first.lines.into_iter().map(|line| hearings.settle(line, &second.lines, &mut used)).collect();
    for (line, _) in second.lines.iter().zip(&used).filter(|(_, used)| !**used) {
        let new = lines.iter().all(|other| shared(line, other) <= NEW_WORDS);
        if new && defects(line) == 0 && hearings.differ_in(line) {
            let place = lines.iter().position(|other| other.start > line.start).unwrap_or(lines.len());
            lines.insert(place, hearings.with_first(line));
        }
    }
    let mut follow_ups = first.follow_ups;
    for todo in second.follow_ups {
        let known = |other: &FollowUp| (other.kind, &other.item) == (todo.kind, &todo.item);
        let same_words = |other: &FollowUp| other.kind == todo.kind && moments_apart(other, &todo) < 0.0;
        if !follow_ups.iter().any(|other| known(other) || same_words(other)) {
            let place = follow_ups.iter().position(|other| other.start > todo.start);
            follow_ups.insert(place.unwrap_or(follow_ups.len()), todo);
        }
    }
    Draft { lines, follow_ups, ..first }
}

/// How many seconds lie between the words of two things still to be done; below zero where they overlap.
fn moments_apart(a: &FollowUp, b: &FollowUp) -> f64 {
    let times = |todo: &FollowUp| (seconds(todo.start), seconds(todo.end));
    between(times(a), times(b))
}

/// The words of both.
struct Hearings<'a> {
    first: Vec<&'a Word>,
    second: Vec<&'a Word>,
}

impl Hearings<'_> {
    /// A line of the first hearing after it was set beside the lines of the second.
    fn settle(&self, mut line: Line, second: &[Line], used: &mut [bool]) -> Line {
        let near = || second.iter().enumerate().filter(|(_, other)| apart(&line, other) < NEAR);
        if let Some((same, _)) = near().find(|(_, other)| says_the_same(&line, other)) {
            used[same] = true;
            if self.differ_in(&line) {
                line.flags.retain(|flag| *flag != Flag::UnclearAudio);
            }
            line.confidence = confidence::heard_alike(line.confidence);
            return line;
        }
        if let Some((less, _)) = near().find(|(_, other)| says_no_otherwise(&line, other)) {
            used[less] = true;
            return line;
        }
        let of_same_words = near().filter(|(_, other)| shared(&line, other) > SAME_WORDS);
        if let Some((n, best)) = of_same_words.min_by_key(|(_, other)| defects(other)) {
            used[n] = true;
            if defects(best) < defects(&line) {
                let mut taken = self.with_first(best);
                taken.readings.splice(0..0, readings::of_other_hearing(&taken, &line));
                return taken;
            }
            line.readings.splice(0..0, readings::of_other_hearing(&line, best));
        }
        line.other_reading = words_in(&self.second, &line);
        doubted(line)
    }

    /// A line of the second hearing, with what was heard the first time.
    fn with_first(&self, line: &Line) -> Line {
        let other_reading = words_in(&self.first, line);
        let heard = positions(&self.first, line);
        let words = heard.clone().min().zip(heard.max()).map(|(first, last)| [first as u32, last as u32]);
        doubted(Line { id: format!("again-{}", line.id), other_reading, words, ..line.clone() })
    }

    /// Whether the words of a line were heard twice: what was heard once is the same in both to the last digit.
    fn differ_in(&self, line: &Line) -> bool {
        let (first, second) = (within(&self.first, line), within(&self.second, line));
        !first.eq(second)
    }
}

/// A line that came out otherwise the second time.
fn doubted(mut line: Line) -> Line {
    if !line.flags.contains(&Flag::UnclearAudio) {
        line.flags.push(Flag::UnclearAudio);
        line.flags.sort();
    }
    line.confidence = confidence::heard_otherwise(line.confidence);
    line
}

/// Whether two lines agree in every field that counts.
fn says_the_same(a: &Line, b: &Line) -> bool {
    same_thing(a, b)
        && (a.work, a.only_if, &a.size) == (b.work, b.only_if, &b.size)
        && (a.quantity, a.unit) == (b.quantity, b.unit)
}

/// Whether the second hearing only lost the work or the number. Of 31 such lines of three sets of recordings that had
/// no flag 30 were right, of those that differed in some field that both had about half.
fn says_no_otherwise(line: &Line, second: &Line) -> bool {
    let work = second.work.is_none() || (line.work, line.only_if) == (second.work, second.only_if);
    let number = second.quantity.is_none() || (line.quantity, line.unit) == (second.quantity, second.unit);
    same_thing(line, second) && work && number && line.work.is_some() && line.quantity.is_some()
}

fn same_thing(a: &Line, b: &Line) -> bool {
    let named_alike = a.item.is_some() || a.said.eq_ignore_ascii_case(&b.said);
    named_alike && (&a.structure, a.side, &a.item) == (&b.structure, b.side, &b.item)
}

/// How many of the doubts speak for words that make little sense.
fn defects(line: &Line) -> usize {
    let senseless =
        [Flag::NotInCatalogue, Flag::SoundsLike, Flag::NoNumber, Flag::NoWork, Flag::OddUnit, Flag::OddSize];
    line.flags.iter().filter(|flag| senseless.contains(flag)).count()
}

fn seconds(moment: Option<Moment>) -> f64 {
    moment.map_or(0.0, Moment::seconds)
}

fn times(line: &Line) -> (f64, f64) {
    (seconds(line.start), seconds(line.end))
}

/// How many seconds lie between two lines; below zero where they overlap.
fn apart(a: &Line, b: &Line) -> f64 {
    between(times(a), times(b))
}

fn between(a: (f64, f64), b: (f64, f64)) -> f64 {
    a.0.max(b.0) - a.1.min(b.1)
}

/// The share of the shorter line's time in which both are spoken.
fn shared(a: &Line, b: &Line) -> f64 {
    let length = |line: &Line| times(line).1 - times(line).0;
    (-apart(a, b)).max(0.0) / length(a).min(length(b)).max(0.1)
}

/// Which of the words are spoken while a line is.
fn positions<'a>(words: &'a [&'a Word], line: &Line) -> impl Iterator<Item = usize> + Clone + use<'a> {
    let (start, end) = times(line);
    let middle = |word: &Word| Some((word.start?.seconds() + word.end?.seconds()) / 2.0);
    (0..words.len())
        .filter(move |n| middle(words[*n]).is_some_and(|at| start - EDGE <= at && at <= end + EDGE))
}

fn within<'a>(words: &'a [&'a Word], line: &Line) -> impl Iterator<Item = &'a Word> {
    positions(words, line).map(|n| words[n])
}

fn words_in(words: &[&Word], line: &Line) -> Option<String> {
    let words: Vec<&str> = within(words, line).map(|word| word.text.as_str()).collect();
    (!words.is_empty()).then(|| words.join(" "))
}
