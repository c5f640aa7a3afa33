//! Nothing moves by itself while the page comes: neither when it takes the place of what says
//! that it is loading, nor when the first answer comes.

use super::page::{Page, journey};
use super::states;
use serde_json::{Value, json};
use thirtyfour::prelude::*;

/// Put in before everything else: every shift from the first frame on, with what moved.
pub(crate) const WATCH: &str = "window.shifts = [];
    new PerformanceObserver((list) => list.getEntries().forEach((shift) =>
        shifts.push([shift.value, shift.hadRecentInput, ...shift.sources.map(({ node }) =>
            `${node?.nodeName}.${node?.className}`)])))
        .observe({ type: 'layout-shift', buffered: true });
    // Whether both the message and the page are ever to be seen in one frame.
    window.together = 0;
    const seen = (e) => e !== null && e.getClientRects().length > 0;
    const frame = () => {
        const page = document.getElementById('page');
        if (page?.childElementCount > 0 && !page.hidden && seen(document.getElementById('boot'))) together += 1;
        requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);";

/// Every shift of a visit, at rest half a second after the last answer.
async fn shifts(page: &Page, link: &str, draft: &[(String, String)]) -> WebDriverResult<Value> {
    page.open_with(link, draft).await?;
    page.settled().await?;
    tokio::time::sleep(std::time::Duration::from_millis(600)).await;
    assert_eq!(page.run("return together", Vec::new()).await?, json!(0), "{link}");
    page.run("return shifts", Vec::new()).await
}

/// A draft of a page that was here before.
fn draft() -> Vec<(String, String)> {
    let own = |name: &str, text: &str| (name.to_owned(), text.to_owned());
    vec![
        own("coilwright.draft", "a"),
        own("coilwright.draft.a", "v=1&drivers=3~2~4~300&drivers=2~1~8~100"),
    ]
}

async fn nothing_moves(page: &Page) -> WebDriverResult<()> {
    page.before_all_else(WATCH).await?;
    let still = json!([]);
    let mut moved = Vec::new();
    // A first visit, and one that goes on from a draft.
    for (state, kept) in [("a first visit", Vec::new()), ("a draft", draft())] {
        let found = shifts(page, "", &kept).await?;
        if found != still {
            moved.push(format!("{state}: {found}"));
        }
    }
    for (state, link) in states::all() {
        let found = shifts(page, &link, &states::stored(&link)).await?;
        if found != still && !link.is_empty() {
            moved.push(format!("{state}: {found}"));
        }
    }
    assert!(moved.is_empty(), "{}", moved.join("\n"));
    Ok(())
}

#[test]
fn nothing_moves_on_a_slow_phone() {
    journey(async |page| {
        page.screen(360, 740).await?;
        page.slow_down(4).await?;
        nothing_moves(page).await
    });
}

#[test]
fn nothing_moves_on_a_wide_screen() {
    journey(async |page| {
        page.screen(1280, 800).await?;
        nothing_moves(page).await
    });
}

/// The measure itself: what moves is told.
#[test]
fn what_moves_is_told() {
    journey(async |page| {
        page.before_all_else(WATCH).await?;
        page.open("").await?;
        page.settled().await?;
        let push = "const line = document.createElement('p');
            line.textContent = 'in the way';
            document.body.prepend(line);";
        page.run(push, Vec::new()).await?;
        page.until("the shift is told", async || {
            page.asks("return shifts.some(([moved]) => moved > 0.01)").await
        })
        .await
    });
}

/// Waits for an answer that may take longer than anything else of the page.
async fn answered(page: &Page) -> WebDriverResult<()> {
    let there = "return document.querySelector('main .answer') !== null
        && document.querySelector('[aria-busy=true], .work progress') === null";
    for _ in 0..900 {
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
        if page.asks(there).await? {
            return Ok(());
        }
    }
    panic!("no answer ever came")
}

/// An answer that comes long after the key that asked for it moves nothing either.
#[test]
fn nothing_moves_when_an_answer_comes_late() {
    let link = "#v=1&joined_only=0&even_only=0&drivers=1~1~1~300&drivers=1~1~2~300\
        &drivers=1~1~3~300&drivers=1~1~4~300&drivers=1~1~6~300&drivers=1~1~8~300\
        &drivers=1~1~16~300&amplifier=1~1&channel=1~4:600~2:1000";
    journey(async |page| {
        page.before_all_else(WATCH).await?;
        page.screen(360, 740).await?;
        page.slow_down(4).await?;
        for place in ["start", "center", "end"] {
            page.open_afresh(link).await?;
            answered(page).await?;
            page.run("shifts.length = 0", Vec::new()).await?;
            for ohms in ["3", "1"] {
                let focus = "const field = document.getElementById('drivers-0-ohms');
                    field.focus();
                    field.scrollIntoView({ block: arguments[0], behavior: 'instant' });
                    field.select()";
                page.run(focus, vec![json!(place)]).await?;
                page.press(ohms).await?;
                answered(page).await?;
                tokio::time::sleep(std::time::Duration::from_millis(700)).await;
            }
            // What the browser counts as asked for is what follows within half a second of a key.
            let moved = "return shifts.filter(([, recent]) => !recent)";
            assert_eq!(page.run(moved, Vec::new()).await?, json!([]), "field at the {place}");
        }
        Ok(())
    });
}
