//! The cases that are read differently, by reason, from `tests/outside/differs.toml`.

use super::suites::{Case, SUITES, outside};
use serde::Deserialize;
use std::collections::BTreeSet;

/// One reason, with the cases that differ for it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kind {
    /// A word or two, for the table.
    pub name: String,
    /// Why the reading is right for a house, or does no harm.
    reason: String,
    cases: Vec<Row>,
}

/// A case and what is read instead. A case that a suite has twice stands here once.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    suite: String,
    said: String,
    expected: String,
    read: String,
}

impl Row {
    fn is(&self, case: &Case) -> bool {
        self.suite == case.suite && self.said == case.said && self.expected == case.expected
    }
}

impl Kind {
    pub fn holds(&self, case: &Case) -> bool {
        self.cases.iter().any(|r| r.is(case))
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    kind: Vec<Kind>,
}

/// The file, and which of its rows a case has met.
pub struct Differs {
    file: File,
    met: BTreeSet<Row>,
}

impl Differs {
    /// Reads the file; a row of no suite, one listed twice or a reason without words is a fault of the file.
    pub fn load() -> Self {
        let file: File = toml::from_str(&std::fs::read_to_string(outside("differs.toml")).unwrap()).unwrap();
        let mut seen = BTreeSet::new();
        for kind in &file.kind {
            assert!(kind.reason.split_whitespace().count() >= 3, "`{}` needs a reason", kind.name);
            for row in &kind.cases {
                assert!(SUITES.contains(&row.suite.as_str()), "there is no suite `{}`", row.suite);
                assert!(seen.insert((&row.suite, &row.said, &row.expected)), "listed twice: {row:?}");
            }
        }
        Self { file, met: BTreeSet::new() }
    }

    pub fn kinds(&self) -> impl Iterator<Item = &Kind> {
        self.file.kind.iter()
    }

    /// What a case is listed as read, if it is listed; notes that the row was met.
    pub fn listed(&mut self, case: &Case) -> Option<&str> {
        let row = self.file.kind.iter().flat_map(|k| &k.cases).find(|r| r.is(case))?;
        self.met.insert(row.clone());
        Some(&row.read)
    }

    /// Rows that no case has met, with the name of their reason.
    pub fn unmet(&self) -> impl Iterator<Item = (&str, &Row)> {
        let rows = self.file.kind.iter().flat_map(|k| k.cases.iter().map(|r| (k.name.as_str(), r)));
        rows.filter(|(_, r)| !self.met.contains(r))
    }
}
