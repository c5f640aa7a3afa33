//! A browser held like a phone: a small screen, touch, and a quarter of this machine's speed.

use proof::driver::{Driver, chrome};
use serde_json::{Value, json};
use std::time::{Duration, Instant};
use thirtyfour::common::log::LoggingPrefsLogLevel;
use thirtyfour::prelude::*;

/// How many times slower than this machine.
pub(crate) const SLOWER: f64 = 4.0;

/// How long the page may take to come to rest.
const PATIENCE: Duration = Duration::from_secs(60);

/// How many milliseconds nothing must happen until the page is at rest.
const REST: f64 = 900.0;

pub(crate) struct Phone {
    browser: WebDriver,
    _driver: Driver,
}

impl Phone {
    pub(crate) async fn new() -> WebDriverResult<Self> {
        let driver = Driver::start();
        let mut chrome = chrome()?;
        chrome.set_logging_prefs("performance", LoggingPrefsLogLevel::All)?;
        let browser = WebDriver::new(&driver.address(), chrome).await?;
        let phone = Self { browser, _driver: driver };
        let source = include_str!("watch.js");
        phone.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source })).await?;
        let screen = json!({ "width": 360, "height": 740, "deviceScaleFactor": 2, "mobile": true });
        phone.command("Emulation.setDeviceMetricsOverride", screen).await?;
        let touch = json!({ "enabled": true, "maxTouchPoints": 1 });
        phone.command("Emulation.setTouchEmulationEnabled", touch).await?;
        Ok(phone)
    }

    pub(crate) async fn command(&self, name: &str, arguments: Value) -> WebDriverResult<Value> {
        self.browser.cdp().send_raw(name, arguments).await
    }

    pub(crate) async fn run(&self, script: &str) -> WebDriverResult<Value> {
        Ok(self.browser.execute(script.to_owned(), Vec::new()).await?.json().clone())
    }

    /// What the script `watch.js` has seen under a name.
    pub(crate) async fn seen(&self, name: &str) -> WebDriverResult<Value> {
        self.run(&format!("return seenByTheBench.{name}")).await
    }

    async fn number(&self, script: &str) -> WebDriverResult<f64> {
        let value = self.run(script).await?;
        Ok(value.as_f64().unwrap_or_else(|| panic!("`{script}` gives {value}, not a number")))
    }

    /// How many times slower the phone is, and how much slower it turns out to be.
    pub(crate) async fn slow_down(&self) -> WebDriverResult<f64> {
        let work = "const start = performance.now(); let x = 1;
            for (let i = 0; i < 1e8; i++) x = (x * 48271) % 2147483647;
            return performance.now() - start + x * 0;";
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": 1 })).await?;
        let before = self.number(work).await?;
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": SLOWER })).await?;
        Ok(self.number(work).await? / before)
    }

    /// Opens an address as if nobody had been there before, and waits for its heading.
    pub(crate) async fn open_afresh(&self, origin: &str, fragment: &str) -> WebDriverResult<()> {
        self.browser.goto("about:blank").await?;
        let everything = json!({ "origin": origin, "storageTypes": "all" });
        self.command("Storage.clearDataForOrigin", everything).await?;
        self.command("Network.clearBrowserCache", json!({})).await?;
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": SLOWER })).await?;
        self.browser.goto(format!("{origin}/{fragment}")).await?;
        let start = Instant::now();
        while self.seen("heading").await?.is_null() {
            assert!(start.elapsed() < PATIENCE, "no heading ever came at {origin}/{fragment}");
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        self.at_rest().await.map(drop)
    }

    /// Waits until nothing has changed and no timer has run for a while; returns when the
    /// last change was.
    pub(crate) async fn at_rest(&self) -> WebDriverResult<f64> {
        let last =
            "return performance.now() - Math.max(seenByTheBench.changed, seenByTheBench.worked)";
        let start = Instant::now();
        loop {
            let since = self.number(last).await?;
            if since > REST {
                return self.number("return seenByTheBench.changed").await;
            }
            assert!(start.elapsed() < PATIENCE, "the page never came to rest");
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// Focuses a field and chooses all that stands in it; scrolls it to `block`.
    pub(crate) async fn focus(&self, id: &str, block: &str) -> WebDriverResult<()> {
        let script = format!(
            "const field = document.getElementById('{id}');
             if (field === null) return [...document.querySelectorAll('input')].map((e) => e.id).join(' ');
             for (let e = field; e; e = e.parentElement) if (e.nodeName === 'DETAILS') e.open = true;
             field.focus();
             field.scrollIntoView({{ block: '{block}', behavior: 'instant' }});
             field.select();
             return document.activeElement === field;"
        );
        let answer = self.run(&script).await?;
        assert_eq!(answer, json!(true), "no field {id} to type into");
        Ok(())
    }

    /// Presses and releases a key, as a keyboard does. Returns when it has been handled.
    pub(crate) async fn key(&self, key: char) -> WebDriverResult<()> {
        let what = match key {
            '\u{8}' => {
                json!({ "key": "Backspace", "code": "Backspace", "windowsVirtualKeyCode": 8 })
            }
            '.' => {
                json!({ "key": ".", "code": "Period", "windowsVirtualKeyCode": 190, "text": "." })
            }
            digit => json!({
                "key": digit.to_string(),
                "code": format!("Digit{digit}"),
                "windowsVirtualKeyCode": u32::from(digit),
                "text": digit.to_string(),
            }),
        };
        for kind in ["keyDown", "keyUp"] {
            let mut event = what.clone();
            event["type"] = json!(kind);
            if kind == "keyUp" {
                event.as_object_mut().expect("an object").remove("text");
            }
            self.command("Input.dispatchKeyEvent", event).await?;
        }
        Ok(())
    }

    /// The clock of the page.
    pub(crate) async fn now(&self) -> WebDriverResult<f64> {
        self.number("return performance.now()").await
    }

    /// When the first content was painted, and when the page's own heading stood.
    pub(crate) async fn first(&self) -> WebDriverResult<(f64, f64)> {
        let paint =
            "return performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? null";
        Ok((self.number(paint).await?, self.number("return seenByTheBench.heading").await?))
    }

    /// What the browser has asked for since the last question, by its own log.
    pub(crate) async fn requested(&self) -> WebDriverResult<Vec<String>> {
        let mut requests = Vec::new();
        for entry in self.browser.get_log("performance").await? {
            let entry: Value = serde_json::from_str(&entry.message)?;
            let message = &entry["message"];
            if message["method"] == "Network.requestWillBeSent" {
                let url = message["params"]["request"]["url"].as_str().unwrap_or_default();
                requests.push(url.to_owned());
            }
        }
        Ok(requests)
    }

    pub(crate) async fn end(self) -> WebDriverResult<()> {
        self.browser.quit().await
    }
}
