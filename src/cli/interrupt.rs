//! Being asked to end: Ctrl-C, or that the machine ends the program.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;

/// Turns true once the program is asked to end.
pub(super) fn flag() -> Arc<AtomicBool> {
    let flag = Arc::new(AtomicBool::new(false));
    let asked = Arc::clone(&flag);
    thread::spawn(move || {
        // Where it can't be waited for, the program ends at once when it is asked to, which loses nothing either.
        let Ok(runtime) = tokio::runtime::Builder::new_current_thread().enable_all().build() else { return };
        runtime.block_on(interrupted());
        asked.store(true, Ordering::SeqCst);
    });
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
