//! The rules files: their own sentences, a user's folder over them, and what is said of broken ones.

use eavesdraft::language::rules::{self, Grammar};
use eavesdraft::language::trial;
use eavesdraft::model::{Quantity, Work};
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use std::path::{Path, PathBuf};

#[test]
fn every_rule_matches_its_hits_and_none_of_its_misses() {
    let tried = trial::check(None).unwrap_or_else(|faults| panic!("{faults}"));
    assert!(tried > 800, "only {tried} sentences were tried");
}

/// An entry without a near-miss is one that nobody has tried to trick.
#[test]
fn every_built_in_item_and_rule_has_hits_and_misses() {
    let mut bare = Vec::new();
    let mut seen = 0;
    for file in rules_files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("grammars")) {
        let rules: toml::Table = std::fs::read_to_string(&file).unwrap().parse().unwrap();
        for (kind, name) in [("item", "id"), ("rule", "name")] {
            for entry in rules.get(kind).and_then(toml::Value::as_array).into_iter().flatten() {
                seen += 1;
                let named = |list: &str| entry.get(list).and_then(toml::Value::as_array);
                let without = ["hits", "misses"].into_iter().filter(|l| named(l).is_none_or(Vec::is_empty));
                bare.extend(without.map(|list| format!("{kind} {} has no {list}", entry[name])));
            }
        }
    }
    assert!(seen > 150, "only {seen} entries were seen");
    assert!(bare.is_empty(), "{}", bare.join("\n"));
}

fn rules_files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path());
    let (folders, files): (Vec<_>, Vec<_>) = entries.partition(|p| p.is_dir());
    let rules = files.into_iter().filter(|f| f.extension().is_some_and(|e| e == "toml"));
    rules.chain(folders.iter().flat_map(|f| rules_files(f))).collect()
}

/// Lays one file over the built-in rules.
fn with_file(text: &str) -> Result<Grammar, rules::GrammarError> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("office.toml"), text).unwrap();
    Grammar::with_folder(folder.path())
}

#[test]
fn an_office_adds_its_own_items_and_words() {
    let grammar = with_file(
        r#"
[[item]]
id = "rain-barrel"
unit = "each"
area = "grounds"
said = ["rain barrel"]

[[item]]
id = "gutter"
unit = "foot"
area = "wall"
said = ["roof trough"]
"#,
    )
    .unwrap();
    let said = "Rear elevation. Two rain barrels, detach and reset. Roof trough, forty feet, replace.";
    let draft = drafting::draft(&Transcript::from_plain(said), &grammar);
    let lines: Vec<_> = draft.lines.iter().map(|l| (l.item.as_deref(), l.work, l.quantity)).collect();
    assert_eq!(
        lines,
        [
            (Some("rain-barrel"), Some(Work::DetachReset), Some(Quantity::of(2))),
            (Some("gutter"), Some(Work::RemoveReplace), Some(Quantity::of(40))),
        ]
    );
}

#[test]
fn a_rule_of_a_known_name_takes_the_place_of_the_built_in_one() {
    let rule = r#"
[[rule]]
name = "repair"
means = "work"
value = "repair"
says = ["make good"]
hits = ["make good the gate"]
misses = ["a good gate"]
"#;
    let grammar = with_file(rule).unwrap();
    let work = |said: &str| {
        let lines = drafting::draft(&Transcript::from_plain(said), &grammar).lines;
        lines.first().and_then(|l| l.work)
    };
    assert_eq!(work("Rear. Gate, make good."), Some(Work::Repair));
    assert_eq!(work("Rear. Gate, repair."), None);
}

/// Each broken file, one a kind of fault, and the whole message about it.
#[test]
fn faults_are_told_with_file_line_entry_and_what_to_write() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/broken-grammars");
    let mut kinds: Vec<_> = std::fs::read_dir(&root).unwrap().map(|e| e.unwrap().path()).collect();
    kinds.sort();
    assert!(kinds.len() >= 12, "{kinds:?}");
    let mut told = String::new();
    for path in kinds {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let message = match with_file(&std::fs::read_to_string(&path).unwrap()) {
            Ok(_) => panic!("{name} was taken"),
            Err(faults) => faults.to_string(),
        };
        told.push_str(&format!("{name}\n    {}\n", message.replace('\n', "\n    ")));
    }
    insta::assert_snapshot!(told);
}
