//! A browser held like a phone: a small screen, touch, slowed down where that is asked.

use proof::driver::{Driver, chrome};
use serde_json::{Value, json};
use std::time::{Duration, Instant};
use thirtyfour::common::log::LoggingPrefsLogLevel;
use thirtyfour::prelude::*;

/// How many times slower than this machine.
pub(crate) const SLOWER: f64 = 4.0;

/// How long anything may take to come, or the page to come to rest.
const PATIENCE: Duration = Duration::from_secs(30);

/// A slow phone's network: 1.6 Mbit/s down and 0.75 up, as bytes a second, and milliseconds
/// until an answer begins.
const DOWN: u32 = 200_000;
const UP: u32 = 93_750;
const LATENCY: u32 = 150;

/// How fast a visit goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Speed {
    /// As fast as this machine.
    Full,
    /// The processor slowed down alone.
    Slow,
    /// The processor slowed down, and a slow network.
    SlowPhone,
}

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
        phone.command("Performance.enable", json!({})).await?;
        phone.command("Network.enable", json!({})).await?;
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

    pub(crate) async fn number(&self, script: &str) -> WebDriverResult<f64> {
        let value = self.run(script).await?;
        Ok(value.as_f64().unwrap_or_else(|| panic!("`{script}` gives {value}, not a number")))
    }

    /// Milliseconds of a loop of numbers as fast as the page runs now.
    async fn loop_of_numbers(&self) -> WebDriverResult<f64> {
        let work = "const start = performance.now(); let x = 1;
            for (let i = 0; i < 1e7; i++) x = (x * 48271) % 2147483647;
            return performance.now() - start + x * 0;";
        self.number(work).await
    }

    /// How much slower the phone turns out to be where it is slowed down.
    pub(crate) async fn slowed_down(&self) -> WebDriverResult<f64> {
        let mut loops = [f64::INFINITY; 2];
        for _ in 0..3 {
            for (least, speed) in loops.iter_mut().zip([Speed::Full, Speed::Slow]) {
                self.go(speed).await?;
                *least = self.loop_of_numbers().await?.min(*least);
            }
        }
        Ok(loops[1] / loops[0])
    }

    async fn go(&self, speed: Speed) -> WebDriverResult<()> {
        let rate = if speed == Speed::Full { 1.0 } else { SLOWER };
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": rate })).await?;
        // None at all where the numbers are below nothing.
        let network = match speed {
            Speed::SlowPhone => json!({ "offline": false, "latency": LATENCY,
                "downloadThroughput": DOWN, "uploadThroughput": UP }),
            _ => json!({ "offline": false, "latency": 0,
                "downloadThroughput": -1, "uploadThroughput": -1 }),
        };
        self.command("Network.emulateNetworkConditions", network).await.map(drop)
    }

    /// Opens an address as if nobody had been there before, and waits for its heading.
    pub(crate) async fn open_afresh(
        &self,
        origin: &str,
        fragment: &str,
        speed: Speed,
    ) -> WebDriverResult<()> {
        self.go(Speed::Full).await?;
        self.browser.goto("about:blank").await?;
        let everything = json!({ "origin": origin, "storageTypes": "all" });
        self.command("Storage.clearDataForOrigin", everything).await?;
        self.command("Network.clearBrowserCache", json!({})).await?;
        self.go(speed).await?;
        self.browser.goto(format!("{origin}/{fragment}")).await?;
        self.until(
            &format!("a heading at {origin}/{fragment}"),
            "return seenByTheBench.heading > 0",
        )
        .await
    }

    /// Waits until a script returns `true`.
    pub(crate) async fn until(&self, what: &str, script: &str) -> WebDriverResult<()> {
        let start = Instant::now();
        while self.run(script).await? != json!(true) {
            assert!(start.elapsed() < PATIENCE, "waited {PATIENCE:?} for {what}");
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
        Ok(())
    }

    /// Checks that a file of at least so many bytes came as slowly as asked.
    pub(crate) async fn network_is_slow(&self) -> WebDriverResult<()> {
        let script = "const [wasm] = performance.getEntriesByType('resource')
                .filter((entry) => entry.name.endsWith('.wasm'));
            return wasm.encodedBodySize / (wasm.responseEnd - wasm.responseStart) * 1000;";
        let rate = self.number(script).await?;
        let most = 1.3 * f64::from(DOWN);
        assert!(rate < most, "the network is not slowed down: {rate:.0} bytes a second");
        Ok(())
    }

    /// Waits until nothing has changed and no timer has run for so many milliseconds;
    /// returns when the last change was.
    pub(crate) async fn at_rest(&self, rest: f64) -> WebDriverResult<f64> {
        let last =
            "return seenByTheBench.now() - Math.max(seenByTheBench.changed, seenByTheBench.worked)";
        let start = Instant::now();
        loop {
            let since = self.number(last).await?;
            if since > rest {
                return self.number("return seenByTheBench.changed").await;
            }
            assert!(start.elapsed() < PATIENCE, "the page never came to rest");
            let left = (rest - since).clamp(10.0, 100.0);
            tokio::time::sleep(Duration::from_secs_f64(left / 1e3)).await;
        }
    }

    /// Milliseconds of processor that the page's thread has taken so far: scripts, styles,
    /// layout, what of painting is its own. Whatever else the machine does is not in it.
    pub(crate) async fn worked(&self) -> WebDriverResult<f64> {
        let answer = self.command("Performance.getMetrics", json!({})).await?;
        let metrics = answer["metrics"].as_array().expect("a list of metrics");
        let taken = metrics.iter().find(|metric| metric["name"] == "ThreadTime");
        let seconds = taken.and_then(|metric| metric["value"].as_f64());
        Ok(1e3 * seconds.unwrap_or_else(|| panic!("the browser tells other metrics: {answer}")))
    }

    /// Milliseconds of processor of a loop of numbers: what other work is put beside.
    pub(crate) async fn fixed_loop(&self) -> WebDriverResult<f64> {
        let before = self.worked().await?;
        self.loop_of_numbers().await?;
        Ok(self.worked().await? - before)
    }

    /// Begins to count the calls of scripts.
    pub(crate) async fn count_calls(&self) -> WebDriverResult<()> {
        self.command("Profiler.enable", json!({})).await?;
        let counted = json!({ "callCount": true, "detailed": false });
        self.command("Profiler.startPreciseCoverage", counted).await.map(drop)
    }

    /// How often functions of a page's script beside its wasm were called since this was asked
    /// last: nearly all that the wasm asks of the browser. Those of other scripts, which keep
    /// the page on the device, come when they come.
    pub(crate) async fn calls(&self, origin: &str) -> WebDriverResult<u64> {
        let taken = self.command("Profiler.takePreciseCoverage", json!({})).await?;
        let scripts = taken["result"].as_array().expect("a list of scripts");
        let glue = format!("{origin}/coilwright-web");
        let own = scripts
            .iter()
            .filter(|script| script["url"].as_str().is_some_and(|url| url.starts_with(&glue)));
        let functions = own.flat_map(|script| script["functions"].as_array().into_iter().flatten());
        Ok(functions.filter_map(|function| function["ranges"][0]["count"].as_u64()).sum())
    }

    /// Counts calls no more: while they are counted, scripts are slower.
    pub(crate) async fn stop_counting(&self) -> WebDriverResult<()> {
        self.command("Profiler.stopPreciseCoverage", json!({})).await?;
        self.command("Profiler.disable", json!({})).await.map(drop)
    }

    /// Focuses a field and chooses all that stands in it; scrolls it to `block`.
    pub(crate) async fn focus(&self, id: &str, block: &str) -> WebDriverResult<()> {
        let there = format!("return document.getElementById('{id}') !== null");
        self.until(&format!("a field {id} to type into"), &there).await?;
        let script = format!(
            "const field = document.getElementById('{id}');
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

    /// Ends the browser: without this it would outlive its driver.
    pub(crate) async fn end(self) {
        let Self { browser, _driver } = self;
        let ended = tokio::time::timeout(Duration::from_secs(15), browser.quit()).await;
        if !matches!(ended, Ok(Ok(()))) {
            eprintln!("the browser did not end when told to");
        }
    }
}
