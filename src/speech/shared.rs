//! Ears that several recordings share: whoever has a chunk takes one that is free, and waits where none is.

use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// So many ears, for whoever needs one.
pub struct Shared<E> {
    free: Mutex<Vec<E>>,
    given_back: Condvar,
    number: usize,
}

impl<E> Shared<E> {
    /// All of them are free.
    pub fn new(ears: Vec<E>) -> Self {
        Self { number: ears.len(), free: Mutex::new(ears), given_back: Condvar::new() }
    }

    /// How many there are, free or not.
    pub fn number(&self) -> usize {
        self.number
    }

    /// Does something with an ear that is free, once one is.
    pub fn with<T>(&self, work: impl FnOnce(&mut E) -> T) -> T {
        let mut lent = Lent { shared: self, ear: Some(self.take()) };
        match &mut lent.ear {
            Some(ear) => work(ear),
            None => unreachable!("an ear was just taken"),
        }
    }

    fn take(&self) -> E {
        let mut free = self.free();
        loop {
            if let Some(ear) = free.pop() {
                return ear;
            }
            free = self.given_back.wait(free).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn free(&self) -> MutexGuard<'_, Vec<E>> {
        self.free.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// An ear that goes back when it is dropped, even by a panic: the next one must not wait for ever.
struct Lent<'a, E> {
    shared: &'a Shared<E>,
    ear: Option<E>,
}

impl<E> Drop for Lent<'_, E> {
    fn drop(&mut self) {
        self.shared.free().extend(self.ear.take());
        self.shared.given_back.notify_one();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::thread;

    #[test]
    fn no_ear_is_lent_twice_and_all_come_back() {
        let shared = Shared::new(vec![0_usize, 0]);
        let (inside, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        thread::scope(|scope| {
            for _ in 0..4 {
                scope.spawn(|| {
                    for _ in 0..50 {
                        shared.with(|heard| {
                            most.fetch_max(inside.fetch_add(1, Ordering::SeqCst) + 1, Ordering::SeqCst);
                            *heard += 1;
                            inside.fetch_sub(1, Ordering::SeqCst);
                        });
                    }
                });
            }
        });
        assert!(most.into_inner() <= shared.number());
        assert_eq!(shared.free().iter().sum::<usize>(), 200);
    }

    #[test]
    fn an_ear_comes_back_from_a_panic() {
        let shared = Shared::new(vec![()]);
        let panicked = thread::scope(|scope| scope.spawn(|| shared.with(|()| panic!("on purpose"))).join());
        assert!(panicked.is_err());
        shared.with(|()| ());
    }
}
