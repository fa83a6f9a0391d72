//! The pieces of a narration, found once: every thing, amount, slope and cue, in the order said.
//!
//! Takes a transcript and the rules. The words are cut into tokens, misheard names are read as what they sound like,
//! breaks are put where there are no marks, and what is spoken of is found. How the pieces hang together is another
//! matter: which number belongs to which thing, and what is done where, `discourse` finds out.
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
//!         "cue remove-and-replace “replace”",
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

/// The words of a narration, and what they speak of.
#[derive(Debug, Clone)]
pub struct Pieces {
    /// Its words as they are read: corrected, and with the breaks between them.
    pub tokens: Tokens,
    /// What is spoken of, in the order said. No word belongs to two of them, but a cue may reach around a thing: "take
    /// the gate off".
    pub mentions: Vec<Mention>,
}

/// Finds the pieces of a narration.
pub fn find(transcript: &Transcript, grammar: &Grammar) -> Pieces {
    let mut ground = Groundwork::new(Tokens::new(transcript, &grammar.vocabulary), grammar);
    asr_correction::correct(&mut ground, transcript);
    punctuation::restore(&mut ground);
    Pieces::of(ground)
}

/// Finds the pieces of a short text as it is written: no name in it is corrected and no break is added.
pub fn as_written(text: &str, grammar: &Grammar) -> Pieces {
    Pieces::of(Groundwork::new(Tokens::new(&Transcript::from_plain(text), &grammar.vocabulary), grammar))
}

impl Pieces {
    fn of(ground: Groundwork) -> Self {
        let mentions = mentions::find(&ground);
        Self { tokens: ground.into_tokens(), mentions }
    }

