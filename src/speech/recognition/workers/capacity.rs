//! How many workers hear at once, and with how many threads each: as many as there are processor cores, unless memory
//! doesn't hold them. A machine that swaps hears slower than one with fewer workers.

use std::num::NonZeroUsize;

/// A worker needs so many times the size of the model's file beside the model itself: 177 MB for the 82 MB of base, 128
/// for the 44 MB of tiny (both measured, in 8 bits); larger models need less for their size.
const WORKER: u64 = 3;

/// What the rest of the program and of the machine's other work is left, in bytes: the sound of a recording stands in
/// memory half a minute at a time only.
const REST: u64 = 512 << 20;

/// How many workers hear at once, and with how many threads each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Capacity {
    /// How many there are.
    pub workers: NonZeroUsize,
    /// Threads each of them uses.
    pub threads: NonZeroUsize,
}

impl Capacity {
    /// One, with one thread.
    pub const ONE: Self = Self { workers: NonZeroUsize::MIN, threads: NonZeroUsize::MIN };

    /// So many workers, with one thread each.
    pub fn of(workers: NonZeroUsize) -> Self {
        Self { workers, ..Self::ONE }
    }

    /// What suits a machine with so many cores and so many bytes of memory free, for a model of that size. One
    /// thread a worker is quickest (threads of one worker wait for each other; `examples/workers.rs` measures it); only cores that memory leaves without a
    /// worker help another.
    pub fn fitting(cores: NonZeroUsize, free: u64, model: u64) -> Self {
        let room = free.saturating_sub(REST + model) / (model * WORKER).max(1);
        let workers = usize::try_from(room).unwrap_or(usize::MAX).clamp(1, cores.get());
        let number = |n| NonZeroUsize::new(n).unwrap_or(NonZeroUsize::MIN);
        Self { workers: number(workers), threads: number(cores.get() / workers) }
    }

    /// What suits this machine.
    #[cfg(feature = "whisper")]
    pub fn of_machine(model: u64) -> Self {
        let cores = std::thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
        Self::fitting(cores, free_memory(), model)
    }
}

impl Default for Capacity {
    fn default() -> Self {
        Self::ONE
    }
}

/// Bytes that programs can have before the machine swaps, or before a container's limit.
#[cfg(feature = "whisper")]
fn free_memory() -> u64 {
    let mut system = sysinfo::System::new();
    system.refresh_memory();
    let limit = system.cgroup_limits().map_or(u64::MAX, |limits| limits.free_memory);
    system.available_memory().min(limit)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MIB: u64 = 1 << 20;

    fn capacity(cores: usize, free: u64) -> (usize, usize) {
        let capacity = Capacity::fitting(NonZeroUsize::new(cores).unwrap(), free, 82 * MIB);
        (capacity.workers.get(), capacity.threads.get())
    }

    #[test]
    fn a_worker_a_core_while_memory_holds_them() {
        assert_eq!(capacity(2, 8 << 30), (2, 1));
        assert_eq!(capacity(16, 64 << 30), (16, 1));
    }

    #[test]
    fn where_memory_is_short_fewer_workers_use_the_same_cores() {
        assert_eq!(capacity(8, 1_400 * MIB), (3, 2));
        assert_eq!(capacity(8, 0), (1, 8));
    }

    #[cfg(feature = "whisper")]
    #[test]
    fn this_machine_has_memory_for_one() {
        assert!(free_memory() > 0);
    }
}
