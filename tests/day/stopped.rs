//! Runs that are stopped or killed go on where they were, and end as if nothing had happened. The real program with the
//! real model, over short recordings.

use super::interrupt;
use crate::harness::Desk;
use crate::hearing::{fixtures, model};
use eavesdraft::speech::sound::{RATE, Recording};
use rusqlite::Connection;
use std::collections::BTreeMap;
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

/// How many short recordings there are, and how often the program is killed over them.
const RECORDINGS: usize = 20;
const KILLS: u32 = 100;

/// Twenty recordings of three seconds, cut from the demo.
fn recordings(desk: &Desk) {
    let mut demo = Recording::open(&fixtures().join("demo.flac")).unwrap();
    let mut sound = Vec::new();
    while let Some(block) = demo.next_block().unwrap() {
        sound.extend(block);
    }
    for (n, piece) in sound[RATE..].chunks_exact(6 * RATE).take(RECORDINGS).enumerate() {
        let spec = hound::WavSpec {
            channels: 1,
            sample_rate: RATE as u32,
            bits_per_sample: 16,
            sample_format: hound::SampleFormat::Int,
        };
        let mut wav = hound::WavWriter::create(desk.path(&format!("{} Elm.wav", n + 1)), spec).unwrap();
        for sample in &piece[..3 * RATE] {
            wav.write_sample((sample * 32_000.0) as i16).unwrap();
        }
        wav.finalize().unwrap();
    }
}

fn command(desk: &Desk) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_eavesdraft"));
    command.args(["day", ".", "--still", "0"]).current_dir(desk.path("")).stderr(Stdio::null());
    command
}

fn started(desk: &Desk) -> Child {
    command(desk).stdout(Stdio::null()).spawn().unwrap()
}

/// Runs undisturbed. Some of the pieces have no voice in them: they are skipped, which the exit code tells.
fn to_its_end(desk: &Desk) {
    assert_eq!(started(desk).wait().unwrap().code(), Some(2));
}

/// What a run left: every file, and what the store says, but for moments and durations.
fn left(desk: &Desk) -> BTreeMap<String, Vec<u8>> {
    let mut all: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    for name in desk.names() {
        let bytes = fs::read(desk.path(&name)).unwrap();
        match name.as_str() {
            "eavesdraft.sqlite" => drop(all.insert(name, stored(&desk.path("eavesdraft.sqlite")))),
            "day.html" => drop(all.insert(name, day_page(desk, &bytes))),
            _ => drop(all.insert(name, bytes)),
        }
    }
    all
}

fn stored(file: &Path) -> Vec<u8> {
    let store = Connection::open(file).unwrap();
    let rows = |query: &str| {
        let mut rows = store.prepare(query).unwrap();
        let columns = rows.column_count();
        let row = |row: &rusqlite::Row| {
            (0..columns).map(|n| Ok(format!("{:?} ", row.get_ref(n)?))).collect::<rusqlite::Result<String>>()
        };
        rows.query_map([], row).unwrap().collect::<Result<Vec<_>, _>>().unwrap().join("\n")
    };
    let all = [
        "select id, name, words from recording order by id",
        "select recording, number, json from draft order by recording, number",
        "select recording, fingerprint, words from heard order by recording",
        "select recording, of from made order by recording",
    ];
    all.map(rows).join("\n").into_bytes()
}

/// The page without how quickly each was heard, and without the folder's name.
fn day_page(desk: &Desk, page: &[u8]) -> Vec<u8> {
    let text = String::from_utf8(page.to_vec()).unwrap();
    let cells = text.split("<td").filter(|cell| !cell.contains(" ×</td>"));
    let folder = desk.path("").file_name().unwrap().to_str().unwrap().to_owned();
    cells.collect::<Vec<_>>().join("<td").replace(&folder, "FOLDER").into_bytes()
}

/// Fails where two runs left anything else.
fn same(left: &BTreeMap<String, Vec<u8>>, right: &BTreeMap<String, Vec<u8>>, when: &str) {
    assert_eq!(left.keys().collect::<Vec<_>>(), right.keys().collect::<Vec<_>>(), "{when}");
    for (name, bytes) in left {
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        assert!(*bytes == right[name], "{when}, {name}: {} instead of {}", text(bytes), text(&right[name]));
    }
}

fn clear(desk: &Desk) {
    for name in desk.names().iter().filter(|name| !name.ends_with(".wav")) {
        fs::remove_file(desk.path(name)).unwrap();
    }
}

#[test]
fn killed_a_hundred_times_it_ends_as_if_undisturbed() {
    if model().is_none() {
        return;
    }
    let undisturbed = Desk::with([]);
    recordings(&undisturbed);
    to_its_end(&undisturbed);
    let expected = left(&undisturbed);
    let drafted = expected.keys().filter(|name| name.ends_with(".scope.json")).count();
    assert!(drafted > RECORDINGS / 2, "{drafted} are drafted");

    let desk = Desk::with([]);
    recordings(&desk);
    let (mut kills, mut seed, mut ends) = (0, 0x2545_f491_4f6c_dd1d_u64, 0);
    while kills < KILLS {
        let mut child = started(&desk);
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        sleep(Duration::from_millis(50 + seed % 950));
        if child.try_wait().unwrap().is_some() {
            same(&left(&desk), &expected, &format!("after {kills} kills"));
            clear(&desk);
            ends += 1;
            continue;
        }
        child.kill().unwrap();
        child.wait().unwrap();
        kills += 1;
    }
    to_its_end(&desk);
    same(&left(&desk), &expected, "in the end");
    println!("killed {kills} times; it came to the end {} times", ends + 1);
}

/// Waits until a part of the recording is heard. What else is told is left to be read.
fn until_heard_in_part(out: ChildStdout, recording: &str) -> impl Iterator<Item = String> {
    let mut told = BufReader::new(out).lines().map_while(Result::ok);
    let heard_in_part = |line: &str| line.contains(r#""event":"hearing""#) && line.contains(recording);
    assert!(told.any(|line| heard_in_part(&line)), "{recording} is not heard");
    told
}

#[cfg(unix)]
#[test]
fn asked_to_end_it_leaves_the_rest_for_the_next_time() {
    if model().is_none() {
        return;
    }
    let desk = Desk::with([]);
    recordings(&desk);
    // One long enough that much of it is left when it is asked.
    fs::copy(fixtures().join("demo.flac"), desk.path("0 Elm.flac")).unwrap();
    let mut child = command(&desk).arg("--json").stdout(Stdio::piped()).spawn().unwrap();
    let told = until_heard_in_part(child.stdout.take().unwrap(), "0 Elm.flac");
    interrupt(&child);
    drop(told.last());
    assert_eq!(child.wait().unwrap().code(), Some(2), "it was not at its end");
    assert!(!desk.path("0 Elm.scope.json").exists(), "it went on to the end");
    assert!(desk.read("day.html").contains("stopped before the end"));
    let half: Vec<String> = desk.names().into_iter().filter(|name| name.contains(".new")).collect();
    assert!(half.is_empty(), "{half:?}");
    to_its_end(&desk);
    assert!(!desk.read("day.html").contains("stopped before the end"));
    assert!(desk.path("0 Elm.scope.json").exists());
}
