//! What holds of any scope and any list.

use super::{GRAMMAR, read};
use eavesdraft::model::{Area, Draft, Exact, Line, Quantity, Side, Size, Unit, Work, wording};
use eavesdraft::scope::compare::{Certainty, Comparison, Outcome, Reading, compare};
use proptest::prelude::*;

const SIDES: [Side; 5] = [Side::Front, Side::Right, Side::Rear, Side::Left, Side::None];

const WORKS: [Work; 9] = [
    Work::DetachReset,
    Work::RemoveReplace,
    Work::Remove,
    Work::Install,
    Work::Repair,
    Work::Clean,
    Work::Paint,
    Work::Stain,
    Work::Protect,
];

/// A line of any item of the catalogue.
fn line() -> impl Strategy<Value = Line> {
    let sizes = prop::sample::select(vec![None, Some("3 in"), Some("6 ft"), Some("16 ft x 7 ft")]);
    let items = 0..GRAMMAR.items.len();
    let units = any::<prop::sample::Index>();
    (items, units, prop::sample::select(&SIDES[..]), prop::sample::select(&WORKS[..]), 1u32..400, sizes)
        .prop_map(|(item, unit, side, work, quarters, size)| {
            let item = &GRAMMAR.items[item];
            let takes: Vec<Unit> = std::iter::once(item.unit).chain(item.also.iter().copied()).collect();
            let quantity = Some(Quantity::of(Exact::new(quarters, 4)));
            Line {
                id: String::new(),
                structure: "house".to_owned(),
                side,
                area: Area::Wall,
                item: Some(item.id.clone()),
                said: String::new(),
                work: Some(work),
                quantity,
                unit: takes[unit.index(takes.len())],
                rough: false,
                size: size.map(Size::read),
                detail: None,
                only_if: false,
                confidence: 1.0,
                flags: Vec::new(),
                quote: String::new(),
                words: None,
                start: None,
                end: None,
                other_reading: None,
                readings: Vec::new(),
                why: Vec::new(),
            }
        })
}

fn scope(lines: Vec<Line>) -> Draft {
    let nothing =
        r#"{"source":"a.txt","lines":[],"no_work":[],"follow_ups":[],"dimensions":[],"cautions":[]}"#;
    Draft { lines, ..serde_json::from_str(nothing).unwrap() }
}

/// Rows as an office would write these lines.
fn rows(lines: &[Line]) -> Vec<[String; 6]> {
    let side = |side| if side == Side::None { String::new() } else { wording::side(side).to_owned() };
    let row = |line: &Line| {
        [
            side(line.side),
            wording::item_of(line),
            wording::size_of(line),
            wording::work(line.work).to_owned(),
            line.quantity.map(|quantity| quantity.value().text()).unwrap_or_default(),
            line.unit.word(false).to_owned(),
        ]
    };
    lines.iter().map(row).collect()
}

fn written(rows: &[[String; 6]]) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["Side", "Item", "Size", "Work", "Quantity", "Unit"]).unwrap();
    rows.iter().for_each(|row| writer.write_record(row).unwrap());
    writer.into_inner().unwrap()
}

fn compared(ours: &Draft, rows: &[[String; 6]]) -> Comparison {
    let list = read(&written(rows), &Reading::default()).unwrap_or_else(|error| panic!("{error}"));
    compare(ours, &list, &GRAMMAR)
}

/// A finding without the rows' numbers.
type Unnumbered = (Outcome, Certainty, Vec<usize>, Vec<String>, Option<Exact>);

fn unnumbered(comparison: &Comparison) -> Vec<Unnumbered> {
    let told = |f: &eavesdraft::scope::compare::Finding| {
        let theirs = f.theirs.iter().map(|t| format!("{:?} {} {} {:?}", t.side, t.text, t.amount, t.works));
        let mut theirs: Vec<String> = theirs.collect();
        theirs.sort();
        (f.outcome, f.certainty, f.ours.iter().map(|our| our.number).collect(), theirs, f.difference)
    };
    let mut all: Vec<_> = comparison.findings.iter().map(told).collect();
    all.sort_by(|a, b| (a.0, &a.2, &a.3).cmp(&(b.0, &b.2, &b.3)));
    all
}

/// Whether blank cells for the place are read as the one above: there the order of rows says something.
fn takes_places_from_above(comparison: &Comparison) -> bool {
    comparison.notices.iter().any(|notice| notice.contains("are read as being there, too"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn a_scope_beside_its_own_export_is_the_same_line_by_line(lines in prop::collection::vec(line(), 1..16)) {
        let comparison = compared(&scope(lines.clone()), &rows(&lines));
        prop_assume!(!takes_places_from_above(&comparison));
        prop_assert_eq!(comparison.counts.same, lines.len(), "{:#?}", comparison.findings);
        for finding in &comparison.findings {
            prop_assert_eq!((finding.certainty, finding.ours.len(), finding.theirs.len()), (Certainty::High, 1, 1));
        }
    }

    #[test]
    fn the_order_of_their_rows_changes_nothing(
        (lines, rows, shuffled) in prop::collection::vec((line(), 0u8..8), 1..14).prop_flat_map(|changed| {
            let lines: Vec<Line> = changed.iter().map(|(line, _)| line.clone()).collect();
            let mut rows = rows(&lines);
            for (row, (_, change)) in rows.iter_mut().zip(&changed) {
                match change {
                    0 => row[0] = String::new(),
                    1 => row[2] = String::new(),
                    2 => row[3] = String::new(),
                    3 => row[4] = "7".to_owned(),
                    4 => row[5] = String::new(),
                    5 => row[0] = "Front".to_owned(),
                    _ => {}
                }
            }
            (Just(lines), Just(rows.clone()), Just(rows).prop_shuffle())
        })
    ) {
        let ours = scope(lines);
        let (compared, shuffled) = (compared(&ours, &rows), compared(&ours, &shuffled));
        prop_assume!(!takes_places_from_above(&compared) && !takes_places_from_above(&shuffled));
        prop_assert_eq!(unnumbered(&compared), unnumbered(&shuffled));
    }
}
