//! Lengths in figures among the words of a size.

use super::Length;
use crate::model::{Exact, Unit};

/// What a text holds.
pub(super) enum Found {
    /// Nothing but one run of lengths.
    All(Vec<Length>),
    /// Other words too; no lengths where it holds none, or several runs of them.
    Among(Vec<Length>),
}

/// A piece of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Piece {
    Number(Exact),
    Unit(Unit),
    By,
    Other,
}

/// The lengths of a text: `9 ft x 7 ft`.
pub(super) fn lengths(text: &str) -> Found {
    let pieces = pieces(text);
    let (mut runs, mut others, mut at) = (Vec::new(), false, 0);
    while at < pieces.len() {
        match run(&pieces[at..]) {
            Some((lengths, taken)) => {
                runs.push(lengths);
                at += taken;
            }
            None => {
                others = true;
                at += 1;
            }
        }
    }
    match (runs.len(), others) {
        (1, false) => Found::All(runs.remove(0)),
        (1, true) => Found::Among(runs.remove(0)),
        _ => Found::Among(Vec::new()),
    }
}

/// The lengths that pieces begin with, and how many pieces they take. One without a unit has that of the one beside it.
fn run(pieces: &[Piece]) -> Option<(Vec<Length>, usize)> {
    let (first, mut at) = length(pieces)?;
    let mut lengths = vec![first];
    while let (Some(Piece::By), Some((next, taken))) =
        (pieces.get(at), length(&pieces[pieces.len().min(at + 1)..]))
    {
        lengths.push(next);
        at += 1 + taken;
    }
    let told = lengths.iter().find_map(|length| length.unit);
    lengths.iter_mut().for_each(|length| length.unit = length.unit.or(told));
    Some((lengths, at))
}

/// One length, with the inches behind its feet.
fn length(pieces: &[Piece]) -> Option<(Length, usize)> {
    match *pieces {
        [
            Piece::Number(feet),
            Piece::Unit(Unit::Foot),
            Piece::Number(inches),
            Piece::Unit(Unit::Inch),
            ..,
        ] if inches < Exact::from_integer(12) => {
            let value = feet + inches * Unit::Inch.plain();
            Some((Length { value, unit: Some(Unit::Foot) }, 4))
        }
        [Piece::Number(value), Piece::Unit(unit), ..] => Some((Length { value, unit: Some(unit) }, 2)),
        [Piece::Number(value), ..] => Some((Length { value, unit: None }, 1)),
        _ => None,
    }
}

fn pieces(text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut rest = text.trim();
    while let Some(first) = rest.chars().next() {
        let (piece, taken) = if first.is_ascii_digit() || first == '.' {
            number(rest)
                .map_or((Piece::Other, first.len_utf8()), |(number, taken)| (Piece::Number(number), taken))
        } else {
            let letters = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
            let taken = letters.max(first.len_utf8());
            (word(&rest[..taken]), taken)
        };
        rest = &rest[taken..];
        // "30 in. x 48 in."
        if matches!(piece, Piece::Unit(_)) {
            rest = rest.strip_prefix('.').unwrap_or(rest);
        }
        rest = rest.trim_start();
        pieces.push(piece);
    }
    pieces
}

fn word(word: &str) -> Piece {
    match word.to_lowercase().as_str() {
        "ft" | "foot" | "feet" | "'" | "’" | "′" => Piece::Unit(Unit::Foot),
        "in" | "inch" | "inches" | "\"" | "”" | "″" => Piece::Unit(Unit::Inch),
        "yd" | "yard" | "yards" => Piece::Unit(Unit::Yard),
        "x" | "by" | "×" => Piece::By,
        _ => Piece::Other,
    }
}

/// The number that a text begins with, `9`, `1.5`, `1/2` or `1 1/2`, and how long it is.
fn number(text: &str) -> Option<(Exact, usize)> {
    let (first, end) = plain(text)?;
    let Some((part, taken)) = text[end..].strip_prefix(['/']).and_then(plain) else {
        let behind = text[end..].strip_prefix([' ', '-']).and_then(fraction);
        return Some(
            behind
                .filter(|_| first.is_integer())
                .map_or((first, end), |(part, taken)| (first + part, end + 1 + taken)),
        );
    };
    (part > Exact::ZERO).then(|| (first / part, end + 1 + taken))
}

/// `1/2`: less than one.
fn fraction(text: &str) -> Option<(Exact, usize)> {
    let (over, end) = plain(text)?;
    let (under, taken) = text[end..].strip_prefix('/').and_then(plain)?;
    (over < under).then(|| (over / under, end + 1 + taken))
}

/// More digits than any length has.
const MOST_DIGITS: usize = 9;

/// `9` or `1.5`.
fn plain(text: &str) -> Option<(Exact, usize)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let figures = text[..end].trim_end_matches('.');
    let (whole, parts) = figures.split_once('.').unwrap_or((figures, ""));
    let digits = format!("{whole}{parts}");
    if digits.is_empty() || digits.len() > MOST_DIGITS || parts.contains('.') {
        return None;
    }
    let over: i128 = digits.parse().ok()?;
    Some((Exact::new(over, 10_i128.pow(parts.len() as u32)), figures.len()))
}
