//! The pieces of a narration, found once: every thing, amount, slope and cue, in the order said.
//!
//! Takes a transcript and the rules; the words are cut into tokens, misheard names are read as what they sound like,
//! breaks are put where no marks are, and what is spoken of is found. How the pieces hang together – which number is of
//! which thing, what is done where – is not told here.
//!
//! ```
//! use eavesdraft::language::{pieces, rules::Grammar};
//! use eavesdraft::speech::Transcript;
//!
//! let grammar = Grammar::built_in()?;
//! let transcript = Transcript::from_plain("Two six foot gates, replace those.");
//! let pieces = pieces::find(&transcript, &grammar);
//! let told: Vec<String> = pieces.told(&grammar).iter().map(ToString::to_string).collect();
//! assert_eq!(
//!     told,
//!     [
//!         "thing gate “Two six foot gates”: plural, amount 2 “Two”, size 6 ft “six foot”",
//!         "cue replace “replace”",
//!         "cue those “those”",
//!     ]
//! );
//! # Ok::<(), eavesdraft::language::rules::GrammarError>(())
//! ```

mod told;

pub use told::{Piece, PieceKind};

use crate::language::mentions::{self, Mention};
use crate::language::phrases::Groundwork;
use crate::language::rules::Grammar;
use crate::language::tokens::Tokens;
use crate::language::{asr_correction, punctuation};
use crate::speech::Transcript;

/// What a narration is made of.
#[derive(Debug, Clone)]
pub struct Pieces {
    /// Its words as they are read: corrected, and with the breaks between them.
    pub tokens: Tokens,
    /// What is spoken of, in the order said, none overlapping.
    pub mentions: Vec<Mention>,
}

/// Finds the pieces of a narration.
pub fn find(transcript: &Transcript, grammar: &Grammar) -> Pieces {
    let mut ground = Groundwork::new(Tokens::new(transcript, &grammar.vocabulary), grammar);
    asr_correction::correct(&mut ground, transcript);
    punctuation::restore(&mut ground);
    Pieces::of(ground)
}

/// Finds the pieces of a text that is taken as it is written: nothing in it was misheard, and no mark is missing.
pub fn as_written(text: &str, grammar: &Grammar) -> Pieces {
    Pieces::of(Groundwork::new(Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary), grammar))
}

impl Pieces {
    fn of(ground: Groundwork) -> Self {
        let mentions = mentions::find(&ground);
        Self { tokens: ground.into_tokens(), mentions }
    }

    /// The pieces with their names and words, for reports and for readers of JSON.
    pub fn told<'a>(&'a self, grammar: &'a Grammar) -> Vec<Piece<'a>> {
        self.mentions.iter().map(|mention| told::piece(mention, &self.tokens, grammar)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::tests::GRAMMAR;

    /// Each sentence with its pieces, one a line.
    #[track_caller]
    fn check(rows: &[(&str, &[&str])]) {
        let told = |text: &str| {
            let pieces = find(&Transcript::from_plain(text), &GRAMMAR);
            pieces.told(&GRAMMAR).iter().map(ToString::to_string).collect::<Vec<_>>()
        };
        let got: Vec<(&str, Vec<String>)> = rows.iter().map(|(text, _)| (*text, told(text))).collect();
        let expected: Vec<(&str, Vec<String>)> = rows
            .iter()
            .map(|(text, lines)| (*text, lines.iter().map(ToString::to_string).collect()))
            .collect();
        assert_eq!(got, expected);
    }

    #[test]
    fn a_thing_holds_its_amount_and_a_cue_stands_by_itself() {
        check(&[
            ("Gutter, thirty eight foot, replace.", &["X"]),
            ("Forty foot of gutter on the front.", &["X"]),
            ("The front gutter gets replaced.", &["X"]),
            ("Two of the four screens are torn.", &["X"]),
            ("Three new downspouts and another light.", &["X"]),
            ("A thirty foot run of gutter.", &["X"]),
            ("No gutters on this side.", &["X"]),
        ]);
    }

    #[test]
    fn a_length_before_a_name_is_its_amount_or_its_size() {
        check(&[
            ("Six foot fence, eighty foot.", &["X"]),
            ("Two ten foot downspouts.", &["X"]),
            ("Garage door, sixteen by seven.", &["X"]),
            ("One ten foot gate.", &["X"]),
            ("Ten or twelve feet of fascia.", &["X"]),
        ]);
    }

    #[test]
    fn a_slope_is_a_piece_of_its_own() {
        check(&[
            ("The pitch is about six twelve.", &["X"]),
            ("It's a six in twelve.", &["X"]),
            ("Eight in twelve inch boards.", &["X"]),
        ]);
    }

    #[test]
    fn words_that_only_tell_a_place_are_marked_as_such() {
        check(&[
            ("Light over the garage door.", &["X"]),
            ("The wrap on that window is dented.", &["X"]),
            ("Since they moved in this fence leans.", &["X"]),
            ("Look at the door.", &["X"]),
            ("Replacing about four sheets.", &["X"]),
        ]);
    }

    #[test]
    fn things_outside_the_catalogue_are_found_by_what_is_said_of_them() {
        check(&[
            ("Sixty foot of skirting.", &["X"]),
            ("Replace that flagpole bracket.", &["X"]),
            ("One weather vane, detach and reset.", &["X"]),
            ("Weather vane, detach and reset.", &["X"]),
            ("There's a dinner bell.", &["X"]),
            ("Take the swamp cooler off and put it back.", &["X"]),
            ("The wreath hook comes off and goes back on.", &["X"]),
            ("Bay window, wrap is dented.", &["X"]),
        ]);
    }

    #[test]
    fn a_word_that_could_open_a_name_may_be_a_pronoun() {
        check(&[
            ("Replace those gutter.", &["X"]),
            ("Twelve, no, thirteen screens.", &["X"]),
            ("Two of them, forty foot of it.", &["X"]),
            ("That one and a new one.", &["X"]),
        ]);
    }

    #[test]
    fn misheard_names_and_missing_marks_are_put_right_first() {
        check(&[("Silk cock, replace.", &["X"]), ("Replace too of those.", &["X"])]);
        let captions = "okay front of the house gutter 38 foot replace downspouts 2 off and back on garage door 16 by 7 \
                        no damage splash blocks 2 cracked replace rear of the house patio door okay light over it detach \
                        and reset deck 14 by 16 power wash";
        let pieces = find(&Transcript::from_plain(captions), &GRAMMAR);
        let written = as_written(captions, &GRAMMAR);
        let breaks =
            |pieces: &Pieces| pieces.tokens.list.iter().filter(|t| t.before > Default::default()).count();
        assert!(breaks(&pieces) > breaks(&written) + 8);
        assert!(written.tokens.list.iter().all(|t| t.doubt.is_none()));
    }

    #[test]
    fn pieces_can_be_written_as_json() {
        let pieces = as_written("Two gates", &GRAMMAR);
        let json = serde_json::to_value(pieces.told(&GRAMMAR)).unwrap();
        let amount = serde_json::json!({
            "kind": "amount", "name": "2", "words": "Two", "heard": [0, 0], "traits": [], "holds": [],
        });
        let gates = serde_json::json!([{
            "kind": "thing", "name": "gate", "words": "Two gates", "heard": [0, 1], "traits": ["plural"],
            "holds": [amount],
        }]);
        assert_eq!(json, gates);
    }
}
