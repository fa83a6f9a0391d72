//! The catalogue's elements of UNIFORMAT II.

use super::GRAMMAR;
use std::collections::BTreeSet;

/// The elements that the catalogue uses, by their names in NISTIR 6389, "UNIFORMAT II Elemental Classification for
/// Building Specifications, Cost Estimating, and Cost Analysis", level 3. Written down from memory, not copied from the
/// report.
const NAMES: [(&str, &str); 19] = [
    ("B2010", "Exterior Walls"),
    ("B2020", "Exterior Windows"),
    ("B2030", "Exterior Doors"),
    ("B3010", "Roof Coverings"),
    ("B3020", "Roof Openings"),
    ("C1030", "Fittings"),
    ("D2020", "Domestic Water Distribution"),
    ("D2040", "Rain Water Drainage"),
    ("D2090", "Other Plumbing Systems"),
    ("D3010", "Energy Supply"),
    ("D3020", "Heat Generating Systems"),
    ("D3030", "Cooling Generating Systems"),
    ("D3040", "Distribution Systems"),
    ("D5010", "Electrical Service & Distribution"),
    ("D5020", "Lighting & Branch Wiring"),
    ("D5030", "Communications & Security"),
    ("E2020", "Movable Furnishings"),
    ("G2040", "Site Development"),
    ("G2050", "Landscaping"),
];

#[test]
fn every_item_has_an_element_that_the_report_has() {
    let mut used = BTreeSet::new();
    for item in &GRAMMAR.items {
        let element = item.element.as_deref().unwrap_or_else(|| panic!("{} has no element", item.id));
        let bytes = element.as_bytes();
        let formed =
            bytes.len() == 5 && matches!(bytes[0], b'A'..=b'G') && bytes[1..].iter().all(u8::is_ascii_digit);
        assert!(formed, "{}: {element}", item.id);
        used.insert(element);
    }
    let known: BTreeSet<&str> = NAMES.iter().map(|(element, _)| *element).collect();
    assert_eq!(used, known, "an element without a name here, or a name that nothing uses");
}

#[test]
fn what_an_item_is_and_what_its_element_is_called_agree() {
    let cases = [
        ("siding", "Exterior Walls"),
        ("window-screen", "Exterior Windows"),
        ("garage-door", "Exterior Doors"),
        ("shingles", "Roof Coverings"),
        ("light-fixture", "Lighting & Branch Wiring"),
        ("wood-fence", "Site Development"),
        ("mailbox", "Fittings"),
    ];
    for (item, name) in cases {
        let place = GRAMMAR.item_named(item).unwrap_or_else(|| panic!("no {item}"));
        let element = GRAMMAR.items[usize::from(place)].element.as_deref();
        let named = NAMES.iter().find(|(code, _)| Some(*code) == element).map(|(_, name)| *name);
        assert_eq!(named, Some(name), "{item}");
    }
}
