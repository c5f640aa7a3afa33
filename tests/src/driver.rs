//! A browser without a screen, and its driver as a process of its own.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use thirtyfour::common::capabilities::chrome::ChromeCapabilities;
use thirtyfour::prelude::*;

/// `chromedriver` on a free port, ended when this is dropped.
#[derive(Debug)]
pub struct Driver {
    process: Child,
    port: u16,
}

impl Driver {
    /// Starts it and waits until it answers.
    ///
    /// # Panics
    /// When it is not installed, or tells no port.
    #[must_use]
    pub fn start() -> Self {
        // Drivers that start at once may pick the same port: all but one end, and try again.
        let started = (0..5).find_map(|_| Self::try_start());
        started.expect("chromedriver tells its port")
    }

    /// `None` where it ended before it told its port.
    fn try_start() -> Option<Self> {
        let mut process = Command::new("chromedriver")
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| {
                panic!(
                    "chromedriver could not be started ({error}). Install it: on Debian or Ubuntu, \
                     as root, `apt-get install chromium chromium-driver`"
                )
            });
        let stdout = process.stdout.take().expect("a piped output");
        let mut lines = BufReader::new(stdout).lines().map_while(Result::ok);
        let port = lines.find_map(|line| {
            line.split_once("successfully on port ")?.1.trim_end_matches('.').parse().ok()
        });
        // Dropped without a port, it is ended too.
        let driver = Self { process, port: port.unwrap_or_default() };
        port?;
        // What it says afterwards must go somewhere.
        std::thread::spawn(move || lines.for_each(drop));
        Some(driver)
    }

    /// Where it is spoken to.
    #[must_use]
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// A browser that does nothing of its own accord.
///
/// # Errors
/// When it cannot be written as the driver wants it.
pub fn chrome() -> WebDriverResult<ChromeCapabilities> {
    let mut chrome = DesiredCapabilities::chrome();
    for argument in [
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--disable-dev-shm-usage",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ] {
        chrome.add_arg(argument)?;
    }
    Ok(chrome)
}
