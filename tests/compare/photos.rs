//! Photos of the walk beside what was found.

use super::WALK;
use crate::harness::Desk;
use crate::papers::pdf::told;
use image::{ImageFormat, Rgb, RgbImage};
use serde_json::{Value, json};
use std::io::Cursor;

const LIST: &[u8] = b"Side,Description,Work,Qty,Unit\nFront,Light fixture,Detach and reset,1,EA\n";

/// The walk, begun at a quarter past ten, with a photo of the lights, one of the wood fence, and one of lunch.
fn desk() -> Desk {
    let mut walk: Value = serde_json::from_str(WALK).unwrap();
    walk["length"] = json!(150.0);
    let desk = Desk::with([("walk.scope.json", walk.to_string().as_bytes()), ("list.csv", LIST)]);
    let mut picture = Cursor::new(Vec::new());
    RgbImage::from_pixel(40, 30, Rgb([90, 120, 60])).write_to(&mut picture, ImageFormat::Png).unwrap();
    for time in ["101536", "101654", "123000"] {
        desk.put(&format!("pictures/20261127_{time}.png"), picture.get_ref());
    }
    desk
}

const ASKED: [&str; 5] = ["compare", "walk.scope.json", "list.csv", "--photos", "pictures"];

/// The photos of each of our lines, by number.
fn photos(json: &Value) -> Vec<(u64, Vec<String>)> {
    let found =
        json["findings"].as_array().unwrap().iter().flat_map(|found| found["ours"].as_array().unwrap());
    let of_line = |line: &Value| {
        let photos: Vec<String> = serde_json::from_value(line["photos"].clone()).unwrap_or_default();
        (!photos.is_empty()).then(|| (line["number"].as_u64().unwrap(), photos))
    };
    let mut photos: Vec<_> = found.filter_map(of_line).collect();
    photos.sort();
    photos
}

#[test]
fn each_line_names_the_photo_that_was_taken_while_it_was_said() {
    let desk = desk();
    let begun = ["--recorded-at", "2026-11-27T10:15:30-06:00", "--clock", "0", "--json"];
    let run = desk.run(&[&ASKED[..], &begun].concat());
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let json: Value = serde_json::from_str(&run.out).unwrap();
    let expected =
        [(1, vec!["20261127_101536.png".to_owned()]), (14, vec!["20261127_101654.png".to_owned()])];
    assert_eq!(photos(&json), expected);
    let notices = json["notices"].to_string();
    assert!(notices.contains("1 photo shows no line of ours for certain"), "{notices}");
}

#[test]
fn papers_name_and_show_the_photos_and_say_nothing_of_the_rest() {
    let desk = desk();
    let begun = ["--recorded-at", "2026-11-27T10:15:30-06:00", "--clock", "0"];
    assert_eq!(desk.run(&[&ASKED[..], &begun].concat()).code, 0);
    let page = desk.read("walk.compare.html");
    assert!(page.contains("Line 1, 00:04, photo 20261127_101536.png: “Two coach lights"), "{page}");
    assert_eq!(page.matches("<img src=\"data:image/jpeg;base64,").count(), 2);
    assert!(!page.contains("123000"));
    assert!(desk.read("walk.compare.csv").contains(",20261127_101536.png\r\n"));
    let pdf = std::fs::read(desk.path("walk.compare.pdf")).unwrap();
    let Some(images) = told("pdfimages", &["-list"], &[], &pdf) else { return };
    assert_eq!(images.lines().skip(2).count(), 2, "{images}");
}

#[test]
fn without_the_beginning_of_the_recording_no_photo_is_tied_and_that_is_told() {
    let desk = desk();
    let run = desk.run(&[&ASKED[..], &["--json"]].concat());
    let json: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(photos(&json), []);
    let notices = json["notices"].to_string();
    assert!(notices.contains("give the time with --recorded-at"), "{notices}");
    let run = desk.run(&["compare", "walk.scope.json", "list.csv", "--photos", "nowhere"]);
    assert!(run.code == 2 && run.err.contains("check the folder of the photos"), "{run:?}");
}

/// A photo that was asked for shows the thing it was asked for, not what was said around it.
#[test]
fn a_photo_that_was_asked_for_goes_to_that_thing() {
    let words = "WEBVTT\n\n00:01.000 --> 00:03.000\nFront elevation.\n\n00:03.000 --> 00:06.000\nOne mailbox, detach and \
                 reset.\n\n00:30.000 --> 00:33.000\nGutter, twenty foot, replace.\n\n00:40.000 --> 00:43.000\nGet a photo of the \
                 mailbox.\n\n01:10.000 --> 01:13.000\nGet a photo of the downspout.\n";
    let desk = Desk::with([("walk.vtt", words.as_bytes()), ("list.csv", LIST)]);
    assert_eq!(desk.run(&["draft", "walk.vtt"]).code, 0);
    let mut draft: Value = serde_json::from_str(&desk.read("walk.scope.json")).unwrap();
    draft["length"] = json!(90.0);
    desk.put("walk.scope.json", draft.to_string().as_bytes());
    for time in ["101614", "101644"] {
        desk.put(&format!("pictures/20261127_{time}.jpg"), b"no picture that can be shown");
    }
    let begun = ["--recorded-at", "2026-11-27T10:15:30-06:00", "--clock", "0", "--json"];
    let json: Value = serde_json::from_str(&desk.run(&[&ASKED[..], &begun].concat()).out).unwrap();
    let lines =
        json["findings"].as_array().unwrap().iter().flat_map(|found| found["ours"].as_array().unwrap());
    let named: Vec<(&str, &Value)> = lines
        .filter(|line| line["photos"].is_array())
        .map(|line| (line["item"].as_str().unwrap(), &line["photos"]))
        .collect();
    assert_eq!(named, [("mailbox", &json!(["20261127_101614.jpg"]))]);
}
