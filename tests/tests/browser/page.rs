//! A page in a browser, as someone without a mouse meets it: by names and by what it says.

use crate::server::{BLANK, Server};
use proof::driver::{Driver, chrome};
use serde_json::{Value, json};
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use thirtyfour::common::capabilities::chrome::ChromeCapabilities;
use thirtyfour::common::log::LoggingPrefsLogLevel;
use thirtyfour::prelude::*;

/// How long anything may take to appear.
const PATIENCE: Duration = Duration::from_secs(15);

fn capabilities(font: Option<u32>) -> WebDriverResult<ChromeCapabilities> {
    let mut chrome = chrome()?;
    if let Some(size) = font {
        let preferences = json!({ "webkit": { "webprefs": { "default_font_size": size } } });
        chrome.add_experimental_option("prefs", preferences)?;
    }
    chrome.set_logging_prefs("browser", LoggingPrefsLogLevel::All)?;
    Ok(chrome)
}

/// The built site.
fn site() -> PathBuf {
    match std::env::var_os("COILWRIGHT_DIST") {
        Some(folder) => folder.into(),
        None => {
            panic!("COILWRIGHT_DIST names no built site: run `cargo xtask test --only browser`")
        }
    }
}

/// The folder of the workspace.
pub(crate) fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

/// Walks through the page in a fresh browser. Whatever the journey, nothing may have
/// been asked of another host, and the console stays clean.
pub(crate) fn journey(walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    walk_through(walk, true, None);
}

/// The same with text of twice the usual size, set in the browser as its user does.
pub(crate) fn journey_in_large_type(walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    walk_through(walk, true, Some(32));
}

/// The same where the console may say what went wrong.
pub(crate) fn journey_into_trouble(walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    walk_through(walk, false, None);
}

fn walk_through(
    walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>,
    quiet: bool,
    font: Option<u32>,
) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtime = runtime.expect("a runtime");
    let server = Server::start(&site());
    let driver = Driver::start();
    let browser =
        runtime.block_on(async { WebDriver::new(&driver.address(), capabilities(font)?).await });
    let page = Page { browser: browser.expect("a browser"), server };
    let walked = catch_unwind(AssertUnwindSafe(|| {
        runtime.block_on(async {
            walk(&page).await.expect("the browser did as told");
            page.nothing_left_the_origin().await.expect("a log of requests");
            if quiet {
                page.console_is_clean().await.expect("a log of the console");
            }
        });
    }));
    let Page { browser, .. } = page;
    let quit = runtime.block_on(browser.quit());
    drop(driver);
    if let Err(failure) = walked {
        resume_unwind(failure);
    }
    quit.expect("a browser that ends");
}

/// A page in a browser.
pub(crate) struct Page {
    pub(crate) browser: WebDriver,
    server: Server,
}

impl Page {
    /// Goes to the page without waiting for it to come up.
    pub(crate) async fn go(&self) -> WebDriverResult<()> {
        self.browser.goto(format!("{}/", self.server.origin())).await
    }

    /// Opens the page with a fragment: `""` for a first visit.
    pub(crate) async fn open(&self, fragment: &str) -> WebDriverResult<()> {
        self.browser.goto(format!("{}/{fragment}", self.server.origin())).await?;
        self.ready().await
    }

    /// Opens the page as if nobody had been there before.
    pub(crate) async fn open_afresh(&self, fragment: &str) -> WebDriverResult<()> {
        self.clear().await?;
        self.open(fragment).await
    }

    /// Clears what was kept, from elsewhere: a page that leaves keeps what it holds.
    pub(crate) async fn clear(&self) -> WebDriverResult<()> {
        self.browser.goto(format!("{}{BLANK}", self.server.origin())).await?;
        self.run("localStorage.clear(); sessionStorage.clear()", Vec::new()).await.map(drop)
    }

    /// Opens the page again as it stands.
    pub(crate) async fn refresh(&self) -> WebDriverResult<()> {
        self.browser.refresh().await?;
        self.ready().await
    }

    /// Waits until the page stands. An error page of the browser's own has no such heading.
    async fn ready(&self) -> WebDriverResult<()> {
        self.until("the page stands", async || {
            self.asks("return document.querySelector('main h2') !== null").await
        })
        .await
    }

    /// The address, after the origin.
    pub(crate) async fn address(&self) -> WebDriverResult<String> {
        let address = self.browser.current_url().await?.to_string();
        Ok(address.strip_prefix(&self.server.origin()).unwrap_or(&address).to_owned())
    }

