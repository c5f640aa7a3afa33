//! Journeys of whoever stands before a rig that is wired already.

use super::page::{Page, journey};
use super::words::already as say;
use coilwright_words::english::{finding, meter};
use serde_json::json;
use thirtyfour::error::WebDriverResult;

/// Two single 4 Ω drivers on an amplifier that is safe above 2 Ω.
const RIG: &str = "#v=1&drivers=2~1~4~&amplifier=1~1&channel=2";

/// Whoever stands before it has it on a phone.
async fn before_it(page: &Page) -> WebDriverResult<()> {
    page.screen(360, 640).await?;
    page.open(RIG).await?;
    page.settled().await?;
    page.tap_button(say::TITLE).await
}

/// Common practice, no source: a 4 Ω coil reads 3.2 to 3.6 Ω, so that two of them in parallel
/// read some 1.7 and in series some 6.8.
#[test]
fn who_does_not_know_how_it_is_wired_finds_what_reads_like_it() {
    journey(async |page| {
        before_it(page).await?;
        page.until_there("#cup-reads").await?;
        page.fill(say::CUP, "6.6").await?;
        page.until_there(".already-list").await?;
        assert_eq!(page.text(".already-list").await?, "8 Ω, 1a + 2a");
        page.tap(".already-list button").await?;
        page.until_it_says(say::READS_RIGHT).await?;
        // What was read stands where it is read of now.
        let read = "return document.querySelector('.already .reading input').value";
        assert_eq!(page.run(read, Vec::new()).await?, json!("6.6"));
        page.until_kept().await?;
        page.refresh().await?;
        page.until_it_says(say::READS_RIGHT).await
    });
}

#[test]
fn who_believes_it_is_something_else_is_in_the_finding_with_no_step_done() {
    journey(async |page| {
        before_it(page).await?;
        page.until_there("#believed").await?;
        page.tab_to(say::BELIEVED).await?;
        page.press("2").await?;
        page.until("parallel is believed", async || {
            page.asks("return document.querySelector('#believed').value === '1:1a||2a'").await
        })
        .await?;
        page.fill(finding::THERE, "6.6").await?;
        page.until_there(".finding .finding-what").await?;
        page.until_it_says(finding::TITLE).await?;
        assert!(
            page.says_so(meter::agreement(coilwright_solver::meter::Agreement::TooHigh)).await?
        );
        page.tap_button(say::SEE).await?;
        page.until_there(".step").await?;
        assert_eq!(page.count(".step-done").await?, 0);
        Ok(())
    });
}
