//! Photos tied to what was being said, with cameras whose clocks are wrong.

use super::{GRAMMAR, Table};
use eavesdraft::model::span::Moment;
use eavesdraft::output::Job;
use eavesdraft::output::page::Block;
use eavesdraft::output::photos::{
    Certainty, Photo, Source, Stamp, Tied, find, read, section, stretches, tie,
};
use eavesdraft::scope::review::Command;
use eavesdraft::speech::clips::join;
use eavesdraft::speech::{Transcript, Utterance, Word};
use exif::experimental::Writer;
use exif::{Field, In, Rational, Tag, Value};
use image::{ImageFormat, Rgb, RgbImage};
use jiff::civil::DateTime;
use std::io::Cursor;
use std::path::Path;

/// What is said, each with the pause before it in seconds. Nobody walks by the clock, so the pauses differ.
const SAID: [(u64, &str); 14] = [
    (2, "Front elevation."),
    (3, "Mailbox, replace."),
    (9, "Get a photo of the gutter."),
    (31, "Two coach lights, detach and reset."),
    (17, "Right elevation."),
    (6, "Gas meter, detach and reset."),
    (22, "Take a picture of the downspout."),
    (47, "Hose reel, detach and reset."),
    (13, "Rear elevation."),
    (5, "Get a photo of the deck."),
    (71, "Hose bib, replace."),
    (11, "Left elevation."),
    (8, "Get a photo of the fence."),
    (19, "Satellite dish, detach and reset."),
];

/// When the recording began, on the recorder's wall.
const BEGUN: &str = "2026-11-27T10:15:30-06:00";

fn said(lines: &[(u64, &str)]) -> Transcript {
    let mut at = 0;
    let mut utterances = Vec::new();
    for (pause, text) in lines {
        at += pause * 1000;
        let mut words = Vec::new();
        for word in text.split_whitespace() {
            words.push(Word {
                text: word.to_owned(),
                start: Some(Moment(at)),
                end: Some(Moment(at + 350)),
                ..Word::default()
            });
            at += 400;
        }
        utterances.push(Utterance { words });
    }
    Transcript { utterances, length: Some(Moment(at + 4_000)), ..Transcript::default() }
}

fn walk() -> Table {
    Table::of(said(&SAID))
}

fn begun() -> Stamp {
    BEGUN.parse().unwrap()
}

/// When the photos of the walk were asked for, and when its lines begin.
fn asked(table: &Table) -> Vec<Moment> {
    table.scope.follow_ups.iter().map(|task| task.follow_up.start.unwrap()).collect()
}

/// A picture taken so many seconds into the recording, by a camera whose clock is so far ahead.
fn taken(name: &str, seconds: i64, ahead: i64) -> Photo {
    let shown = begun().shown + jiff::SignedDuration::from_secs(seconds + ahead);
    let taken = Some(Stamp { shown, offset: None, source: Source::Exif });
    Photo { file: name.to_owned(), taken, location: None, thumbnail: None }
}

/// A picture two to five seconds after each photo was asked for, and one beside a line.
fn pictures(table: &Table, ahead: i64) -> Vec<Photo> {
    let after = [2, 5, 3, 4];
    let mut photos: Vec<Photo> = asked(table)
        .iter()
        .zip(after)
        .enumerate()
        .map(|(n, (at, after))| taken(&format!("p{n}.jpg"), at.0 as i64 / 1000 + after, ahead))
        .collect();
    let meter = table.scope.entry(&table.id("gas-meter")).unwrap().line.start.unwrap();
    photos.push(taken("meter.jpg", meter.0 as i64 / 1000 + 2, ahead));
    photos
}

fn tied(job: &Job, photos: &[Photo]) -> Tied {
    tie(job, photos, &stretches(job, &[begun()]), None)
}

