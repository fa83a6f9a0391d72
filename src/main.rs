//! The command line of Eavesdraft.
fn main() {}
