//! Where their lines are, in lists that tell it in their own way.

use super::{GRAMMAR, WALK, beside, read, scope, short};
use eavesdraft::model::Side;
use eavesdraft::output::comparison::page;
use eavesdraft::output::html;
use eavesdraft::scope::compare::{Certainty, Comparison, Finding, Outcome, Reading, compare};

fn facing_north(list: &str, north: Side) -> Comparison {
    let list = read(list.as_bytes(), &Reading { north: Some(north), ..Reading::default() }).unwrap();
    compare(&scope(WALK), &list, &GRAMMAR)
}

/// The finding that a row of theirs stands in.
fn of_row(comparison: &Comparison, row: usize) -> &Finding {
    comparison.findings.iter().find(|f| f.theirs.iter().any(|their| their.row == row)).unwrap()
}

/// A place is written once, and what stands below it is there, too.
const ONCE: &str = "Side,Description,Work,Qty,Unit\n\
                    Front,Gutter,Replace,32,LF\n\
                    ,Shutters,Detach and reset,3,PR\n\
                    ,Mailbox,Detach and reset,1,EA\n\
                    Rear,Gutter,Replace,32,LF\n\
                    ,Deck rail,Paint,24,LF\n\
                    ,Light fixture,Detach and reset,2,EA\n\
                    Left,Gutter,Replace,20,LF\n";

#[test]
fn below_a_place_that_is_written_once_blank_cells_are_read_as_there_and_it_is_told() {
    let comparison = beside(ONCE);
    let notice = "rows 3, 4, 6 and 7 name no place below one that does, and are read as being there, too: that is an \
                  assumption, told with each line that rests on it";
    assert_eq!(comparison.notices, [notice]);
    let alone = |ours, row| (vec![ours], vec![row], None);
    let same = [alone(2, 2), alone(4, 3), alone(6, 4), alone(10, 5), alone(13, 6), alone(16, 8)];
    assert_eq!(short(&comparison, Outcome::Same), same);
    assert_eq!(of_row(&comparison, 2).certainty, Certainty::High);
    let resting = of_row(&comparison, 6);
    assert_eq!((resting.certainty, resting.theirs[0].side), (Certainty::Medium, Side::Rear));
    assert_eq!(resting.because, ["Row 6: it names no place; that of row 5 is taken to hold."]);
}

#[test]
fn what_differs_only_by_such_an_assumption_is_asked_about() {
    let comparison = beside(ONCE);
    assert_eq!(short(&comparison, Outcome::Unclear), [(vec![12], vec![7], None)]);
    let question = of_row(&comparison, 7).question.clone().unwrap();
    assert_eq!(
        question,
        "Row 7 names no place, and is not as much as our line 12 in the place named above. Where is it?"
    );
}

#[test]
fn the_words_of_a_row_tell_more_than_the_row_above() {
    let comparison = beside(ONCE.replace(",Deck rail,Paint", ",\"Gutter, right side\",Replace"));
    assert_eq!(of_row(&comparison, 6).theirs[0].side, Side::Right);
}

/// A blank cell is left as it is wherever it may as well mean that no side is named.
#[test]
fn blank_cells_stay_blank_where_the_column_isnt_plainly_so() {
    let twice = ONCE.replace("Left,", "Front,");
    let first = ONCE.replace("Front,Gutter", ",Gutter");
    let one_block = "Side,Item,Qty,Unit\nFront,Gutter,32,LF\nRear,Gutter,32,LF\n,Shingles,24,SQ\n,Permit,1,EA\n,Shutters,3,PR\n";
    let few = "Side,Item,Qty,Unit\nFront,Gutter,32,LF\n,Shutters,3,PR\nRear,Gutter,32,LF\n,Deck rail,24,LF\nLeft,Gutter,20,LF\n\
               Right,Gutter,20,LF\nRoof,Shingles,24,SQ\n";
    let headed = ONCE.replace("Rear,Gutter", "Rear Elevation,,,,\nRear,Gutter");
    for list in [twice.as_str(), &first, one_block, few, &headed] {
        let comparison = beside(list);
        assert_eq!(comparison.notices, [""; 0], "{list}");
    }
    // What comes after a blank row is no longer below.
    let parted = beside(ONCE.replace(",Mailbox", "\n,Mailbox"));
    assert_eq!(of_row(&parted, 5).theirs[0].side, Side::None);
    assert!(parted.notices[0].starts_with("rows 3, 7 and 8 name no place"), "{:?}", parted.notices);
}

