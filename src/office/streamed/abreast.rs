//! Work on several things at a time, taken in their order.

use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::thread;

/// What is given to a thread before anything is taken back from it.
const AHEAD: usize = 2;

/// Works on each item; what comes of it is taken one after the other, in the order of the items, whatever thread was done
/// first. No more than two results a thread wait to be taken. With one thread, or where none can be had, it all happens in
/// the caller's.
///
/// # Errors
/// The first that `take` gives; the rest is left.
pub(in crate::office) fn abreast<T: Send, R: Send, E>(
    items: impl IntoIterator<Item = T>,
    threads: usize,
    work: impl Fn(T) -> R + Sync,
    mut take: impl FnMut(R) -> Result<(), E>,
) -> Result<(), E> {
    let mut items = items.into_iter();
    if threads < 2 {
        return items.try_for_each(|item| take(work(item)));
    }
    let work = &work;
    thread::scope(|scope| {
        let mut lanes: Vec<(SyncSender<T>, Receiver<R>)> = Vec::new();
        for _ in 0..threads {
            let (give, given) = sync_channel::<T>(AHEAD);
            let (tell, told) = sync_channel::<R>(AHEAD);
            let run = move || given.into_iter().map(work).try_for_each(|done| tell.send(done));
            match thread::Builder::new().spawn_scoped(scope, run) {
                Ok(_) => lanes.push((give, told)),
                Err(_) => break,
            }
        }
        if lanes.is_empty() {
            return items.try_for_each(|item| take(work(item)));
        }
        // Item after item goes round the lanes and is taken back from them in the same round.
        let (mut given, mut taken) = (lanes.iter().cycle(), lanes.iter().cycle());
        let mut waiting = 0;
        loop {
            let item = if waiting < AHEAD * lanes.len() { items.next() } else { None };
            // A thread that has ended has panicked, and the scope says so when it is left.
            if let Some(item) = item {
                let Some(Ok(())) = given.next().map(|(give, _)| give.send(item)) else { return Ok(()) };
                waiting += 1;
            } else if waiting > 0 {
                let Some(Ok(done)) = taken.next().map(|(_, told)| told.recv()) else { return Ok(()) };
                waiting -= 1;
                take(done)?;
            } else {
                return Ok(());
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(threads: usize, fails_at: Option<u32>) -> (Vec<u32>, Result<(), u32>) {
        let mut all = Vec::new();
        // The first of each five is slow, so that others are done before it.
        let slow = |n: u32| {
            if n.is_multiple_of(5) {
                thread::sleep(std::time::Duration::from_millis(3));
            }
            n * 2
        };
        let ended = abreast(0..40, threads, slow, |n| {
            if fails_at == Some(n) {
                return Err(n);
            }
            all.push(n);
            Ok(())
        });
        (all, ended)
    }

    #[test]
    fn all_of_it_in_order_whatever_is_done_first() {
        for threads in [1, 2, 3, 7, 60] {
            assert_eq!(run(threads, None), ((0..40).map(|n| n * 2).collect(), Ok(())), "{threads}");
        }
    }

    #[test]
    fn it_ends_at_the_first_that_is_not_taken() {
        for threads in [1, 2, 5] {
            assert_eq!(run(threads, Some(22)), ((0..11).map(|n| n * 2).collect(), Err(22)), "{threads}");
        }
    }
}
