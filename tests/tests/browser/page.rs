//! A page in a browser, as someone without a mouse meets it: by names and by what it says.

use crate::server::{BLANK, Server};
use crate::session::{Asked, RUNTIME, Session};
use serde_json::{Value, json};
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::{Path, PathBuf};
use std::pin::Pin;
use std::time::{Duration, Instant};
use thirtyfour::prelude::*;

/// How long anything may take to appear.
const PATIENCE: Duration = Duration::from_secs(30);

/// What a journey sets out with.
#[derive(Debug)]
pub(crate) struct Setting {
    /// The site that is served.
    pub(crate) site: PathBuf,
    /// Where on its server it lies.
    pub(crate) under: &'static str,
    /// Whether the console has to stay clean.
    pub(crate) quiet: bool,
    /// The size of text, where the visitor set one.
    pub(crate) font: Option<u32>,
    /// Whether it has to be a browser in which nobody has been anywhere.
    pub(crate) own: bool,
}

impl Default for Setting {
    fn default() -> Self {
        Self { site: site(), under: "/", quiet: true, font: None, own: false }
    }
}

/// The built site.
pub(crate) fn site() -> PathBuf {
    folder("COILWRIGHT_DIST")
}

/// What was built into a folder that the environment names.
pub(crate) fn folder(variable: &str) -> PathBuf {
    match std::env::var_os(variable) {
        Some(folder) => folder.into(),
        None => {
            panic!("{variable} names nothing built: run `cargo xtask test --only browser`")
        }
    }
}

/// The folder of the workspace.
pub(crate) fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

/// Walks through the page where nobody has been before. Whatever the journey, nothing may have
/// been asked of another host, and the console stays clean.
pub(crate) fn journey(walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    journey_from(Setting::default(), walk);
}

/// The same with text of twice the usual size, set in the browser as its user does.
pub(crate) fn journey_in_large_type(walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    journey_from(Setting { font: Some(32), ..Setting::default() }, walk);
}

/// The same where the console may say what went wrong.
pub(crate) fn journey_into_trouble(walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    journey_from(Setting { quiet: false, ..Setting::default() }, walk);
}

/// Walks from a setting.
pub(crate) fn journey_from(setting: Setting, walk: impl AsyncFnOnce(&Page) -> WebDriverResult<()>) {
    let server = Server::start(&setting.site, setting.under);
    let session = Session::take(setting.font, setting.own);
    let page = Page { browser: session.browser.clone(), server };
    let walked = walked(Box::pin(walk(&page)), &page, setting.quiet);
    let Page { browser, server } = page;
    drop(browser);
    if let Err(failure) = walked {
        session.end();
        resume_unwind(failure);
    }
    nothing_left_the_origin(&server, &session.leave(&server));
}

/// Walks to the end. Not generic: a hundred copies of a runtime take a minute to compile.
fn walked(
    walk: Pin<Box<dyn Future<Output = WebDriverResult<()>> + '_>>,
    page: &Page,
    quiet: bool,
) -> std::thread::Result<()> {
    catch_unwind(AssertUnwindSafe(|| {
        RUNTIME.block_on(async {
            walk.await.expect("the browser did as told");
            if quiet {
                page.console_is_clean().await.expect("a log of the console");
            }
        });
    }))
}

/// Neither the page nor its worker asked anything of anybody else.
fn nothing_left_the_origin(server: &Server, asked: &Asked) {
    assert!(asked.events > 10, "a record of nothing: {} events", asked.events);
    let by_pages = asked.requests.iter().filter(|request| request.by_a_page);
    let away: Vec<&str> = by_pages
        .map(|request| request.to.as_str())
        .filter(|to| !asked.homes.iter().any(|home| to.starts_with(&format!("{home}/"))))
        .collect();
    assert!(away.is_empty(), "asked elsewhere: {away:?}");
    // A record without what the server was certainly asked for proves nothing.
    let own = |path: &str| {
        let to = format!("{}{path}", server.origin());
        asked.requests.iter().any(|request| request.by_a_page && request.to == to)
    };
    for path in server.asked().iter().filter(|path| path.ends_with(".wasm")) {
        assert!(own(path), "no {path} in {:?}", asked.requests);
    }
}

