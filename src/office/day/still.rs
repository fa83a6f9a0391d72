//! Files that are still being copied: size or time of change moves. They wait until both have stood still for a while.

use super::find::{FoundFile, Stamp};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

/// How often a file that moves is looked at.
const GLANCE: Duration = Duration::from_millis(200);

/// Whether a file has stood still for `still` by its own time of change. One from the future tells nothing.
pub(super) fn is_still(stamp: Stamp, still: Duration) -> bool {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    let changed = Duration::from_nanos(u64::try_from(stamp.changed).unwrap_or(0));
    now.checked_sub(changed).is_some_and(|age| age >= still)
}

/// Watches files until each has stood still for `still`, but no longer than `patience`; gives those that moved on, or
/// went away, as they were last. `stop` ends the watch.
pub(super) fn moving(
    files: &[FoundFile],
    still: Duration,
    patience: Duration,
    stop: &dyn Fn() -> bool,
) -> Vec<FoundFile> {
    let begun = Instant::now();
    let mut watched: Vec<(FoundFile, Instant)> = files.iter().map(|file| (file.clone(), begun)).collect();
    while !watched.is_empty() && begun.elapsed() < patience && !stop() {
        thread::sleep(GLANCE);
        for (file, since) in &mut watched {
            let now = stamp(&file.path);
            if now != Some(file.stamp) {
                file.stamp = now.unwrap_or(file.stamp);
                *since = Instant::now();
            }
        }
        watched.retain(|(file, since)| since.elapsed() < still && !is_still(file.stamp, still));
    }
    watched.into_iter().map(|(file, _)| file).collect()
}

fn stamp(path: &Path) -> Option<Stamp> {
    Stamp::of(path).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::{File, write};
    use std::io::Write;
    use std::sync::atomic::{AtomicBool, Ordering};

    fn found(path: &Path) -> FoundFile {
        FoundFile { path: path.to_owned(), is_sound: true, stamp: Stamp::of(path).unwrap() }
    }

    #[test]
    fn a_file_that_grows_waits_and_one_that_stands_still_does_not() {
        let folder = tempfile::tempdir().unwrap();
        let (grows, stays) = (folder.path().join("grows.wav"), folder.path().join("stays.wav"));
        write(&grows, "a").unwrap();
        write(&stays, "a").unwrap();
        let done = AtomicBool::new(false);
        let moving = thread::scope(|scope| {
            scope.spawn(|| {
                let mut file = File::options().append(true).open(&grows).unwrap();
                while !done.load(Ordering::SeqCst) {
                    file.write_all(b"more").unwrap();
                    thread::sleep(Duration::from_millis(50));
                }
            });
            let still = Duration::from_millis(500);
            let moving = moving(&[found(&grows), found(&stays)], still, Duration::from_secs(2), &|| false);
            done.store(true, Ordering::SeqCst);
            moving
        });
        assert_eq!(moving.iter().map(|file| &file.path).collect::<Vec<_>>(), [&grows]);
    }

    #[test]
    fn an_old_file_is_still() {
        let second = Duration::from_secs(1);
        assert!(is_still(Stamp { size: 1, changed: 0 }, second));
        assert!(!is_still(Stamp { size: 1, changed: i64::MAX }, second));
    }
}
