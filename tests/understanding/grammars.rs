//! The rules files: their own sentences, a user's folder over them, and what is said of broken ones.

use eavesdraft::language::rules::{self, Grammar};
use eavesdraft::language::trial;
use eavesdraft::model::{Quantity, Work};
use eavesdraft::scope::drafting;
use eavesdraft::speech::Transcript;
use std::path::{Path, PathBuf};

#[test]
fn every_rule_matches_its_hits_and_none_of_its_misses_and_no_phrase_or_name_is_idle() {
    let tried = trial::check(None).unwrap_or_else(|faults| panic!("{faults}"));
    assert!(tried > 4_000, "only {tried} sentences, phrases and names were tried");
}

/// What the trial says of a file laid over the built-in rules.
fn faults_of(text: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("office.toml"), text).unwrap();
    trial::check(Some(folder.path())).map_or_else(|faults| faults.to_string(), |_| String::new())
}

#[test]
fn a_phrase_that_no_hit_needs_is_told_with_its_line() {
    let rule = r#"
[[rule]]
name = "oil-it"
means = "nothing"
says = [
  "oil (it|that)",
  """
  grease (it|that|them|those
   |the hinge)
  """,
]
hits = ["oil it"]
misses = ["the oil tank"]
"#;
    assert_eq!(
        faults_of(rule),
        "office.toml:7: in `oil-it`: no sentence under `hits` is found by `grease (it|that|them|those|the hinge)`: \
         add one, or delete it"
    );
    assert_eq!(faults_of(&rule.replace("\"oil it\"", "\"oil it\", \"grease the hinge\"")), "");
}

/// "er" is left out of what is said, as "uh" is.
#[test]
fn a_name_that_nobody_can_say_is_told_with_its_line() {
    let item = r#"
[[item]]
id = "clinic-sign"
unit = "each"
area = "wall"
said = [
  "clinic sign",
  "er sign",
]
hits = ["a clinic sign"]
misses = ["a clinic"]
"#;
    assert_eq!(
        faults_of(item),
        "office.toml:8: in `clinic-sign`: \"er sign\" said alone doesn't name it: one of its words is left out as a \
         filler, or another rule has them"
    );
}

/// A built-in rule that an office's rule replaces isn't tried by the sentences it had.
#[test]
fn a_rule_that_is_replaced_is_not_tried() {
    let rule = r#"
[[rule]]
name = "repair"
means = "work"
value = "repair"
says = ["make good"]
hits = ["make good the gate"]
misses = ["a good gate"]
"#;
    assert_eq!(faults_of(rule), "");
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

/// A difference of one phrase is a difference of one line.
#[test]
fn phrases_stand_one_a_line_and_no_line_is_long() {
    let mut wrong = Vec::new();
    for file in rules_files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("grammars")) {
        let text = std::fs::read_to_string(&file).unwrap();
        let mut within = Within::Nothing;
        for (number, line) in text.lines().enumerate() {
            if line.chars().count() > 120 || !one_a_line(line, &mut within) {
                wrong.push(format!("{}:{}: {line}", file.display(), number + 1));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Where a line of a rules file stands.
enum Within {
    Nothing,
    Phrases,
    LongPhrase,
}

/// Whether a line holds no more than one phrase, or two of a single word.
fn one_a_line(line: &str, within: &mut Within) -> bool {
    let elements = |list: &str| {
        let read: Result<toml::Table, _> = format!("list = {list}").parse();
        let list = read.ok().and_then(|table| table["list"].as_array().cloned());
        list.map(|list| list.iter().filter_map(|e| e.as_str().map(str::to_owned)).collect::<Vec<_>>())
    };
    match within {
        Within::LongPhrase => {
            if line.trim() == "\"\"\"," {
                *within = Within::Phrases;
            }
            true
        }
        Within::Phrases if line == "]" => {
            *within = Within::Nothing;
            true
        }
        Within::Phrases if line.trim() == "\"\"\"" => {
            *within = Within::LongPhrase;
            true
        }
        Within::Phrases => elements(&format!("[{line}\n]")).is_some_and(|elements| elements.len() <= 1),
        Within::Nothing => {
            let lists = ["says", "said", "sounds", "by_sound", "hits", "misses"];
            let opened = lists.iter().find_map(|key| line.strip_prefix(key)?.strip_prefix(" = "));
            let Some(list) = opened.filter(|value| value.starts_with('[')) else { return true };
            if list == "[" {
                *within = Within::Phrases;
                return true;
            }
            elements(list).is_some_and(|list| match &list[..] {
                [_] => true,
                [one, other] => !one.contains(' ') && !other.contains(' '),
                _ => false,
            })
        }
    }
}

#[test]
fn the_readme_lists_every_meaning_in_the_words_of_the_program() {
    let readme = include_str!("../../grammars/README.md");
    let heading = "| means | value | what it tells |\n|---|---|---|\n";
    let row = |meant: &rules::Meant| {
        let values = meant.values().join(", ");
        let values = if values.is_empty() { String::new() } else { format!("{values} ") };
        format!("| `{}` | {values}| {} |\n", meant.name, meant.tells)
    };
    let table: String = rules::MEANS.iter().map(row).collect();
    let (_, listed) = readme.split_once(heading).expect("the heading of the list");
    assert_eq!(listed, table, "grammars/README.md ends with the list of meanings");
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
    let draft = drafting::by_rules(&Transcript::from_plain(said), &grammar);
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
        let lines = drafting::by_rules(&Transcript::from_plain(said), &grammar).lines;
        lines.first().and_then(|l| l.work)
    };
    assert_eq!(work("Rear. Gate, make good."), Some(Work::Repair));
    assert_eq!(work("Rear. Gate, repair."), None);
}

/// Fitted weights are laid over like rules.
#[test]
fn an_office_lays_weights_for_punctuation_over_the_built_in_ones() {
    let grammar = with_file("[punctuation]\n\"thing | work\" = [9.0, -9.0]\n").unwrap();
    let built_in = Grammar::built_in().unwrap();
    assert_eq!(grammar.punctuation.get("thing | work"), Some([9.0, -9.0]));
    assert_ne!(built_in.punctuation.get("thing | work"), Some([9.0, -9.0]));
    let other = "'  | about";
    assert!(built_in.punctuation.get(other).is_some());
    assert_eq!(grammar.punctuation.get(other), built_in.punctuation.get(other));
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
