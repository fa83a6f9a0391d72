//! Questions about a whole house: to the reviewer, and never changes by themselves.
//!
//! Takes the lines of a scope as they stand, what the draft keeps beside them, and the rules; gives the questions that
//! are open. Pure: the same house gives the same questions under the same ids, so that an answer stays with its question
//! when the words are drafted again. What an answer does to the lines is told with it, and done by `review` as an event.

mod corners;
mod house;
mod needs;
mod numbers;
mod place;
mod question;
mod totals;
mod twice;

pub use house::HouseUnderReview;
pub use question::{Effect, Kind, Missing, Question, Reading, With, point};

use crate::language::rules::Grammar;
use crate::model::Draft;

/// The open questions about a house: where a stretch of it is first, then what may be counted twice.
pub fn questions(house: &HouseUnderReview) -> Vec<Question> {
    let mut all = place::ask(house);
    all.extend(corners::ask(house));
    all.extend(twice::ask(house));
    all.extend(totals::ask(house));
    all.extend(numbers::ask(house));
    all.extend(needs::ask(house));
    all.retain(|question| !house.answered.contains(question.id.as_str()));
    all
}

/// The questions about a house as it was drafted, before anybody answered or changed anything.
pub fn of_draft(draft: &Draft, grammar: &Grammar) -> Vec<Question> {
    let lines = draft.lines.iter().collect();
    questions(&HouseUnderReview { lines, dropped: Vec::new(), draft, grammar, answered: Default::default() })
}
