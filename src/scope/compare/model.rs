//! What a comparison holds. The field names are the program's JSON.

use crate::language::rules::lists::Column;
use crate::model::span::Moment;
use crate::model::{Exact, Side, Size, Unit, Work};
use serde::{Serialize, Serializer};

/// What became of a thing when two lists were held beside each other, in the order a document tells them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Ours has it, theirs hasn't.
    MissingThere,
    /// Both have it, theirs less of it.
    ShortThere,
    /// Whether they mean the same is for a person to say.
    Unclear,
    /// Both have it, theirs more of it.
    MoreThere,
    /// Theirs has it, ours hasn't.
    OnlyThere,
    /// Both have it, and as much.
    Same,
}

impl Outcome {
    /// Every outcome, in the order a document tells them.
    pub const ALL: [Outcome; 6] = [
        Outcome::MissingThere,
        Outcome::ShortThere,
        Outcome::Unclear,
        Outcome::MoreThere,
        Outcome::OnlyThere,
        Outcome::Same,
    ];

    /// In plain words.
    pub fn words(self) -> &'static str {
        match self {
            Outcome::MissingThere => "missing from their list",
            Outcome::ShortThere => "quantity short",
            Outcome::Unclear => "unclear",
            Outcome::MoreThere => "quantity over",
            Outcome::OnlyThere => "only on their list",
            Outcome::Same => "same",
        }
    }

    /// Whether somebody has to act on it before the scope can be called settled there.
    pub fn is_open(self) -> bool {
        matches!(self, Outcome::MissingThere | Outcome::ShortThere | Outcome::Unclear)
    }
}

/// How sure it is that lines which were put beside each other are the same work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Certainty {
    /// Two things or more were left open.
    Low,
    /// One thing was left open.
    Medium,
    /// Nothing was left open.
    High,
}

impl Certainty {
    /// By how many things were left open.
    pub(super) fn with(open: usize) -> Self {
        match open {
            0 => Certainty::High,
            1 => Certainty::Medium,
            _ => Certainty::Low,
        }
    }

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Certainty::Low => "low",
            Certainty::Medium => "medium",
            Certainty::High => "high",
        }
    }
}

/// A line of our scope.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OurLine {
    /// Its number, as the scope's own page has it.
    pub number: usize,
    /// What it is known by.
    pub id: String,
    /// `house`, or the structure the narrator named.
    pub structure: String,
    /// Where on it.
    pub side: Side,
    /// The thing in words.
    pub item: String,
    /// What is to be done.
    pub work: Option<Work>,
    /// How much.
    #[serde(serialize_with = "decimal")]
    pub quantity: Option<Exact>,
    /// What the quantity counts.
    pub unit: Unit,
    /// How large each is.
    pub size: Option<Size>,
    /// The words it came from.
    pub quote: String,
    /// When they begin.
    pub start: Option<Moment>,
    /// The same as a person reads it, within its clip.
    pub time: Option<String>,
    /// The photos that show it, by their files' names.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<String>,
    /// Whether a reviewer still has to settle something about it.
    pub needs_look: bool,
}

/// A line of their list, with what was understood of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TheirLine {
    /// Its row in the file, from 1.
    pub row: usize,
    /// The row's words for the thing, as they stand there.
    pub text: String,
    /// The structure it names; none where it names none.
    pub structure: Option<String>,
    /// The side it names.
    pub side: Side,
    /// The sides, where it names several.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sides: Vec<Side>,
    /// The things in words.
    pub items: Vec<String>,
    /// What is to be done; several where it names several.
    pub works: Vec<Work>,
    /// How much, in `unit`.
    #[serde(serialize_with = "decimal")]
    pub quantity: Option<Exact>,
    /// What the quantity counts; none where it isn't told, or isn't known.
    pub unit: Option<Unit>,
    /// How large each is.
    pub size: Option<String>,
    /// The quantity and the unit as they stand there.
    pub amount: String,
}

