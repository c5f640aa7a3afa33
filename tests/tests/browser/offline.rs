//! The page kept on the device: whoever has opened it once needs no network any more.

use super::page::{Page, Setting, journey_from, site};
use super::release::Release;
use super::words::{self, wire};
use super::{two_drivers, verdicts};
use base64::Engine;
use serde_json::json;
use std::time::Duration;
use thirtyfour::prelude::*;

impl Page {
    /// Waits until the page says that it is kept.
    pub(crate) async fn until_kept_on_device(&self) -> WebDriverResult<()> {
        self.until_it_says(words::KEPT).await
    }

    /// Opens the page, and once it is kept opens it again: from the device.
    pub(crate) async fn open_from_the_device(&self) -> WebDriverResult<()> {
        self.open("").await?;
        self.until_kept_on_device().await?;
        self.refresh().await?;
        self.until_kept_on_device().await
    }

    /// A script with promises, to its end.
    pub(crate) async fn wait_for(&self, script: &str) -> WebDriverResult<serde_json::Value> {
        let script = format!(
            "const done = arguments[arguments.length - 1];
             (async () => {{ {script} }})().then(done, (error) => done(`failed: ${{error}}`));"
        );
        Ok(self.browser.execute_async(script, Vec::new()).await?.json().clone())
    }

    /// The stores of the origin, and whether a worker is registered for the page.
    pub(crate) async fn keeps(&self) -> WebDriverResult<(usize, bool)> {
        let script = "return [(await caches.keys()).length,
            (await navigator.serviceWorker.getRegistration()) !== undefined]";
        Ok(serde_json::from_value(self.wait_for(script).await?)?)
    }
}

#[test]
fn with_the_server_gone_a_rig_is_entered_chosen_planned_and_printed() {
    for under in ["/", "/some/folder/"] {
        journey_from(Setting { under, ..Setting::default() }, async |page| {
            page.widen(1280).await?;
            page.open("").await?;
            page.until_kept_on_device().await?;
            page.server.stop();
            let asked = page.server.asked().len();
            two_drivers(page, "1").await?;
            assert_eq!(verdicts(&page.listed().await?), [("1 Ω", true), ("4 Ω", true)]);
            page.tap("li.entry .entry-main").await?;
            page.tap_button(wire::WIRE_IT).await?;
            page.until_there(".wired [data-run]").await?;
            page.tap_button(wire::JOB_SHEET).await?;
            page.until_there(".job").await?;
            let printed = page.command("Page.printToPDF", json!({ "paperWidth": 8.27 })).await?;
            let paper = base64::engine::general_purpose::STANDARD
                .decode(printed["data"].as_str().unwrap_or_default())
                .unwrap();
            // A sheet with nothing on it takes about a thousand bytes.
            assert!(paper.starts_with(b"%PDF-") && paper.len() > 10_000, "{} bytes", paper.len());
            page.tap_button(words::HELP).await?;
            page.until_there(".help h2").await?;
            page.until_kept().await?;
            let fields = page.fields().await?;
            // The next tab goes on from what this one left on the device.
            page.browser.new_tab().await?;
            let tabs = page.browser.windows().await?;
            page.browser.switch_to_window(tabs[1].clone()).await?;
            page.open("").await?;
            page.until_kept_on_device().await?;
            assert_eq!(page.fields().await?, fields);
            // And the way by the name of the file, with whatever a link added.
            let named = format!("{}index.html?from=a-friend", page.server.address());
            page.browser.goto(named).await?;
            page.ready().await?;
            assert_eq!(page.server.asked().len(), asked, "nobody was there to ask");
            Ok(())
        });
    }
}

#[test]
fn the_worker_minds_its_own_folder_alone() {
    // The console tells of what the server does not have.
    let setting = Setting { under: "/some/folder/", quiet: false, ..Setting::default() };
    journey_from(setting, async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        page.refresh().await?;
        let asked = |path: &str| page.server.asked().iter().filter(|one| *one == path).count();
        // Kept, so not asked for; beside what is kept, so asked for, whatever it is.
        let mut icon = Release::titled(&site(), "x").kept().into_iter();
        let icon = icon.rfind(|name| name.starts_with("icon-192")).unwrap();
        let before = asked(&format!("/some/folder/{icon}"));
        for path in [&icon, "licences.txt", "../other/index.html", "../index.html"] {
            page.wait_for(&format!("return (await fetch('{path}')).status")).await?;
        }
        assert_eq!(asked(&format!("/some/folder/{icon}")), before);
        for path in ["/some/folder/licences.txt", "/some/other/index.html", "/some/index.html"] {
            assert_eq!(asked(path), 1, "{path}");
        }
        let scope = "return (await navigator.serviceWorker.getRegistration()).scope";
        assert_eq!(page.wait_for(scope).await?, json!(page.server.address()));
        Ok(())
    });
}

#[test]
fn off_leads_out_with_the_network_and_changes_nothing_without() {
    journey_from(Setting { quiet: false, ..Setting::default() }, async |page| {
        let second = Release::titled(&site(), "second");
        page.open_from_the_device().await?;
        page.server.switch(second.folder());
        page.server.stop();
        page.open("?off").await?;
        page.settled().await?;
        assert_ne!(page.release().await?, "second");
        tokio::time::sleep(Duration::from_secs(1)).await;
        assert_eq!(page.keeps().await?, (1, true), "all stays as it was");
        page.server.go_on();
        two_drivers(page, "1").await?;
        page.until_kept().await?;
        let fields = page.fields().await?;
        page.open("?off").await?;
        assert_eq!(page.release().await?, "second", "the server's page");
        assert_eq!(page.keeps().await?, (0, false));
        assert_eq!(page.fields().await?, fields, "what was entered is no part of that");
        tokio::time::sleep(Duration::from_secs(1)).await;
        assert_eq!(page.keeps().await?, (0, false), "nor is it kept again in this visit");
        assert!(!page.says_so(words::KEPT).await?);
        page.open("?").await?;
        page.until_kept_on_device().await?;
        assert_eq!(page.keeps().await?, (1, true));
        Ok(())
    });
}

