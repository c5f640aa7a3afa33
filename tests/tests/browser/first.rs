//! Journeys of a first visit: the example, help, sun, fields that help and complain.

use super::page::{Page, journey};
use super::words::{self, drivers};
use super::{states, works};
use coilwright_words::english::{help, nearest};
use serde_json::json;
use thirtyfour::prelude::*;

/// What stands in a field.
async fn value(page: &Page, id: &str) -> WebDriverResult<String> {
    let value = page.run("return document.getElementById(arguments[0]).value", vec![json!(id)]);
    Ok(value.await?.as_str().unwrap_or_default().to_owned())
}

#[test]
fn one_tap_leads_from_the_example_to_an_empty_form() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.until_it_says(words::EXAMPLE).await?;
        assert!(!page.address().await?.contains("v="), "nothing to keep yet");
        page.tap_button(words::START_EMPTY).await?;
        page.until_it_says(words::EMPTY).await?;
        assert!(!page.says_so(words::EXAMPLE).await?);
        assert_eq!(value(page, "drivers-0-ohms").await?, "");
        assert_eq!(page.count("li.entry").await?, 0);
        // What is still needed is a tap away.
        page.tap(".to-field").await?;
        assert_eq!(page.focused().await?, drivers::COUNT);
        page.tap_button(words::SHOW_EXAMPLE).await?;
        page.until_it_says(words::EXAMPLE).await
    });
}

#[test]
fn help_opens_and_closes_by_its_button_and_by_the_browsers() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        let first = help::ALL[0].1[0];
        page.tap_button(words::HELP).await?;
        page.until_it_says(first).await?;
        assert_eq!(page.focused().await?.to_lowercase(), words::HELP.to_lowercase());
        page.back().await?;
        page.until("help is closed", async || Ok(!page.says_so(first).await?)).await?;
        page.until_there("li.entry").await?;
        page.forward().await?;
        page.until_it_says(first).await?;
        page.tap_button(words::HELP).await?;
        page.until_there("li.entry").await?;
        page.tap_button(words::HELP).await?;
        page.until_it_says(first).await?;
        page.refresh().await?;
        page.until_it_says(first).await?;
        page.tap_button(words::chosen::BACK).await?;
        page.until_there("li.entry").await
    });
}

#[test]
fn sun_is_one_tap_and_is_there_before_the_page_is() {
    journey(async |page| {
        let is_sun = "return document.documentElement.classList.contains('sun')";
        page.open("").await?;
        page.settled().await?;
        assert!(!page.asks(is_sun).await?);
        page.tap_button(words::SUN).await?;
        page.until("the page is drawn for the sun", async || page.asks(is_sun).await).await?;
        let told = page.told_of("button").await?;
        assert!(told.contains(&(words::SUN.to_owned(), true)), "{told:?}");
        let early = "document.addEventListener('DOMContentLoaded', () => {
            window.sunEarly = document.documentElement.classList.contains('sun')
                && document.getElementById('page').childElementCount === 0; });";
        page.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": early })).await?;
        page.refresh().await?;
        assert!(page.asks("return window.sunEarly").await?, "before the page itself");
        assert!(page.asks(is_sun).await?);
        page.tap_button(words::SUN).await?;
        page.until("it is drawn as usual", async || Ok(!page.asks(is_sun).await?)).await?;
        page.refresh().await?;
        assert!(!page.asks(is_sun).await?);
        Ok(())
    });
}

#[test]
fn a_usual_value_is_written_into_its_field() {
    journey(async |page| {
        page.open("#v=1&drivers=2~2~4~300").await?;
        page.settled().await?;
        let usual = format!("{}: {}", words::USUAL, drivers::OHMS);
        let untouched =
            "return [...document.querySelectorAll('.usual')].every((one) => one.value === '')";
        assert!(page.asks(untouched).await?, "none is chosen, so that each can be");
        // Every one of them, the first and the last too, and one of them twice. Two dual
        // drivers, all coils in series: four times as many ohms.
        for (ohms, load) in [("16", "64 Ω"), ("8", "32 Ω"), ("0.7", "2.8 Ω"), ("8", "32 Ω")] {
            page.to_the_top().await?;
            page.tab_to(&usual).await?;
            page.press(ohms).await?;
            page.until(&format!("the field holds {ohms}"), async || {
                Ok(value(page, "drivers-0-ohms").await? == ohms)
            })
            .await?;
            page.settled().await?;
            assert!(page.listed().await?[0].0.starts_with(load), "{ohms}");
        }
        // Free entry goes on from there.
        page.fill_from_the_top(drivers::OHMS, "3.7").await?;
        assert_eq!(value(page, "drivers-0-ohms").await?, "3.7");
        Ok(())
    });
}

