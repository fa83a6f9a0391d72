//! Workers that several recordings share, each with an engine: whoever has a chunk takes one that is free, and waits
//! where none is.

mod capacity;

pub use capacity::Capacity;

use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// So many workers, for whoever needs one.
pub struct Workers<E> {
    free: Mutex<Vec<E>>,
    given_back: Condvar,
    number: usize,
}

impl<E> Workers<E> {
    /// One for each engine; all of them are free.
    pub fn new(engines: Vec<E>) -> Self {
        Self { number: engines.len(), free: Mutex::new(engines), given_back: Condvar::new() }
    }

    /// How many there are, free or not.
    pub fn number(&self) -> usize {
        self.number
    }

    /// Does something with the engine of a worker that is free, once one is.
    pub fn with<T>(&self, work: impl FnOnce(&mut E) -> T) -> T {
        let mut lent = Lent { workers: self, engine: Some(self.take()) };
        match &mut lent.engine {
            Some(engine) => work(engine),
            None => unreachable!("an engine was just taken"),
        }
    }

    fn take(&self) -> E {
        let mut free = self.free();
        loop {
            if let Some(engine) = free.pop() {
                return engine;
            }
            free = self.given_back.wait(free).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn free(&self) -> MutexGuard<'_, Vec<E>> {
        self.free.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// An engine that goes back when it is dropped, even by a panic: the next one must not wait for ever.
struct Lent<'a, E> {
    workers: &'a Workers<E>,
    engine: Option<E>,
}

impl<E> Drop for Lent<'_, E> {
    fn drop(&mut self) {
        self.workers.free().extend(self.engine.take());
        self.workers.given_back.notify_one();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::thread;

    #[test]
    fn no_engine_is_lent_twice_and_all_come_back() {
        let workers = Workers::new(vec![0_usize, 0]);
        let (inside, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        thread::scope(|scope| {
            for _ in 0..4 {
                scope.spawn(|| {
                    for _ in 0..50 {
                        workers.with(|heard| {
                            most.fetch_max(inside.fetch_add(1, Ordering::SeqCst) + 1, Ordering::SeqCst);
                            *heard += 1;
                            inside.fetch_sub(1, Ordering::SeqCst);
                        });
                    }
                });
            }
        });
        assert!(most.into_inner() <= workers.number());
        assert_eq!(workers.free().iter().sum::<usize>(), 200);
    }

    #[test]
    fn an_engine_comes_back_from_a_panic() {
        let workers = Workers::new(vec![()]);
        let panicked = thread::scope(|scope| scope.spawn(|| workers.with(|()| panic!("on purpose"))).join());
        assert!(panicked.is_err());
        workers.with(|()| ());
    }
}
