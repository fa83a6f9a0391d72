//! Circles between the folders of a folder: files of one know files of another, and the other way round, over however
//! many steps.

use super::source::{Module, Source};
use std::collections::{BTreeMap, BTreeSet};

/// Which folder beside it a folder names, and in which files.
type Arrows = BTreeMap<String, BTreeMap<String, BTreeSet<String>>>;

/// All circles, each told with the files that make its arrows.
pub fn circles(sources: &[Source]) -> Vec<String> {
    let folders = folders(sources);
    let parents: BTreeSet<&[String]> =
        folders.iter().filter_map(|folder| Some(folder.split_last()?.1)).collect();
    // The rooms themselves have an order of their own.
    let within = parents.into_iter().filter(|parent| !parent.is_empty());
    within.flat_map(|parent| in_folder(parent, &arrows(sources, &folders, parent))).collect()
}

/// Every module that has files below it.
fn folders(sources: &[Source]) -> BTreeSet<Module> {
    let above = |source: &Source| {
        (1..source.module.len()).map(|end| source.module[..end].to_vec()).collect::<Vec<_>>()
    };
    sources.iter().flat_map(above).collect()
}

fn arrows(sources: &[Source], folders: &BTreeSet<Module>, parent: &[String]) -> Arrows {
    let folder_in = |path: &[String]| {
        let folder = path.get(..=parent.len()).filter(|folder| folder.starts_with(parent))?;
        folders.contains(folder).then(|| folder[parent.len()].clone())
    };
    let mut arrows = Arrows::new();
    for source in sources {
        let Some(from) = folder_in(&source.module) else { continue };
        for to in source.names.iter().filter_map(|name| folder_in(name)).filter(|to| *to != from) {
            arrows.entry(from.clone()).or_default().entry(to).or_default().insert(source.path.clone());
        }
    }
    arrows
}

/// The circles that a folder's folders make.
fn in_folder(parent: &[String], arrows: &Arrows) -> Vec<String> {
    let mut told = BTreeMap::new();
    for from in arrows.keys() {
        let reached = reached(arrows, from);
        let round: BTreeSet<&String> =
            reached.iter().filter(|to| reached_from(arrows, to, from)).copied().collect();
        if round.contains(from) {
            let line = |one: &&String| {
                let to = arrows[*one].iter().filter(|(to, _)| round.contains(to));
                to.map(|(to, files)| format!("  {one} -> {to}: {files:?}\n")).collect::<String>()
            };
            let arrows: String = round.iter().map(line).collect();
            told.insert(round.clone(), format!("in {}:\n{arrows}", parent.join("/")));
        }
    }
    told.into_values().collect()
}

fn reached_from(arrows: &Arrows, from: &str, to: &str) -> bool {
    reached(arrows, from).iter().any(|one| *one == to)
}

/// All folders that a folder leads to, itself where it leads back.
fn reached<'a>(arrows: &'a Arrows, from: &'a str) -> BTreeSet<&'a String> {
    let mut found = BTreeSet::new();
    let mut open: Vec<&str> = vec![from];
    while let Some(one) = open.pop() {
        let next = arrows.get(one).into_iter().flat_map(BTreeMap::keys).filter(|to| found.insert(*to));
        open.extend(next.map(String::as_str));
    }
    found
}

#[test]
fn a_circle_of_three_is_found_and_a_line_is_none() {
    let files = |name: &str| BTreeSet::from([format!("{name}.rs")]);
    let to = |name: &str, to: &str| (name.to_owned(), BTreeMap::from([(to.to_owned(), files(name))]));
    let line = Arrows::from([to("a", "b"), to("b", "c")]);
    assert_eq!(in_folder(&["room".to_owned()], &line), Vec::<String>::new());
    let round = Arrows::from([to("a", "b"), to("b", "c"), to("c", "a"), to("d", "a")]);
    let found = in_folder(&["room".to_owned()], &round);
    assert_eq!(found.len(), 1);
    assert!(found[0].contains("c -> a") && !found[0].contains("d ->"), "{}", found[0]);
}
