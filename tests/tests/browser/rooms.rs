//! Every room has a way past what stands before it, a title, and an address that is a link.

use super::page::{Page, journey};
use super::states;
use super::words::{self, room};
use serde_json::json;
use thirtyfour::prelude::*;

/// The rooms by their links, with the words of the way past.
fn rooms() -> Vec<(&'static str, String, &'static str, &'static str)> {
    let chosen = states::all().into_iter().find(|(name, _)| *name == "a choice").unwrap().1;
    vec![
        ("list", "#v=1&drivers=2~2~2~500".to_owned(), room::TO_LIST, "answer"),
        ("chosen", chosen, room::TO_CHOSEN, "chosen"),
        ("compare", states::side_by_side(), room::TO_COMPARE, "room"),
        ("help", "#v=1&view=help&drivers=2~2~2~500".to_owned(), room::TO_HELP, "room"),
        ("closed", "#v=1&view=closed&drivers=2~2~2~500".to_owned(), room::TO_CLOSED, "room"),
        (
            "already",
            "#v=1&view=already&drivers=2~2~2~500".to_owned(),
            words::already::TO_ALREADY,
            "room",
        ),
        ("rigs", "#v=1&view=rigs&drivers=2~2~2~500".to_owned(), room::TO_RIGS, "room"),
        ("wire", states::two_wired("wire"), room::TO_PLAN, "room"),
        ("work", states::two_wired("work"), room::TO_STEP, "step-at-hand"),
        ("sheet", states::two_wired("sheet"), room::TO_SHEET, "room"),
    ]
}

#[test]
fn the_first_key_of_every_room_leads_to_what_it_is_there_for() {
    journey(async |page| {
        for width in [360, 1280] {
            page.widen(width).await?;
            for (name, link, words, to) in rooms() {
                page.open_afresh(&link).await?;
                page.settled().await?;
                page.press(Key::Tab + "").await?;
                assert_eq!(page.focused().await?, words, "{name}, {width} px");
                page.press(Key::Enter + "").await?;
                // With the focus, and in view: what is hidden has neither.
                let there = "const at = document.activeElement, box = at.getBoundingClientRect();
                    return at.id === arguments[0] && at.closest('main') !== null
                        && box.height > 0 && box.top >= 0 && box.bottom <= innerHeight";
                page.until(&format!("{name}, {width} px: #{to} is gone to"), async || {
                    Ok(page.run(there, vec![json!(to)]).await? == json!(true))
                })
                .await?;
            }
        }
        Ok(())
    });
}

async fn title(page: &Page) -> WebDriverResult<String> {
    page.browser.title().await
}

#[test]
fn the_title_names_the_room_and_what_is_chosen_and_follows_both() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open("").await?;
        page.settled().await?;
        assert_eq!(title(page).await?, room::TITLE);
        page.open_afresh(&states::two_wired("wire")).await?;
        page.settled().await?;
        let of = "2 Ω, (1a + 1b) ∥ (2a + 2b)";
        assert_eq!(title(page).await?, room::title(words::wire::WIRE_IT, &[of]));
        page.tap_button(words::wire::GO_ON_WORKING).await?;
        page.until_there(".work-step").await?;
        let working = room::title(words::wire::WORKING, &[of]);
        page.until("the title follows", async || Ok(title(page).await? == working)).await?;
        page.back().await?;
        page.until("and back", async || {
            Ok(title(page).await? == room::title(words::wire::WIRE_IT, &[of]))
        })
        .await?;
        let mut titles = std::collections::BTreeSet::new();
        for (name, link, ..) in rooms() {
            page.open_afresh(&link).await?;
            page.settled().await?;
            let title = title(page).await?;
            assert!(title.ends_with(" · Coilwright"), "{name}: {title}");
            assert!(titles.insert(title), "{name} is called as another");
        }
        Ok(())
    });
}

/// The links of the page as it stands: what each says and where it leads.
async fn links(page: &Page) -> WebDriverResult<Vec<(String, String)>> {
    let script = "return [...document.querySelectorAll('a[href]')]
        .filter((a) => a.getClientRects().length > 0)
        .map((a) => [a.innerText.trim(), a.href])";
    Ok(serde_json::from_value(page.run(script, Vec::new()).await?)?)
}

