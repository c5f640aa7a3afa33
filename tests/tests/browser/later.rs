//! What comes once the page is up: on its way, not coming, and coming after all.

use super::page::{Page, Setting, journey_from, journey_into_trouble, site};
use super::release::Release;
use super::states;
use super::words::{self, drivers, room, wire};
use serde_json::json;
use thirtyfour::prelude::*;

/// What its file has in its name.
const LATER: &str = "-web_later";

impl Page {
    /// How often what comes later was asked for.
    fn asked_for_it(&self) -> usize {
        self.server.asked().iter().filter(|path| path.contains(LATER)).count()
    }

    /// Types the ohms of the example, and waits for the list of that.
    async fn lists_anew(&self, ohms: &str) -> WebDriverResult<()> {
        let first = "return [...document.querySelectorAll('main ol.entries h3')]
            .map((load) => load.innerText).join()";
        let before = self.run(first, Vec::new()).await?;
        self.fill(drivers::OHMS, ohms).await?;
        self.until("the list follows", async || Ok(self.run(first, Vec::new()).await? != before))
            .await
    }
}

#[test]
fn the_list_works_while_the_rest_is_on_its_way_and_a_room_says_so_at_once() {
    journey_from(Setting { own: true, ..Setting::default() }, async |page| {
        page.server.hold_back(LATER);
        page.go().await?;
        page.until_listed().await?;
        page.lists_anew("8").await?;
        // Tapped: how many milliseconds until it is said that the room is on its way?
        let tap = "const done = arguments[arguments.length - 1];
            const way = [...document.querySelectorAll('header a')].find((a) => a.innerText === arguments[0]);
            const at = performance.now();
            way.click();
            const look = () => document.querySelector('main > section .coming #room') === null
                ? setTimeout(look) : done(performance.now() - at);
            look();";
        let waited = page.browser.execute_async(tap, vec![json!(words::rigs::TURN)]).await?;
        let waited = waited.json().as_f64().expect("a time");
        assert!(waited < 100.0, "{waited} ms");
        assert!(page.says_so(room::COMING).await? && page.says_so(room::WHY_COMING).await?);
        page.until("the keyboard is there", async || {
            page.asks("return document.activeElement.id === 'room'").await
        })
        .await?;
        page.server.give();
        page.until_there("#rig-name").await?;
        page.ready().await?;
        // In the place of the heading that it was on stands another.
        page.until("the keyboard is there", async || {
            page.asks("return document.activeElement.id === 'room'").await
        })
        .await?;
        assert_eq!(page.asked_for_it(), 1);
        Ok(())
    });
}

#[test]
fn what_does_not_come_says_so_and_comes_when_it_is_asked_for_again() {
    journey_into_trouble(async |page| {
        page.command("Network.enable", json!({})).await?;
        let block = |urls: serde_json::Value| page.command("Network.setBlockedURLs", urls);
        block(json!({ "urls": [format!("*{LATER}*")] })).await?;
        page.go().await?;
        page.until_listed().await?;
        page.lists_anew("8").await?;
        let fields = page.fields().await?;
        page.tap_button(words::rigs::TURN).await?;
        page.until_it_says(room::WHY_MISSING).await?;
        // Asked for once more in vain, it says so again.
        page.tap_button(room::AGAIN).await?;
        page.until_it_says(room::WHY_MISSING).await?;
        page.tap_button(words::rigs::TURN).await?;
        page.until_listed().await?;
        assert_eq!(page.fields().await?, fields);
        page.lists_anew("2").await?;
        block(json!({ "urls": [] })).await?;
        page.tap_button(words::rigs::TURN).await?;
        page.until_there("#rig-name").await?;
        page.ready().await
    });
}

/// What would fit where nothing does is sought by what comes later.
#[test]
fn where_nothing_fits_the_way_out_comes_with_it() {
    const WAY_OUT: &str = ".way-out:not(.way-out-later)";
    journey_into_trouble(async |page| {
        page.command("Network.enable", json!({})).await?;
        let block = |urls: serde_json::Value| page.command("Network.setBlockedURLs", urls);
        block(json!({ "urls": [format!("*{LATER}*")] })).await?;
        // One coil of 1 Ω, and an amplifier that must see 4.
        let link = "#v=1&drivers=1~1~1~300&amplifier=1~1&channel=4~4:600";
        page.browser.goto(format!("{}{link}", page.server.address())).await?;
        page.until_it_says(words::NONE_FITS).await?;
        page.until_there(".ways-out .coming button").await?;
        assert_eq!(page.count(WAY_OUT).await?, 0);
        page.tap(".ways-out .coming button").await?;
        page.until_there(".ways-out .coming button").await?;
        block(json!({ "urls": [] })).await?;
        page.tap(".ways-out .coming button").await?;
        page.until_there(WAY_OUT).await?;
        page.ready().await
    });
}

/// Whoever put a newer version on the server took the files of the older away.
#[test]
fn an_update_while_it_is_on_its_way_leaves_a_page_that_works_and_a_reload_brings_all() {
    journey_into_trouble(async |page| {
        let second = Release::titled(&site(), "second");
        let names = std::fs::read_dir(second.folder()).unwrap().flatten();
        let later = names
            .filter_map(|entry| entry.file_name().into_string().ok())
            .find(|name| name.contains(LATER) && name.ends_with(".wasm"))
            .expect("a file that comes later");
        let renamed = later.replace(LATER, "-newer_later");
        std::fs::rename(second.folder().join(&later), second.folder().join(&renamed)).unwrap();
        for name in ["index.html", "offline.js"] {
            second.write(name, &second.read(name).replace(&later, &renamed));
        }
        second.list_anew();
        page.server.hold_back(LATER);
        let link = states::two_wired("wire");
        page.browser.goto(format!("{}{link}", page.server.address())).await?;
        page.until_it_says(room::COMING).await?;
        page.server.switch(second.folder());
        page.server.give();
        page.until_it_says(room::WHY_MISSING).await?;
        let fields = page.fields().await?;
        assert!(!fields.is_empty());
        page.refresh().await?;
        page.until_there(".wired [data-run]").await?;
        assert!(page.says_so(wire::WIRE_IT).await?);
        assert_eq!(page.release().await?, "second");
        Ok(())
    });
}
