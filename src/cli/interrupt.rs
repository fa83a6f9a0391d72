//! Being asked to end: Ctrl-C, or that the machine ends the program.

use std::future::{Future, poll_fn};
use std::pin::pin;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, mpsc};
use std::task::Poll;
use std::thread;

/// Turns true once the program is asked to end. From the moment this returns it is waited for, so it comes before
/// anything that takes time: asked earlier, the program is ended by the machine, without a word.
pub(super) fn flag() -> Arc<AtomicBool> {
    let flag = Arc::new(AtomicBool::new(false));
    let asked = Arc::clone(&flag);
    let (listening, listens) = mpsc::channel();
    thread::spawn(move || {
        // Where it can't be waited for, the program ends at once when it is asked to, which loses nothing either.
        let Ok(runtime) = tokio::runtime::Builder::new_current_thread().enable_all().build() else { return };
        runtime.block_on(async {
            let mut interrupted = pin!(interrupted());
            // Polled once, it listens.
            let begun = poll_fn(|context| Poll::Ready(interrupted.as_mut().poll(context))).await;
            let _ = listening.send(());
            if begun.is_pending() {
                interrupted.await;
            }
        });
        asked.store(true, Ordering::SeqCst);
    });
    // Nothing comes where the thread ended, which is as good.
    let _ = listens.recv();
    flag
}

/// Ctrl-C, or that the machine asks the program to end.
pub(super) async fn interrupted() {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        let terminated = async {
            match signal(SignalKind::terminate()) {
                Ok(mut signal) => drop(signal.recv().await),
                Err(_) => std::future::pending().await,
            }
        };
        tokio::select! {
            _ = tokio::signal::ctrl_c() => {}
            () = terminated => {}
        }
    }
    #[cfg(not(unix))]
    let _ = tokio::signal::ctrl_c().await;
}
