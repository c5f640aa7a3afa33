//! Journeys from the list to one configuration and back.

use super::page::{Page, journey};
use super::words::chosen;
use thirtyfour::prelude::*;

/// The element that has the focus.
async fn focus(page: &Page) -> WebDriverResult<String> {
    let id = page.run("return document.activeElement.id", Vec::new()).await?;
    Ok(id.as_str().unwrap_or_default().to_owned())
}

async fn until_focus(page: &Page, id: &str) -> WebDriverResult<()> {
    page.until(&format!("“{id}” has the focus"), async || Ok(focus(page).await? == id)).await
}

async fn is_seen(page: &Page, selector: &str) -> WebDriverResult<bool> {
    let seen =
        format!("return document.querySelector(\"{selector}\")?.getClientRects().length > 0");
    page.asks(&seen).await
}

/// Chooses an entry by tap; gives its id.
async fn choose(page: &Page, number: usize) -> WebDriverResult<String> {
    let entry = format!("document.querySelectorAll('li.entry .entry-main')[{number}]");
    let id = page.run(&format!("return {entry}.id"), Vec::new()).await?;
    let id = id.as_str().unwrap_or_default().to_owned();
    page.tap(&format!("[id=\"{id}\"]")).await?;
    Ok(id)
}

#[test]
fn on_a_phone_the_choice_takes_the_page_and_the_way_back_leads_to_its_entry() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        assert!(!is_seen(page, "#chosen").await?);
        let entry = choose(page, 2).await?;
        until_focus(page, "chosen").await?;
        assert_eq!(page.focused().await?.to_lowercase(), chosen::CHOSEN.to_lowercase());
        assert!(!is_seen(page, "li.entry").await?);
        page.until("the address holds the choice", async || {
            Ok(page.address().await?.contains("key="))
        })
        .await?;
        page.refresh().await?;
        page.until_it_says(chosen::CHOSEN).await?;
        page.back().await?;
        until_focus(page, &entry).await?;
        assert!(is_seen(page, "li.entry").await? && !is_seen(page, "#chosen").await?);
        page.forward().await?;
        until_focus(page, "chosen").await?;
        // The button does what the browser does.
        page.tap_button(chosen::BACK).await?;
        until_focus(page, &entry).await?;
        assert!(!page.address().await?.contains("key="), "{}", page.address().await?);
        Ok(())
    });
}

#[test]
fn by_keyboard_an_entry_opens_and_the_way_back_keeps_the_place() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        page.run("document.querySelectorAll('li.entry .entry-main')[3].focus()", Vec::new())
            .await?;
        let entry = focus(page).await?;
        page.press(Key::Enter + "").await?;
        until_focus(page, "chosen").await?;
        page.back().await?;
        until_focus(page, &entry).await?;
        let inside = "const box = document.activeElement.getBoundingClientRect();
            return box.top >= 0 && box.bottom <= innerHeight";
        page.until("the entry is in view", async || page.asks(inside).await).await
    });
}

#[test]
fn on_a_wide_screen_the_list_stays_beside_the_choice() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open("").await?;
        page.settled().await?;
        // Before a choice is made, the one ranked first stands there.
        assert_eq!(page.text("#chosen").await?.to_lowercase(), chosen::FIRST.to_lowercase());
        let entry = choose(page, 1).await?;
        page.until_it_says(chosen::CHOSEN).await?;
        assert!(is_seen(page, "li.entry").await? && is_seen(page, "#chosen").await?);
        assert_eq!(focus(page).await?, entry, "the keyboard stays in the list");
        let pressed = page.told_of("button").await?;
        assert_eq!(pressed.iter().filter(|(_, on)| *on).count(), 1, "{pressed:?}");
        let other = choose(page, 4).await?;
        page.until("the other is marked", async || {
            page.asks(&format!(
                "return document.getElementById(\"{other}\").ariaPressed === 'true'"
            ))
            .await
        })
        .await?;
        page.back().await?;
        page.until("nothing is chosen", async || {
            Ok(page.text("#chosen").await?.to_lowercase() == chosen::FIRST.to_lowercase())
        })
        .await
    });
}