#[test]
fn a_worker_that_does_not_lead_out_is_left_all_the_same() {
    journey_from(Setting { quiet: false, ..Setting::default() }, async |page| {
        let bad = Release::titled(&site(), "bad");
        bad.write("offline.js", &bad.read("offline.js").replace("searchParams.has(\"off\")", "x"));
        page.server.switch(bad.folder());
        page.open("").await?;
        page.until_kept_on_device().await?;
        page.server.switch(&site());
        page.open("?off").await?;
        page.until("nothing is kept", async || Ok(page.keeps().await? == (0, false))).await?;
        page.until("it is the server's page", async || {
            Ok(page.release().await? != "bad" && page.count("main h2").await? > 0)
        })
        .await
    });
}

#[test]
fn a_page_that_may_not_be_kept_ends_what_was() {
    journey_from(Setting { quiet: false, ..Setting::default() }, async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        assert_eq!(page.keeps().await?, (1, true));
        let unkept = Release::titled(&site(), "unkept");
        let shell = unkept.read("index.html");
        let marks = shell.lines().filter(|line| line.contains("coilwright-offline"));
        assert_eq!(marks.count(), 1);
        let bare: Vec<&str> =
            shell.lines().filter(|line| !line.contains("coilwright-offline")).collect();
        unkept.write("index.html", &bare.join("\n"));
        page.server.switch(unkept.folder());
        // As with the key that a browser has for it, past every worker.
        page.command("Page.reload", json!({ "ignoreCache": true })).await?;
        page.until("it is the page without the mark", async || {
            Ok(page.release().await? == "unkept")
        })
        .await?;
        page.until("nothing is kept", async || Ok(page.keeps().await? == (0, false))).await
    });
}

#[test]
fn the_page_can_be_installed() {
    journey_from(Setting::default(), async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        page.refresh().await?;
        let errors = page.command("Page.getInstallabilityErrors", json!({})).await?;
        assert_eq!(errors["installabilityErrors"], json!([]));
        let told = page.command("Page.getAppManifest", json!({})).await?;
        assert_eq!(told["errors"], json!([]));
        let manifest: serde_json::Value =
            serde_json::from_str(told["data"].as_str().unwrap_or_default())?;
        assert_eq!(manifest["display"], "standalone");
        // Every picture is what the manifest says of it, also when there is no network.
        page.server.stop();
        let sizes = "const link = document.querySelector('link[rel=manifest]').href;
            const { icons } = await (await fetch(link)).json();
            const pictures = [...icons.map(({ src, sizes }) => [src, sizes]),
                [document.querySelector('link[rel=apple-touch-icon]').href, '180x180']];
            return Promise.all(pictures.map(async ([src, sizes]) => {
                const image = new Image();
                image.src = new URL(src, link);
                await image.decode();
                return [sizes, `${image.naturalWidth}x${image.naturalHeight}`];
            }));";
        let sizes = page.wait_for(sizes).await?;
        let sizes: Vec<(String, String)> = serde_json::from_value(sizes)?;
        assert_eq!(sizes.len(), 5);
        for (told, is) in sizes.iter().filter(|(told, _)| told != "any") {
            assert_eq!(told, is);
        }
        Ok(())
    });
}

/// How often each way is taken, in turn: so often, and more often where something else keeps the
/// machine busy, since the least of many is what it takes by itself.
const LOADS: std::ops::Range<usize> = 11..80;
/// How many times longer the way without the network may take.
const MOST: f64 = 1.3;

/// From the start of a load until the list stands, in milliseconds.
async fn time_to_list(page: &Page) -> WebDriverResult<f64> {
    page.browser.refresh().await?;
    let stands = "return window.listStands ?? null";
    page.until("the list stands", async || Ok(!page.run(stands, vec![]).await?.is_null())).await?;
    Ok(page.run(stands, vec![]).await?.as_f64().unwrap())
}

#[test]
fn without_the_network_the_list_stands_about_as_soon() {
    journey_from(Setting { quiet: false, ..Setting::default() }, async |page| {
        let watch = "new MutationObserver((_, watch) => {
            if (document.querySelector('#page:not([hidden]) li.entry') === null) return;
            window.listStands = performance.now();
            watch.disconnect();
        }).observe(document, { childList: true, subtree: true });";
        page.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": watch })).await?;
        page.command("Network.enable", json!({})).await?;
        page.open("").await?;
        page.until_kept_on_device().await?;
        let (mut online, mut offline) = (f64::INFINITY, f64::INFINITY);
        for load in 0..LOADS.end {
            // With the network and what the browser has stored of it, past the worker.
            page.command("Network.setBypassServiceWorker", json!({ "bypass": true })).await?;
            online = online.min(time_to_list(page).await?);
            page.command("Network.setBypassServiceWorker", json!({ "bypass": false })).await?;
            page.server.stop();
            offline = offline.min(time_to_list(page).await?);
            page.server.go_on();
            if load >= LOADS.start && offline <= MOST * online {
                break;
            }
        }
        let ratio = offline / online;
        println!(
            "the list stands after {online:.0} ms with the network, {offline:.0} ms without: {ratio:.2}"
        );
        assert!(ratio <= MOST, "{ratio:.2} times as long");
        Ok(())
    });
}
