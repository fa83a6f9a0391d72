//! Every crate that the program or its tests take has its reason in `docs/dependencies.md`, and only those have.

use super::told;
use std::collections::BTreeSet;
use std::fs;

/// What stands in a file at the top of the project.
fn read(file: &str) -> String {
    fs::read_to_string(format!("{}/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

/// The names under `[dependencies]` and `[dev-dependencies]`.
fn taken() -> BTreeSet<String> {
    let manifest: toml::Table = toml::from_str(&read("Cargo.toml")).unwrap();
    let kinds = ["dependencies", "dev-dependencies"];
    kinds.iter().flat_map(|kind| manifest[*kind].as_table().unwrap().keys().cloned()).collect()
}

/// The names of crates, written as code: features are told with that word before them.
fn explained() -> BTreeSet<String> {
    let text = read("docs/dependencies.md");
    let parts: Vec<&str> = text.split('`').collect();
    let names = parts.chunks(2).filter(|part| !part[0].ends_with("feature "));
    let names = names.filter_map(|part| Some((*part.get(1)?).to_owned()));
    names.filter(|name| !name.contains('/')).collect()
}

#[test]
fn every_crate_has_its_reason() {
    let (taken, explained) = (taken(), explained());
    assert_eq!(told(taken.difference(&explained).map(|name| format!("`{name}` has no reason"))), "");
    assert_eq!(told(explained.difference(&taken).map(|name| format!("nothing takes `{name}`"))), "");
}
