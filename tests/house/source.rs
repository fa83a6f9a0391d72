//! The files of `src`, each with the modules that it names.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// A module by its names from the top: `["scope", "takeoff"]`.
pub type Module = Vec<String>;

/// A file of the program.
pub struct Source {
    /// From `src` on, with slashes.
    pub path: String,
    pub module: Module,
    /// Without comments, and without the tests at its end.
    pub code: String,
    /// The lines before its tests.
    pub lines: usize,
    /// What it names of the crate, by whole paths: modules, and things in them.
    pub names: BTreeSet<Module>,
}

/// Every file of the program but those that hold tests alone.
pub fn sources() -> Vec<Source> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    walk(&top, &mut files);
    files.sort();
    let mut sources: Vec<Source> = files.iter().map(|file| Source::read(&top, file)).collect();
    let moved = reexports(&sources);
    for source in &mut sources {
        source.names = source.names.iter().map(|name| at_home(name, &moved)).collect();
    }
    sources
}

fn walk(folder: &Path, files: &mut Vec<PathBuf>) {
    for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        let name = path.file_name().unwrap().to_str().unwrap();
        match path.is_dir() {
            true => walk(&path, files),
            false if name.ends_with(".rs") && name != "tests.rs" => files.push(path),
            false => {}
        }
    }
}

impl Source {
    fn read(top: &Path, file: &Path) -> Self {
        let path = file.strip_prefix(top).unwrap().to_str().unwrap().replace('\\', "/");
        let text = fs::read_to_string(file).unwrap();
        let before_tests = text.split("\n#[cfg(test)]\nmod tests {").next().unwrap();
        let is_code = |line: &&str| !line.trim_start().starts_with("//");
        let code: String = before_tests.lines().filter(is_code).map(|line| line.to_owned() + "\n").collect();
        let mut module: Module = path.trim_end_matches(".rs").split('/').map(str::to_owned).collect();
        module.pop_if(|name| ["mod", "lib", "main"].contains(&name.as_str()));
        let names = paths(&code, &module);
        Self { path, module, lines: before_tests.lines().count(), names, code }
    }

    /// The room it stands in, or the one that it is: the first name of its module.
    pub fn room(&self) -> &str {
        self.module.first().map_or("", String::as_str)
    }
}

/// The paths that begin with `crate`, `super` or `self` in some code, and those of its `pub use` of modules within.
fn paths(code: &str, module: &[String]) -> BTreeSet<Module> {
    let mut found = BTreeSet::new();
    for (at, _) in code.match_indices("::") {
        let begin =
            code[..at].rfind(|c: char| !c.is_alphanumeric() && c != '_').map_or(0, |before| before + 1);
        let parent = || module[..module.len().saturating_sub(1)].to_vec();
        let from = match &code[begin..at] {
            // What follows another name is the middle of a path, which was read from its beginning.
            _ if code[..begin].ends_with("::") => continue,
            "crate" => Module::new(),
            "super" => parent(),
            "self" => module.to_vec(),
            _ => continue,
        };
        tree(&code[at + 2..], from, &mut found);
    }
    found
}

/// Reads what follows a path: names, or a list of such in braces. Gives what is behind it.
fn tree<'c>(mut rest: &'c str, mut path: Module, found: &mut BTreeSet<Module>) -> &'c str {
    loop {
        if let Some(list) = rest.strip_prefix('{') {
            rest = list.trim_start();
            while !rest.starts_with('}') && !rest.is_empty() {
                let behind = tree(rest, path.clone(), found);
                // Whatever else stands there, such as `as Other` or a comma, is passed over.
                let next = behind.find([',', '}']).map_or("", |at| &behind[at..]);
                rest = next.strip_prefix(',').unwrap_or(next).trim_start();
            }
            return rest.strip_prefix('}').unwrap_or(rest);
        }
        let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(rest.len());
        let (name, behind) = rest.split_at(end);
        match name {
            "super" => drop(path.pop()),
            "self" | "" => {}
            name => path.push(name.to_owned()),
        }
        match behind.strip_prefix("::") {
            Some(more) => rest = more,
            None => {
                found.insert(path);
                return behind;
            }
        }
    }
}

/// Where things stand that a module shows as its own: `scope::drafting::draft` for `pub use drafting::draft`.
fn reexports(sources: &[Source]) -> BTreeMap<Module, Module> {
    let mut moved = BTreeMap::new();
    for source in sources {
        for (at, _) in source.code.match_indices("use ").filter(|(at, _)| is_public(&source.code[..*at])) {
            let mut found = BTreeSet::new();
            let path = &source.code[at + "use ".len()..];
            let from = match path.split("::").next() {
                Some("crate" | "super" | "self") => continue,
                _ => source.module.clone(),
            };
            tree(path, from, &mut found);
            for home in found {
                let shown = [&source.module[..], &home[home.len() - 1..]].concat();
                moved.insert(shown, home);
            }
        }
    }
    moved
}

fn is_public(before: &str) -> bool {
    let line = before.rsplit('\n').next().unwrap_or_default();
    line.starts_with("pub")
}

/// The path with its beginning where it stands in truth.
fn at_home(name: &[String], moved: &BTreeMap<Module, Module>) -> Module {
    let mut name = name.to_vec();
    let home_of = |name: &Module| {
        let homes = (1..=name.len()).filter_map(|end| Some((end, moved.get(&name[..end])?)));
        // A function may have the name of its module.
        homes
            .into_iter()
            .find(|(end, home)| !home.starts_with(&name[..*end]))
            .map(|(end, home)| (end, home.clone()))
    };
    while let Some((end, home)) = home_of(&name) {
        name = [&home[..], &name[end..]].concat();
    }
    name
}

#[test]
fn paths_are_read_as_they_are_meant() {
    let code = "use crate::model::{Draft, span::{Moment, TextSpan}, wording as w};\nlet x = super::read::open(self::y::Z);\n";
    let module = ["speech", "write"].map(str::to_owned);
    let found: Vec<String> = paths(code, &module).iter().map(|path| path.join("::")).collect();
    let expected = [
        "model::Draft",
        "model::span::Moment",
        "model::span::TextSpan",
        "model::wording",
        "speech::read::open",
        "speech::write::y::Z",
    ];
    assert_eq!(found, expected);
}