#[test]
fn what_cannot_be_read_stays_and_is_told_beside_its_field() {
    journey(async |page| {
        page.open("#v=1&drivers=2~2~4~300&amplifier=1~1&channel=1~4:540").await?;
        page.settled().await?;
        let before = page.text("ol.entries").await?;
        page.fill_from_the_top(drivers::OHMS, "four").await?;
        page.until_there(".note-stale").await?;
        assert!(page.says_so(words::EARLIER).await?);
        assert_eq!(value(page, "drivers-0-ohms").await?, "four");
        assert_eq!(page.text("ol.entries").await?, before, "the last good answer");
        let beside = "const field = document.activeElement;
            const message = document.getElementById(field.getAttribute('aria-describedby').split(' ')[0]);
            const [box, below] = [field, message].map((e) => e.getBoundingClientRect());
            return field.ariaInvalid === 'true' && message.innerText.length > 10
                && below.top >= box.bottom - 1 && below.top - box.bottom < 60;";
        assert!(page.asks(beside).await?, "the message stands beside its field");
        page.refresh().await?;
        assert_eq!(value(page, "drivers-0-ohms").await?, "four");
        page.fill_from_the_top(drivers::OHMS, "4").await?;
        page.settled().await?;
        assert_eq!(page.count(".note-stale").await?, 0);
        assert_eq!(page.text("ol.entries").await?, before);
        Ok(())
    });
}

#[test]
fn where_nothing_fits_the_page_says_so_and_one_tap_makes_it_fit() {
    journey(async |page| {
        page.widen(360).await?;
        page.open(&states::nothing_fits()).await?;
        page.until_it_says(words::NONE_FITS).await?;
        page.until_it_says(nearest::WHAT_WOULD_FIT).await?;
        let fields = page.fields().await?;
        assert!(page.count(".way-out").await? >= 2);
        page.tap(".way-out").await?;
        page.until("something fits", async || Ok(!page.says_so(words::NONE_FITS).await?)).await?;
        page.settled().await?;
        let listed = page.listed().await?;
        assert!(listed[0].1[0].contains("fits"), "{listed:?}");
        assert_ne!(page.fields().await?, fields);
        page.tap("#undo").await?;
        page.until_it_says(words::NONE_FITS).await?;
        let only_form = |all: Vec<String>| all.into_iter().take(8).collect::<Vec<_>>();
        assert_eq!(only_form(page.fields().await?), only_form(fields));
        Ok(())
    });
}

/// Whether a load is among those listed.
async fn lists(page: &Page, load: &str) -> WebDriverResult<bool> {
    Ok(page.listed().await?.iter().any(|(heading, _)| heading.starts_with(load)))
}

#[test]
fn a_link_is_opened_as_far_as_it_can_be_and_what_was_left_out_is_named() {
    let rig = "drivers=2~2~4~300&amplifier=1~1&channel=1~4:540";
    // A part that cannot be, the sentence about it, and what opens all the same.
    let cases = [
        ("load=0", words::link_impossible("load")),
        ("load=1/0", words::link_impossible("load")),
        ("load=-4", words::link_impossible("load")),
        ("view=garage", words::link_impossible("view")),
        ("order=sideways", words::link_impossible("order")),
        ("compare=", words::link_impossible("compare")),
        ("compare=v%3D1%26drivers%3D2", words::link_impossible("compare")),
        ("garage=1", words::link_unknown("garage")),
    ];
    journey(async |page| {
        for (part, left_out) in &cases {
            page.open_afresh(&format!("#v=1&{part}&{rig}")).await?;
            page.until(&format!("there is a notice about {part}"), async || {
                page.says_so(words::LINK_OPENED_IN_PART).await
            })
            .await?;
            assert!(page.says_so(left_out).await?, "{part}: {}", page.text(".notice").await?);
            assert!(lists(page, "16 Ω").await?, "{part}");
            page.tap_button(words::DISMISS).await?;
            page.until("the notice is gone", async || Ok(page.count(".notice").await? == 0))
                .await?;
        }
        Ok(())
    });
}

