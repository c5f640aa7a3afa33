//! Journeys through listings that take their time.

use super::page::{Page, journey};
use super::words::{self, drivers};
use coilwright_words::english::counts;
use thirtyfour::prelude::*;

/// Five dual-coil drivers, no filter: 281,964 configurations by the lemma of Cauchy and
/// Frobenius, which `counting.rs` holds against the page's solver.
const LONG: &str =
    "#v=1&joined_only=0&even_only=0&drivers=5~2~4~300&amplifier=1~1&channel=1~1:1000";
const OF_LONG: u64 = 281_964;

/// Slow enough for a person to see what happens.
const SLOWLY: u32 = 30;

/// Opens a long listing and waits until it is under way.
async fn begin(page: &Page, link: &str) -> WebDriverResult<()> {
    page.open("#v=1&drivers=1~1~4~300").await?;
    page.settled().await?;
    page.slow_down(SLOWLY).await?;
    page.run("location.hash = arguments[0]", vec![link.into()]).await?;
    page.until_there("progress").await
}

async fn is_complete(page: &Page) -> WebDriverResult<()> {
    page.slow_down(1).await?;
    page.settled().await?;
    page.until_it_says(&words::count(OF_LONG, Some(OF_LONG))).await
}

#[test]
fn a_long_listing_shows_how_far_it_is_and_comes_to_its_end() {
    journey(async |page| {
        begin(page, LONG).await?;
        let far = "const bar = document.querySelector('progress'); return bar && bar.position";
        let mut before = 0.0;
        let mut seen = Vec::new();
        while let Some(now) = page.run(far, Vec::new()).await?.as_f64() {
            assert!(now >= before && now <= 1.0, "forward only: {before}, then {now}");
            before = now;
            if seen.last() != Some(&now) {
                seen.push(now);
            }
        }
        assert!(seen.len() > 2, "a bar that stands still: {seen:?}");
        is_complete(page).await
    });
}

/// The longest answer that was found: eight channels, each a little stronger than the last.
#[test]
fn a_long_listing_can_be_stopped_and_taken_up_again() {
    let channels: String = (100..108).map(|watts| format!("&channel=1~4:{watts}")).collect();
    let longest = format!("#v=1&drivers=16~1~4~300&amplifier=1~8~unlike{channels}");
    journey(async |page| {
        begin(page, &longest).await?;
        page.tap_button(words::STOP).await?;
        page.until_it_says(words::STOPPED).await?;
        assert_eq!(page.count("progress, li.entry").await?, 0);
        page.tap_button(words::GO_ON).await?;
        page.until_there("progress").await?;
        page.slow_down(1).await?;
        page.settled().await?;
        assert!(!page.says_so(words::STOPPED).await?);
        assert!(page.count("li.entry").await? > 0);
        Ok(())
    });
}

#[test]
fn a_new_question_ends_the_one_before() {
    journey(async |page| {
        begin(page, LONG).await?;
        page.run("document.querySelector('main input').focus()", Vec::new()).await?;
        page.press(Key::Shift + Key::Tab).await?;
        page.fill(drivers::COUNT, "1").await?;
        page.slow_down(1).await?;
        page.settled().await?;
        // One dual driver with both filters off: its coils in series or in parallel.
        page.until_it_says(&words::count(2, Some(2))).await?;
        tokio::time::sleep(std::time::Duration::from_millis(800)).await;
        assert!(page.says_so(&words::count(2, Some(2))).await?, "no late answer replaces it");
        assert!(!page.says_so(&counts::listing(0, 0)).await?);
        Ok(())
    });
}
