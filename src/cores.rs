//! Work on all cores of the machine: the entries of a list one by one, answers in its order.
//!
//! A thread takes the next entry when it is done with its last, so that a long one keeps nobody
//! waiting; what comes out does not depend on how many threads there are.

use std::convert::Infallible;
use std::num::NonZero;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;

/// More threads than this are not worth their memory here.
const MOST: usize = 8;

/// The answers of both, worked out at once.
pub(crate) fn both<A: Send, B: Send>(
    one: impl FnOnce() -> A,
    other: impl FnOnce() -> B + Send,
) -> (A, B) {
    thread::scope(|scope| {
        let other = scope.spawn(other);
        let one = one();
        let other = other.join().unwrap_or_else(|panic| resume_unwind(panic));
        (one, other)
    })
}

/// The answer to each entry.
pub(crate) fn each<T: Sync, A: Send>(list: &[T], answer: impl Fn(&T) -> A + Sync) -> Vec<A> {
    let sure = |entry: &T| Ok::<A, Infallible>(answer(entry));
    match try_each(list, sure) {
        Ok(all) => all,
        Err(never) => match never {},
    }
}

/// The answer to each entry, or the error of the first that has one; no entry is begun after it.
pub(crate) fn try_each<T: Sync, A: Send, E: Send>(
    list: &[T],
    answer: impl Fn(&T) -> Result<A, E> + Sync,
) -> Result<Vec<A>, E> {
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let threads = cores.min(MOST).min(list.len());
    if threads < 2 {
        return list.iter().map(answer).collect();
    }
    let (next, failed) = (AtomicUsize::new(0), AtomicBool::new(false));
    // Entries are begun in order, so that all before one that fails are answered too.
    let take = || {
        let mut own = Vec::new();
        while !failed.load(Ordering::Relaxed)
            && let at = next.fetch_add(1, Ordering::Relaxed)
            && let Some(entry) = list.get(at)
        {
            let one = answer(entry);
            failed.fetch_or(one.is_err(), Ordering::Relaxed);
            own.push((at, one));
        }
        own
    };
    let mut all = thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(take)).collect();
        let mut all = take();
        for other in others {
            all.extend(other.join().unwrap_or_else(|panic| resume_unwind(panic)));
        }
        all
    });
    all.sort_unstable_by_key(|(at, _)| *at);
    all.into_iter().map(|(_, answer)| answer).collect()
}

#[cfg(test)]
mod tests {
    use super::{each, try_each};

    #[test]
    fn answers_keep_the_order_of_the_list() {
        let list: Vec<u64> = (0..1000).collect();
        let slow = |one: &u64| {
            // The first take longest.
            let long = 1000 - one;
            (0..long * 50).fold(*one, |sum, more| sum ^ more ^ more) + 1
        };
        assert_eq!(each(&list, slow), (1..=1000).collect::<Vec<_>>());
        assert!(each(&[], slow).is_empty());
    }

    #[test]
    fn the_first_entry_that_fails_is_told() {
        let list: Vec<u32> = (0..1000).collect();
        let even = |one: &u32| {
            if one % 400 == 399 {
                Err(*one)
            } else {
                Ok(*one)
            }
        };
        for _ in 0..20 {
            assert_eq!(try_each(&list, even), Err(399));
        }
    }
}
