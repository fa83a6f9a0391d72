//! The amounts that the program takes from phrases, before it asks what they are amounts of: a phrase a line comes in,
//! a list in JSON goes out. `compare.py` sets them beside what other libraries read.
//!
//! ```sh
//! echo 'forty one feet of gutter' | cargo run --no-default-features --example amounts
//! ```

use eavesdraft::language::numbers::{Amount, Exact};
use eavesdraft::language::phrases;
use eavesdraft::language::rules::Grammar;
use eavesdraft::language::tokens::Tokens;
use eavesdraft::speech::Transcript;
use serde_json::{Value, json};
use std::io::Write;

fn main() -> anyhow::Result<()> {
    let grammar = Grammar::built_in()?;
    let mut out = std::io::stdout().lock();
    for phrase in std::io::stdin().lines() {
        let tokens = Tokens::new(&Transcript::from_plain(&phrase?), &grammar.vocabulary);
        let amounts: Vec<Value> = phrases::amounts(&tokens, &grammar).iter().map(told).collect();
        writeln!(out, "{}", Value::from(amounts))?;
    }
    Ok(())
}

/// One amount; `by` is the second length of "nine by seven".
fn told(amount: &Amount) -> Value {
    let number = |n: Exact| json!({ "over": [n.numer(), n.denom()], "decimal": n.decimal() });
    json!({
        "low": number(amount.low),
        "high": number(amount.high),
        "unit": amount.unit,
        "by": amount.by.map(number),
        "by_unit": amount.by_unit,
    })
}
