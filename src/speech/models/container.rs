//! Reads a CTranslate2 model file (its binary version 6): named tensors one after another, then aliases.
//!
//! The layout, all numbers little-endian: `u32` version; the name of the model's kind; `u32` revision;
//! `u32` number of variables; for each its name, `u8` rank, a `u32` for each dimension, `u8` element type,
//! `u32` number of bytes, the bytes; then `u32` number of aliases, two names each. A name is a `u16` length
//! and that many bytes, the last of them zero. Nothing is copied, and nothing is reserved for a length that
//! the file merely claims.

use std::collections::BTreeMap;

/// The one version of the layout that is read.
const VERSION: u32 = 6;

/// A model file taken apart.
#[derive(Debug)]
pub struct Container<'a> {
    /// The kind of model, for example `WhisperSpec`.
    pub kind: &'a str,
    variables: BTreeMap<&'a str, Variable<'a>>,
    aliases: BTreeMap<&'a str, &'a str>,
}

/// One named block of numbers.
#[derive(Debug, PartialEq)]
pub struct Variable<'a> {
    /// How many along each axis, the slowest first; empty for a single number.
    pub dims: Vec<usize>,
    /// What each number is.
    pub element: Element,
    /// The numbers, little-endian, one after another.
    pub bytes: &'a [u8],
}

/// What the numbers of a variable are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it all")]
pub enum Element {
    Float32,
    Int8,
    Int16,
    Int32,
    Float16,
    BFloat16,
}

/// A model file that doesn't follow the layout. Positions are bytes from the start of the file.
#[expect(missing_docs, reason = "each message says what its fields are")]
#[derive(Debug, PartialEq, Eq, thiserror::Error)]
pub enum ContainerError {
    /// The file ends too early.
    #[error("the weights file ends at byte {at} where {wanted} more bytes of {what} should stand")]
    Short { what: &'static str, at: usize, wanted: usize },
    /// Another version of the layout, or another kind of file.
    #[error("the weights file begins with version {0}, expected version {VERSION}")]
    Version(u32),
    /// A name that isn't text ended by a zero.
    #[error("the name at byte {0} of the weights file isn't text ended by a zero byte")]
    Name(usize),
    /// An element type that the layout doesn't know.
    #[error("the variable `{name}` has element type {id}, expected 0 to 5")]
    Element { name: String, id: u8 },
    /// The byte count doesn't follow from the dimensions.
    #[error("the variable `{name}` has {bytes} bytes, which its dimensions {dims:?} don't explain")]
    Size { name: String, dims: Vec<usize>, bytes: usize },
    /// The same name twice.
    #[error("the name `{0}` stands twice in the weights file")]
    Twice(String),
    /// An alias of nothing.
    #[error("the alias `{alias}` stands for `{of}`, which the weights file doesn't hold")]
    Alias { alias: String, of: String },
    /// Something follows the end.
    #[error("the weights file goes on for {0} bytes after its end")]
    Rest(usize),
}

/// Takes a model file apart.
///
/// # Errors
/// The first place where `bytes` doesn't follow the layout.
pub fn read(bytes: &[u8]) -> Result<Container<'_>, ContainerError> {
    let mut reader = Reader { bytes, at: 0 };
    let version = reader.u32("version")?;
    if version != VERSION {
        return Err(ContainerError::Version(version));
    }
    let kind = reader.name()?;
    let _revision = reader.u32("revision")?;
    let variables = reader.variables()?;
    let aliases = reader.aliases(&variables)?;
    match reader.bytes.len() - reader.at {
        0 => Ok(Container { kind, variables, aliases }),
        rest => Err(ContainerError::Rest(rest)),
    }
}

impl<'a> Container<'a> {
    /// The variable of that name, or the one it is an alias of.
    pub fn get(&self, name: &str) -> Option<&Variable<'a>> {
        let name = self.aliases.get(name).copied().unwrap_or(name);
        self.variables.get(name)
    }
}

impl Element {
    fn from_id(id: u8) -> Option<Self> {
        const ALL: [Element; 6] = [
            Element::Float32,
            Element::Int8,
            Element::Int16,
            Element::Int32,
            Element::Float16,
            Element::BFloat16,
        ];
        ALL.get(usize::from(id)).copied()
    }