#[test]
fn each_picture_goes_to_what_was_being_said() {
    let table = walk();
    let job = table.job();
    let photos = pictures(&table, 0);
    let tied = tied(&job, &photos);
    let clock = tied.clock.unwrap();
    assert_eq!((clock.ahead, clock.certainty, clock.within, clock.near), (0, Certainty::Sure, 5, 4));
    for (n, task) in table.scope.follow_ups.iter().enumerate() {
        let photo = tied.photos.iter().find(|photo| photo.file == format!("p{n}.jpg")).unwrap();
        assert_eq!(photo.follow_up.as_ref(), Some(&task.id));
        assert_eq!(photo.certainty, Certainty::Sure);
    }
    let meter = tied.photos.iter().find(|photo| photo.file == "meter.jpg").unwrap();
    assert_eq!(
        (meter.line.as_deref(), meter.follow_up.as_ref()),
        (Some(table.id("gas-meter").as_str()), None)
    );
    assert!(tied.photos.is_sorted_by_key(|photo| photo.at));
    assert_eq!((tied.nowhere.len(), tied.missing.len()), (0, 0));
}

#[test]
fn a_wrong_clock_is_found() {
    let table = walk();
    let job = table.job();
    let hour = 3600;
    let clocks = [
        hour,
        -hour,
        6 * hour,
        -14 * hour,
        5 * hour + 1800,
        200,
        -200,
        95,
        -(7 * hour + 12 * 60 + 34),
        12 * hour + 421,
    ];
    for ahead in clocks {
        let tied = tied(&job, &pictures(&table, ahead));
        let clock = tied.clock.unwrap();
        assert!((clock.ahead - ahead).abs() <= 3, "{ahead}: {clock:?}");
        assert!(clock.certainty >= Certainty::Likely, "{ahead}: {clock:?}");
        let found: Vec<_> = tied.photos.iter().filter_map(|photo| photo.follow_up.clone()).collect();
        assert_eq!(found.len(), 4, "{ahead}: {tied:#?}");
        assert!(tied.missing.is_empty() && tied.nowhere.is_empty(), "{ahead}: {tied:#?}");
    }
}

#[test]
fn a_clock_that_is_given_is_taken() {
    let table = walk();
    let job = table.job();
    let stretches = stretches(&job, &[begun()]);
    let tied = tie(&job, &pictures(&table, 200), &stretches, Some(200));
    assert_eq!((tied.clock.unwrap().ahead, tied.clock.unwrap().near), (200, 4));
    let wrong = tie(&job, &pictures(&table, 200), &stretches, Some(5_000));
    assert_eq!((wrong.photos.len(), wrong.nowhere.len(), wrong.missing.len()), (0, 5, 4));
}

#[test]
fn one_picture_alone_tells_no_wrong_clock_for_sure() {
    let table = walk();
    let job = table.job();
    let one = tied(&job, &[taken("a.jpg", 3 * 3600, 0)]);
    assert_eq!(one.clock.unwrap().certainty, Certainty::Unsure);
    assert!(one.photos.iter().all(|photo| photo.certainty == Certainty::Unsure));
}

#[test]
fn a_zone_that_the_picture_tells_is_taken_into_account() {
    let table = walk();
    let job = table.job();
    let photos: Vec<Photo> = pictures(&table, 6 * 3600)
        .into_iter()
        .map(|photo| Photo { taken: photo.taken.map(|taken| Stamp { offset: Some(0), ..taken }), ..photo })
        .collect();
    let clock = tied(&job, &photos).clock.unwrap();
    assert_eq!((clock.ahead, clock.certainty), (0, Certainty::Sure));
}

