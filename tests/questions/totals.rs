//! Totals said aloud.

use super::{asked_of, drafted, hits};
use eavesdraft::model::Quantity;
use eavesdraft::scope::questions::{Effect, Kind};

#[test]
fn a_total_that_became_a_line_is_asked_about() {
    hits(
        Kind::SaidTotal,
        &[
            (
                "Front elevation. Thirty foot of gutter, replace. Rear elevation. Forty foot of gutter, replace. So \
                 that's eighty foot of gutter in all.",
                "Gutter: “eighty foot of gutter” was said, and the lines before it add up to 70 ft. Is it their total, not a \
                 line of its own?",
                &["70 ft in all", "150 ft in all"],
            ),
            (
                "Front elevation. Two lights, detach and reset. Right. Three lights, detach and reset. That makes six \
                 lights, front and right together.",
                "Light fixture: “six lights” was said, and the lines before it add up to 5. Is it their total, not a line of \
                 its own?",
                &["5 in all", "11 in all"],
            ),
        ],
    );
    let walk = "Front. Gutter, thirty foot, replace. Rear. Gutter, forty foot, replace. So that's eighty foot of gutter in all.";
    let question = asked_of(Kind::SaidTotal, walk).remove(0);
    let effects = &question.readings[0].effects;
    let [Effect::Drop { line, .. }] = effects.as_slice() else { panic!("{effects:?}") };
    let dropped = drafted(walk).lines.into_iter().find(|l| l.id == *line).unwrap();
    assert_eq!(dropped.quantity, Some(Quantity::of(80)));
}

#[test]
fn a_total_that_the_lines_do_not_add_up_to_is_asked_about() {
    hits(
        Kind::SaidTotal,
        &[
            (
                "Front elevation. Gutter, 30, replace. Rear. Gutter, 40, replace. Gutter so far, 80. Window wrap, 5, \
                 replace.",
                "Gutter: “Gutter so far, 80” was said, but the lines before it add up to 70 ft. Are the lines right?",
                &["the lines are right: 70 ft"],
            ),
            (
                "Front. Gutter, 18 foot one side of the porch and 22 the other, 44 in all, replace.",
                "Gutter: “Gutter, 18 foot one side of the porch and 22 the other, 44” was said, but the lines before \
                 it add up to 40 ft. Are the lines right?",
                &["the lines are right: 40 ft"],
            ),
            (
                "Front. Gutter thirty foot, replace. Rear. Gutter forty foot, replace. Left. Mailbox, replace. Totals \
                 again for the office. Gutter eighty.",
                "Gutter: “Gutter eighty” was said, but the lines before it add up to 70 ft. Are the lines right?",
                &["the lines are right: 70 ft"],
            ),
        ],
    );
}

#[test]
fn totals_that_fit_and_numbers_that_are_no_totals_are_not_asked_about() {
    for walk in [
        "Front elevation. Thirty foot of gutter, replace. Rear elevation. Forty foot of gutter, replace. So that's seventy \
         foot of gutter in all.",
        "Front. Gutter, 18 foot one side of the porch and 22 the other, 40 in all, replace.",
        // The total of one side.
        "Front. Gutter, forty foot, replace. Rear. Gutter, I got seventy two foot all together, replace.",
        // A line said over again.
        "Front. Gutter, 30, replace. Rear. Gutter, 40, replace. Left. Mailbox, replace. Totals again for the office. \
         Gutter on the rear, 40.",
        // No number was said of a part, so nothing can be added up.
        "Front. Gutter, replace. Rear. Gutter, 40 foot, replace. Gutter so far, 80.",
        // "So" alone.
        "Front. Two lights, detach and reset. Right. So three lights, detach and reset.",
        // In another unit than the lines.
        "Front. Siding, one square, replace. Rear. Siding, one and a half square, replace. Totals again for the office. \
         Siding two and a half.",
    ] {
        assert_eq!(asked_of(Kind::SaidTotal, walk), [], "{walk}\n{:#?}", drafted(walk).totals);
    }
}

#[test]
fn a_said_total_is_kept_beside_the_lines_and_makes_none() {
    let with = drafted("Front. Gutter, 30, replace. Rear. Gutter, 40, replace. Gutter so far, 80.");
    let without = drafted("Front. Gutter, 30, replace. Rear. Gutter, 40, replace.");
    assert_eq!(with.lines, without.lines);
    assert_eq!(without.totals, []);
    let [total] = with.totals.as_slice() else { panic!("{:?}", with.totals) };
    assert_eq!(
        (total.item.as_str(), total.quantity.decimal(), total.quote.as_str()),
        ("gutter", 80.0, "Gutter so far, 80")
    );
}
