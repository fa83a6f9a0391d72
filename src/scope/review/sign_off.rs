//! Signing a scope off, and opening it again.

use super::context::{Actor, ReviewContext};
use super::event::Change;
use super::refusal::Refusal;
use serde::{Deserialize, Serialize};

/// That somebody signed a scope off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SignOff {
    /// Who.
    pub who: String,
    /// When, as RFC 3339 writes it.
    pub at: String,
}

impl ReviewContext<'_> {
    pub(super) fn sign_off(&self, actor: &Actor) -> Result<Vec<Change>, Refusal> {
        match self.scope.flagged() {
            0 => {
                let signed = SignOff { who: actor.who.clone(), at: actor.at.clone() };
                Ok(vec![Change::SignOff { before: None, after: Some(signed) }])
            }
            flagged => Err(Refusal::StillFlagged(flagged)),
        }
    }

    pub(super) fn reopen(&self) -> Result<Vec<Change>, Refusal> {
        match &self.scope.signed_off {
            Some(signed) => Ok(vec![Change::SignOff { before: Some(signed.clone()), after: None }]),
            None => Err(Refusal::Invalid("this scope is open already".to_owned())),
        }
    }
}
