//! What the browser asked the network for: all of it, by whatever part of it. The log of
//! a page does not tell what its worker fetches; the browser's own record of the network does.

use serde_json::Value;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

/// A file that a browser records its requests in, removed when this is dropped.
#[derive(Debug)]
pub(crate) struct Record(PathBuf);

impl Record {
    /// A file that no other journey writes to.
    pub(crate) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("coilwright-record-{}-{number}.json", std::process::id());
        Self(std::env::temp_dir().join(name))
    }

    /// The argument that has a browser write it.
    pub(crate) fn argument(&self) -> String {
        format!("--log-net-log={}", self.0.display())
    }

    /// What pages and workers asked for, once the browser has ended. What the browser asks
    /// for by itself, an address that was typed included, has no page that began it.
    pub(crate) fn requests(&self) -> Vec<String> {
        let text = std::fs::read_to_string(&self.0).expect("the browser's record");
        let mut requests = Vec::new();
        let mut events = 0;
        // One event a line, after the names of what there can be.
        for line in text.lines() {
            let Ok(event) = serde_json::from_str::<Value>(line.trim_end_matches(',')) else {
                continue;
            };
            events += 1;
            let told = |name: &str| event["params"][name].as_str().map(str::to_owned);
            if let (Some(by), Some(to)) = (told("initiator"), told("url"))
                && by != "not an origin"
            {
                requests.push(to);
            }
        }
        assert!(events > 10, "a record of nothing: {} bytes", text.len());
        requests
    }
}

impl Drop for Record {
    fn drop(&mut self) {
        // It may never have been written.
        let _ = std::fs::remove_file(&self.0);
    }
}
