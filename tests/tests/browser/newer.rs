//! New versions of the page: announced in every tab, never forced upon one, whole or not
//! at all.

use super::page::{Page, journey_into_trouble, site};
use super::release::Release;
use super::words::{self, drivers};
use serde_json::json;
use std::time::Duration;
use thirtyfour::prelude::*;

/// Has the browser look for a new version now.
const LOOK: &str = "await (await navigator.serviceWorker.getRegistration()).update()";

impl Page {
    /// Goes to a tab, opened before or now.
    async fn tab(&self, number: usize) -> WebDriverResult<()> {
        while self.browser.windows().await?.len() <= number {
            self.browser.new_tab().await?;
        }
        let tab = self.browser.windows().await?[number].clone();
        self.browser.switch_to_window(tab).await
    }

    /// Half a rig in the fields, by its number of drivers.
    async fn half_a_rig(&self, count: &str) -> WebDriverResult<Vec<String>> {
        self.open("").await?;
        self.tab_to(words::START_EMPTY).await?;
        self.press(Key::Enter + "").await?;
        self.fill(drivers::COUNT, count).await?;
        self.fields().await
    }

    /// Whether this page is the one with a title.
    async fn is_titled(&self, title: &str) -> WebDriverResult<bool> {
        Ok(self.release().await? == title)
    }
}

#[test]
fn a_new_version_is_announced_in_every_tab_and_taken_where_it_is_tapped() {
    journey_into_trouble(async |page| {
        let second = Release::titled(&site(), "second");
        page.open("").await?;
        page.until_kept_on_device().await?;
        let first = page.half_a_rig("3").await?;
        page.tab(1).await?;
        let other = page.half_a_rig("5").await?;
        assert_ne!(first, other);
        page.until_kept_on_device().await?;
        page.server.switch(second.folder());
        page.wait_for(LOOK).await?;
        for (tab, fields) in [(0, &first), (1, &other)] {
            page.tab(tab).await?;
            page.until_it_says(words::NEWER).await?;
            assert!(!page.is_titled("second").await?, "nothing swaps under somebody");
            assert_eq!(&page.fields().await?, fields);
        }
        // The one tab goes over with all that stands in it, to the last letter.
        page.tab(0).await?;
        page.fill_from_the_top(drivers::COUNT, "4").await?;
        let first = page.fields().await?;
        page.tap_button(words::USE_NEWER).await?;
        page.until("it is the second version", async || page.is_titled("second").await).await?;
        page.ready().await?;
        assert_eq!(page.fields().await?, first);
        page.until_kept_on_device().await?;
        assert!(!page.says_so(words::NEWER).await?, "there is nothing newer than this");
        // The other stays what it is, works, and may follow.
        page.tab(1).await?;
        tokio::time::sleep(Duration::from_secs(1)).await;
        assert!(!page.is_titled("second").await?);
        assert_eq!(page.fields().await?, other);
        assert!(page.says_so(words::NEWER).await?);
        page.fill_from_the_top(drivers::COUNT, "2").await?;
        page.tab_to(drivers::OHMS).await?;
        page.press(Key::Control + "a").await?;
        page.press("4").await?;
        page.settled().await?;
        let other = page.fields().await?;
        let listed = page.listed().await?;
        assert!(!listed.is_empty());
        page.tap_button(words::USE_NEWER).await?;
        page.until("it is the second version", async || page.is_titled("second").await).await?;
        page.settled().await?;
        assert_eq!((page.fields().await?, page.listed().await?), (other, listed));
        assert_eq!(page.keeps().await?, (1, true), "nothing is left of the first version");
        page.server.stop();
        page.refresh().await?;
        assert!(page.is_titled("second").await?);
        Ok(())
    });
}

