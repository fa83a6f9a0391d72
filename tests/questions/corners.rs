//! Corners belong to the building once.

use super::{asked_of, hits, near_misses};
use eavesdraft::model::Exact;
use eavesdraft::scope::questions::{Effect, Kind};

const FOUR_SIDES: &str = "Front elevation. Two outside corner posts, replace. Right side. Two outside corner posts, replace. Rear \
                          elevation. Two outside corner posts, replace. Left side. Two outside corner posts, replace.";

#[test]
fn posts_counted_from_each_side_are_asked_about_once_and_the_lower_number_comes_first() {
    hits(
        Kind::Corners,
        &[
            (
                FOUR_SIDES,
                "Outside corner: 2 on the front, 2 on the right, 2 on the rear and 2 on the left were counted, 8 in \
                 all. Are some of them the same posts, 4 in all?",
                &["4 in all", "8 in all"],
            ),
            (
                "Front. Two corner posts, replace. Right side. Two corner posts, replace.",
                "Outside corner: 2 on the front and 2 on the right were counted, 4 in all. Are some of them the same \
                 posts, 3 in all?",
                &["3 in all", "4 in all"],
            ),
            (
                "Front. Three outside corners, replace. Right side. One outside corner, replace. Rear. Two outside \
                 corners, replace.",
                "Outside corner: 3 on the front, 1 on the right and 2 on the rear were counted, 6 in all. Are some of \
                 them the same posts, 5 in all?",
                &["5 in all", "6 in all"],
            ),
            (
                "Front. One inside corner, replace. Right side. One inside corner, replace.",
                "Inside corner: 1 on the front and 1 on the right were counted, 2 in all. Are some of them the same \
                 posts, 1 in all?",
                &["1 in all", "2 in all"],
            ),
        ],
    );
}

#[test]
fn the_lower_number_takes_the_posts_of_right_and_left_away() {
    let question = asked_of(Kind::Corners, FOUR_SIDES).remove(0);
    let [once, as_noted] = question.readings.as_slice() else { panic!("{question:#?}") };
    let dropped: Vec<&str> = once.effects.iter().map(Effect::line).collect();
    assert_eq!(dropped, [question.lines[1].as_str(), question.lines[3].as_str()]);
    assert!(once.effects.iter().all(|effect| matches!(effect, Effect::Drop { .. })));
    assert_eq!(as_noted.effects, []);
    let two_sides = "Front. Two corner posts, replace. Right side. Two corner posts, replace.";
    let effects = asked_of(Kind::Corners, two_sides)[0].readings[0].effects.clone();
    let counts =
        |effect: &Effect| matches!(effect, Effect::Count { quantity, .. } if *quantity == Exact::ONE);
    assert!(effects.len() == 1 && counts(&effects[0]), "{effects:?}");
}

#[test]
fn posts_that_a_plain_house_has_and_posts_of_no_one_building_are_not_asked_about() {
    near_misses(
        Kind::Corners,
        "outside-corner",
        &[
            // Front and rear don't touch.
            "Front. Two outside corners, replace. Rear. Two outside corners, replace.",
            // Each corner named once, on the way around.
            "Front. One outside corner, replace. Right side. One outside corner, replace. Rear. One outside corner, \
             replace. Left. One outside corner, replace.",
            // Another building's.
            "Front. Two outside corners, replace. Now the detached garage. On the right side of the garage, two \
             outside corners, replace.",
            // Only if.
            "Front. Two outside corners, replace. Right side. If they're cracked, two outside corners, replace.",
            // Not the same posts: some are painted, others replaced.
            "Front. Two outside corners, replace. Right side. Two outside corners, paint.",
            "Four outside corners all the way around, replace.",
        ],
    );
    near_misses(
        Kind::Corners,
        "inside-corner",
        &[
            "Front. One inside corner, replace. Rear. One inside corner, replace.",
            "Front. Two inside corners, replace. Right side. One inside corner, replace.",
        ],
    );
}
