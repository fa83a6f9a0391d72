//! One fixed draft as every document, side by side in `snapshots/`.

use crate::harness::sample_draft;
use eavesdraft::documents::{FORMATS, Format, Html, Json};

fn text(format: &dyn Format) -> String {
    String::from_utf8(format.render(&sample_draft())).unwrap()
}

#[test]
fn json_is_the_draft_and_nothing_else() {
    let back: eavesdraft::draft::Draft = serde_json::from_str(&text(&Json)).unwrap();
    assert_eq!(back, sample_draft());
}

#[test]
fn dump() {
    for f in FORMATS {
        let big: eavesdraft::draft::Draft = serde_json::from_str(&std::fs::read_to_string("/tmp/big.scope.json").unwrap()).unwrap();
        std::fs::write(format!("/tmp/big.out.{}", f.ending()), f.render(&big)).unwrap();
        std::fs::write(format!("/tmp/sample.out.{}", f.ending()), text(f)).unwrap();
    }
    let _ = Html;
}
