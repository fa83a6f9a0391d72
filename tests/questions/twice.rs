//! The same thing seen from two sides.

use super::{asked_of, hits, near_misses};
use eavesdraft::scope::questions::{Effect, Kind};

#[test]
fn a_thing_noted_alike_from_two_sides_is_asked_about_once() {
    let one_or_two: &[&str] = &["1 in all", "2 in all"];
    hits(
        Kind::SeenTwice,
        &[
            (
                "Front. Gutter, forty foot, replace. Downspout, ten foot, replace. Right side. Downspout, ten foot, \
                 replace.",
                "Downspout: 10 ft on the front, and the same on the right. Is it one and the same, seen from both \
                 sides?",
                &["10 ft in all", "20 ft in all"],
            ),
            (
                "Left side. Six foot wood fence, forty eight foot, replace. Rear. Six foot wood fence, forty eight \
                 foot, replace.",
                "Wood fence: 48 ft of 6' on the left, and the same on the rear. Is it one and the same, seen from \
                 both sides?",
                &["48 ft in all", "96 ft in all"],
            ),
            (
                "Front slope. One chimney cap, replace. Rear slope. One chimney cap, replace.",
                "Chimney cap: 1 on the front, and the same on the rear. Is it one and the same, seen from both \
                 sides?",
                one_or_two,
            ),
            (
                "Front slope. One three inch pipe jack, replace. Two box vents, replace. Rear slope. One three inch \
                 pipe jack, replace.",
                "Pipe jack: 1 of 3\" on the front, and the same on the rear. Is it one and the same, seen from both \
                 sides?",
                one_or_two,
            ),
            (
                "Right side. Electric meter, detach and reset. Rear. Electric meter, detach and reset.",
                "Electric meter: 1 on the right, and the same on the rear. Is it one and the same, seen from both \
                 sides?",
                one_or_two,
            ),
        ],
    );
}

#[test]
fn the_second_sighting_is_the_one_that_goes() {
    let walk = "Front slope. One chimney cap, replace. Rear slope. One chimney cap, replace.";
    let question = asked_of(Kind::SeenTwice, walk).remove(0);
    let effects = &question.readings[0].effects;
    let [Effect::Drop { line, reason }] = effects.as_slice() else { panic!("{effects:?}") };
    assert_eq!((line, reason.as_str()), (&question.lines[1], "the same as the one on the front"));
}

#[test]
fn what_a_house_has_on_more_than_one_side_is_not_asked_about() {
    near_misses(
        Kind::SeenTwice,
        "gutter",
        &[
            "Front. Gutter, forty foot, replace. Rear. Gutter, forty foot, replace.",
            "Front. Gutter, forty foot, replace. Right side. Gutter, forty foot, replace.",
        ],
    );
    near_misses(
        Kind::SeenTwice,
        "downspout",
        &[
            // Each side has a gutter of its own.
            "Front. Gutter, forty foot, replace. Downspout, ten foot, replace. Right side. Gutter, twenty foot, \
             replace. Downspout, ten foot, replace.",
            "Front. Gutter, forty foot, replace. Downspout, ten foot, replace. Right side. Downspout, twelve foot, \
             replace.",
            "Front. Gutter, forty foot, replace. Downspout, ten foot, replace. Rear. Downspout, ten foot, replace.",
        ],
    );
    near_misses(
        Kind::SeenTwice,
        "wood-fence",
        &[
            // A square yard: three runs alike.
            "Left side. Wood fence, sixty foot, replace. Rear. Wood fence, sixty foot, replace. Right side. Wood \
             fence, sixty foot, replace.",
            "Left side. Six foot wood fence, sixty foot, replace. Rear. Four foot wood fence, sixty foot, replace.",
            "Left side. Wood fence, sixty foot, replace. Right side. Wood fence, sixty foot, replace.",
        ],
    );
    near_misses(
        Kind::SeenTwice,
        "pipe-jack",
        &[
            "Front slope. One three inch pipe jack, replace. Rear slope. One two inch pipe jack, replace.",
            "Front slope. Two three inch pipe jacks, replace. Rear slope. Two three inch pipe jacks, replace.",
            "Front slope. One three inch pipe jack, replace. Rear slope. If it's cracked, replace the three inch pipe \
             jack.",
        ],
    );
}
