//! The driver of the browsers that journeys share: started before the first journey, and
//! ended after the last with every browser that is left. The journeys run in a program of
//! their own, which cannot tell which of them is the last.

use crate::run;
use crate::say::{Doing, Done, Failure};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

/// How long browsers may take to end.
const PATIENCE: Duration = Duration::from_secs(20);

/// `chromedriver` on a free port, ended when this is dropped.
#[derive(Debug)]
pub(super) struct Driver {
    process: Child,
    port: u16,
    /// Where its browsers write down what they ask the network for.
    records: PathBuf,
}

impl Driver {
    /// Starts it and waits until it answers.
    pub(super) fn start() -> Done<Self> {
        let records = run::root().join("target-wasm/records");
        std::fs::create_dir_all(&records).doing("make target-wasm/records")?;
        let mut command = run::program("chromedriver");
        command.arg("--port=0").stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null());
        let mut process = command.spawn().doing("start chromedriver")?;
        let stdout = process.stdout.take();
        // Dropped without a port, it is ended too.
        let mut driver = Self { process, port: 0, records };
        let mut lines = stdout.map(BufReader::new).into_iter().flat_map(BufRead::lines);
        let port = lines.by_ref().map_while(Result::ok).find_map(|line| port(&line));
        driver.port = port.ok_or_else(|| {
            Failure::new(
                "chromedriver told no port",
                "type `chromedriver --port=0`: what does it say?",
            )
        })?;
        // What it says afterwards must go somewhere.
        std::thread::spawn(move || lines.for_each(drop));
        Ok(driver)
    }

    /// Where it is spoken to.
    pub(super) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// The folder for what its browsers record.
    pub(super) fn records(&self) -> &Path {
        &self.records
    }

    /// Has it end its browsers and itself.
    fn shut_down(&self) -> std::io::Result<()> {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, self.port))?;
        stream.set_read_timeout(Some(PATIENCE))?;
        stream
            .write_all(b"GET /shutdown HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")?;
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).map(drop)
    }
}

/// The port in the line by which it says that it is there.
fn port(line: &str) -> Option<u16> {
    line.split_once("successfully on port ")?.1.trim_end_matches('.').parse().ok()
}

impl Drop for Driver {
    fn drop(&mut self) {
        // It may have ended by itself.
        let asked = self.shut_down();
        let start = Instant::now();
        while asked.is_ok()
            && start.elapsed() < PATIENCE
            && self.process.try_wait().is_ok_and(|status| status.is_none())
        {
            std::thread::sleep(Duration::from_millis(20));
        }
        let _ = self.process.kill();
        let _ = self.process.wait();
        // The next run would write beside what is left.
        let _ = std::fs::remove_dir_all(&self.records);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_that_tells_the_port() {
        assert_eq!(port("ChromeDriver was started successfully on port 38123."), Some(38123));
        assert_eq!(port("Starting ChromeDriver 156 on port 0"), None);
    }
}
