//! The page's own files.

use super::{Served, drafted};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The longest that a file and a line of it may be.
const MOST_LINES: usize = 300;
const MOST_COLUMNS: usize = 120;

/// The page's files by name.
fn files() -> BTreeMap<String, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/office/server/web");
    let read = |entry: std::io::Result<std::fs::DirEntry>| {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        (name, std::fs::read_to_string(path).unwrap())
    };
    std::fs::read_dir(folder).unwrap().map(read).collect()
}

/// The modules that one imports.
fn imported(text: &str) -> BTreeSet<String> {
    let named = text.split("from './").skip(1).filter_map(|rest| rest.split('\'').next());
    named.map(str::to_owned).collect()
}

/// A way from `module` back to itself.
fn circle(module: &str, arrows: &BTreeMap<String, BTreeSet<String>>) -> Option<Vec<String>> {
    let mut ways: Vec<Vec<String>> = arrows[module].iter().map(|next| vec![next.clone()]).collect();
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop() {
        let last = &way[way.len() - 1];
        if last == module {
            return Some(way);
        }
        if seen.insert(last.clone()) {
            let further = arrows.get(last).into_iter().flatten();
            ways.extend(further.map(|next| [&way[..], std::slice::from_ref(next)].concat()));
        }
    }
    None
}

#[test]
fn no_module_of_the_page_imports_itself_by_a_detour_and_all_that_is_imported_is_there() {
    let files = files();
    let modules = files.iter().filter(|(name, _)| name.ends_with(".js"));
    let arrows: BTreeMap<String, BTreeSet<String>> =
        modules.map(|(name, text)| (name.clone(), imported(text))).collect();
    assert!(arrows.values().map(BTreeSet::len).sum::<usize>() > 50, "{arrows:#?}");
    for (module, imports) in &arrows {
        assert!(imports.iter().all(|name| arrows.contains_key(name)), "{module}: {imports:?}");
        assert_eq!(circle(module, &arrows), None, "{module} imports itself");
    }
    let bottom = ["state.js", "api.js", "dom.js"];
    for module in bottom {
        let below = arrows[module].iter().all(|name| bottom.contains(&name.as_str()));
        assert!(below, "{module}: {:?}", arrows[module]);
    }
}

#[test]
fn files_of_the_page_are_short_and_narrow() {
    for (name, text) in files() {
        assert!(text.lines().count() <= MOST_LINES, "{name}: {} lines", text.lines().count());
        let wide = text.lines().find(|line| line.chars().count() > MOST_COLUMNS);
        assert_eq!(wide, None, "{name}");
    }
}

#[test]
fn the_page_and_everything_it_names_is_served_and_nothing_is_fetched_from_elsewhere() {
    let desk = drafted("Front elevation. Mailbox, replace.");
    let served = Served::over(&desk);
    let mut waiting = vec!["/".to_owned()];
    let mut seen = BTreeSet::new();
    while let Some(path) = waiting.pop() {
        if !seen.insert(path.clone()) {
            continue;
        }
        let answer = served.get(&path);
        assert_eq!(answer.status, 200, "{path}");
        let text = String::from_utf8(answer.body).unwrap();
        for outside in ["http://", "https://", "//cdn"] {
            let named: Vec<&str> = text.lines().filter(|line| line.contains(outside)).collect();
            let named: Vec<_> = named.iter().filter(|line| !line.contains("www.w3.org/2000/svg")).collect();
            assert!(named.is_empty(), "{path} names something elsewhere: {named:?}");
        }
        let quoted = text.split(['"', '\'']).skip(1);
        for name in quoted.filter(|q| q.ends_with(".js") || q.ends_with(".css") || q.ends_with(".svg")) {
            let name = name.trim_start_matches("./").trim_start_matches("/page/").trim_start_matches("page/");
            waiting.push(format!("/page/{name}"));
        }
    }
    let unused: Vec<String> = files()
        .into_keys()
        .filter(|name| name != "index.html" && !seen.contains(&format!("/page/{name}")))
        .collect();
    assert!(unused.is_empty(), "nothing names {unused:?}");
}
