//! Reviewing: what people do to a draft until they can sign it.
//!
//! Takes a draft, the acts of people so far and a deed, and gives the act that does it or says why not. The draft as
//! drafted is never changed: what stands now is the draft with all acts applied. Pure; keeping acts is the business of
//! `store`, showing them of `server`.

mod act;
mod answers;
mod asked;
mod choices;
mod deed;
mod from_measures;
mod measures;
mod perform;
mod redraft;
mod refusal;
mod reversal;
mod scope;
mod standing;
mod told;
pub mod typed;
pub mod view;

pub use act::{Act, Change, Stack};
pub use asked::{MissingView, QuestionView};
pub use choices::{Choice, choices};
pub use deed::{Deed, FaceName, Fields, Measures};
pub use measures::face_versions;
pub use perform::{Desk, Hand, Seen};
pub use redraft::{Stray, scope_and_strays};
pub use refusal::Refusal;
pub use scope::{Done, Entry, Scope, State, Task};
pub use standing::Standing;
