//! Our scope beside another list.

use super::pen::{PLAIN, Pen, SOFT, STRONG, WARN};
use crate::language::rules::lists::Column;
use crate::model::wording::{CLOSING, capital, sentence};
use crate::output::comparison::summary;
use crate::scope::compare::{Comparison, Finding, Outcome, Shown};

/// Where an entry's text begins, after its lines.
const INDENT: usize = 12;

/// What a comparison came to, as its page tells it.
pub fn compare(comparison: &Comparison, width: usize) -> String {
    let mut pen = Pen::new(width);
    pen.text(STRONG, 0, &format!("{} beside {}", comparison.ours, comparison.theirs));
    pen.text(PLAIN, 0, &sentence(&summary(comparison)));
    comparison.notices.iter().for_each(|notice| pen.text(WARN, 0, &sentence(notice)));
    for outcome in Outcome::ALL {
        for (n, finding) in comparison.of(outcome).enumerate() {
            if n == 0 {
                pen.heading(&capital(outcome.words()));
            }
            entry(&mut pen, finding);
        }
    }
    to_confirm(&mut pen, comparison);
    columns(&mut pen, comparison);
    pen.skip();
    CLOSING.iter().for_each(|line| pen.text(SOFT, 0, line));
    pen.finish()
}

fn entry(pen: &mut Pen, finding: &Finding) {
    let shown = Shown::of(finding);
    pen.labelled(&label(&shown), INDENT, &told(&shown, finding.outcome));
    if let Some(question) = &finding.question {
        pen.text(WARN, INDENT, question);
    }
    if finding.outcome != Outcome::Same || finding.ours.len() + finding.theirs.len() > 2 {
        pen.text(
            SOFT,
            INDENT,
            &format!("{} certainty. {}", capital(finding.certainty.word()), finding.because.join(" ")),
        );
    }
}

/// Our lines, else their rows.
fn label(shown: &Shown) -> String {
    match shown.our_lines.is_empty() {
        true => format!("row {}", shown.their_rows),
        false => shown.our_lines.clone(),
    }
}

fn told(shown: &Shown, outcome: Outcome) -> String {
    let what = [&shown.item, &shown.size, &shown.work, &shown.side];
    let what: Vec<&str> = what.into_iter().map(String::as_str).filter(|words| !words.is_empty()).collect();
    let amount = |number: &str| match number {
        "" => "no number".to_owned(),
        _ => number.to_owned(),
    };
    let (ours, theirs) = (amount(&shown.ours), amount(&shown.theirs));
    let amounts = match outcome {
        Outcome::MissingThere | Outcome::Same => ours,
        Outcome::OnlyThere => theirs,
        _ => format!("{ours} here, {theirs} there"),
    };
    let row = if shown.our_lines.is_empty() || shown.their_rows.is_empty() {
        String::new()
    } else {
        format!(" (row {})", shown.their_rows)
    };
    format!("{}: {amounts}{row}", what.join(", "))
}

fn to_confirm(pen: &mut Pen, comparison: &Comparison) {
    for (n, line) in comparison.to_confirm.iter().enumerate() {
        if n == 0 {
            pen.heading("Ours to confirm: conditional, and outside of what is counted");
        }
        let shown = Shown::of_ours(line);
        pen.labelled(&shown.our_lines, INDENT, &told(&shown, Outcome::MissingThere));
    }
}

fn columns(pen: &mut Pen, comparison: &Comparison) {
    let read = comparison.columns.iter().filter(|used| used.means != Column::Nothing);
    let told = |used: &crate::scope::compare::ColumnUse| {
        let heading = if used.heading.is_empty() { &used.letter } else { &used.heading };
        format!("{heading} as {}", crate::scope::compare::column_name(used.means))
    };
    let read: Vec<String> = read.map(told).collect();
    pen.skip();
    pen.text(SOFT, 0, &format!("Their columns were read so: {}.", read.join(", ")));
    if !comparison.passed_over.is_empty() {
        let rows: Vec<String> = comparison.passed_over.iter().map(|over| over.row.to_string()).collect();
        pen.text(SOFT, 0, &format!("Rows that are no lines of work: {}.", rows.join(", ")));
    }
}