    fn bytes(self) -> usize {
        match self {
            Self::Int8 => 1,
            Self::Int16 | Self::Float16 | Self::BFloat16 => 2,
            Self::Float32 | Self::Int32 => 4,
        }
    }
}

/// A place in the file.
struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    fn take(&mut self, wanted: usize, what: &'static str) -> Result<&'a [u8], ContainerError> {
        let rest = &self.bytes[self.at..];
        let Some(taken) = rest.get(..wanted) else {
            return Err(ContainerError::Short { what, at: self.bytes.len(), wanted: wanted - rest.len() });
        };
        self.at += wanted;
        Ok(taken)
    }

    fn array<const N: usize>(&mut self, what: &'static str) -> Result<[u8; N], ContainerError> {
        let mut array = [0; N];
        array.copy_from_slice(self.take(N, what)?);
        Ok(array)
    }

    fn u8(&mut self, what: &'static str) -> Result<u8, ContainerError> {
        Ok(u8::from_le_bytes(self.array(what)?))
    }

    fn u32(&mut self, what: &'static str) -> Result<u32, ContainerError> {
        Ok(u32::from_le_bytes(self.array(what)?))
    }

    fn name(&mut self) -> Result<&'a str, ContainerError> {
        let at = self.at;
        let length = u16::from_le_bytes(self.array("a name's length")?);
        let bytes = self.take(usize::from(length), "a name")?;
        let text = bytes.strip_suffix(&[0]).ok_or(ContainerError::Name(at))?;
        std::str::from_utf8(text).map_err(|_| ContainerError::Name(at))
    }

    fn variables(&mut self) -> Result<BTreeMap<&'a str, Variable<'a>>, ContainerError> {
        let mut variables = BTreeMap::new();
        for _ in 0..self.u32("the number of variables")? {
            let name = self.name()?;
            let variable = self.variable(name)?;
            if variables.insert(name, variable).is_some() {
                return Err(ContainerError::Twice(name.to_owned()));
            }
        }
        Ok(variables)
    }

    fn variable(&mut self, name: &str) -> Result<Variable<'a>, ContainerError> {
        let rank = self.u8("a rank")?;
        let mut dims = Vec::new();
        for _ in 0..rank {
            dims.push(self.u32("a dimension")? as usize);
        }
        let id = self.u8("an element type")?;
        let element =
            Element::from_id(id).ok_or_else(|| ContainerError::Element { name: name.to_owned(), id })?;
        let length = self.u32("a variable's length")? as usize;
        let count = dims.iter().try_fold(element.bytes(), |product, &dim| product.checked_mul(dim));
        if count != Some(length) {
            return Err(ContainerError::Size { name: name.to_owned(), dims, bytes: length });
        }
        let bytes = self.take(length, "a variable")?;
        Ok(Variable { dims, element, bytes })
    }

    fn aliases(
        &mut self,
        variables: &BTreeMap<&'a str, Variable<'a>>,
    ) -> Result<BTreeMap<&'a str, &'a str>, ContainerError> {
        let mut aliases = BTreeMap::new();
        for _ in 0..self.u32("the number of aliases")? {
            let (alias, of) = (self.name()?, self.name()?);
            if !variables.contains_key(of) {
                return Err(ContainerError::Alias { alias: alias.to_owned(), of: of.to_owned() });
            }
            if variables.contains_key(alias) || aliases.insert(alias, of).is_some() {
                return Err(ContainerError::Twice(alias.to_owned()));
            }
        }
        Ok(aliases)
    }
}

#[cfg(test)]
mod tests {
    use super::super::synthetic::{Written, container, halves, push_aliases, push_name};
    use super::*;

    fn small() -> Vec<u8> {
        let number = Written { name: "heads".into(), dims: vec![], element: 2, bytes: vec![8, 0] };
        container(&[number, halves("weight", &[2, 3])])
    }

    /// The small file with other aliases than none.
    fn with_aliases(aliases: &[(&str, &str)]) -> Vec<u8> {
        let mut bytes = small();
        bytes.truncate(bytes.len() - 4);
        push_aliases(&mut bytes, aliases);
        bytes
    }

