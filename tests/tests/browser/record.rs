//! What the browser asked the network for: all of it, by whatever part of it. The log of
//! a page does not tell what its worker fetches; the browser's own record of the network does.

use serde_json::Value;
use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

/// A file that a browser records its requests in, removed when this is dropped.
#[derive(Debug)]
pub(crate) struct Record {
    path: PathBuf,
    /// How many bytes of it were read.
    read: u64,
    /// How many events that were.
    pub(crate) events: usize,
}

/// Something that was asked of the network.
#[derive(Clone, Debug)]
pub(crate) struct Request {
    /// Of whom and for what.
    pub(crate) to: String,
    /// Whether a page or a worker asked. What the browser asks for by itself, an address
    /// that was typed included, has no page that began it.
    pub(crate) by_a_page: bool,
}

impl Record {
    /// A file that no other journey writes to.
    pub(crate) fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("coilwright-record-{}-{number}.json", std::process::id());
        // A browser that is shared outlives this program, and so does its record.
        let folder = std::env::var_os("COILWRIGHT_RECORDS").map(PathBuf::from);
        let folder = folder.unwrap_or_else(std::env::temp_dir);
        Self { path: folder.join(name), read: 0, events: 0 }
    }

    /// The argument that has a browser write it.
    pub(crate) fn argument(&self) -> String {
        format!("--log-net-log={}", self.path.display())
    }

    /// What was asked for since this was looked at last.
    pub(crate) fn more(&mut self) -> Vec<Request> {
        let mut file = File::open(&self.path).expect("the browser's record");
        file.seek(SeekFrom::Start(self.read)).expect("a place in it");
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).expect("the rest of it");
        // The last line may be half a line as yet.
        let whole = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |end| end + 1);
        self.read += whole as u64;
        let mut requests = Vec::new();
        // One event a line, after the names of what there can be.
        for line in String::from_utf8_lossy(&bytes[..whole]).lines() {
            self.events += usize::from(line.starts_with('{'));
            // There are thousands about other things.
            if !line.contains("\"initiator\"") {
                continue;
            }
            let Ok(event) = serde_json::from_str::<Value>(line.trim_end_matches(',')) else {
                continue;
            };
            let told = |name: &str| event["params"][name].as_str().map(str::to_owned);
            if let (Some(by), Some(to)) = (told("initiator"), told("url")) {
                requests.push(Request { to, by_a_page: by != "not an origin" });
            }
        }
        requests
    }
}

impl Drop for Record {
    fn drop(&mut self) {
        // It may never have been written.
        let _ = std::fs::remove_file(&self.path);
    }
}