    /// Waits until the address no longer changes: it is written some tenths of a second
    /// after the last change.
    pub(crate) async fn until_kept(&self) -> WebDriverResult<()> {
        let mut before = self.address().await?;
        loop {
            tokio::time::sleep(Duration::from_millis(900)).await;
            let now = self.address().await?;
            if now == before {
                return Ok(());
            }
            before = now;
        }
    }

    /// Waits for something.
    pub(crate) async fn until(
        &self,
        what: &str,
        mut there: impl AsyncFnMut() -> WebDriverResult<bool>,
    ) -> WebDriverResult<()> {
        let start = Instant::now();
        while !there().await? {
            if start.elapsed() > PATIENCE {
                panic!("waited in vain until {what}. The page says:\n{}", self.says().await?);
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
        }
        Ok(())
    }

    /// Runs a script and returns what it returns.
    pub(crate) async fn run(&self, script: &str, arguments: Vec<Value>) -> WebDriverResult<Value> {
        Ok(self.browser.execute(script.to_owned(), arguments).await?.json().clone())
    }

    /// Whether a script returns true.
    pub(crate) async fn asks(&self, script: &str) -> WebDriverResult<bool> {
        Ok(self.run(script, Vec::new()).await? == json!(true))
    }

    /// A command to the browser itself.
    pub(crate) async fn command(&self, name: &str, arguments: Value) -> WebDriverResult<Value> {
        self.browser.cdp().send_raw(name, arguments).await
    }

    /// Everything that can be read.
    pub(crate) async fn says(&self) -> WebDriverResult<String> {
        let text = self.run("return document.body.innerText", Vec::new()).await?;
        Ok(text.as_str().unwrap_or_default().to_owned())
    }

    /// Whether the page says something, in capitals or not.
    pub(crate) async fn says_so(&self, text: &str) -> WebDriverResult<bool> {
        Ok(self.says().await?.to_lowercase().contains(&text.to_lowercase()))
    }

    /// Waits until the page says something.
    pub(crate) async fn until_it_says(&self, text: &str) -> WebDriverResult<()> {
        let what = format!("it says “{text}”");
        self.until(&what, async || self.says_so(text).await).await
    }

    /// Waits until no listing is going on, and the list is that of what stands in the
    /// fields or is said to be an earlier one's.
    pub(crate) async fn settled(&self) -> WebDriverResult<()> {
        let script = "return document.querySelector('[aria-busy=true], .work progress') === null
            && document.querySelector('main :is(.answer, .note, .trouble, .to-field, #room)') !== null
            && (document.querySelector('.answer-stale .answer') === null
                || document.querySelector('.note-stale') !== null)";
        // A listing starts in the task after the one that changed the question.
        tokio::time::sleep(Duration::from_millis(60)).await;
        self.until("the list is complete", async || self.asks(script).await).await
    }

    /// Every request that the page has made.
    async fn requests(&self) -> WebDriverResult<Vec<String>> {
        let mut requests = Vec::new();
        for entry in self.browser.get_log("performance").await? {
            let entry: Value = serde_json::from_str(&entry.message)?;
            let message = &entry["message"];
            let url = match message["method"].as_str() {
                Some("Network.requestWillBeSent") => &message["params"]["request"]["url"],
                Some("Network.webSocketCreated") => &message["params"]["url"],
                _ => continue,
            };
            requests.push(url.as_str().unwrap_or_default().to_owned());
        }
        Ok(requests)
    }

    async fn nothing_left_the_origin(&self) -> WebDriverResult<()> {
        let origin = self.server.origin();
        let requests = self.requests().await?;
        let home = |url: &&String| url.starts_with(&format!("{origin}/"));
        assert!(
            requests.iter().filter(home).count() > 2,
            "a log without the page's own files: {requests:?}"
        );
        let away: Vec<_> =
            requests.iter().filter(|url| !home(url) && !url.starts_with("data:")).collect();
        assert!(away.is_empty(), "asked elsewhere: {away:?}");
        assert!(self.server.asked().iter().any(|path| path.ends_with(".wasm")));
        Ok(())
    }

    async fn console_is_clean(&self) -> WebDriverResult<()> {
        let told = self.browser.get_log("browser").await?;
        let told: Vec<String> = told.into_iter().map(|entry| entry.message).collect();
        assert!(told.is_empty(), "the console says {told:#?}");
        Ok(())
    }
}
