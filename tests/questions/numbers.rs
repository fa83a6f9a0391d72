//! Numbers out of the ordinary.

use super::{GRAMMAR, asked_of, drafted, hits, near_misses};
use eavesdraft::model::Quantity;
use eavesdraft::scope::questions::{self, HouseUnderReview, Kind};

const RIGHT: &[&str] = &["that's right"];

/// Walks, the question that each brings up, and what it may be answered with.
const UNUSUAL: &[(&str, &str, &[&str])] = &[
    (
        "Rear. Wood fence, seven hundred foot, replace.",
        "Wood fence on the rear: 700 ft. Is that right?",
        RIGHT,
    ),
    (
        "Chain link fence all the way around, six hundred and fifty foot, replace.",
        "Chain link fence: 650 ft. Is that right?",
        RIGHT,
    ),
    (
        "Front. The front wall is forty wide and forty high. Mailbox, replace.",
        "A wall on the front was said to be 40' high (“The front wall is forty wide and forty”). Is that \
                 right?",
        RIGHT,
    ),
    (
        "Left side. The gable is twenty six wide and twenty four at the peak. Mailbox, replace.",
        "A gable on the left was said to be 24' high (“The gable is twenty six wide and twenty four”). Is that right?",
        RIGHT,
    ),
    (
        "The roof is a twenty twelve pitch. Front. Mailbox, replace.",
        "The roof was said to have a slope of 20 in 12 (“twenty twelve pitch.”). Is that right?",
        RIGHT,
    ),
    (
        "Rear slope is a one twelve pitch. Shingles, four square, replace.",
        "The roof on the rear was said to have a slope of 1 in 12 (“one twelve pitch.”). Is that right?",
        RIGHT,
    ),
    (
        "Front slope. Shingles, forty five square, replace. Rear slope. Shingles, forty five square, replace.",
        "Shingles: 90 squares in all. Is that right?",
        RIGHT,
    ),
    (
        "Front. Siding, thirty five square, replace. Rear. Siding, thirty square, replace.",
        "Siding: 65 squares in all. Is that right?",
        RIGHT,
    ),
    (
        "Front slope. Nine box vents, replace. Rear slope. Ten box vents, replace.",
        "Box vent: 19 in all. Is that right?",
        RIGHT,
    ),
    (
        "Front slope. Six pipe jacks, replace. Rear slope. Seven pipe jacks, replace.",
        "Pipe jack: 13 in all. Is that right?",
        RIGHT,
    ),
    (
        "Rear slope. One eight inch pipe jack, replace.",
        "Pipe jack on the rear: 8\". Is the size right?",
        RIGHT,
    ),
    (
        "Front. Three shutters, detach and reset.",
        "Shutter on the front: 3 counted, an odd number. Is that right?",
        RIGHT,
    ),
    (
        "Front. Gutter, ninety foot, replace. Rear. Gutter, ninety foot, replace. Downspout, nine foot, \
                 replace.",
        "Downspout: 2 for 180 ft of gutter; 3 or more would be usual. Are there more?",
        &["no more"],
    ),
];

#[test]
fn lengths_areas_heights_and_counts_beyond_the_usual_are_asked_about() {
    hits(Kind::Number, UNUSUAL);
}

#[test]
fn usual_numbers_and_those_that_their_line_asks_about_already_are_not() {
    near_misses(
        Kind::Number,
        "wood-fence",
        &[
            "Rear. Wood fence, six hundred foot, replace.",
            "Rear. Wood fence, four hundred foot, replace. Left. Wood fence, four hundred foot, replace.",
            "Rear. If it's hit, wood fence, seven hundred foot, replace.",
        ],
    );
    near_misses(
        Kind::Number,
        "shutter",
        &[
            "Front. Four shutters, detach and reset.",
            "Front. Three pair of shutters, detach and reset.",
            "Front. One shutter, replace.",
        ],
    );
    near_misses(
        Kind::Number,
        "gutter",
        &[
            // Flagged on the line itself.
            "Rear. Gutter, a hundred and forty foot, replace. Three downspouts, replace.",
            "Front. Gutter, ninety foot, replace. Two downspouts, replace.",
            "Front. Gutter, ninety foot, detach and reset.",
            "Front. Gutter, ninety foot, replace. The downspouts are fine.",
            "Front. Gutter, ninety foot, replace. Downspouts, replace.",
        ],
    );
    near_misses(
        Kind::Number,
        "pipe-jack",
        &[
            "Rear slope. One six inch pipe jack, replace.",
            "Rear slope. Ten pipe jacks, replace.",
            "Front slope. Shingles, forty square, remove. Shingles, forty square, install. One pipe jack, replace.",
        ],
    );
    near_misses(
        Kind::Number,
        "mailbox",
        &["Front. The front wall is forty wide and nine high. Mailbox, replace."],
    );
}

#[test]
fn a_number_that_a_reviewer_typed_is_asked_about_and_one_that_was_accepted_is_not_asked_again() {
    let draft = drafted("Rear. Gutter, a hundred and forty foot, replace. Three downspouts, replace.");
    let questions = |line: &eavesdraft::model::Line| {
        let lines = vec![line];
        let house = HouseUnderReview {
            lines,
            dropped: Vec::new(),
            draft: &draft,
            grammar: &GRAMMAR,
            answered: Default::default(),
        };
        let all = questions::questions(&house).into_iter();
        all.filter(|question| question.ground.name == "gutter-run").count()
    };
    let mut line = draft.lines[0].clone();
    line.flags.clear();
    assert_eq!(questions(&line), 0, "{draft:#?}");
    line.quantity = Some(Quantity::of(1400));
    assert_eq!(questions(&line), 1);
    assert_eq!(asked_of(Kind::Number, "Rear. Gutter, a hundred foot, replace. Two downspouts, replace."), []);
}
