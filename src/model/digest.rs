//! SHA-256 of bytes, of files, and of what is being written, in lower-case hexadecimal.

use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, Read, Write};
use std::path::Path;

/// The digest of `bytes`.
pub fn of_bytes(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

/// The digest of the file at `path`, read in small pieces.
pub fn of_file(path: &Path) -> io::Result<String> {
    let mut file = File::open(path)?;
    let mut hasher = Sha256::new();
    let mut piece = vec![0; 1 << 16];
    loop {
        match file.read(&mut piece)? {
            0 => return Ok(hexadecimal(&hasher.finalize())),
            read => hasher.update(&piece[..read]),
        }
    }
}

/// Passes everything on to `out`, and knows the digest of what went through.
pub struct Hashing<W> {
    out: W,
    hasher: Sha256,
}

impl<W: Write> Hashing<W> {
    /// Nothing has gone through yet.
    pub fn new(out: W) -> Self {
        Self { out, hasher: Sha256::new() }
    }

    /// The writer underneath, and the digest of all that was written.
    pub fn finish(self) -> (W, String) {
        (self.out, hexadecimal(&self.hasher.finalize()))
    }
}

impl<W: Write> Write for Hashing<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let written = self.out.write(bytes)?;
        self.hasher.update(&bytes[..written]);
        Ok(written)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The digest of "abc" that FIPS 180-2 gives as its first example (appendix B.1), from memory.
    const ABC: &str = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    #[test]
    fn three_ways_to_the_same_published_digest() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("abc");
        std::fs::write(&path, "abc").unwrap();
        let mut hashing = Hashing::new(Vec::new());
        hashing.write_all(b"ab").unwrap();
        hashing.write_all(b"c").unwrap();

        assert_eq!(of_bytes(b"abc"), ABC);
        assert_eq!(of_file(&path).unwrap(), ABC);
        assert_eq!(hashing.finish(), (b"abc".to_vec(), ABC.to_owned()));
    }
}