#[test]
fn what_fits_nowhere_and_what_is_missing_is_told() {
    let mut table = walk();
    let todo = table.scope.follow_ups[3].id.clone();
    table.does("Ann", Command::Done { follow_up: todo }).unwrap();
    let job = table.job();
    let mut photos = pictures(&table, 0);
    // Neither the second photo nor the last was taken; the last was ticked off.
    photos.retain(|photo| !["p1.jpg", "p3.jpg"].contains(&photo.file.as_str()));
    photos.push(taken("evening.jpg", 9 * 3600, 0));
    photos.push(Photo { taken: None, ..taken("IMG_0412.jpg", 0, 0) });
    let tied = tied(&job, &photos);
    assert_eq!(tied.missing, [table.scope.follow_ups[1].id.clone()]);
    let nowhere: Vec<(&str, &str)> =
        tied.nowhere.iter().map(|stray| (stray.file.as_str(), stray.why.as_str())).collect();
    assert_eq!(nowhere[0], ("evening.jpg", "taken on November 27, 2026, 7:15 PM, outside the recording"));
    assert_eq!(nowhere[1], ("IMG_0412.jpg", "neither the file nor its name says when it was taken"));
    let unknown = tie(&job, &photos, &stretches(&job, &[]), None);
    assert_eq!((unknown.clock, unknown.photos.len(), unknown.nowhere.len()), (None, 0, 5));
    assert!(unknown.nowhere[0].why.contains("--recorded-at"));
}

#[test]
fn clips_have_gaps_between_them_on_the_wall() {
    let (first, second) = SAID.split_at(8);
    let clip = |name: &str, lines: &[(u64, &str)]| Transcript { source: name.to_owned(), ..said(lines) };
    let clips = vec![clip("20261127_101530.m4a", first), clip("20261127_104500.m4a", second)];
    let table = Table::of(join("14 Elm", clips));
    let job = table.job();
    let stretches = stretches(&job, &[]);
    assert_eq!(stretches.len(), 2);
    let into = asked(&table)[2].0 - stretches[1].start.0;
    let shown = stretches[1].begun.shown + jiff::SignedDuration::from_millis(into as i64 + 2_000);
    let photo =
        Photo { taken: Some(Stamp { shown, offset: None, source: Source::Name }), ..taken("b.jpg", 0, 0) };
    let tied = tie(&job, &[photo], &stretches, None);
    assert_eq!(tied.clock.unwrap().ahead, 0);
    assert_eq!(tied.photos[0].at, Moment(asked(&table)[2].0 + 2_000));
    assert_eq!(tied.photos[0].follow_up.as_ref(), Some(&table.scope.follow_ups[2].id));
}

/// A JPEG whose left half is red and whose right half is blue.
fn halves(width: u32, height: u32, format: ImageFormat) -> Vec<u8> {
    let colour = |x: u32, _| if x < width / 2 { Rgb([220, 20, 20]) } else { Rgb([20, 20, 220]) };
    let mut bytes = Cursor::new(Vec::new());
    RgbImage::from_fn(width, height, colour).write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

/// The seconds of the latitude in these pictures: a number that stands nowhere else.
const SECONDS: u32 = 1_234_567_891;

fn text(tag: Tag, text: &str) -> Field {
    Field { tag, ifd_num: In::PRIMARY, value: Value::Ascii(vec![text.as_bytes().to_vec()]) }
}

/// The picture with EXIF data as a camera writes it.
fn with_exif(jpeg: &[u8], orientation: u16) -> Vec<u8> {
    let angle = |degrees: u32| {
        Value::Rational([(degrees, 1), (23, 1), (SECONDS, 100_000_000)].map(Rational::from).to_vec())
    };
    let field = |tag: Tag, value: Value| Field { tag, ifd_num: In::PRIMARY, value };
    let fields = [
        field(Tag::Orientation, Value::Short(vec![orientation])),
        text(Tag::DateTimeOriginal, "2026:11:27 10:15:44"),
        text(Tag::SubSecTimeOriginal, "250"),
        text(Tag::OffsetTimeOriginal, "-06:00"),
        text(Tag::GPSLatitudeRef, "N"),
        field(Tag::GPSLatitude, angle(41)),
        text(Tag::GPSLongitudeRef, "W"),
        field(Tag::GPSLongitude, angle(93)),
    ];
    let mut writer = Writer::new();
    fields.iter().for_each(|field| writer.push_field(field));
    let mut tiff = Cursor::new(Vec::new());
    writer.write(&mut tiff, false).unwrap();
    let segment = [b"Exif\0\0".to_vec(), tiff.into_inner()].concat();
    let length = (segment.len() as u16 + 2).to_be_bytes();
    [&jpeg[..2], &[0xff, 0xe1], &length, &segment, &jpeg[2..]].concat()
}

/// A picture in a folder of its own.
fn kept(name: &str, bytes: &[u8]) -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    (folder, path)
}