    /// The pieces with their names and words, in the order said: to be printed, or written as JSON.
    pub fn told<'a>(&'a self, grammar: &'a Grammar) -> Vec<Piece<'a>> {
        self.mentions.iter().map(|mention| told::piece(mention, &self.tokens, grammar)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::tests::GRAMMAR;

    /// Sentences, each followed by its pieces on lines of their own.
    #[track_caller]
    fn check(rows: &str) {
        let expected: Vec<&str> = rows.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
        let mut got = Vec::new();
        for text in expected.iter().filter_map(|line| line.strip_prefix("> ")) {
            got.push(format!("> {text}"));
            let pieces = find(&Transcript::from_plain(text), &GRAMMAR);
            got.extend(pieces.told(&GRAMMAR).iter().map(ToString::to_string));
        }
        assert_eq!(got.join("\n"), expected.join("\n"));
    }

    #[test]
    fn a_thing_holds_its_amount_and_a_cue_stands_by_itself() {
        check(
            "
            > Gutter, thirty eight foot, replace.
            thing gutter “Gutter”
            amount 38 ft “thirty eight foot”
            cue remove-and-replace “replace”
            > Forty foot of gutter on the front.
            thing gutter “Forty foot of gutter”: amount 40 ft “Forty foot”
            cue front “on the front”
            > The front gutter gets replaced.
            thing gutter “The front gutter”: definite, front
            cue gets-replaced “gets replaced”
            > Two of the four screens are torn.
            thing window-screen “Two of the four screens”: definite, plural, amount 4 “four”, some 2 “Two”
            > Three new downspouts and another light.
            thing downspout “Three new downspouts”: plural, new, amount 3 “Three”
            cue another-one “and another”
            thing light-fixture “light”
            > A thirty foot run of gutter.
            thing gutter “A thirty foot run of gutter”: indefinite, amount 30 ft “thirty foot”
            > No gutters on this side.
            thing gutter “No gutters”: negative, plural
            > One piece of gutter.
            thing gutter “One piece of gutter”
            > Three out of the five lights.
            thing light-fixture “Three out of the five lights”: definite, plural, amount 5 “five”, some 3 “Three”
            > Twenty square yards of siding.
            thing siding “siding”
            ",
        );
    }

    #[test]
    fn a_length_before_a_name_is_its_amount_or_its_size() {
        check(
            "
            > Six foot fence, eighty foot.
            thing fence “Six foot fence”: size 6 ft “Six foot”
            amount 80 ft “eighty foot”
            > Two ten foot downspouts.
            thing downspout “Two ten foot downspouts”: plural, amount 2 “Two”, size 10 ft “ten foot”
            > Garage door, sixteen by seven.
            thing garage-door “Garage door”
            amount 16 by 7 “sixteen by seven”
            > One ten foot gate.
            thing gate “One ten foot gate”: amount 1 “One”, size 10 ft “ten foot”
            > Ten or twelve feet of fascia.
            thing fascia “Ten or twelve feet of fascia”: amount 10 to 12 ft “Ten or twelve feet”
            > Sixteen foot, um, shutters.
            amount 16 ft “Sixteen foot”
            thing shutter “shutters”: plural
            ",
        );
    }

    #[test]
    fn a_slope_is_a_piece_of_its_own() {
        check(
            "
            > The pitch is about six twelve.
            slope 6 in 12 “pitch is about six twelve”
            > It's a six in twelve.
            cue it “It's”
            slope 6 in 12 “six in twelve”
            ",
        );
    }

    #[test]
    fn words_that_only_tell_a_place_are_marked_as_such() {
        check(
            "
            > Light over the garage door.
            thing light-fixture “Light”
            thing garage-door “the garage door”: definite, a place
            > The wrap on that window is dented.
            thing window-wrap “The wrap on that window”: definite
            > Since they moved in this fence leans.
            cue those “they”
            thing fence “this fence”: definite
            > Look at the door.
            thing entry-door “door”
            > Right under the deck.
            thing deck “the deck”: definite, a place
            > Replacing about four sheets.
            cue remove-and-replace “Replacing”
            cue rough “about”
            amount 4 sheets “four sheets”
            ",
        );
    }

    #[test]
    fn names_that_belong_together_are_one_thing() {
        check(
            "
            > Two house number plaques.
            thing sign “Two house number plaques”: plural, amount 2 “Two”
            > Soffit vents.
            thing “Soffit vents”
            ",
        );
    }

    #[test]
    fn things_outside_the_catalogue_are_found_by_what_is_said_of_them() {
        check(
            "
            > Sixty foot of skirting.
            thing “Sixty foot of skirting”: amount 60 ft “Sixty foot”
            > Replace that flagpole bracket.
            cue remove-and-replace “Replace”
            thing flag-bracket “that flagpole bracket”: definite
            > One weather vane, detach and reset.
            thing “One weather vane”: amount 1 “One”
            cue detach-and-reset “detach and reset”
            > Weather vane, detach and reset.
            thing “Weather vane”
            cue detach-and-reset “detach and reset”
            > There's a dinner bell.
            thing “a dinner bell”: indefinite, weak
            > Take the swamp cooler off and don't put it back.
            cue soft-take-the-thing-off “Take the swamp cooler off”
            thing “the swamp cooler”: definite
            cue is-removed-for-good “don't put it back”
            > The wreath hook comes off and goes back on.
            thing “The wreath hook”: definite, short
            cue comes-off-goes-back-on “comes off and goes back on”
            > Bay window, wrap is dented.
            thing window “Bay window”
            thing “wrap”: short
            ",
        );
    }

    #[test]
    fn a_word_that_could_open_a_name_may_be_a_pronoun() {
        check(
            "
            > Replace those gutter.
            cue remove-and-replace “Replace”
            cue those “those”
            thing gutter “gutter”
            > Twelve, no, thirteen screens.
            amount 12 “Twelve”
            cue deck-no “no”
            thing window-screen “thirteen screens”: plural, amount 13 “thirteen”
            > Two of them, forty foot of it.
            amount 2 of them “Two of them”
            amount 40 ft of them “forty foot of it”
            > That one and a new one.
            cue that-one “That one”
            cue soft-is-new “a new one”
            > Both of those shingles.
            cue both “Both of those”
            thing shingles “shingles”: plural
            > That's new, slider's good.
            cue it “That's”
            cue soft-is-new “That's new”
            thing patio-door “slider's”
            cue is-sound “slider's good”
            ",
        );
    }

    #[test]
    fn misheard_names_and_missing_marks_are_put_right_first() {
        check(
            "
            > Silk cock, replace.
            thing hose-bib “Silk cock”: by sound
            cue remove-and-replace “replace”
            > Replace too of those.
            cue remove-and-replace “Replace”
            amount 2 of them “too of those”
            ",
        );
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