    #[track_caller]
    fn refused(bytes: &[u8], why: &str) {
        assert_eq!(read(bytes).unwrap_err().to_string(), why);
    }

    #[test]
    fn variables_and_aliases_are_found_by_name() {
        let bytes = with_aliases(&[("tied", "weight")]);
        let container = read(&bytes).unwrap();
        assert_eq!(container.kind, "WhisperSpec");
        assert_eq!(container.get("heads").unwrap().bytes, [8, 0]);
        assert_eq!(container.get("weight").unwrap().dims, [2, 3]);
        assert_eq!(container.get("weight").unwrap().element, Element::Float16);
        assert_eq!(container.get("tied"), container.get("weight"));
        assert_eq!(container.get("bias"), None);
    }

    #[test]
    fn a_file_cut_off_anywhere_is_refused() {
        let whole = small();
        for length in 0..whole.len() {
            assert!(read(&whole[..length]).is_err(), "{length} of {} bytes", whole.len());
        }
    }

    #[test]
    fn garbage_is_refused_without_a_panic() {
        // A fixed walk of xorshift, so that the same bytes are broken on every run.
        let mut random = 0x2545_F491_4F6C_DD1D_u64;
        let mut next = |below: usize| {
            random ^= random << 13;
            random ^= random >> 7;
            random ^= random << 17;
            (random % below as u64) as usize
        };
        for _ in 0..5_000 {
            let mut bytes = with_aliases(&[("tied", "weight")]);
            for _ in 0..=next(3) {
                let at = next(bytes.len());
                bytes[at] = next(256) as u8;
            }
            let _ = read(&bytes).is_ok();
        }
    }

    #[test]
    fn a_length_beyond_the_file_is_no_reason_to_reserve_memory() {
        let mut bytes = container(&[]);
        bytes.truncate(bytes.len() - 8);
        bytes.extend(u32::MAX.to_le_bytes());
        push_name(&mut bytes, "huge");
        bytes.push(1);
        bytes.extend(u32::MAX.to_le_bytes());
        bytes.push(1);
        bytes.extend(u32::MAX.to_le_bytes());
        refused(
            &bytes,
            "the weights file ends at byte 43 where 4294967295 more bytes of a variable should stand",
        );
    }

    #[test]
    fn another_version_is_named() {
        let mut bytes = small();
        bytes[0] = 5;
        refused(&bytes, "the weights file begins with version 5, expected version 6");
    }

    #[test]
    fn dimensions_must_explain_the_bytes() {
        let odd = Written { dims: vec![2, 4], ..halves("weight", &[2, 3]) };
        refused(
            &container(&[odd]),
            "the variable `weight` has 12 bytes, which its dimensions [2, 4] don't explain",
        );
    }

    #[test]
    fn dimensions_that_overflow_are_refused() {
        let odd = Written { dims: vec![u32::MAX; 255], ..halves("weight", &[2]) };
        assert!(matches!(read(&container(&[odd])), Err(ContainerError::Size { .. })));
    }

    #[test]
    fn an_unknown_element_type_is_named() {
        let odd = Written { element: 6, ..halves("weight", &[2]) };
        refused(&container(&[odd]), "the variable `weight` has element type 6, expected 0 to 5");
    }

    #[test]
    fn a_name_stands_once() {
        let twice = [halves("weight", &[2]), halves("weight", &[2])];
        refused(&container(&twice), "the name `weight` stands twice in the weights file");
        refused(&with_aliases(&[("weight", "heads")]), "the name `weight` stands twice in the weights file");
    }

    #[test]
    fn an_alias_stands_for_something() {
        refused(
            &with_aliases(&[("tied", "bias")]),
            "the alias `tied` stands for `bias`, which the weights file doesn't hold",
        );
    }

    #[test]
    fn nothing_follows_the_end() {
        let mut bytes = small();
        bytes.extend([0; 7]);
        refused(&bytes, "the weights file goes on for 7 bytes after its end");
    }

    #[test]
    fn a_name_ends_with_a_zero() {
        let mut bytes = small();
        // The last byte of `WhisperSpec`, after the version and the length.
        bytes[4 + 2 + 11] = b'!';
        refused(&bytes, "the name at byte 4 of the weights file isn't text ended by a zero byte");
    }
}
