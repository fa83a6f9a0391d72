//! How much of a covering there is where nobody said it, as the takeoff has it: one more answer to choose.

use super::choices::Choice;
use super::command::{Command, Fields};
use super::scope::{Entry, LineState};
use crate::language::rules::Grammar;
use crate::model::{Draft, Flag};
use crate::scope::takeoff::{NET_AREA, takeoff, told};

/// The quantity that the measurements give for a line without one; none where they give none. The draft is as it stands.
pub(super) fn choice(entry: &Entry, now: &Draft, grammar: &Grammar) -> Option<Choice> {
    let line = &entry.line;
    let open = entry.state == LineState::Flagged && line.flags.contains(&Flag::NoNumber);
    let item = line.item.as_deref().and_then(|id| grammar.item_named(id)).filter(|_| open)?;
    let shape = grammar.items[usize::from(item)].covers?;
    let takeoff = takeoff(now, grammar);
    let figure = takeoff.covered(&line.structure, line.side, shape)?;
    let label = told(figure.value, figure.unit);
    let unsized_openings = takeoff.lacking.iter().any(|lacking| {
        (&lacking.structure, lacking.side) == (&line.structure, line.side) && lacking.purpose == NET_AREA
    });
    let but = if unsized_openings { "; openings without a size are not deducted" } else { "" };
    let fields = Fields { quantity: Some(label.clone()), ..Fields::default() };
    Some(Choice {
        hint: format!("the takeoff has {}: {}{but}", figure.name, figure.formula.text()),
        label,
        command: Command::Change { line: line.id.clone(), fields },
    })
}