/// A page in a browser.
pub(crate) struct Page {
    pub(crate) browser: WebDriver,
    pub(crate) server: Server,
}

/// Entries of the list that are out of view have no text that a script could read, until the
/// page is told to lay them all out.
const IN_VIEW: &str = "if (!window.laidOut) {
    window.laidOut = new CSSStyleSheet();
    window.laidOut.replaceSync('.entry { content-visibility: visible !important }');
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, window.laidOut];
}";

impl Page {
    /// Goes to the page without waiting for it to come up.
    pub(crate) async fn go(&self) -> WebDriverResult<()> {
        self.browser.goto(self.server.address()).await
    }

    /// Opens the page with a fragment: `""` for a first visit.
    pub(crate) async fn open(&self, fragment: &str) -> WebDriverResult<()> {
        self.browser.goto(format!("{}{fragment}", self.server.address())).await?;
        self.ready().await
    }

    /// Opens the page as if nobody had been there before, but for what is kept where this
    /// is shown.
    pub(crate) async fn open_afresh(&self, fragment: &str) -> WebDriverResult<()> {
        self.open_with(fragment, &crate::states::stored(fragment)).await
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

    /// Waits until the page stands, with what comes later. An error page of the browser's own
    /// has no such heading.
    pub(crate) async fn ready(&self) -> WebDriverResult<()> {
        self.until("the page stands", async || {
            let script = "return document.querySelector('main h2') !== null
                && document.querySelector('.coming') === null && coilwrightLater.there";
            self.asks(script).await
        })
        .await
    }

    /// The address, after the origin.
    pub(crate) async fn address(&self) -> WebDriverResult<String> {
        let address = self.browser.current_url().await?.to_string();
        Ok(address.strip_prefix(&self.server.origin()).unwrap_or(&address).to_owned())
    }

    /// Waits until nothing that is kept changes any more: half a second where the tab holds
    /// what other tabs would find, with which the address is written some tenths of a second
    /// after the last change; a second where it does not.
    pub(crate) async fn until_kept(&self) -> WebDriverResult<()> {
        let script = "try {
            const drafts = [sessionStorage, localStorage].map((store) => {
                const at = store.getItem('coilwright.draft');
                return [at, store.getItem('coilwright.draft.' + at)];
            });
            const [[, own], [, shared]] = drafts;
            return [own !== null && own === shared, location.href, drafts];
        } catch { return [false, location.href] }";
        let mut before = Value::Null;
        let mut since = Instant::now();
        loop {
            let now = self.run(script, Vec::new()).await?;
            let rest = if now[0] == true { 500 } else { 900 };
            if now != before {
                (before, since) = (now, Instant::now());
            } else if since.elapsed() >= Duration::from_millis(rest) {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
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
        let script = "return document.querySelector('[aria-busy=true], .work progress, .coming') === null
            && document.querySelector('main :is(.answer, .note, .trouble, .to-field, #room)') !== null
            && (document.querySelector('.answer-stale .answer') === null
                || document.querySelector('.note-stale') !== null)";
        // What was typed comes with a frame, and a listing starts in the task after the one
        // that changed the question: by the page's own clock, which a busy machine stops. A
        // page that is not seen has no frames; one that is just left has no clock.
        let rest = "const done = arguments[arguments.length - 1];
            requestAnimationFrame(() => setTimeout(done, 60));
            setTimeout(done, 500);";
        if self.browser.execute_async(rest, Vec::new()).await.is_err() {
            tokio::time::sleep(Duration::from_millis(60)).await;
        }
        self.run(IN_VIEW, Vec::new()).await?;
        self.until("the list is complete", async || self.asks(script).await).await
    }

    async fn console_is_clean(&self) -> WebDriverResult<()> {
        let told = self.browser.get_log("browser").await?;
        let told: Vec<String> = told.into_iter().map(|entry| entry.message).collect();
        assert!(told.is_empty(), "the console says {told:#?}");
        Ok(())
    }
}
