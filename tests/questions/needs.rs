//! What the work usually needs and was not mentioned.

use super::{GRAMMAR, asked_of, drafted, hits, near_misses};
use eavesdraft::model::{Side, Work};
use eavesdraft::scope::questions::{self, Kind, Question};

/// The question about one side, without the one about the whole house.
fn on_side(walk: &str, side: Side) -> Option<Question> {
    asked_of(Kind::NotMentioned, walk).into_iter().find(|question| question.side == side)
}

fn items(question: &Question) -> Vec<&str> {
    question.missing.iter().map(|missing| missing.item.as_str()).collect()
}

#[test]
fn renewed_siding_asks_for_what_hangs_on_its_wall_and_was_not_mentioned_there() {
    let walk = "Right side. Siding, three square, replace. Two outlets, detach and reset. Left side. Siding, two square, \
                replace. The hose bib is fine. One light, detach and reset.";
    let right = on_side(walk, Side::Right).unwrap();
    assert_eq!(
        right.in_full(),
        "Siding is being replaced on the right. Nothing was said about these; is any there? Light fixture, hose bib, \
         wiring or utility box, dryer vent or gable vent and downspout."
    );
    assert_eq!(right.ground.source, "common practice, no source");
    assert!(right.missing.iter().all(|missing| missing.work == Work::DetachReset));
    let left = on_side(walk, Side::Left).unwrap();
    assert_eq!(items(&left), ["outlet", "wiring", "dryer-vent", "downspout"], "what is fine was mentioned");
    let house = on_side(walk, Side::None).unwrap();
    assert!(items(&house).contains(&"starter-strip"), "{house:?}");
    assert_eq!(house.missing.iter().find(|m| m.item == "starter-strip").unwrap().work, Work::RemoveReplace);
}

#[test]
fn siding_all_around_is_asked_about_as_one() {
    let walk = "Front. Mailbox, replace. Siding all the way around, thirty square, replace.";
    let questions = asked_of(Kind::NotMentioned, walk);
    assert_eq!(
        questions.iter().map(|q| q.side).collect::<Vec<_>>(),
        [Side::None, Side::None],
        "{questions:#?}"
    );
    assert!(items(&questions[0]).contains(&"outlet"));
}

#[test]
fn new_shingles_ask_for_what_goes_with_them() {
    hits(
        Kind::NotMentioned,
        &[
            (
                "On the roof. Shingles, twenty four square, replace. Two pipe jacks, replace. Ridge vent, forty foot, \
                 replace. Drip edge, two hundred foot, replace. Ridge cap is fine. Chimney flashing, replace. \
                 Underlayment, twenty four square, replace.",
                "Shingles are being replaced. Nothing was said about these; is any there?",
                &[],
            ),
            (
                "Front slope. Shingles, twelve square, replace. Rear slope. Shingles, twelve square, replace. Four box \
                 vents, replace.",
                "Shingles are being replaced. Nothing was said about these; is any there?",
                &[],
            ),
        ],
    );
}

#[test]
fn repairs_conditions_other_buildings_and_walls_that_were_looked_over_are_not_asked_about() {
    near_misses(
        Kind::NotMentioned,
        "siding",
        &[
            "Right side. Siding, power wash.",
            "Right side. Siding, forty square feet, replace.",
            "Right side. If the hail got it, siding, three square, replace.",
        ],
    );
    near_misses(
        Kind::NotMentioned,
        "shingles",
        &[
            "Rear slope. Shingles, two square, replace.",
            "Now the shed. Shingles, six square, replace.",
            "Rear slope. If there's hail, shingles, twenty square, replace.",
        ],
    );
    let looked_over =
        "Right side. Siding, three square, replace. Light, detach and reset. Outlet, same. Hose bib, same.";
    assert_eq!(on_side(looked_over, Side::Right), None, "{:#?}", drafted(looked_over).lines);
}

#[test]
fn things_said_of_no_one_side_and_things_dropped_since_were_mentioned() {
    let walk = "There's lights and outlets all the way around, detach and reset. Right side. Siding, three square, replace.";
    let right = on_side(walk, Side::Right).unwrap();
    assert!(!items(&right).contains(&"light-fixture"), "{right:?}");
    let draft = drafted("Right side. Siding, three square, replace. Outlet, detach and reset.");
    let (dropped, lines) = draft.lines.iter().partition(|line| line.item.as_deref() == Some("outlet"));
    let house = questions::HouseUnderReview {
        lines,
        dropped,
        draft: &draft,
        grammar: &GRAMMAR,
        answered: Default::default(),
    };
    let right =
        questions::questions(&house).into_iter().find(|question| question.side == Side::Right).unwrap();
    assert!(!items(&right).contains(&"outlet"), "{right:?}");
}
