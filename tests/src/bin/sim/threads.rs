//! Work shared out among threads.

use std::sync::Mutex;

/// What comes of each of some jobs, in their order, however many work on them.
pub(crate) fn shared_out<T: Send, R: Send>(
    jobs: Vec<T>,
    threads: usize,
    work: impl Fn(T) -> R + Sync,
) -> Vec<R> {
    let left = Mutex::new(jobs.into_iter().enumerate());
    let done = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..threads.max(1) {
            scope.spawn(|| {
                loop {
                    let Some((place, job)) = left.lock().unwrap().next() else { break };
                    let came = work(job);
                    done.lock().unwrap().push((place, came));
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap();
    done.sort_by_key(|(place, _)| *place);
    done.into_iter().map(|(_, came)| came).collect()
}