fn holds(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

#[test]
fn a_pictures_time_is_read_to_the_part_of_a_second() {
    let (_folder, path) = kept("20010101_000000.jpg", &with_exif(&halves(40, 20, ImageFormat::Jpeg), 1));
    let photo = read(&path, false).unwrap();
    let taken = photo.taken.unwrap();
    assert_eq!(taken.shown, "2026-11-27T10:15:44.25".parse::<DateTime>().unwrap());
    assert_eq!((taken.offset, taken.source), (Some(-6 * 3600), Source::Exif));
    let (_folder, path) = kept("20261127_101530.png", &halves(40, 20, ImageFormat::Png));
    let by_name = read(&path, false).unwrap().taken.unwrap();
    assert_eq!((by_name.shown.to_string().as_str(), by_name.source), ("2026-11-27T10:15:30", Source::Name));
    // Neither its data nor its name tells, and the file's own date isn't asked.
    let (_folder, path) = kept("IMG_0412.jpg", &halves(40, 20, ImageFormat::Jpeg));
    assert_eq!(read(&path, false).unwrap().taken, None);
}

#[test]
fn a_small_copy_stands_upright_and_is_small() {
    // What lies on its left side in the file is turned to the right: its left is on top.
    let (_folder, path) = kept("a.jpg", &with_exif(&halves(40, 20, ImageFormat::Jpeg), 6));
    let small = read(&path, false).unwrap().thumbnail.unwrap();
    assert_eq!((small.width, small.height), (20, 40));
    let dots = image::load_from_memory(&small.jpeg).unwrap().to_rgb8();
    let (top, foot) = (dots.get_pixel(10, 4), dots.get_pixel(10, 36));
    assert!(top[0] > 150 && top[2] < 100 && foot[2] > 150 && foot[0] < 100, "{top:?} {foot:?}");
    let (_folder, path) = kept("b.png", &halves(1600, 900, ImageFormat::Png));
    let small = read(&path, false).unwrap().thumbnail.unwrap();
    assert_eq!((small.width, small.height), (320, 180));
    assert_eq!(read(&path, false).unwrap().thumbnail.unwrap(), small);
}

#[test]
fn where_a_picture_was_taken_never_leaks() {
    let original = with_exif(&halves(400, 200, ImageFormat::Jpeg), 1);
    assert!(holds(&original, &SECONDS.to_be_bytes()) && holds(&original, b"Exif"));
    let (_folder, path) = kept("20261127_101544.jpg", &original);
    let photo = read(&path, false).unwrap();
    assert_eq!(photo.location, None);
    let small = &photo.thumbnail.as_ref().unwrap().jpeg;
    for part in [&b"Exif"[..], b"2026:11:27", &SECONDS.to_be_bytes(), &SECONDS.to_le_bytes(), &[0xff, 0xe1]] {
        assert!(!holds(small, part), "{part:?}");
    }
    let table = walk();
    let job = table.job();
    let told = |photos: &[Photo]| format!("{:?}", section(&job, &tied(&job, photos), photos).unwrap());
    assert!(!told(&[photo]).contains("41 deg"));
    // Only where it is asked for, and then in words, not in the picture.
    let asked_for = read(&path, true).unwrap();
    assert_eq!(
        asked_for.location.as_deref(),
        Some("41 deg 23 min 12.34567891 sec N, 93 deg 23 min 12.34567891 sec W")
    );
    assert!(!holds(&asked_for.thumbnail.as_ref().unwrap().jpeg, b"Exif"));
    assert!(told(&[asked_for]).contains("41 deg 23 min"));
    assert_eq!(std::fs::read(&path).unwrap(), original, "the picture itself was altered");
}

#[test]
fn a_damaged_picture_is_a_picture_without_a_small_copy() {
    let mut jpeg = with_exif(&halves(400, 200, ImageFormat::Jpeg), 1);
    jpeg.truncate(700);
    for (name, bytes) in [
        ("20261127_101544.jpg", &jpeg[..]),
        ("20261127_101544.heic", b"no heic"),
        ("20261127_101544.png", b""),
    ] {
        let (_folder, path) = kept(name, bytes);
        let photo = read(&path, false).unwrap();
        assert!(photo.thumbnail.is_none() && photo.taken.is_some(), "{name}: {photo:?}");
    }
}

#[test]
fn a_folders_pictures_are_found_by_name_and_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["b.JPG", "a.jpeg", "c.heic", "d.png", "notes.txt", "walk.m4a", "jpg"] {
        std::fs::write(folder.path().join(name), b"x").unwrap();
    }
    std::fs::create_dir(folder.path().join("e.jpg")).unwrap();
    let names: Vec<String> = find(folder.path())
        .unwrap()
        .iter()
        .map(|path| path.file_name().unwrap().to_str().unwrap().to_owned())
        .collect();
    assert_eq!(names, ["a.jpeg", "b.JPG", "c.heic", "d.png"]);
    let told = find(Path::new("/no/such/folder")).unwrap_err().to_string();
    assert!(
        told.starts_with("`/no/such/folder` can't be read (")
            && told.ends_with("check the folder of the photos")
    );
}

