//! Journeys of whoever takes something back: one way for all of it, over a refresh too.

use super::page::{Page, journey};
use super::states;
use super::words::undo::{Erased, UNDONE, name};
use super::words::{self, drivers, wire};
use thirtyfour::prelude::*;

/// Whether the way back can be tapped as the page lies.
async fn is_at_hand(page: &Page) -> WebDriverResult<bool> {
    let script = "const at = document.querySelector('#undo')?.getBoundingClientRect();
        if (at === undefined || at.height < 44 || at.top < 0 || at.bottom > innerHeight) return false;
        const top = document.elementFromPoint(at.x + at.width / 2, at.y + at.height / 2);
        return top?.closest('#undo') !== null";
    page.asks(script).await
}

async fn count(page: &Page) -> WebDriverResult<usize> {
    page.count("fieldset.part-named").await
}

#[test]
fn what_is_removed_is_an_undo_away_where_the_thumb_is() {
    journey(async |page| {
        for (width, height) in [(360, 640), (740, 360), (1280, 900)] {
            page.screen(width, height).await?;
            page.open_afresh("#v=1&drivers=2~2~4~300&drivers=1~1~8~150&amplifier=1~1&channel=2")
                .await?;
            page.settled().await?;
            page.tap_button(&format!("{}: {}", drivers::REMOVE, "Driver 3")).await?;
            page.until("one kind is gone", async || Ok(count(page).await? == 1)).await?;
            page.until_it_says(Erased::Drivers.said()).await?;
            page.until("the way back is at hand", async || is_at_hand(page).await).await?;
            page.tap("#undo").await?;
            page.until("both are there", async || Ok(count(page).await? == 2)).await?;
            page.until_it_says(UNDONE).await?;
            // And that is taken back in turn.
            page.tap_button(&name(true, Erased::Drivers)).await?;
            page.until("one kind is gone", async || Ok(count(page).await? == 1)).await?;
        }
        Ok(())
    });
}

#[test]
fn work_that_was_started_over_comes_back_by_the_keys_after_a_refresh() {
    journey(async |page| {
        page.screen(360, 640).await?;
        page.open(&states::pair_at("wire", 0)).await?;
        page.until_there(".step").await?;
        page.fill(coilwright_words::english::finding::LEADS, "0.2").await?;
        page.tap_button(wire::START_OVER).await?;
        page.until("nothing is read", async || Ok(!page.says_so("0.2 Ω").await?)).await?;
        page.until("it is said", async || page.says_so(Erased::Work.said()).await).await?;
        // What is taken back first gives way to another rig, and both come back.
        page.tap_button(words::START_EMPTY).await?;
        page.until_it_says(words::EMPTY).await?;
        page.until_kept().await?;
        page.refresh().await?;
        page.until_it_says(words::EMPTY).await?;
        let body = "document.activeElement.blur(); return document.activeElement === document.body";
        assert!(page.asks(body).await?);
        page.press(Key::Control + "z").await?;
        page.until_there(".step").await?;
        page.press(Key::Control + "z").await?;
        page.until("the reading is back", async || {
            page.asks(
                "return [...document.querySelectorAll('input')].some((it) => it.value === '0.2')",
            )
            .await
        })
        .await?;
        Ok(())
    });
}