const BY_COMPASS: &str = "Elevation,Description,Work,Qty,Unit\n\
                          North,Gutter,Replace,32,LF\n\
                          East,Gutter,Replace,18,LF\n";

#[test]
fn sides_by_the_compass_stay_open_until_it_is_told_which_side_faces_north() {
    let comparison = beside(BY_COMPASS);
    let notice = "rows 2 and 3 name their sides by the compass, which is no side until it is told which side of the house \
                  faces north: with --north, such as --north front";
    assert_eq!(comparison.notices, [notice]);
    assert_eq!(short(&comparison, Outcome::Unclear), [(vec![2, 8, 10, 16], vec![2, 3], None)]);
    assert!(comparison.of(Outcome::ShortThere).next().is_none());
    let told = facing_north(BY_COMPASS, Side::Front);
    assert_eq!(told.notices, [""; 0]);
    assert_eq!(short(&told, Outcome::Same), [(vec![2], vec![2], None)]);
    // Who looks at a front that faces north from the street has east on the left.
    assert_eq!(short(&told, Outcome::ShortThere), [(vec![16], vec![3], Some(-2.0))]);
    let turned = facing_north(BY_COMPASS, Side::Right);
    assert_eq!(
        (of_row(&turned, 2).theirs[0].side, of_row(&turned, 3).theirs[0].side),
        (Side::Right, Side::Front)
    );
}

#[test]
fn a_side_and_a_point_of_the_compass_that_disagree_stay_open() {
    let list = BY_COMPASS.replace("North,", "Front (north),");
    assert_eq!(of_row(&facing_north(&list, Side::Front), 2).theirs[0].side, Side::Front);
    let wrong = facing_north(&list, Side::Rear);
    assert_eq!(of_row(&wrong, 2).theirs[0].side, Side::None);
    assert!(wrong.notices[0].starts_with("row 2 names its side by the compass"), "{:?}", wrong.notices);
}

#[test]
fn one_line_for_two_sides_is_held_beside_ours_on_both() {
    let list = |quantity: u32| {
        format!(
            "Side,Description,Work,Qty,Unit\nFront & rear,Gutter,Replace,{quantity},LF\nLeft,Gutter,Replace,20,LF\n"
        )
    };
    let comparison = beside(list(64));
    assert_eq!(short(&comparison, Outcome::Same), [(vec![2, 10], vec![2], None), (vec![16], vec![3], None)]);
    let both = of_row(&comparison, 2);
    assert_eq!(both.certainty, Certainty::Medium);
    let because = both.because.join(" ");
    assert!(because.contains("Row 2 covers our lines 2 and 10: 64 ft there, 64 ft here."), "{because}");
    assert!(because.contains("under one number; it is held beside our lines 2 and 10"), "{because}");
    let comparison = beside(list(60));
    assert_eq!(short(&comparison, Outcome::Unclear), [(vec![2, 10], vec![2], None)]);
    let question = of_row(&comparison, 2).question.clone().unwrap();
    assert_eq!(question, "Row 2 names several sides under one number. How much of it is on which side?");
}

#[test]
fn one_line_for_two_sides_is_never_taken_for_ours_on_one_of_them() {
    // As much as ours on the left; ours on the front there is none.
    let list = "Side,Description,Work,Qty,Unit\nFront and left,Siding,Replace,2,SQ\nFront and rear,Awning,Replace,2,EA\n";
    let comparison = beside(list);
    assert_eq!(short(&comparison, Outcome::Unclear), [(vec![17], vec![2], None)]);
    let question = of_row(&comparison, 2).question.clone().unwrap();
    assert!(question.contains("our line 17 is all that is left to hold beside it"), "{question}");
    assert_eq!(short(&comparison, Outcome::OnlyThere), [(vec![], vec![3], None)]);
    let page = String::from_utf8(html::html(&page(&comparison, None))).unwrap();
    assert!(page.contains(">front and rear</td>"), "{page}");
}
