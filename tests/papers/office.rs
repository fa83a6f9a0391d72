//! The workbook as another office program computes it: every stored result is taken out of it, so that what comes back
//! was computed there.

use super::prices_of_the_walk;
use super::walked;
use eavesdraft::model::Exact;
use eavesdraft::output::{sums, workbook};
use rust_decimal::prelude::ToPrimitive;
use std::collections::HashMap;
use std::io::{Cursor, Read, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

/// LibreOffice, where `EAVESDRAFT_OFFICE` names it or the path has it.
fn office() -> Option<PathBuf> {
    let named = std::env::var_os("EAVESDRAFT_OFFICE").map(PathBuf::from);
    let folders: Vec<PathBuf> = std::env::split_paths(&std::env::var_os("PATH")?).collect();
    let on_path = folders.iter().flat_map(|folder| ["soffice", "libreoffice"].map(|name| folder.join(name)));
    named.into_iter().chain(on_path).find(|program| program.is_file())
}

/// The workbook without any stored result of a formula.
fn without_results(bytes: Vec<u8>) -> Vec<u8> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut emptied = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..archive.len() {
        let mut file = archive.by_index(at).unwrap();
        let (name, mut content) = (file.name().unwrap().into_owned(), Vec::new());
        file.read_to_end(&mut content).unwrap();
        if name.starts_with("xl/worksheets/sheet") {
            content = emptied_sheet(&String::from_utf8(content).unwrap()).into_bytes();
        }
        emptied.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        emptied.write_all(&content).unwrap();
    }
    emptied.finish().unwrap().into_inner()
}

fn emptied_sheet(xml: &str) -> String {
    let mut parts = xml.split("</f><v>");
    let mut text = parts.next().unwrap().to_owned();
    for part in parts {
        text.push_str("</f>");
        text.push_str(part.split_once("</v>").unwrap().1);
    }
    text
}

/// Every sheet as the office program computes it: rows of cells by the sheet's name.
fn computed(office: &Path, bytes: Vec<u8>) -> HashMap<String, Vec<Vec<String>>> {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("scope.xlsx");
    std::fs::write(&file, without_results(bytes)).unwrap();
    let profile = format!("-env:UserInstallation=file://{}/profile", folder.path().display());
    // Commas, quotes, UTF-8, numbers as they are and not as they are shown, all sheets.
    let filter = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1";
    let run = Command::new(office)
        .args([&profile, "--headless", "--convert-to", filter, "--outdir"])
        .args([folder.path(), &file])
        .output()
        .unwrap();
    let sheet = |path: PathBuf| {
        let name = path.file_stem()?.to_str()?.strip_prefix("scope-")?.to_owned();
        let mut reader = csv::ReaderBuilder::new().flexible(true).from_path(&path).unwrap();
        let rows = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        Some((name, rows))
    };
    let files = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().path());
    let sheets: HashMap<_, _> = files.filter_map(sheet).collect();
    assert!(sheets.contains_key("Takeoff"), "{run:?}");
    sheets
}

#[track_caller]
fn agrees(cell: &str, exact: Exact, what: &str) {
    let value = exact.binary();
    let found: f64 = cell.parse().unwrap_or_else(|_| panic!("{what}: {cell:?}"));
    assert!((found - value).abs() < 1e-6, "{what}: {found} is not {value}");
}

#[test]
fn another_program_computes_what_we_did() {
    let Some(office) = office() else {
        let required = std::env::var_os("EAVESDRAFT_REQUIRE_OFFICE").is_some();
        assert!(!required, "no LibreOffice: install it, or name its program in EAVESDRAFT_OFFICE");
        println!("skipped: no LibreOffice here to compute the workbook");
        return;
    };
    let table = walked();
    let job = table.job();
    let priced = prices_of_the_walk(&job);
    let sheets = computed(&office, workbook::bytes(&job, Some(&priced)).unwrap());
    let takeoff: HashMap<&str, &str> =
        sheets["Takeoff"].iter().map(|row| (row[11].as_str(), row[5].as_str())).collect();
    for figure in &job.takeoff.figures {
        agrees(takeoff[figure.key.as_str()], figure.value, &figure.key);
    }
    for (sum, row) in sums::sums(&job).iter().zip(&sheets["Totals"]) {
        agrees(&row[4], sum.quantity, &sum.item);
        agrees(&row[5], sum.low, &sum.item);
        agrees(&row[6], sum.high, &sum.item);
    }
    let prices = &sheets["Prices"];
    let amounts = priced.lines.iter().map(|line| line.amount).chain([priced.subtotal]);
    let amounts = amounts.chain(priced.percents.iter().map(|applied| applied.amount)).chain([priced.total]);
    for (amount, row) in amounts.zip(prices) {
        let found: f64 = row[5].parse().unwrap();
        assert!((found - amount.to_f64().unwrap()).abs() < 1e-6, "{row:?} is not {amount}");
    }
}
