//! Several jobs at once, each printed as if they had come one after the other.

use crate::run;
use crate::say::{Doing, Done, Failure};
use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Command, Stdio};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Instant;

/// What a job has printed so far, or that it is its turn to print.
#[derive(Debug, Default)]
pub(crate) struct Paper {
    held: Mutex<Held>,
}

#[derive(Debug, Default)]
struct Held {
    lines: Vec<u8>,
    is_its_turn: bool,
}

impl Paper {
    /// Prints, at once or when its turn comes.
    pub(crate) fn print(&self, bytes: &[u8]) {
        let mut held = locked(&self.held);
        if held.is_its_turn {
            shown(bytes);
        } else {
            held.lines.extend_from_slice(bytes);
        }
    }

    /// A line of the tool's own.
    pub(crate) fn say(&self, text: impl std::fmt::Display) {
        self.print(format!("{text}\n").as_bytes());
    }

    fn take_turn(&self) {
        let mut held = locked(&self.held);
        shown(&std::mem::take(&mut held.lines));
        held.is_its_turn = true;
    }

    /// Runs a program to its end with all that it says on this paper, and hands every line
    /// of its own output to `read` first, which says whether to print it.
    ///
    /// # Errors
    /// When it cannot start or does not end with success.
    pub(crate) fn run(
        &self,
        command: &mut Command,
        hint: &str,
        mut read: impl FnMut(&str) -> bool,
    ) -> Done {
        let line = run::written(command);
        command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().doing(format!("start `{line}`"))?;
        let (output, complaints) = (child.stdout.take(), child.stderr.take());
        std::thread::scope(|scope| {
            scope.spawn(|| by_line(complaints, |bytes| self.print(bytes)));
            by_line(output, |bytes| {
                if read(&String::from_utf8_lossy(bytes)) {
                    self.print(bytes);
                }
            });
        });
        let status = child.wait().doing(format!("wait for `{line}`"))?;
        if status.success() {
            return Ok(());
        }
        Err(Failure::new(format!("`{line}` ended with {status}"), hint))
    }
}

fn shown(bytes: &[u8]) {
    let mut stdout = std::io::stdout().lock();
    // Whoever stopped reading does not want to know.
    let _ = stdout.write_all(bytes).and_then(|()| stdout.flush());
}

fn by_line(from: Option<impl Read>, mut each: impl FnMut(&[u8])) {
    let Some(from) = from else { return };
    let mut from = BufReader::new(from);
    let mut bytes = Vec::new();
    while from.read_until(b'\n', &mut bytes).is_ok_and(|read| read > 0) {
        each(&bytes);
        bytes.clear();
    }
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// One thing to do.
pub(crate) struct Job<'a> {
    pub(crate) name: &'static str,
    /// The jobs before it that must have ended well.
    pub(crate) needs: Vec<&'static str>,
    /// What only one job at a time may use.
    pub(crate) alone: Option<&'static str>,
    pub(crate) work: Box<dyn FnOnce(&Paper) -> Done + Send + 'a>,
}

/// How it went.
#[derive(Debug)]
pub(crate) struct Went {
    pub(crate) name: &'static str,
    pub(crate) done: Done,
    pub(crate) seconds: f64,
}

/// Where every job stands.
#[derive(Default)]
struct Board<'a> {
    waiting: Vec<(usize, Job<'a>)>,
    in_use: Vec<&'static str>,
    went: BTreeMap<usize, Went>,
}

impl<'a> Board<'a> {
    fn ended(&self, name: &str) -> Option<bool> {
        self.went.values().find(|went| went.name == name).map(|went| went.done.is_ok())
    }

    /// The first job that can be done now.
    fn next(&mut self) -> Option<(usize, Job<'a>)> {
        let can = |job: &Job<'a>| {
            let is_free = job.alone.is_none_or(|what| !self.in_use.contains(&what));
            is_free && job.needs.iter().all(|name| self.ended(name).is_some())
        };
        let at = self.waiting.iter().position(|(_, job)| can(job))?;
        let (number, job) = self.waiting.remove(at);
        self.in_use.extend(job.alone);
        Some((number, job))
    }
}

/// Does all jobs, so many at once, and prints them in their order.
pub(crate) fn run(jobs: Vec<Job<'_>>, at_once: usize) -> Vec<Went> {
    let papers: Vec<Paper> = jobs.iter().map(|_| Paper::default()).collect();
    if let Some(first) = papers.first() {
        first.take_turn();
    }
    let waiting = jobs.into_iter().enumerate().collect();
    let board = Mutex::new(Board { waiting, ..Board::default() });
    let changed = Condvar::new();
    std::thread::scope(|scope| {
        for _ in 0..at_once {
            scope.spawn(|| work(&board, &changed, &papers));
        }
    });
    locked(&board).went.split_off(&0).into_values().collect()
}

