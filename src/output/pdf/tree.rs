//! The structure of a paper for whoever hears it read: headings, paragraphs, tables with their heads, lists.

use krilla::tagging::{Identifier, ListNumbering, Node, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};
use std::num::{NonZeroU16, NonZeroU32};

/// What a part of the paper is.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Role {
    Heading(u16, String),
    Paragraph,
    Table,
    Head,
    Body,
    Row,
    /// The heading of a column.
    ColumnHead,
    /// What a row is about, which is read out before its other cells.
    RowHead,
    /// A cell over so many columns.
    Cell(u32),
    List,
    ListEntry,
    EntryBody,
    /// A picture or a drawing, with what it shows.
    Figure(String),
}

/// A part's place in the structure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Part(usize);

struct Branch {
    role: Role,
    parts: Vec<Part>,
    drawn: Vec<Identifier>,
}

/// The structure as it grows.
#[derive(Default)]
pub(super) struct Tree {
    branches: Vec<Branch>,
    top: Vec<Part>,
}

impl Tree {
    /// A part of the whole.
    pub fn part(&mut self, role: Role) -> Part {
        let part = self.branch(role);
        self.top.push(part);
        part
    }

    /// A part of another part.
    pub fn part_of(&mut self, whole: Part, role: Role) -> Part {
        let part = self.branch(role);
        self.branches[whole.0].parts.push(part);
        part
    }

    fn branch(&mut self, role: Role) -> Part {
        self.branches.push(Branch { role, parts: Vec::new(), drawn: Vec::new() });
        Part(self.branches.len() - 1)
    }

    /// Notes that something of a part was drawn.
    pub fn drawn(&mut self, part: Part, what: Identifier) {
        self.branches[part.0].drawn.push(what);
    }

    /// The structure in the form of a PDF.
    pub fn finish(mut self) -> TagTree {
        let mut tree = TagTree::new().with_lang(Some("en".to_owned()));
        for part in std::mem::take(&mut self.top) {
            tree.push(self.group(part));
        }
        tree
    }

    fn group(&mut self, part: Part) -> TagGroup {
        let Branch { role, parts, drawn } = &mut self.branches[part.0];
        let (tag, parts, drawn) = (tag(role), std::mem::take(parts), std::mem::take(drawn));
        let mut children: Vec<Node> = drawn.into_iter().map(Node::from).collect();
        children.extend(parts.into_iter().map(|part| Node::from(self.group(part))));
        TagGroup::with_children(tag, children)
    }
}

/// What is read out for a heading without words, as PDF/UA has none: a structure may be called nothing that is seen.
const NAMELESS: &str = "without a name";

fn tag(role: &Role) -> TagKind {
    let level = |level: u16| NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
    match role {
        Role::Heading(at, title) if title.trim().is_empty() => {
            Tag::Hn(level(*at), Some(NAMELESS.to_owned())).into()
        }
        Role::Heading(at, title) => Tag::Hn(level(*at), Some(title.clone())).into(),
        Role::Paragraph => Tag::P.into(),
        Role::Table => Tag::Table.into(),
        Role::Head => Tag::THead.into(),
        Role::Body => Tag::TBody.into(),
        Role::Row => Tag::TR.into(),
        Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::Cell(over) => Tag::TD.with_col_span(NonZeroU32::new(*over).filter(|n| n.get() > 1)).into(),
        Role::List => Tag::L(ListNumbering::None).into(),
        Role::ListEntry => Tag::LI.into(),
        Role::EntryBody => Tag::LBody.into(),
        Role::Figure(told) => Tag::Figure(Some(told.clone())).into(),
    }
}
