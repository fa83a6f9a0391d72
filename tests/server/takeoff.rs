//! The takeoff over HTTP: faces with where they come from, figures with their formulas, and measures typed.

use super::{Served, drafted};
use serde_json::json;

const WALK: &str = "Front elevation. The wall is forty by nine. Siding, remove and replace. Left side. The gable is twenty \
                    six feet wide. Siding, remove and replace.";

#[test]
fn a_typed_slope_gives_the_gable_that_lacked_a_height() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let takeoff = || served.get(&format!("{recording}/takeoff")).json();
    let before = takeoff();
    assert_eq!(
        before["dimensions"][0]["width"],
        json!({
            "value": 40.0, "told": "40'", "from": "said", "quote": "The wall is forty by nine.", "start": null
        })
    );
    assert_eq!(before["figures"][0]["formula"], "40' × 9'");
    assert_eq!(before["lacking"][0]["measure"], "height of the gable at its peak, or the slope of the roof");
    let roof = json!({ "structure": "house", "side": "none", "shape": "roof-slope", "number": 1 });
    let command = json!({ "do": "set-dimension", "dimension": roof, "measurements": { "slope": "6/12" } });
    let answer = served.send(&recording, "Ann", &json!({}), &command);
    assert_eq!(answer.status, 200, "{answer:?}");
    assert_eq!(answer.json()["undo"], "house, roof slope: slope 6/12");
    let after = takeoff();
    assert_eq!((&before["version"], &after["version"]), (&json!(0), &json!(1)));
    let gable = after["figures"].as_array().unwrap().iter().find(|figure| figure["name"] == "gable").unwrap();
    assert_eq!((&gable["told"], &gable["place"]), (&json!("84.5 sq ft"), &json!("House, left")));
    let roof =
        after["dimensions"].as_array().unwrap().iter().find(|face| face["shape"] == "roof-slope").unwrap();
    assert_eq!((&roof["slope"]["from"], &roof["slope"]["who"]), (&json!("typed"), &json!("Ann")));
    let page = served.get(&format!("{recording}/documents/work.json")).json();
    assert!(page.to_string().contains("Ann"), "the record tells who typed it");
}

#[test]
fn a_measure_that_cannot_be_read_is_refused_with_its_field() {
    let desk = drafted(WALK);
    let served = Served::over(&desk);
    let recording = served.recording();
    let face = json!({ "structure": "house", "side": "front", "shape": "wall", "number": 1 });
    let wish = |face: &serde_json::Value, measures: serde_json::Value| {
        served.send(
            &recording,
            "Ann",
            &json!({}),
            &json!({ "do": "set-dimension", "dimension": face, "measurements": measures }),
        )
    };
    let refused = wish(&face, json!({ "width": "wide" }));
    assert_eq!((refused.status, &refused.json()["field"]), (422, &json!("width")));
    assert_eq!(wish(&face, json!({})).status, 422);
    assert_eq!(wish(&face, json!({ "depth": "3" })).status, 422);
    assert_eq!(wish(&json!({ "side": "front" }), json!({ "width": "3" })).status, 422);
    assert_eq!(wish(&json!(["house", "front", "wall", 1]), json!({ "width": "3" })).status, 422);
}
