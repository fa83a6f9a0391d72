//! The classes of words that the program itself asks for. Their words stand in `grammars/classes.toml`.

use crate::language::vocabulary::{ClassId, Vocabulary};

macro_rules! classes {
    ($($(#[$doc:meta])* $field:ident = $name:literal),* $(,)?) => {
        /// The word classes the program asks for by name; `classes.toml` fills them.
        #[derive(Debug, Clone, Copy, Default)]
        pub struct Classes { $($(#[$doc])* pub $field: ClassId),* }

        impl Classes {
            /// Words that are never part of a thing's name.
            pub fn closed(&self) -> [ClassId; 8] {
                [
                    self.function,
                    self.be,
                    self.have,
                    self.preposition,
                    self.joins,
                    self.definite,
                    self.indefinite,
                    self.negative,
                ]
            }

            /// Resolves every class, or names the missing one.
            pub(super) fn resolve(vocabulary: &Vocabulary) -> Result<Self, &'static str> {
                Ok(Self { $($field: vocabulary.class($name).ok_or($name)?),* })
            }
        }
    };
}

classes! {
    /// the, that, those, my …
    definite = "definite",
    /// a, an, some …
    indefinite = "indefinite",
    /// no, any …
    negative = "negative",
    /// another, more, other …
    more = "more",
    /// on, by, behind …
    preposition = "preposition",
    /// Words that end a noun phrase and are never part of one.
    function = "function",
    /// cedar, aluminum …
    material = "material",
    /// Nouns that are no thing to work on: hole, piece, side …
    no_thing = "no-thing",
    /// is, are, 's …
    be = "be",
    /// got, have, see: what brings a thing up.
    have = "have",
    /// and, or, plus: what joins things into one list.
    joins = "joins",
    /// after which "one" is a pronoun.
    before_one = "before-one",
    /// What may stand between "the pitch" and its number: is, about, like.
    before_pitch = "before-pitch",
    /// it, them, those, these: after "two of".
    pronoun = "pronoun",
    /// wide, across, long.
    width = "width",
    /// tall, high.
    height = "height",
    /// all, both, every.
    every = "every",
    /// new.
    new = "new",
    /// group, following: what announces or ends a list.
    list_word = "list-word",
    /// replaced, painted: work, where it ends what is said of a thing.
    participle = "participle",
    /// side, elevation, wall: what follows the name of a side.
    side_noun = "side-noun",
    /// on, around, across: what stands before a side.
    place_word = "place-word",
    /// house, home, place.
    building = "building",
    /// Words that say the narrator goes somewhere.
    motion = "motion",
    /// Words that may stand between the opening of a clause and a place.
    place_lead = "place-lead",
    /// same, like, as.
    likening = "likening",
    /// vent, cover, post: behind an item's name they name another thing.
    thing_word = "thing-word",
    /// not, never, without: what is said next is not done.
    negator = "negator",
    /// going, to, need: words that carry a negation on to the work behind them.
    carries_no = "carries-no",
    /// set, pair, run: what there may be "of" a thing.
    portion = "portion",
    /// dent, hail, paint: what is on a thing rather than beside it.
    damage = "damage",
    /// back, broken, old: words that may stand before a name.
    adjective = "adjective",
}
