//! Published test data, run as it is: the English number cases of Microsoft's Recognizers-Text (MIT) and of
//! NVIDIA's NeMo text processing (Apache-2.0). Licences stand beside the data in `tests/outside`.

use eavesdraft::grammar::Grammar;
use eavesdraft::numbers::{Exact, Speaker, decimal};
use eavesdraft::tokens::Tokens;
use eavesdraft::words::Transcript;
use serde_json::Value;
use std::path::{Path, PathBuf};

fn data(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside").join(name)
}

/// The number that the whole of the words is.
fn whole(grammar: &Grammar, words: &str) -> Option<Exact> {
    let tokens = Tokens::new(&Transcript::from_plain(words), &grammar.vocabulary);
    let number = Speaker { tokens: &tokens, grammar }.number(0)?;
    (number.end == tokens.list.len()).then_some(number.value)
}

#[test]
fn number_words_of_the_recognizers_text_suite_are_read() {
    let grammar = Grammar::built_in().unwrap();
    let spans: Value =
        serde_json::from_str(&std::fs::read_to_string(data("recognizers-text/spans.json")).unwrap()).unwrap();
    let mut read = 0;
    let mut wrong = Vec::new();
    let mut refused = 0;
    for span in spans.as_array().unwrap() {
        let said = span["text"].as_str().unwrap();
        let words_only = said.chars().all(|c| c.is_ascii_alphabetic() || c == ' ' || c == '-');
        let (Some(value), true) = (span["value"].as_str().and_then(|v| v.parse::<f64>().ok()), words_only)
        else {
            continue;
        };
        if !span["unit"].is_null() || value >= 10_000.0 {
            continue; // lengths of streets and world populations are no part of a house
        }
        match whole(&grammar, said) {
            Some(got) if (decimal(got) - value).abs() < 0.001 => read += 1,
            Some(got) => wrong.push(format!("{said:?} is {value}, read as {}", decimal(got))),
            None => refused += 1,
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // Refused are what no narrator says of a house: negative numbers, "nought", "one over three", fractions in words
    // above sixteenths or of more than one ("twenty-three fifths"), "one hundred and three quarters".
    insta::assert_snapshot!(format!("{read} read right, {refused} refused, none read wrong"));
}

#[test]
fn cardinals_of_the_nemo_suite_are_read() {
    let grammar = Grammar::built_in().unwrap();
    let cases = std::fs::read_to_string(data("nemo-itn/en_itn_test_cases_cardinal.txt")).unwrap();
    let mut told = String::new();
    for (said, written) in cases.lines().filter_map(|l| l.split_once('~')) {
        let got = whole(&grammar, said).map(|n| n.to_string());
        if got.as_deref() != Some(&written.replace(',', "")) {
            told.push_str(&format!(
                "{said} -> {written}, read as {}\n",
                got.unwrap_or_else(|| "no number".into())
            ));
        }
    }
    insta::assert_snapshot!(told);
}
