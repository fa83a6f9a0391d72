//! Which split of this machine's cores hears quickest: many workers with one thread each, or fewer with more.
//!
//! `cargo run --release --example workers -- RECORDING` hears the recording with every split that uses all cores, twice in
//! turns, and tells the better time of each.

#![allow(clippy::print_stdout, reason = "what it measured is its result")]

fn main() -> anyhow::Result<()> {
    use anyhow::Context;
    use eavesdraft::speech::Recognizer;
    use eavesdraft::speech::models::Store;
    use eavesdraft::speech::recognition::whisper::{WhisperOptions, WhisperRecognizer};
    use eavesdraft::speech::recognition::workers::Capacity;
    use std::num::NonZeroUsize;
    use std::time::Instant;

    let recording = std::env::args_os().nth(1).context("name a recording")?;
    let model = Store::of_user()?.find_default()?;
    let cores = std::thread::available_parallelism()?;
    let number = |n| NonZeroUsize::new(n).context("one worker or more");
    let splits = (1..=cores.get()).filter(|workers| cores.get().is_multiple_of(*workers));
    let mut best: Vec<(Capacity, f64)> = Vec::new();
    for workers in splits {
        let threads = number(cores.get() / workers)?;
        best.push((Capacity { workers: number(workers)?, threads }, f64::INFINITY));
    }
    for _ in 0..2 {
        for (capacity, seconds) in &mut best {
            let options = WhisperOptions { capacity: *capacity, ..WhisperOptions::default() };
            let recognizer = WhisperRecognizer::new(&model, options)?;
            let begun = Instant::now();
            recognizer.hear(recording.as_ref(), &mut |_| {})?;
            *seconds = seconds.min(begun.elapsed().as_secs_f64());
        }
    }
    for (Capacity { workers, threads }, seconds) in best {
        println!("{workers} workers with {threads} threads each: {seconds:.1} s");
    }
    Ok(())
}