#[test]
fn a_version_that_waits_is_announced_again_after_a_reload_and_can_wait() {
    journey_into_trouble(async |page| {
        let second = Release::titled(&site(), "second");
        page.open_from_the_device().await?;
        page.server.switch(second.folder());
        page.wait_for(LOOK).await?;
        page.until_it_says(words::NEWER).await?;
        page.tap_button(words::DISMISS).await?;
        page.until("it waits", async || Ok(!page.says_so(words::NEWER).await?)).await?;
        page.refresh().await?;
        page.until_it_says(words::NEWER).await?;
        assert!(!page.is_titled("second").await?);
        // A third while the second waits: the tap leads to the last.
        let third = Release::titled(&site(), "third");
        page.server.switch(third.folder());
        page.wait_for(LOOK).await?;
        let waits =
            "const { installing, waiting } = await navigator.serviceWorker.getRegistration();
            return installing === null && waiting !== null";
        page.until("the third waits", async || Ok(page.wait_for(waits).await? == json!(true)))
            .await?;
        page.tap_button(words::USE_NEWER).await?;
        page.until("it is the third version", async || page.is_titled("third").await).await
    });
}

#[test]
fn it_looks_for_a_new_version_when_a_tab_is_seen_again_at_most_hourly() {
    journey_into_trouble(async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        // The browser looks by itself too, soon after a page is opened.
        tokio::time::sleep(Duration::from_secs(3)).await;
        let looked =
            || page.server.asked().iter().filter(|path| path.ends_with("offline.js")).count();
        let seen = async |later: u32| {
            let script = format!(
                "window.clock ??= Date.now.bind(Date);
                 Date.now = () => clock() + {later} * 60_000;
                 document.dispatchEvent(new Event('visibilitychange'))"
            );
            page.run(&script, Vec::new()).await?;
            tokio::time::sleep(Duration::from_millis(700)).await;
            WebDriverResult::Ok(looked())
        };
        let before = looked();
        assert_eq!(seen(58).await?, before);
        assert_eq!(seen(61).await?, before + 1);
        assert_eq!(seen(118).await?, before + 1);
        assert_eq!(seen(122).await?, before + 2);
        Ok(())
    });
}

/// What can be wrong with a release that is only half on its server.
#[test]
fn a_version_that_is_not_whole_leaves_the_one_before() {
    let missing = Release::titled(&site(), "missing");
    missing.list_missing("no-such-file-0123456789abcdef.js");
    let damaged = Release::titled(&site(), "damaged");
    damaged.write("index.html", &format!("{} ", damaged.read("index.html")));
    let older = Release::titled(&site(), "older");
    older.write("index.html", &std::fs::read_to_string(site().join("index.html")).unwrap());
    for half in [missing, damaged, older] {
        journey_into_trouble(async |page| {
            page.open("").await?;
            page.until_kept_on_device().await?;
            let title = page.release().await?;
            page.server.switch(half.folder());
            // Once the install has failed, there is no worker but the active one.
            let outcome = "const registration = await navigator.serviceWorker.getRegistration();
                await registration.update();
                const next = registration.installing;
                if (next === null) return 'nothing was installed';
                await new Promise((done) => next.addEventListener('statechange', done));
                return next.state;";
            assert_eq!(page.wait_for(outcome).await?, json!("redundant"));
            assert_eq!(page.keeps().await?, (1, true), "what came of it is cleared away");
            assert!(!page.says_so(words::NEWER).await?);
            page.server.stop();
            page.refresh().await?;
            page.until_there("li.entry").await?;
            assert!(page.is_titled(&title).await?);
            // The rest of it comes: then it is a version like any other.
            page.server.go_on();
            let whole = Release::titled(&site(), "whole");
            page.server.switch(whole.folder());
            page.wait_for(LOOK).await?;
            page.until_it_says(words::NEWER).await
        });
    }
}

#[test]
fn what_has_not_changed_is_not_loaded_again() {
    journey_into_trouble(async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        page.command("Network.clearBrowserCache", json!({})).await?;
        let second = Release::titled(&site(), "second");
        page.server.switch(second.folder());
        let before = page.server.asked().len();
        page.wait_for(LOOK).await?;
        page.until_it_says(words::NEWER).await?;
        let asked = page.server.asked().split_off(before);
        assert_eq!(asked, ["/offline.js", "/index.html"]);
        Ok(())
    });
}
