//! The comparison as one printable page that needs nothing from outside.

use super::columns;
use super::model::{Comparison, Finding, OurLine, Outcome};
use super::shown::Shown;
use crate::documents::head_with;
use crate::documents::wording::{CLOSING, capital, count, sentence};
use crate::grammar::lists::Column;
use maud::{DOCTYPE, Markup, html};

const STYLE: &str = include_str!("page.css");

/// The columns of a table of findings.
const COLUMNS: usize = 10;

/// The page.
pub fn page(comparison: &Comparison) -> Vec<u8> {
    let Comparison { ours, theirs, .. } = comparison;
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (head_with(&format!("{ours} beside {theirs}"), STYLE))
            body {
                (masthead(comparison))
                main {
                    (notices(comparison))
                    (questions(comparison))
                    @for outcome in Outcome::ALL { (findings(comparison, outcome)) }
                    (to_confirm(comparison))
                    (columns_used(comparison))
                    (passed_over(comparison))
                }
                (foot(comparison))
            }
        }
    };
    (page.into_string() + "\n").into_bytes()
}

fn masthead(comparison: &Comparison) -> Markup {
    let sheet = comparison.sheet.as_deref().map(|sheet| format!(", sheet {sheet}")).unwrap_or_default();
    html! {
        header {
            p.kind { "Two lists of work, line by line" }
            h1 { "Our scope beside " (comparison.theirs) }
            p.summary { (sentence(&summary(comparison))) }
            p.source { "Ours: " (comparison.ours) ". Theirs: " (comparison.theirs) (sheet) "." }
            div.address {
                @for blank in ["From", "To", "Property", "Date"] {
                    p { (blank) ":" span.line {} }
                }
            }
            p.summary {
                "Both lists tell physical work on this property. This page says where they differ; it says nothing of what any \
                 policy covers, of what caused the damage, or of what will be paid."
            }
        }
    }
}

/// What it came to, in a sentence.
pub fn summary(comparison: &Comparison) -> String {
    let told = |outcome: Outcome| format!("{} {}", comparison.of(outcome).count(), outcome.words());
    let all: Vec<String> = Outcome::ALL.into_iter().map(told).collect();
    let confirm = match comparison.to_confirm.len() {
        0 => String::new(),
        lines => format!("; {} of ours to confirm", count(lines, "conditional line", "conditional lines")),
    };
    format!("{}{confirm}", all.join(", "))
}

fn notices(comparison: &Comparison) -> Markup {
    html! {
        @if !comparison.notices.is_empty() {
            section.notices aria-label="Notices" {
                @for notice in &comparison.notices { p { (sentence(notice)) } }
            }
        }
    }
}

fn questions(comparison: &Comparison) -> Markup {
    let questions: Vec<(usize, &String)> = comparison
        .of(Outcome::Unclear)
        .enumerate()
        .filter_map(|(n, finding)| Some((n + 1, finding.question.as_ref()?)))
        .collect();
    html! {
        @if !questions.is_empty() {
            section {
                h2 { "Questions to settle " span.count { (questions.len()) } }
                ul { @for (n, question) in questions { li { p.question { (question) " " a href={ "#unclear-" (n) } { "see" } } } } }
            }
        }
    }
}

/// What the reader is told under the heading of an outcome.
fn explained(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::MissingThere => "Said on the walk, and in no line of theirs.",
        Outcome::ShortThere => "In both, and less of it in theirs.",
        Outcome::Unclear => "Not decided here: a person has to say whether these are the same work.",
        Outcome::MoreThere => "In both, and more of it in theirs.",
        Outcome::OnlyThere => "In theirs, and in no line of ours.",
        Outcome::Same => "In both, and as much of it.",
    }
}

fn findings(comparison: &Comparison, outcome: Outcome) -> Markup {
    let those: Vec<&Finding> = comparison.of(outcome).collect();
    let id = outcome.words().replace(' ', "-");
    html! {
        @if !those.is_empty() {
            section {
                h2 id=(id) { (capital(outcome.words())) " " span.count { (those.len()) } }
                p { (explained(outcome)) }
                (table(&id, html! {
                    @for (n, finding) in those.iter().enumerate() { (rows(&format!("{id}-{}", n + 1), finding)) }
                }))
            }
        }
    }
}

