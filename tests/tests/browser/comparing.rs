//! Journeys to configurations side by side.

use super::page::{Page, journey};
use super::words::{self, compare, drivers};
use super::{states, works};
use coilwright_solver::level::WhyNot;
use coilwright_words::english::level;
use thirtyfour::prelude::*;

/// The table: the name of each row, whether it is marked, and its cells.
async fn table(page: &Page) -> WebDriverResult<Vec<(String, bool, Vec<String>)>> {
    page.until_there("main table").await?;
    let script = "const plain = (e) => e.innerText.replace(/\\s+/g, ' ').trim();
        return [...document.querySelectorAll('main table tr')].map((row) => [
            plain(row.cells[0]).replace(' ≠', ''),
            plain(row.cells[0]).includes('≠'),
            [...row.cells].slice(1).map(plain)])";
    Ok(serde_json::from_value(page.run(script, Vec::new()).await?)?)
}

async fn row(page: &Page, name: &str) -> WebDriverResult<(bool, Vec<String>)> {
    let rows = table(page).await?;
    let found = rows.iter().find(|row| row.0 == name);
    let (_, marked, cells) = found.unwrap_or_else(|| panic!("no row “{name}” in {rows:?}"));
    Ok((*marked, cells.clone()))
}

/// Puts the first of a load aside.
async fn put_aside(page: &Page, load: &str) -> WebDriverResult<()> {
    let before = page.count("[aria-pressed=true].entry-compare").await?;
    page.settled().await?;
    let script = "const all = [...document.querySelectorAll('ol.entries > li')];
        // Its entries stand after it; the first is counted from 1.
        return 2 + all.findIndex((item) => item.querySelector('h3')?.innerText.startsWith(arguments[0]))";
    let number = page.run(script, vec![load.into()]).await?;
    page.tap(&format!("li.entry:nth-child({number}) .entry-compare")).await?;
    page.until("it is put aside", async || {
        Ok(page.count("[aria-pressed=true].entry-compare").await? == before + 1)
    })
    .await
}

#[test]
fn three_stand_side_by_side_in_any_browser_and_one_goes() {
    let mut address = String::new();
    let mut before = Vec::new();
    journey(async |page| {
        page.open("").await?;
        page.settled().await?;
        put_aside(page, "24 Ω").await?;
        put_aside(page, "6 Ω").await?;
        page.fill_from_the_top(drivers::COUNT, "2").await?;
        page.settled().await?;
        put_aside(page, "16 Ω").await?;
        page.tap_button(&compare::button(3)).await?;
        let (marked, rigs) = row(page, compare::RIG).await?;
        assert!(marked && rigs.len() == 3, "{rigs:?}");
        assert!(rigs[0] == rigs[1] && rigs[1] != rigs[2], "{rigs:?}");
        let (marked, loads) = row(page, compare::LOAD).await?;
        // Two dual 4 Ω in series all through are 16 Ω.
        assert!(marked && loads == ["24 Ω", "6 Ω", "16 Ω"], "{loads:?}");
        for (name, marked, cells) in table(page).await? {
            let differ = match name.as_str() {
                // Its heads.
                "" => false,
                // 24, 6 and 16 Ω are three circuits at three levels.
                compare::CIRCUIT | compare::LEVEL => true,
                _ => cells.iter().any(|cell| *cell != cells[0]),
            };
            assert_eq!(marked, differ, "{name}: {cells:?}");
        }
        before = table(page).await?;
        page.until_kept().await?;
        page.refresh().await?;
        assert_eq!(table(page).await?, before);
        address = page.address().await?;
        Ok(())
    });
    journey(async |page| {
        page.open(address.trim_start_matches('/')).await?;
        assert_eq!(table(page).await?, before);
        page.tap("main table thead th:nth-of-type(2) button").await?;
        page.until("one is gone", async || Ok(table(page).await?[0].2.len() == 2)).await?;
        assert_eq!(row(page, compare::LOAD).await?.1, ["24 Ω", "16 Ω"]);
        Ok(())
    });
}

/// Equal drivers close together: twice the drivers with the same power each are 6 dB
/// louder, 20·log10(2) (common practice, no source).
#[test]
fn the_difference_of_level_is_told_for_equal_drivers_and_why_not_for_others() {
    journey(async |page| {
        // An amplifier with more than enough power: each driver gets what it is rated for.
        let rig = |key: &str, drivers: &str| {
            let key = states::within(key);
            let link = format!("v=1&key={key}&drivers={drivers}&amplifier=1~1&channel=1~16:5000");
            states::within(&link)
        };
        page.open(&format!(
            "#v=1&view=compare&compare={}&compare={}&compare={}&drivers=1~2~4~100",
            rig("1:1a", "1~1~4~100"),
            rig("1:1a+2a", "2~1~4~100"),
            rig("1:1a+2a", "2~1~8~100"),
        ))
        .await?;
        let (_, levels) = row(page, compare::LEVEL).await?;
        assert_eq!(levels[0], compare::FIRST);
        assert_eq!(levels[1], level::difference(6.0));
        assert_eq!(levels[2], level::why_not(WhyNot::UnlikeDrivers));
        Ok(())
    });
}

#[test]
fn back_and_forward_go_between_list_and_comparison() {
    journey(async |page| {
        page.open("").await?;
        page.settled().await?;
        put_aside(page, "24 Ω").await?;
        page.tap_button(&compare::button(1)).await?;
        table(page).await?;
        assert_eq!(page.focused().await?.to_lowercase(), compare::HEADING.to_lowercase());
        page.back().await?;
        page.until_there("li.entry").await?;
        assert_eq!(page.count("main table").await?, 0);
        page.forward().await?;
        assert_eq!(table(page).await?[0].2.len(), 1);
        page.tap_button(words::chosen::BACK).await?;
        page.until_there("li.entry").await?;
        page.back().await.ok();
        Ok(())
    });
}

#[test]
fn a_link_to_a_comparison_opens_it() {
    journey(async |page| {
        page.open(&states::side_by_side()).await?;
        let (_, loads) = row(page, compare::LOAD).await?;
        // Three dual 4 Ω: six coils in series; each driver 8 Ω, three in parallel.
        assert_eq!(loads, ["24 Ω", "8/3 Ω ≈ 2.67 Ω", "8 Ω"]);
        page.tap_button(words::chosen::BACK).await?;
        works(page).await
    });
}
