//! Journeys through every way to use an amplifier's channels.

use super::page::{Page, journey};
use super::words::{self, amplifier, drivers};
use coilwright_solver::judge::Verdict;
use coilwright_words::english::{judged, ways};
use thirtyfour::prelude::*;

/// Every way that the list tells of, once each, in its order: over the entries where
/// several outputs are in use, and in an entry where one is.
async fn told_ways(page: &Page) -> WebDriverResult<Vec<String>> {
    page.settled().await?;
    let script = "const all = [];
        let over = '';
        for (const item of document.querySelectorAll('main ol.entries > li')) {
            if (item.querySelector('h3') !== null) over = item.querySelector('h3 .way')?.innerText ?? '';
            else all.push(over || [...item.querySelectorAll('span')].map((e) => e.innerText)
                .find((text) => /^(channels? |amplifier )[^:]*$/.test(text)) || 'no way is told');
        }
        return [...new Set(all)]";
    Ok(serde_json::from_value(page.run(script, Vec::new()).await?)?)
}

/// Presses the first entry that says all of these.
async fn choose(page: &Page, texts: &[&str]) -> WebDriverResult<()> {
    let script = "const entries = [...document.querySelectorAll('main li.entry')];
        const found = entries.find((entry) => arguments[0].every((text) =>
            entry.innerText.replace(/\\s+/g, ' ').toLowerCase().includes(text.toLowerCase())));
        found?.querySelector('.entry-main').click();
        return found !== undefined;";
    let found = page.run(script, vec![serde_json::json!(texts)]).await?;
    assert_eq!(found, serde_json::json!(true), "an entry that says {texts:?}");
    page.settled().await
}

/// The amplifier of four channels with the bridges its maker names, and four drivers:
/// worked by hand, 8 Ω on each bridge is twice what two channels of 2 Ω need.
#[test]
fn four_drivers_go_in_pairs_on_two_bridges_and_a_refresh_loses_nothing() {
    journey(async |page| {
        page.open("").await?;
        page.tab_to(words::START_EMPTY).await?;
        page.press(Key::Enter + "").await?;
        page.fill(drivers::COUNT, "4").await?;
        page.fill(drivers::OHMS, "4").await?;
        page.fill(drivers::WATTS, "300").await?;
        page.fill(amplifier::CHANNELS, "4").await?;
        page.fill(amplifier::LEAST, "2").await?;
        page.fill(&amplifier::point_watts(1), "150").await?;
        page.fill(&amplifier::point_ohms(1), "4").await?;
        for _ in 0..2 {
            page.tab_to(amplifier::ADD_BRIDGE).await?;
            page.press(Key::Enter + "").await?;
        }
        let mut found = told_ways(page).await?;
        found.sort_unstable();
        let want = [
            "Bridges 1+2 and 3+4",
            "Channels 1 and 2 bridged, channels 3 and 4 apart",
            "Channels 1 to 4 apart",
            "channel 1",
            "channels 1 and 2 bridged",
        ];
        assert_eq!(found, want);
        assert!(page.says_so(ways::NEVER).await?);
        assert!(!page.says().await?.to_lowercase().contains("2 and 3 bridged"));
        assert!(!page.says().await?.contains("2+3"));
        let both = "bridges 1+2 and 3+4";
        choose(page, &[both, "8 Ω", judged::verdict(Verdict::FitsByDerivation)]).await?;
        let said = "Bridges 1+2 and 3+4, two drivers in series on each.";
        page.until_it_says(said).await?;
        assert!(page.says_so(ways::SAME_SIGNAL).await?);
        page.until_kept().await?;
        page.refresh().await?;
        page.until_it_says(said).await?;
        assert!(page.address().await?.contains("key=1+2:1a+2a"), "{}", page.address().await?);
        Ok(())
    });
}

/// Four alike and one strong channel is common (common practice, no source).
#[test]
fn the_strong_channel_of_five_takes_what_the_others_may_not() {
    journey(async |page| {
        let weak = "&channel=2~4:100".repeat(4);
        page.open(&format!(
            "#v=1&drivers=1~2~2~500&amplifier=1~5~unlike{weak}&channel=1~2:500~1:800"
        ))
        .await?;
        let mut found = told_ways(page).await?;
        found.sort_unstable();
        assert_eq!(found, ["channel 1", "channel 5"]);
        let entries: Vec<String> =
            page.listed().await?.into_iter().flat_map(|(_, all)| all).collect();
        let low: Vec<_> = entries.iter().filter(|one| one.contains("too low")).collect();
        assert_eq!(low.len(), 1, "1 Ω on a channel of 2 Ω: {entries:?}");
        assert!(low[0].contains("channel 1"), "{low:?}");
        choose(page, &["channel 5", "500 W", judged::verdict(Verdict::Fits)]).await?;
        page.until_it_says(
            "Channel 5, one driver (its coils in parallel) on it; channels 1 to 4 idle.",
        )
        .await
    });
}

/// A maker's two terminal pairs of one channel are tied inside: common practice, no source.
#[test]
fn two_terminal_pairs_are_one_output_and_the_page_says_so() {
    journey(async |page| {
        page.open("#v=1&drivers=2~1~2~300&amplifier=1~1&channel=1~2:500~1:800").await?;
        page.settled().await?;
        let before = page.rungs().await?;
        assert!(!page.says_so(ways::TIED).await?);
        page.unfold().await?;
        page.tab_to(amplifier::TIED).await?;
        page.press(" ").await?;
        page.until_it_says(ways::TIED).await?;
        assert_eq!(page.rungs().await?, before);
        page.until("the address holds it", async || Ok(page.address().await?.contains("~tied")))
            .await
    });
}
