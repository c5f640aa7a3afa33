//! The link given away: where nothing can be kept, in frames, and to other programs.

use super::page::{Page, Setting, journey, journey_from};
use super::single::{FRAME, Host, file, from_disk};
use super::states;
use super::words::{self, rigs as say};
use serde_json::json;
use thirtyfour::prelude::*;

const RIG: &str = "v=1&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~1:1200";

/// What is copied stands in `copied`.
const COPIES: &str = "Object.defineProperty(navigator, 'clipboard', { value: {
    writeText: (text) => { window.copied = text; return Promise.resolve(); } } });";
/// Neither way of copying is allowed.
const COPIES_NOTHING: &str = "Object.defineProperty(navigator, 'clipboard', { value: {
        writeText: () => Promise.reject(new DOMException('no', 'NotAllowedError')) } });
    document.execCommand = () => false;";
const REFUSED: &str = "for (const name of ['localStorage', 'sessionStorage'])
    Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError'); } });";
/// What is shared stands in `shared`; somebody may think better of it.
const SHARES: &str = "navigator.canShare = ({ url }) => /^https?:/.test(url);
    navigator.share = (what) => { window.shared = what;
        return window.fails ? Promise.reject(new DOMException('no', window.fails)) : Promise.resolve(); };";
const NO_SHARE: &str = "navigator.share = undefined; delete Navigator.prototype.share;";

/// Whether the page offers to share.
async fn can_share(page: &Page) -> WebDriverResult<bool> {
    let script = "return [...document.querySelectorAll('button')]
        .some((button) => button.innerText.trim() === arguments[0])";
    Ok(page.run(script, vec![json!(say::SHARE_LINK)]).await? == json!(true))
}

async fn global(page: &Page, name: &str) -> WebDriverResult<String> {
    let value = page.run(&format!("return window.{name} ?? ''"), Vec::new()).await?;
    Ok(value.as_str().unwrap_or_default().to_owned())
}

/// The link is shown to be copied by hand: labelled, selected, with the focus.
async fn shown(page: &Page) -> WebDriverResult<String> {
    page.until_there("#link-to-copy").await?;
    page.until("the link is selected", async || {
        page.asks(
            "const field = document.activeElement;
             return field.id === 'link-to-copy' && field.readOnly && field.selectionStart === 0
                 && field.selectionEnd === field.value.length && field.value.length > 0",
        )
        .await
    })
    .await?;
    assert_eq!(page.focused().await?, say::LINK_FIELD);
    assert!(page.says_so(say::LINK_NOT_COPIED).await?);
    let value = page.run("return document.activeElement.value", Vec::new()).await?;
    Ok(value.as_str().unwrap().to_owned())
}

#[test]
fn where_storage_is_refused_the_link_is_copied_and_opens_the_rig_elsewhere() {
    let mut address = String::new();
    journey(async |page| {
        page.before_all_else(&format!("{REFUSED}{COPIES}{NO_SHARE}")).await?;
        page.widen(360).await?;
        page.open(&format!("#{RIG}&view=rigs")).await?;
        page.until_it_says(say::REFUSED).await?;
        assert!(!can_share(page).await?, "a browser that shares nothing");
        page.tap_button(say::COPY_LINK).await?;
        page.until_it_says(say::LINK_COPIED).await?;
        address = global(page, "copied").await?;
        let home = page.server.address();
        address = address.strip_prefix(&home).expect("the page's own address").to_owned();
        Ok(())
    });
    assert!(address.starts_with("#v=1&") && !address.contains("view="), "{address}");
    journey(async |page| {
        page.open(&address).await?;
        page.settled().await?;
        let loads: Vec<String> = page.listed().await?.into_iter().map(|(load, _)| load).collect();
        assert_eq!(loads, ["2 Ω", "8 Ω", "0.5 Ω"]);
        Ok(())
    });
}

#[test]
fn where_the_browser_copies_nothing_the_link_is_shown_to_be_copied_by_hand() {
    journey(async |page| {
        page.before_all_else(&format!("{COPIES_NOTHING}{NO_SHARE}")).await?;
        for (width, light) in [(360, "light"), (1280, "dark"), (320, "sun")] {
            page.widen(width).await?;
            for (room, link) in
                [("rigs", format!("#{RIG}&view=rigs")), ("wire", states::two_wired("wire"))]
            {
                page.open_in(light, &link).await?;
                page.settled().await?;
                page.tap_button(say::COPY_LINK).await?;
                let address = shown(page).await?;
                assert!(address.starts_with(&page.server.address()), "{address}");
                assert_eq!(address.contains("view=wire"), room == "wire", "{address}");
                // It breaks no law of the page either.
                let broken = super::layout::broken_now(page).await?;
                assert!(broken.is_empty(), "{room}, {width} px: {broken:#?}");
                let found = page.finds().await?;
                assert_eq!(found, json!([]), "{room}, {width} px");
                // Once more leads there once more.
                page.run("document.activeElement.blur()", Vec::new()).await?;
                page.tap_button(say::COPY_LINK).await?;
                shown(page).await?;
            }
        }
        Ok(())
    });
}