fn work(board: &Mutex<Board<'_>>, changed: &Condvar, papers: &[Paper]) {
    let mut held = locked(board);
    loop {
        let Some((number, job)) = held.next() else {
            if held.waiting.is_empty() {
                return;
            }
            held = changed.wait(held).unwrap_or_else(PoisonError::into_inner);
            continue;
        };
        let without = job.needs.iter().find(|name| held.ended(name) == Some(false)).copied();
        drop(held);
        let start = Instant::now();
        let paper = &papers[number];
        paper.say(format!("\n==> {}", job.name));
        let done = match without {
            None => (job.work)(paper),
            Some(name) => Err(Failure::new(
                format!("{} needs {name}, which failed", job.name),
                "see what is said of that above",
            )),
        };
        if let Err(failure) = &done {
            paper.say(failure);
        }
        let seconds = start.elapsed().as_secs_f64();
        held = locked(board);
        held.in_use.retain(|what| Some(*what) != job.alone);
        held.went.insert(number, Went { name: job.name, done, seconds });
        // All that has ended by now is printed, and the first that has not.
        let turn = (0..papers.len()).find(|number| !held.went.contains_key(number));
        for paper in &papers[..turn.map_or(papers.len(), |turn| turn + 1)] {
            paper.take_turn();
        }
        changed.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

    fn job<'a>(
        name: &'static str,
        needs: &[&'static str],
        work: impl FnOnce(&Paper) -> Done + Send + 'a,
    ) -> Job<'a> {
        Job { name, needs: needs.to_vec(), alone: None, work: Box::new(work) }
    }

    #[test]
    fn a_job_waits_for_what_it_needs_and_is_left_out_where_that_failed() {
        let built = AtomicBool::new(false);
        let jobs = vec![
            job("late", &["early"], |_| {
                assert!(built.load(Ordering::SeqCst));
                Ok(())
            }),
            job("never", &["broken"], |_| unreachable!()),
            job("early", &[], |_| {
                std::thread::sleep(std::time::Duration::from_millis(30));
                built.store(true, Ordering::SeqCst);
                Ok(())
            }),
            job("broken", &[], |_| Err(Failure::new("broken", "mend it"))),
        ];
        let went = run(jobs, 2);
        let names: Vec<(&str, bool)> =
            went.iter().map(|went| (went.name, went.done.is_ok())).collect();
        assert_eq!(names, [("late", true), ("never", false), ("early", true), ("broken", false)]);
        let why = went[1].done.as_ref().unwrap_err().to_string();
        assert!(why.contains("never needs broken"), "{why}");
    }

    #[test]
    fn what_is_used_alone_is_used_by_one_at_a_time() {
        let users = AtomicU32::new(0);
        let most = AtomicU32::new(0);
        let jobs = (0..6).map(|_| Job {
            alone: Some("folder"),
            ..job("one", &[], |_| {
                most.fetch_max(users.fetch_add(1, Ordering::SeqCst) + 1, Ordering::SeqCst);
                std::thread::sleep(std::time::Duration::from_millis(5));
                users.fetch_sub(1, Ordering::SeqCst);
                Ok(())
            })
        });
        assert_eq!(run(jobs.collect(), 3).len(), 6);
        assert_eq!(most.load(Ordering::SeqCst), 1);
    }

    #[test]
    fn what_comes_out_of_turn_is_held() {
        let paper = Paper::default();
        paper.say("early");
        assert_eq!(locked(&paper.held).lines, b"early\n");
        paper.take_turn();
        assert!(locked(&paper.held).lines.is_empty());
    }

    #[test]
    fn every_line_is_read_and_a_failure_is_told() {
        let paper = Paper::default();
        let mut read = Vec::new();
        let mut cargo = run::cargo();
        let done = paper.run(cargo.arg("--version"), "x", |line| {
            read.push(line.to_owned());
            false
        });
        assert!(done.is_ok() && read[0].starts_with("cargo "), "{read:?}");
        assert!(locked(&paper.held).lines.is_empty());
        let failure = paper.run(run::cargo().arg("no-such-command"), "x", |_| true).unwrap_err();
        assert!(failure.to_string().contains("cargo no-such-command"), "{failure}");
        assert!(!locked(&paper.held).lines.is_empty(), "what it complains of is kept");
    }
}