/// Whether a key or a load belongs to the rig is known only with the answer.
#[test]
fn a_link_to_what_the_rig_does_not_have_opens_the_rig() {
    let rig = "drivers=2~2~4~300&amplifier=1~1&channel=1~4:540";
    journey(async |page| {
        page.open(&format!("#v=1&load=7&{rig}")).await?;
        page.until_it_says(&words::link_impossible("load")).await?;
        assert_eq!(page.rungs().await?[0], (words::ladder::ALL.to_owned(), true));
        assert!(lists(page, "16 Ω").await?);
        page.open_afresh(&format!("#v=1&key=1:9z&{rig}")).await?;
        page.until_it_says(words::KEY_UNKNOWN).await?;
        page.open_afresh(&format!("#v=1&view=compare&compare=nonsense&{rig}")).await?;
        page.until_it_says(&words::link_impossible("compare")).await?;
        page.until_it_says(words::compare::EMPTY).await?;
        page.tap_button(words::chosen::BACK).await?;
        page.settled().await?;
        works(page).await
    });
}

/// The messages of the fields that a first visitor meets.
#[test]
fn a_field_that_is_still_empty_is_wanted_and_not_wrong() {
    journey(async |page| {
        page.open("#v=1&drivers=2~2~~&amplifier=1~1&channel=").await?;
        page.until_it_says(words::STILL_NEEDED).await?;
        assert_eq!(page.count("[aria-invalid=true]").await?, 0);
        assert!(!page.says_so(words::PUT_RIGHT).await?);
        Ok(())
    });
}

/// On a phone what decides, the answer and the way to the wiring are on the first screen: from
/// an empty page to an answer nothing is scrolled, and four things are tapped.
#[test]
fn the_first_screen_holds_what_decides_and_the_answer() {
    journey(async |page| {
        page.screen(360, 640).await?;
        page.open("").await?;
        page.settled().await?;
        page.until_it_says(words::LEAD).await?;
        let deciding = [
            "#drivers-0-count",
            "#drivers-0-coils",
            "#drivers-0-ohms",
            "#amplifier-channels-0-least_ohms",
            ".strip-thumb svg",
            ".strip-act",
        ];
        let in_view = "return arguments[0].filter((of) => {
            const at = document.querySelector(of)?.getBoundingClientRect();
            if (at === undefined || at.height === 0) return true;
            const [x, y] = [at.x + at.width / 2, at.y + at.height / 2];
            return at.top < 0 || at.bottom > innerHeight
                || document.elementFromPoint(x, y)?.closest(of) === null })";
        assert_eq!(page.run(in_view, vec![json!(deciding)]).await?, json!([]));
        page.tap_button(words::START_EMPTY).await?;
        page.until_it_says(words::EMPTY).await?;
        for (field, text) in [
            ("#drivers-0-count", "2"),
            ("#drivers-0-ohms", "2"),
            ("#amplifier-channels-0-least_ohms", "1"),
        ] {
            // Tapped as the page lies.
            assert_eq!(page.run(in_view, vec![json!([field])]).await?, json!([]), "{field}");
            page.browser.find(By::Css(field)).await?.click().await?;
            page.press(text).await?;
        }
        page.settled().await?;
        assert_eq!(page.run(in_view, vec![json!(deciding)]).await?, json!([]));
        assert_eq!(page.run("return scrollY", Vec::new()).await?, json!(0));
        assert!(
            page.text(".strip").await?.starts_with("4 Ω ✓ fits"),
            "{}",
            page.text(".strip").await?
        );
        page.tap(".strip-act").await?;
        page.until_there(".wired-figure").await
    });
}
