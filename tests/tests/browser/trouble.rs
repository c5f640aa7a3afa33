//! The states that the page itself cannot show: it could not start, and it has stopped.

use super::page::journey_into_trouble;
use super::two_drivers;
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
        page.until_there("li.entry").await
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