#[test]
fn every_way_to_a_room_is_a_link_that_opens_it_in_another_tab_too() {
    journey(async |page| {
        page.widen(1280).await?;
        let mut met = Vec::new();
        let chosen = rooms().swap_remove(1).1;
        for link in [states::two_wired("wire"), chosen] {
            page.open_afresh(&link).await?;
            page.settled().await?;
            for (words, address) in links(page).await? {
                if !met.iter().any(|(_, known)| *known == address) {
                    met.push((words, address));
                }
            }
        }
        let said: Vec<&str> = met.iter().map(|(words, _)| words.as_str()).collect();
        for words in [
            words::rigs::TURN,
            words::HELP,
            words::wire::WIRE_IT,
            words::wire::GO_ON_WORKING,
            words::wire::JOB_SHEET,
        ] {
            assert!(said.contains(&words), "{words} is no link: {said:?}");
        }
        // Opened by itself, each shows its own room: no tap of the page's came before.
        for (words, address) in met {
            page.browser.goto("about:blank").await?;
            page.browser.goto(&address).await?;
            page.ready().await?;
            page.settled().await?;
            let here = page.address().await?;
            assert!(address.ends_with(&here), "{words}: {here} for {address}");
            let view = here.split("view=").nth(1).map(|rest| rest.split('&').next().unwrap());
            let class = match view {
                None => ".page:not(.page-help, .page-rigs, .page-wire)".to_owned(),
                Some("work") => ".page-work".to_owned(),
                Some("sheet") => ".page-sheet".to_owned(),
                Some(view) => format!(".page-{view}"),
            };
            assert_eq!(page.count(&class).await?, 1, "{words}: {address}");
        }
        Ok(())
    });
}

#[test]
fn a_tap_stays_on_the_page_a_tap_for_another_tab_does_not_and_back_leads_back() {
    journey(async |page| {
        page.widen(360).await?;
        page.open_afresh("#v=1&drivers=2~2~2~500").await?;
        page.settled().await?;
        page.run("window.stayed = true", Vec::new()).await?;
        page.tap_button(words::HELP).await?;
        page.until_there(".page-help").await?;
        assert!(page.asks("return window.stayed === true").await?, "the page was loaded anew");
        page.back().await?;
        page.until_there("#ladder").await?;
        page.tap("li.entry .entry-main").await?;
        page.until_there(".page-chosen").await?;
        page.tap_button(words::wire::WIRE_IT).await?;
        page.until_there("ol.steps").await?;
        page.tap_button(words::wire::START_WORKING).await?;
        page.until_there(".page-work").await?;
        // Each room is one step back from the next, as with any link.
        page.back().await?;
        page.until_there("ol.steps").await?;
        assert_eq!(page.count(".page-work").await?, 0);
        page.back().await?;
        page.until("the list or the choice is there", async || {
            Ok(page.count(".page-wire").await? == 0)
        })
        .await?;
        page.forward().await?;
        page.until_there("ol.steps").await?;
        // With the key for another tab the browser opens one, and this page stays as it is.
        page.widen(1280).await?;
        let before = page.browser.windows().await?.len();
        let script = "return [...document.querySelectorAll('a[href]')].find((a) => a.innerText.trim() === arguments[0])";
        let found = page.browser.execute(script.to_owned(), vec![json!(words::HELP)]).await?;
        let link = found.element()?;
        page.browser
            .action_chain()
            .key_down(Key::Control)
            .click_element(&link)
            .key_up(Key::Control)
            .perform()
            .await?;
        page.until("there is another tab", async || {
            Ok(page.browser.windows().await?.len() == before + 1)
        })
        .await?;
        assert_eq!(page.count(".page-help").await?, 0, "this page went there too");
        let windows = page.browser.windows().await?;
        page.browser.switch_to_window(windows[before].clone()).await?;
        page.until_there(".page-help").await?;
        assert!(title(page).await?.starts_with(words::HELP));
        Ok(())
    });
}