#[test]
fn the_section_shows_pictures_and_lists_the_rest() {
    let table = walk();
    let job = table.job();
    let (_folder, path) = kept("small.jpg", &halves(400, 200, ImageFormat::Jpeg));
    let thumbnail = read(&path, false).unwrap().thumbnail;
    let mut photos = pictures(&table, 200);
    photos.remove(1);
    photos[0].thumbnail = thumbnail;
    photos.push(Photo { taken: None, ..taken("IMG_0412.jpg", 0, 0) });
    let section_of = || section(&job, &tied(&job, &photos), &photos).unwrap();
    let section = section_of();
    let Block::Text(clock) = &section.blocks[0] else { panic!("{section:?}") };
    assert!(
        clock.starts_with("The camera's clock is 3 min 2") && clock.contains("ahead of the recorder's ("),
        "{clock}"
    );
    let Block::Pictures(shown) = &section.blocks[1] else { panic!("{section:?}") };
    assert_eq!((shown.len(), shown[0].width, shown[0].height), (1, 320, 160));
    assert!(
        shown[0].caption.starts_with("House, front") && shown[0].caption.contains("p0.jpg"),
        "{}",
        shown[0].caption
    );
    assert!(shown[0].told.starts_with("Photo taken at 00:"), "{}", shown[0].told);
    let Block::List { ticks: false, entries } = &section.blocks[2] else { panic!("{section:?}") };
    assert_eq!(entries.len(), 3);
    let Block::List { ticks: true, entries } = &section.blocks[4] else { panic!("{section:?}") };
    assert_eq!(entries.len(), 1);
    assert!(entries[0].name.starts_with("House, right"), "{entries:?}");
    let Block::List { entries, .. } = &section.blocks[6] else { panic!("{section:?}") };
    assert_eq!(entries[0].name, "IMG_0412.jpg");
    assert_eq!(section, section_of());
    let quiet = Table::new("Hello there.");
    let none = tie(&Job::new(&quiet.draft, &quiet.scope, &[], &GRAMMAR), &[], &[], None);
    assert_eq!(eavesdraft::output::photos::section(&quiet.job(), &none, &[]), None);
}
