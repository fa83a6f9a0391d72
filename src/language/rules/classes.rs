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
    /// of: joins how much to what.
    of_joint = "of-joint",
    /// out: before an of-joint it adds nothing.
    portion_lead = "portion-lead",
    /// piece, bit, run: no number, but no place either.
    portion_word = "portion-word",
    /// look, see: verbs of a looking-joint.
    looking = "looking",
    /// at: behind a verb of looking it tells no place.
    looking_joint = "looking-joint",
    /// moved, hooked: verbs of a particle.
    particle_verb = "particle-verb",
    /// in, off, up: behind a particle-verb they tell no place.
    particle = "particle",
    /// that, this.
    pointing_one = "pointing-one",
    /// those, these.
    pointing_several = "pointing-several",
    /// them.
    object_several = "object-several",
    /// it, that, this: behind "of" they are no things counted out.
    single_pronoun = "single-pronoun",
    /// no: behind a number it corrects.
    second_thought = "second-thought",
    /// both.
    both_word = "both-word",
    /// on, around: joins a part to what bears it.
    bearer_joint = "bearer-joint",
    /// it, them, each: what bears a part that was named.
    bearer = "bearer",
    /// off, down, and: ends what is named in the middle of its work.
    object_end = "object-end",
    /// needs, also: between a thing and the work said of it.
    verb_lead = "verb-lead",
    /// can, should: no word of a name.
    modal = "modal",
    /// there, here: brings up what stands there.
    scene_word = "scene-word",
    /// it: the one small word that a misheard name may end in.
    name_tail = "name-tail",
    /// a: one, before a group, a part or a scale.
    article = "article",
    /// a, an, another: one, before a unit.
    unit_opener = "unit-opener",
    /// and: joins the parts of a number.
    number_joint = "number-joint",
    /// point: "two point five".
    decimal_point = "decimal-point",
    /// oh: "two oh five".
    spoken_nought = "spoken-nought",
    /// ish: "forty-ish feet".
    rough_ending = "rough-ending",
    /// by, x: between the two lengths of a size.
    size_joint = "size-joint",
    /// or, to: between the ends of a range.
    range_word = "range-word",
    /// between: opens a range.
    range_opener = "range-opener",
    /// more: "two more of them".
    further = "further",
    /// inch, foot: one, where a part is said behind it.
    lone_unit = "lone-unit",
    /// more, other: the number before counts things and is no inches.
    count_tail = "count-tail",
    /// tape: "tape says thirty eight four".
    tape_word = "tape-word",
    /// says, reads: what a tape does.
    tape_verb = "tape-verb",
    /// pitch: told in inches of rise, with a run or without.
    pitch_word = "pitch-word",
    /// slope: told in inches of rise only with its run.
    slope_word = "slope-word",
    /// ft, sq: a full stop behind one ends no sentence.
    abbreviation = "abbreviation",
}
