//! What a person types into a field.

use super::GRAMMAR;
use eavesdraft::model::Unit;
use eavesdraft::scope::review::typed;

#[test]
fn quantities_are_read_by_the_rules_of_speech() {
    let read = |text: &str| {
        let typed = typed::quantity(text, &GRAMMAR).unwrap_or_else(|refusal| panic!("{text}: {refusal}"));
        (typed.quantity.low().decimal(), typed.quantity.high().decimal(), typed.unit, typed.rough)
    };
    // A foot has twelve inches (NIST Handbook 44, appendix C): 6 ft 6 in is 6.5 ft.
    assert_eq!(read("6' 6\""), (6.5, 6.5, Some(Unit::Foot), false));
    assert_eq!(read("12-14"), (12.0, 14.0, None, true));
    assert_eq!(read("12-14 ft"), (12.0, 14.0, Some(Unit::Foot), true));
    assert_eq!(read(" 3 "), (3.0, 3.0, None, false));
    assert_eq!(read("2.5 squares"), (2.5, 2.5, Some(Unit::Square), false));
    assert_eq!(read("about thirty feet"), (30.0, 30.0, Some(Unit::Foot), true));
    assert_eq!(read("two and a half"), (2.5, 2.5, None, false));
    assert_eq!(read("30 in"), (30.0, 30.0, Some(Unit::Inch), false));
    assert_eq!(read("0"), (0.0, 0.0, None, false));
}

#[test]
fn what_is_no_quantity_is_refused_in_a_sentence() {
    let refused = |text: &str| typed::quantity(text, &GRAMMAR).unwrap_err().to_string();
    assert_eq!(refused("lots"), "“lots” isn't a number: type it like 12, 6' 6\", 12-14 ft");
    assert_eq!(refused(""), "“” isn't a number: type it like 12, 6' 6\", 12-14 ft");
    assert_eq!(refused("9 x 7"), "“9 x 7” is a size, not a quantity: type it under Size");
    assert_eq!(refused("-3"), "a quantity can't be less than zero");
    assert_eq!(refused("12 gutters"), "“gutters” isn't part of a number or unit");
    assert!(refused(&"7 ".repeat(900)).len() < 200);
}

#[test]
fn items_are_known_by_id_by_name_and_by_what_people_say() {
    let item = |text: &str| typed::item(text, &GRAMMAR).map(|n| GRAMMAR.items[usize::from(n)].id.as_str());
    assert_eq!(item("hose-bib"), Some("hose-bib"));
    assert_eq!(item("Hose bib"), Some("hose-bib"));
    assert_eq!(item("spigot"), Some("hose-bib"));
    assert_eq!(item("submarine"), None);
    assert_eq!(item(""), None);
}
