//! Browsers that journeys share, one journey after another.
//!
//! A journey has a server of its own, so an origin where nobody has been, and a tab of its
//! own, so a browser that plays no part in it. To start a browser takes longer than most
//! journeys do. Where `COILWRIGHT_DRIVER` names a driver that somebody else starts and ends,
//! browsers are used again; without it each journey has a driver and a browser of its own.

use super::page::site;
use super::record::{Record, Request};
use super::server::{BLANK, Server};
use proof::driver::{Driver, chrome};
use serde_json::json;
use std::sync::{LazyLock, Mutex, PoisonError};
use std::time::{Duration, Instant};
use thirtyfour::common::capabilities::chrome::ChromeCapabilities;
use thirtyfour::common::log::LoggingPrefsLogLevel;
use thirtyfour::prelude::*;
use tokio::runtime::{Builder, Runtime};

/// Where all journeys run: a connection to a driver outlives the journey that opened it.
pub(crate) static RUNTIME: LazyLock<Runtime> = LazyLock::new(|| {
    let runtime = Builder::new_multi_thread().worker_threads(1).enable_all().build();
    runtime.expect("a runtime")
});

/// Browsers that nobody is using.
static IDLE: Mutex<Vec<Session>> = Mutex::new(Vec::new());

/// A browser, and what it records.
#[derive(Debug)]
pub(crate) struct Session {
    pub(crate) browser: WebDriver,
    record: Record,
    /// The size of text that its visitor set.
    font: Option<u32>,
    /// Of its own, or nobody's to end here.
    driver: Option<Driver>,
    /// A site that no journey is about, to go to in between.
    between: Server,
    /// The homes of the journeys so far.
    homes: Vec<String>,
}

fn capabilities(font: Option<u32>, record: &Record) -> WebDriverResult<ChromeCapabilities> {
    let mut chrome = chrome()?;
    if let Some(size) = font {
        let preferences = json!({ "webkit": { "webprefs": { "default_font_size": size } } });
        chrome.add_experimental_option("prefs", preferences)?;
    }
    chrome.add_arg(&record.argument())?;
    chrome.set_logging_prefs("browser", LoggingPrefsLogLevel::All)?;
    Ok(chrome)
}

impl Session {
    /// A browser for a journey; with `own` one in which nobody has been anywhere.
    pub(crate) fn take(font: Option<u32>, own: bool) -> Self {
        if !own && let Some(session) = Self::idle(font) {
            RUNTIME.block_on(session.fresh_tab()).expect("a tab like the first");
            return session;
        }
        let shared = std::env::var("COILWRIGHT_DRIVER").ok().filter(|_| !own);
        let driver = shared.is_none().then(Driver::start);
        let address = driver.as_ref().map_or_else(|| shared.unwrap_or_default(), Driver::address);
        let record = Record::new();
        let browser = RUNTIME.block_on(async {
            let browser = WebDriver::new(&address, capabilities(font, &record)?).await?;
            // A script that goes through a long list takes its time on a busy machine.
            browser.set_script_timeout(Duration::from_secs(120)).await?;
            WebDriverResult::Ok(browser)
        });
        let between = Server::start(&site(), "/");
        let browser = browser.expect("a browser");
        Self { browser, record, font, driver, between, homes: Vec::new() }
    }

    fn idle(font: Option<u32>) -> Option<Self> {
        let mut idle = IDLE.lock().unwrap_or_else(PoisonError::into_inner);
        let at = idle.iter().position(|session| session.font == font)?;
        Some(idle.swap_remove(at))
    }

    /// Leaves everything behind that a journey has told the browser: it was told to a tab,
    /// or is taken back here.
    async fn fresh_tab(&self) -> WebDriverResult<()> {
        let left = self.browser.windows().await?;
        let tab = self.browser.new_tab().await?;
        for window in left {
            self.browser.switch_to_window(window).await?;
            self.browser.close_window().await?;
        }
        self.browser.switch_to_window(tab).await?;
        // A tab that is not in front has no keyboard: a first key would select nothing.
        self.command("Page.bringToFront", json!({})).await?;
        self.command("Browser.resetPermissions", json!({})).await?;
        self.command("Browser.setDownloadBehavior", json!({ "behavior": "default" })).await?;
        self.browser.get_log("browser").await.map(drop)
    }

    async fn command(&self, name: &str, with: serde_json::Value) -> WebDriverResult<()> {
        self.browser.cdp().send_raw(name, with).await.map(drop)
    }

    /// After a journey: what it has asked for, all of it. A browser that is shared waits
    /// for the next.
    pub(crate) fn leave(mut self, home: &Server) -> Asked {
        if self.driver.is_some() {
            let quit = RUNTIME.block_on(self.browser.quit());
            drop(self.driver.take());
            quit.expect("a browser that ends");
            let requests = self.record.more();
            return Asked { requests, homes: vec![home.origin()], events: self.record.events };
        }
        self.homes.push(home.origin());
        let before = self.record.events;
        let requests = RUNTIME.block_on(self.end_of(home)).expect("a browser that goes on");
        let (homes, events) = (self.homes.clone(), self.record.events - before);
        IDLE.lock().unwrap_or_else(PoisonError::into_inner).push(self);
        Asked { requests, homes, events }
    }

    /// Leaves the page in every tab, ends its workers with all that is kept for it, and waits
    /// until all that was asked for until then is recorded: the record is written in order.
    async fn end_of(&mut self, home: &Server) -> WebDriverResult<Vec<Request>> {
        let windows = self.browser.windows().await?;
        for window in &windows[1..] {
            self.browser.switch_to_window(window.clone()).await?;
            self.browser.close_window().await?;
        }
        self.browser.switch_to_window(windows[0].clone()).await?;
        let mark = format!("{}{BLANK}?after={}", self.between.origin(), self.homes.len());
        self.browser.goto(&mark).await?;
        let all = json!({ "origin": home.origin(), "storageTypes": "all" });
        self.command("Storage.clearDataForOrigin", all).await?;
        let mark = format!("{mark}-");
        let mut requests = Vec::new();
        let start = Instant::now();
        for number in 0.. {
            self.browser.goto(format!("{mark}{number}")).await?;
            let more = self.record.more();
            let there = more.iter().any(|request| request.to.starts_with(&mark));
            requests.extend(more);
            if there {
                break;
            }
            assert!(start.elapsed() < Duration::from_secs(20), "nothing is recorded any more");
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        Ok(requests)
    }

    /// After a journey that failed: nobody knows in what state the browser is.
    pub(crate) fn end(self) {
        // It may be what failed.
        let _ = RUNTIME.block_on(self.browser.quit());
    }
}

/// What was asked of the network in a journey.
#[derive(Debug)]
pub(crate) struct Asked {
    pub(crate) requests: Vec<Request>,
    /// Whom that may be asked of.
    pub(crate) homes: Vec<String>,
    /// How much the browser recorded in all.
    pub(crate) events: usize,
}