/// A table under the heading of that id; all have the same columns in the same widths.
fn table(heading: &str, rows: Markup) -> Markup {
    html! {
        section.wide aria-labelledby=(heading) tabindex="0" {
            table aria-labelledby=(heading) {
                colgroup {
                    col.ours; col.amount; col.amount; col.amount; col.unit; col.what; col.work; col.place; col.rows; col.words;
                }
                thead {
                    tr {
                        th scope="col" { "Our line" }
                        th.amount scope="col" { "Ours" }
                        th.amount scope="col" { "Theirs" }
                        th.amount scope="col" { "Difference" }
                        th scope="col" { "Unit" }
                        th scope="col" { "Item" }
                        th scope="col" { "Work" }
                        th scope="col" { "Side" }
                        th scope="col" { "Their row" }
                        th scope="col" { "What was said" }
                    }
                }
                (rows)
            }
        }
    }
}

/// A finding's row, and under it why it was found.
fn rows(id: &str, finding: &Finding) -> Markup {
    let shown = Shown::of(finding);
    let unclear = finding.outcome == Outcome::Unclear;
    html! {
        tbody.look[unclear] id=(id) {
            (cells(&shown, &finding.ours))
            tr.reason {
                td {}
                td colspan=(COLUMNS - 1) {
                    @if let Some(question) = &finding.question { p.question { strong { (question) } } }
                    p {
                        "Certainty " (finding.certainty.word())
                        @if !finding.because.is_empty() { ". " (finding.because.join(" ")) }
                        @if !shown.their_words.is_empty() { " Their words: " q { (shown.their_words) } "." }
                    }
                }
            }
        }
    }
}

fn cells(shown: &Shown, ours: &[OurLine]) -> Markup {
    html! {
        tr {
            td.number { (shown.our_lines) }
            td.amount { (shown.our_quantity) }
            td.amount { (shown.their_quantity) }
            td.amount { (shown.difference) }
            td.unit { (shown.unit) }
            th scope="row" { (shown.item) @if !shown.size.is_empty() { span.where { (shown.size) } } }
            td { (shown.work) }
            td { (shown.side) }
            td.number { (shown.their_rows) }
            td.words {
                @for our in ours {
                    p { @if let Some(time) = &our.time { span.time { (time) } " " } q { (our.quote) } }
                }
            }
        }
    }
}

fn to_confirm(comparison: &Comparison) -> Markup {
    html! {
        @if !comparison.to_confirm.is_empty() {
            section.only-if {
                h2 id="to-confirm" { "To confirm " span.count { (comparison.to_confirm.len()) } }
                p { "Our conditional lines. They take no part in what is counted above until somebody confirms them." }
                (table("to-confirm", html! {
                    @for line in &comparison.to_confirm {
                        tbody { (cells(&Shown::of_ours(line), std::slice::from_ref(line))) }
                    }
                }))
            }
        }
    }
}

fn columns_used(comparison: &Comparison) -> Markup {
    html! {
        section.columns-used {
            h2 id="columns" { "How their columns were read" }
            table aria-labelledby="columns" {
                thead { tr { th scope="col" { "Column" } th scope="col" { "Heading" } th scope="col" { "Read as" } } }
                tbody {
                    @for used in &comparison.columns {
                        tr {
                            th scope="row" { (used.letter) }
                            td { (used.heading) }
                            td {
                                @match (&used.instead, used.means) {
                                    (Some(instead), _) => { "not read: " (instead) },
                                    (None, Column::Nothing | Column::Price | Column::Number | Column::Note) => {
                                        (columns::name(used.means)) ", not compared"
                                    },
                                    (None, means) => (columns::name(means)),
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn passed_over(comparison: &Comparison) -> Markup {
    html! {
        @if !comparison.passed_over.is_empty() {
            section.passed-over {
                h2 id="passed-over" { "Rows that are no lines of work " span.count { (comparison.passed_over.len()) } }
                table aria-labelledby="passed-over" {
                    thead { tr { th scope="col" { "Row" } th scope="col" { "Words" } th scope="col" { "Taken for" } } }
                    tbody {
                        @for over in &comparison.passed_over {
                            tr { th scope="row" { (over.row) } td { (over.text) } td { (over.why) } }
                        }
                    }
                }
            }
        }
    }
}

fn foot(comparison: &Comparison) -> Markup {
    html! {
        footer {
            @for line in CLOSING { p { (line) } }
            p.print {
                "Left and right are as seen from the street. Line numbers are those of the scope's own page; rows are those of \
                 their file. "
                @if let Some(digest) = &comparison.digest { "SHA-256 of " (comparison.ours) ": " code { (digest) } }
            }
        }
    }
}
