//! Spoken numbers against what a library that writes numbers out says they are (the crate `num2words`), and
//! forms of speech that such a library doesn't write.

use eavesdraft::language::numbers::{Exact, Speaker};
use eavesdraft::language::rules::Grammar;
use eavesdraft::language::tokens::Tokens;
use eavesdraft::speech::Transcript;
use num2words::Num2Words;

/// The number at the beginning of the words, and how many tokens are left over.
fn heard(grammar: &Grammar, words: &str) -> Option<(Exact, usize)> {
    let tokens = Tokens::new(&Transcript::from_plain(words), &grammar.vocabulary);
    let number = Speaker { tokens: &tokens, grammar }.number(0)?;
    Some((number.value, tokens.list.len() - number.end))
}

#[test]
fn every_whole_number_to_9999_is_read_back() {
    let grammar = Grammar::built_in().unwrap();
    for n in 0..10_000_i64 {
        let words = Num2Words::new(n).to_words().unwrap();
        assert_eq!(heard(&grammar, &words), Some((Exact::from_integer(n), 0)), "{words}");
    }
}

#[test]
fn an_and_behind_the_hundreds_changes_nothing() {
    let grammar = Grammar::built_in().unwrap();
    for n in 101..1_000_i64 {
        let words = Num2Words::new(n).to_words().unwrap().replace("hundred ", "hundred and ");
        assert_eq!(heard(&grammar, &words), Some((Exact::from_integer(n), 0)), "{words}");
    }
}

#[test]
fn other_ways_to_say_a_number_are_read() {
    let grammar = Grammar::built_in().unwrap();
    let rows: [(&str, i64, i64); 52] = [
        ("8 point 5", 17, 2),
        ("12 point 25", 49, 4),
        ("a hundred and ten", 110, 1),
        ("one ten", 110, 1),
        ("one eighty", 180, 1),
        ("two oh five", 205, 1),
        ("three twenty four", 324, 1),
        ("twelve hundred", 1200, 1),
        ("two dozen", 24, 1),
        ("half a dozen", 6, 1),
        ("a dozen", 12, 1),
        ("a couple", 2, 1),
        ("five and a half", 11, 2),
        ("five and three quarters", 23, 4),
        ("six and five eighths", 53, 8),
        ("two point two five", 9, 4),
        ("three quarter", 3, 4),
        ("half", 1, 2),
        ("a half", 1, 2),
        ("5/8", 5, 8),
        ("5 1/2", 11, 2),
        ("5½", 11, 2),
        ("3.5", 7, 2),
        ("1,200", 1200, 1),
        ("forty-one", 41, 1),
        ("14", 14, 1),
        ("7 and 3/4", 31, 4),
        ("ninety nine", 99, 1),
        ("three dozens", 36, 1),
        ("two o five", 205, 1),
        ("two point seventy five", 11, 4),
        ("two point fifteen", 43, 20),
        ("two point oh five", 41, 20),
        ("point two five", 1, 4),
        (".5", 1, 2),
        ("⅝", 5, 8),
        ("5⅝", 45, 8),
        ("one half", 1, 2),
        ("two and one half", 5, 2),
        ("two and a third", 7, 3),
        ("two thirds", 2, 3),
        ("seven tenths", 7, 10),
        ("five hundredths", 1, 20),
        ("a hundred and three quarters", 403, 4),
        ("two hundred and three and a half", 407, 2),
        ("2 hundred", 200, 1),
        ("12 hundred", 1200, 1),
        ("3 hundred and 21", 321, 1),
        ("4 thousand 3 hundred", 4300, 1),
        ("two million", 2_000_000, 1),
        ("half a million", 500_000, 1),
        ("1.5 million", 1_500_000, 1),
    ];
    for (words, numerator, denominator) in rows {
        assert_eq!(heard(&grammar, words), Some((Exact::new(numerator, denominator), 0)), "{words}");
    }
}

#[test]
fn what_nobody_would_say_as_one_number_is_not_joined() {
    let grammar = Grammar::built_in().unwrap();
    for (words, first, left) in [
        ("sixty fifteen", 60, 1),
        ("five six", 5, 1),
        ("twenty twenty", 20, 1),
        ("twelve fifteen", 12, 1),
        ("two third floor windows", 2, 3),
        ("two and a third window", 2, 4),
    ] {
        assert_eq!(heard(&grammar, words), Some((Exact::from_integer(first), left)), "{words}");
    }
    for words in ["several", "the third light", "5551234567", "won", "1,3", "5,00", "a million dents"] {
        assert_eq!(heard(&grammar, words), None, "{words}");
    }
}