/// Lines of ours and of theirs that belong together, and what came of it. A finding with several lines on a side is a
/// group, and `because` says so.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// What came of it.
    pub outcome: Outcome,
    /// How sure it is that these lines are the same work; for what stands on one side only, that it has no match.
    pub certainty: Certainty,
    /// Our lines.
    pub ours: Vec<OurLine>,
    /// Their lines.
    pub theirs: Vec<TheirLine>,
    /// What ours come to, in `unit`.
    #[serde(serialize_with = "decimal")]
    pub our_quantity: Option<Exact>,
    /// What theirs come to, in `unit`.
    #[serde(serialize_with = "decimal")]
    pub their_quantity: Option<Exact>,
    /// Theirs less ours, in `unit`.
    #[serde(serialize_with = "decimal")]
    pub difference: Option<Exact>,
    /// The unit that both are told in.
    pub unit: Option<Unit>,
    /// Why they were put together, and what was left open, in sentences.
    pub because: Vec<String>,
    /// What a person has to settle.
    pub question: Option<String>,
}

/// A column of their list, and what it was taken for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ColumnUse {
    /// Its letter, as a spreadsheet shows it.
    pub letter: String,
    /// Its heading.
    pub heading: String,
    /// What it holds.
    pub means: Column,
    /// Why it isn't read, where another was taken in its place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub instead: Option<String>,
}

/// A row of their list that is no line of work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PassedOver {
    /// The row, from 1.
    pub row: usize,
    /// Its words.
    pub text: String,
    /// What it was taken for.
    pub why: String,
}

/// How many findings of each kind there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Counts {
    /// See [`Outcome::MissingThere`].
    pub missing_there: usize,
    /// See [`Outcome::ShortThere`].
    pub short_there: usize,
    /// See [`Outcome::Unclear`].
    pub unclear: usize,
    /// See [`Outcome::MoreThere`].
    pub more_there: usize,
    /// See [`Outcome::OnlyThere`].
    pub only_there: usize,
    /// See [`Outcome::Same`].
    pub same: usize,
}

/// Our scope beside another party's list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// The recording or text that our scope came from.
    pub ours: String,
    /// SHA-256 of that file, where it is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub digest: Option<String>,
    /// Their list's file name.
    pub theirs: String,
    /// The sheet it was read from; none for CSV.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sheet: Option<String>,
    /// What a person should know about the reading.
    pub notices: Vec<String>,
    /// How many of each kind.
    pub counts: Counts,
    /// What came of it, in the order a document tells it.
    pub findings: Vec<Finding>,
    /// Our conditional lines, outside of all that is counted.
    pub to_confirm: Vec<OurLine>,
    /// How their columns were read.
    pub columns: Vec<ColumnUse>,
    /// Their rows that are no lines of work.
    pub passed_over: Vec<PassedOver>,
}

impl Comparison {
    /// The findings of one kind.
    pub fn of(&self, outcome: Outcome) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(move |finding| finding.outcome == outcome)
    }

    /// Whether something is missing there, short there or unclear.
    pub fn is_open(&self) -> bool {
        self.findings.iter().any(|finding| finding.outcome.is_open())
    }
}

impl Counts {
    /// Counts findings.
    pub(super) fn of(findings: &[Finding]) -> Self {
        let count = |outcome| findings.iter().filter(|finding| finding.outcome == outcome).count();
        Self {
            missing_there: count(Outcome::MissingThere),
            short_there: count(Outcome::ShortThere),
            unclear: count(Outcome::Unclear),
            more_there: count(Outcome::MoreThere),
            only_there: count(Outcome::OnlyThere),
            same: count(Outcome::Same),
        }
    }
}

/// A number as other programs get it.
fn decimal<S: Serializer>(number: &Option<Exact>, to: S) -> Result<S::Ok, S::Error> {
    number.map(Exact::decimal).serialize(to)
}
