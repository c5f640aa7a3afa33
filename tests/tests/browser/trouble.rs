//! The states that the page itself cannot show: it could not start, and it has stopped.

use super::page::{Setting, folder, journey, journey_from, journey_into_trouble};
use super::words::{self, drivers};
use super::{coils_of, two_drivers};
use serde_json::json;

#[test]
fn a_page_whose_files_do_not_come_says_so_and_comes_up_after_a_reload() {
    journey_into_trouble(async |page| {
        page.command("Network.enable", json!({})).await?;
        page.command("Network.setBlockedURLs", json!({ "urls": ["*.wasm"] })).await?;
        page.go().await?;
        page.until_it_says("The page could not start").await?;
        assert!(page.asks("return document.querySelector('#boot').role === 'alert'").await?);
        page.command("Network.setBlockedURLs", json!({ "urls": [] })).await?;
        page.run("document.querySelector('#boot button').click()", Vec::new()).await?;
        page.until_listed().await
    });
}

#[test]
fn a_trap_stops_the_page_visibly_and_a_reload_brings_back_what_was_typed() {
    // A module whose one function is the instruction `unreachable`.
    let trap = "addEventListener('trap', () => {
        const bytes = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0,
            7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11];
        const module = new WebAssembly.Module(new Uint8Array(bytes));
        new WebAssembly.Instance(module).exports.f();
    });";
    journey_into_trouble(async |page| {
        page.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": trap })).await?;
        two_drivers(page, "1").await?;
        let fields = page.fields().await?;
        page.run("dispatchEvent(new Event('trap'))", Vec::new()).await?;
        page.until_it_says("The page has stopped").await?;
        assert!(page.asks("return document.querySelector('#page').inert").await?);
        page.run("document.querySelector('#boot button').click()", Vec::new()).await?;
        page.until("it is back", async || {
            page.asks("return document.querySelector('#boot').hidden").await
        })
        .await?;
        page.settled().await?;
        assert_eq!(page.fields().await?, fields);
        Ok(())
    });
}

/// The ways out of a page that could not start: once more, and without what is kept.
#[test]
fn a_kept_page_that_does_not_start_can_be_loaded_anew() {
    journey_into_trouble(async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        // What is kept is spoilt: by a bad release, say.
        let spoil = "for (const name of await caches.keys()) {
            const cache = await caches.open(name);
            for (const { url } of await cache.keys())
                if (url.endsWith('.wasm')) await cache.put(url, new Response('no wasm'));
        }";
        page.wait_for(spoil).await?;
        page.browser.refresh().await?;
        page.until_it_says("The page could not start").await?;
        page.tap_button("Load everything anew").await?;
        page.until_listed().await?;
        assert_eq!(page.keeps().await?, (0, false));
        // Now there is nothing to lead out of.
        page.command("Network.enable", json!({})).await?;
        page.command("Network.setBlockedURLs", json!({ "urls": ["*.wasm"] })).await?;
        page.browser.refresh().await?;
        page.until_it_says("The page could not start").await?;
        assert_eq!(page.count("#boot button").await?, 1);
        Ok(())
    });
}

/// A solver that stops at 13.13 Ω, made for this: the work is not lost, the page does not
/// stop again by itself, and the way on is to change the values.
#[test]
fn a_rig_that_stops_the_solver_is_kept_waits_for_a_tap_and_can_be_changed() {
    let site = folder("COILWRIGHT_TRAPPED");
    journey_from(Setting { site, quiet: false, ..Setting::default() }, async |page| {
        coils_of(page, "13.13").await?;
        page.until_it_says("The page has stopped").await?;
        assert!(page.asks("return document.querySelector('#page').inert").await?);
        let fields = page.fields().await?;
        page.run("document.querySelector('#boot button').click()", Vec::new()).await?;
        page.until_it_says(words::WAITING).await?;
        assert!(page.asks("return document.querySelector('#boot').hidden").await?);
        // The rig's own, which come first; of a list there is nothing.
        let kept = page.fields().await?;
        assert!(kept.len() > 10 && fields.starts_with(&kept), "{kept:?} of {fields:?}");
        assert!(fields.iter().any(|field| field == "13.13"), "{fields:?}");
        assert_eq!(page.count("li.entry").await?, 0);
        page.refresh().await?;
        page.until_it_says(words::WAITING).await?;
        // Once more, on purpose.
        page.tap_button(words::TRY_AGAIN).await?;
        page.until_it_says("The page has stopped").await?;
        page.refresh().await?;
        page.until_it_says(words::WAITING).await?;
        page.fill_from_the_top(drivers::OHMS, "13").await?;
        let loads: Vec<String> = page.listed().await?.into_iter().map(|(load, _)| load).collect();
        assert_eq!(loads, ["26 Ω", "6.5 Ω"]);
        page.until_kept().await?;
        page.refresh().await?;
        assert_eq!(page.listed().await?.len(), 2, "it waits no longer");
        Ok(())
    });
}

#[test]
fn what_is_shipped_does_not_stop_at_that_rig() {
    journey(async |page| {
        coils_of(page, "13.13").await?;
        let loads: Vec<String> = page.listed().await?.into_iter().map(|(load, _)| load).collect();
        assert_eq!(loads.len(), 2, "{loads:?}");
        assert!(loads[0].starts_with("26.26"), "{loads:?}");
        Ok(())
    });
}
