//! The example stands before the page runs, as the page draws it, and the page takes its place.

use super::moving;
use super::page::{Page, Setting, journey, journey_from, root};
use super::words;
use serde_json::json;
use thirtyfour::prelude::*;

/// What the wasm of a first visit, and that of what comes later, have in their names.
const WASM: &str = "-web_bg";
const LATER: &str = "-web_later";

/// The example as it stands in `index.html` once the site is built.
const EXAMPLE: &str = "web/example.html";
/// With this in the environment it is written anew: see `docs/page.md`.
const WRITE: &str = "COILWRIGHT_WRITE_EXAMPLE";

/// The page as it is drawn, with what stands in its fields, which markup does not tell, and
/// without what only whoever reaches and hears it needs: no sheet asks for that.
const DRAWN: &str = "for (const field of document.querySelectorAll('#page :is(input, option)')) {
        if (field.matches('option')) field.toggleAttribute('selected', field.selected);
        else if (/^(checkbox|radio)$/.test(field.type)) field.toggleAttribute('checked', field.checked);
        else field.setAttribute('value', field.value);
    }
    const drawn = document.getElementById('page').cloneNode(true);
    for (const element of drawn.querySelectorAll('*'))
        for (const { name } of [...element.attributes])
            if (/^(aria-.*|auto.*|enterkeyhint|for|href|id|inputmode|maxlength|name|novalidate|role|spellcheck|tabindex|translate)$/.test(name))
                element.removeAttribute(name);
    return drawn.innerHTML";

/// Counts the frames in which no entry can be seen though one could before.
const ENTRIES: &str = "window.frames_ = { with: 0, without: 0 };
    const look = () => {
        const entry = document.querySelector('li.entry');
        if (entry?.getClientRects().length > 0) frames_.with += 1;
        else if (frames_.with > 0) frames_.without += 1;
        requestAnimationFrame(look);
    };
    requestAnimationFrame(look);";

impl Page {
    /// Waits until the page itself has its list, not the example in its place.
    pub(crate) async fn until_listed(&self) -> WebDriverResult<()> {
        self.until_there("#page:not([hidden]) li.entry").await
    }
}

fn nowhere() -> Setting {
    Setting { own: true, ..Setting::default() }
}

#[test]
fn the_example_is_what_the_page_draws_first_on_any_screen() {
    journey_from(nowhere(), async |page| {
        page.server.hold_back(LATER);
        for (width, height) in [(360, 640), (1280, 800)] {
            page.screen(width, height).await?;
            page.clear().await?;
            page.go().await?;
            page.until_listed().await?;
            let drawn = page.run(DRAWN, Vec::new()).await?;
            let drawn = drawn.as_str().expect("markup").replace('\n', " ") + "\n";
            let file = root().join(EXAMPLE);
            if std::env::var_os(WRITE).is_some() {
                std::fs::write(&file, &drawn).unwrap();
            }
            let kept = std::fs::read_to_string(&file).unwrap();
            assert!(kept == drawn, "{EXAMPLE} is another; with {WRITE}=1 this writes it:\n{drawn}");
        }
        page.server.give();
        page.ready().await
    });
}

#[test]
fn who_comes_first_reads_the_example_while_the_page_is_loading_and_nothing_moves() {
    for (width, height) in [(360, 640), (1280, 800)] {
        journey_from(nowhere(), async |page| {
            page.before_all_else(moving::WATCH).await?;
            page.before_all_else(ENTRIES).await?;
            page.screen(width, height).await?;
            page.server.hold_back(WASM);
            page.go().await?;
            page.until_there(".boot-example li.entry").await?;
            let loading = "return document.getElementById('boot').checkVisibility()
                && document.getElementById('boot').innerText";
            let told = page.run(loading, Vec::new()).await?;
            assert!(told.as_str().is_some_and(|told| told.contains("Loading")), "{told}");
            // Neither finger nor key reaches what does not answer yet.
            page.run("document.querySelector('.boot-example input').focus()", Vec::new()).await?;
            assert!(page.asks("return document.activeElement === document.body").await?);
            page.server.give();
            page.until_listed().await?;
            assert_eq!(page.count(".boot-example").await?, 0);
            page.ready().await?;
            page.settled().await?;
            let seen = page.run("return [frames_, shifts]", Vec::new()).await?;
            assert!(seen[0]["with"].as_u64() > Some(1), "{seen}");
            assert_eq!(seen[0]["without"], 0, "{seen}");
            assert_eq!(seen[1], json!([]), "{seen}");
            page.until("nothing says that it is loading", async || {
                page.asks("return !document.getElementById('boot').checkVisibility()").await
            })
            .await
        });
    }
}

#[test]
fn who_follows_a_link_or_was_here_before_waits_for_what_is_theirs() {
    let draft = [("coilwright.draft", "a"), ("coilwright.draft.a", "v=1&drivers=3~2~4~300")]
        .map(|(name, text)| (name.to_owned(), text.to_owned()));
    for (link, kept) in [("#v=1&drivers=2~1~3~300", &[][..]), ("", &draft[..])] {
        journey(async |page| {
            page.clear().await?;
            page.store(kept).await?;
            page.server.hold_back(WASM);
            page.browser.goto(format!("{}{link}", page.server.address())).await?;
            page.until_it_says("Loading").await?;
            tokio::time::sleep(std::time::Duration::from_millis(300)).await;
            assert_eq!(page.count("#page > *, .boot-example").await?, 0, "{link}");
            page.server.give();
            page.ready().await?;
            assert!(!page.says_so(words::EXAMPLE).await?);
            Ok(())
        });
    }
}