#[test]
fn the_plan_is_shared_where_the_browser_can_and_whoever_thinks_better_of_it_is_told_nothing() {
    journey(async |page| {
        page.before_all_else(&format!("{SHARES}{COPIES_NOTHING}")).await?;
        page.widen(360).await?;
        page.open_afresh(&states::two_wired("wire")).await?;
        page.settled().await?;
        page.tap_button(say::SHARE_LINK).await?;
        let address = page.run("return window.shared?.url", Vec::new()).await?;
        let address = address.as_str().unwrap_or_default().to_owned();
        assert!(address.starts_with(&page.server.address()), "{address}");
        assert!(address.contains("view=wire") && address.contains("key="), "{address}");
        let title = page.run("return window.shared.title", Vec::new()).await?;
        assert_eq!(title.as_str().unwrap_or_default(), page.browser.title().await?);
        page.run("window.fails = 'AbortError'", Vec::new()).await?;
        page.tap_button(say::SHARE_LINK).await?;
        tokio::time::sleep(std::time::Duration::from_millis(200)).await;
        assert_eq!(page.count("#link-to-copy").await?, 0);
        page.run("window.fails = 'NotAllowedError'", Vec::new()).await?;
        page.tap_button(say::SHARE_LINK).await?;
        assert_eq!(shown(page).await?, address);
        Ok(())
    });
}

/// In a frame with an address of its own that is what opens the page; in one that was
/// written into its host only the end of an address is there to be had. And a file's link is
/// to the file.
#[test]
fn in_a_frame_and_from_a_file_the_link_opens_the_page_or_says_what_it_is() {
    let named = Host::new("link", |_| format!("{FRAME} src='coilwright.html'></iframe>"));
    let whole = Host::new("link-whole", |page| {
        let quoted = page.replace('&', "&amp;").replace('"', "&quot;");
        format!("{FRAME} srcdoc=\"{quoted}\"></iframe>")
    });
    for (host, bare) in [(named, false), (whole, true)] {
        journey_from(Setting { site: host.0.clone(), ..Setting::default() }, async |page| {
            page.go().await?;
            page.browser.enter_frame(0).await?;
            page.ready().await?;
            page.settled().await?;
            page.run("document.execCommand = () => false", Vec::new()).await?;
            page.run(
                "Object.defineProperty(navigator, 'clipboard', { value: undefined })",
                Vec::new(),
            )
            .await?;
            page.tap_button(words::rigs::TURN).await?;
            page.until_it_says(say::REFUSED).await?;
            assert_eq!(page.says_so(say::LINK_BARE).await?, bare);
            assert!(!can_share(page).await?, "a frame may share nothing");
            page.tap_button(say::COPY_LINK).await?;
            page.until_there("#link-to-copy").await?;
            let value = "return document.getElementById('link-to-copy').value";
            let address = page.run(value, Vec::new()).await?;
            let address = address.as_str().unwrap().to_owned();
            let start = if bare {
                "#v=1&".to_owned()
            } else {
                format!("{}coilwright.html#v=1&", page.server.address())
            };
            assert!(address.starts_with(&start), "{address}");
            if !bare {
                page.browser.enter_default_frame().await?;
                page.browser.goto(&address).await?;
                page.ready().await?;
                page.settled().await?;
                assert!(page.count("li.entry").await? > 3);
            }
            Ok(())
        });
    }
    journey_from(from_disk(), async |page| {
        page.before_all_else(COPIES).await?;
        let from = format!("file://{}", file().display());
        page.browser.goto(format!("{from}#{RIG}&view=rigs")).await?;
        page.ready().await?;
        page.settled().await?;
        assert!(page.says_so(say::LINK_TO_FILE).await?);
        page.tap_button(say::COPY_LINK).await?;
        page.until_it_says(say::LINK_COPIED).await?;
        let address = global(page, "copied").await?;
        assert!(address.starts_with(&format!("{from}#v=1&")), "{address}");
        page.browser.goto("about:blank").await?;
        page.browser.goto(&address).await?;
        page.ready().await?;
        page.settled().await?;
        assert_eq!(page.listed().await?.len(), 3);
        Ok(())
    });
}
