//! Journeys on the ladder: every load by keyboard, by tap and by what is read out.

use super::page::{Page, journey};
use super::states;
use super::words::{ladder, list};
use coilwright_solver::judge::Verdict;
use coilwright_words::english::judged;
use thirtyfour::prelude::*;

/// Worked by hand: three dual 4 Ω drivers, each 8 or 2 Ω, joined and even. All alike in
/// series 24 or 6, in parallel 8/3 or 2/3; and 2 + (8 ∥ 8) = 6 and 8 ∥ (2 + 2) = 8/3, in
/// which every driver gets a third.
pub(crate) const EXAMPLE: [(&str, u64, Verdict); 4] = [
    ("24 Ω", 1, Verdict::Fits),
    ("6 Ω", 2, Verdict::Fits),
    ("8/3 Ω", 2, Verdict::Fits),
    ("2/3 Ω", 1, Verdict::TooLow),
];

/// The loads that stand over the entries.
async fn loads(page: &Page) -> WebDriverResult<Vec<String>> {
    let listed = page.listed().await?;
    Ok(listed.iter().map(|(load, _)| load.split(" ≈").next().unwrap().to_owned()).collect())
}

/// The name of the one rung that is looked at.
async fn looked_at(page: &Page) -> WebDriverResult<String> {
    let rungs = page.rungs().await?;
    let on: Vec<_> = rungs.into_iter().filter(|(_, on)| *on).map(|(name, _)| name).collect();
    assert_eq!(on.len(), 1, "one rung is looked at, not {on:?}");
    Ok(on[0].clone())
}

#[test]
fn a_rung_is_called_by_its_load_the_number_of_ways_and_the_verdict() {
    journey(async |page| {
        page.open("").await?;
        let rungs = page.rungs().await?;
        assert_eq!(rungs[0], (ladder::ALL.to_owned(), true));
        assert_eq!(rungs.len(), 1 + EXAMPLE.len(), "{rungs:?}");
        for ((load, ways, verdict), (name, on)) in EXAMPLE.into_iter().zip(&rungs[1..]) {
            // `8/3 Ω ≈ 2.67`: words apart, as they are seen.
            assert!(name.starts_with(&format!("{load} ")), "{name} begins with {load}");
            let ways = ladder::ways(ways);
            assert!(name.contains(&ways), "{name} tells {ways}");
            assert!(name.ends_with(judged::verdict(verdict)), "{name} tells the verdict last");
            assert!(!on, "{name} is not looked at");
        }
        Ok(())
    });
}

#[test]
fn the_arrow_keys_go_from_load_to_load_and_the_list_follows() {
    journey(async |page| {
        page.open("").await?;
        page.settled().await?;
        let mut shown = loads(page).await?;
        assert_eq!(shown[0], "8/3 Ω", "the best first");
        let mut all = EXAMPLE.map(|(load, ..)| load);
        shown.sort_unstable();
        all.sort_unstable();
        assert_eq!(shown, all);
        page.tab_to(ladder::ALL).await?;
        for (load, ways, _) in EXAMPLE {
            page.press(Key::Down + "").await?;
            assert!(looked_at(page).await?.starts_with(load));
            assert_eq!(loads(page).await?, [load]);
            assert_eq!(page.listed().await?[0].1.len() as u64, ways);
            let address = async || {
                Ok(page.address().await?.contains(&format!("load={}", load.trim_end_matches(" Ω"))))
            };
            page.until("the address holds the load", address).await?;
        }
        page.press(Key::Up + "").await?;
        assert_eq!(loads(page).await?, ["8/3 Ω"]);
        page.refresh().await?;
        assert!(looked_at(page).await?.starts_with("8/3 Ω"));
        assert_eq!(loads(page).await?, ["8/3 Ω"]);
        page.tab_to(&looked_at(page).await?).await?;
        for _ in 0..3 {
            page.press(Key::Up + "").await?;
        }
        assert_eq!(looked_at(page).await?, ladder::ALL);
        assert_eq!(loads(page).await?.len(), EXAMPLE.len());
        Ok(())
    });
}

#[test]
fn a_tapped_load_is_listed_alone_until_all_are_wanted_again() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        page.tap("#ladder li:nth-child(2) label").await?;
        assert!(looked_at(page).await?.starts_with("6 Ω"));
        assert_eq!(loads(page).await?, ["6 Ω"]);
        page.until_it_says(&list::at_load("6 Ω")).await?;
        page.tap_button(list::EVERY_LOAD).await?;
        assert_eq!(loads(page).await?.len(), EXAMPLE.len());
        page.tap("#ladder li:nth-child(4) label").await?;
        assert_eq!(loads(page).await?, ["2/3 Ω"]);
        page.tap("#ladder label:has(input[value=''])").await?;
        assert_eq!(looked_at(page).await?, ladder::ALL);
        assert_eq!(loads(page).await?.len(), EXAMPLE.len());
        Ok(())
    });
}

/// What the page may hold at once, however long the list.
const MOST_ROWS: usize = 120;
const MOST_ENTRIES: usize = 25;

async fn is_bounded(page: &Page) -> WebDriverResult<()> {
    page.settled().await?;
    let rows = page.count("#ladder :is(input, button)").await?;
    let rungs = page.count("#ladder svg :is(.d-rung, .d-band)").await?;
    let entries = page.count("li.entry").await?;
    assert!(rows <= MOST_ROWS && rungs <= MOST_ROWS, "{rows} rows, {rungs} rungs");
    assert!((1..=MOST_ENTRIES).contains(&entries), "{entries} entries");
    Ok(())
}

/// OEIS A048211: eight equal coils make 337 loads.
#[test]
fn a_long_ladder_gathers_neighbours_into_bands_that_open_and_close() {
    journey(async |page| {
        page.widen(360).await?;
        page.open(&states::long_ladder()).await?;
        is_bounded(page).await?;
        assert!(page.says_so(&coilwright_words::english::counts::loads(337)).await?);
        let bands = page.told_of("button").await?;
        let size = |name: &str| -> Option<usize> {
            name.split(" load").next()?.split(' ').next_back()?.parse().ok()
        };
        let bands: Vec<_> = bands
            .iter()
            .filter(|(name, _)| name.contains(" load") && !name.contains(" runs "))
            .collect();
        let sizes: Vec<usize> = bands.iter().filter_map(|(name, _)| size(name)).collect();
        assert_eq!(sizes.iter().sum::<usize>(), 337, "every load is in one band: {bands:?}");
        let before = page.text("#ladder").await?;
        page.tap("#ladder li:nth-child(3) button").await?;
        is_bounded(page).await?;
        let inside = page.rungs().await?;
        assert_eq!(inside.len(), 1 + sizes[2], "a band opens into its loads");
        page.tap("#ladder li:nth-child(5) label").await?;
        let one = looked_at(page).await?;
        let load = one.split(" Ω").next().unwrap().to_owned();
        assert!(page.text(".listed, main").await?.contains(&load), "{one}");
        is_bounded(page).await?;
        page.tap_button(ladder::WIDER).await?;
        let after = page.text("#ladder").await?;
        assert_eq!(after, before, "closed again");
        Ok(())
    });
}

#[test]
fn a_long_list_pages_to_its_end_one_of_each_group_first() {
    journey(async |page| {
        page.open(&states::long_ladder()).await?;
        is_bounded(page).await?;
        // Back and forth, and the last page by way of one load.
        page.tap_button(list::LATER_PAGE).await?;
        is_bounded(page).await?;
        let pager = page.text("nav[aria-label]").await?;
        assert!(pager.contains("26 to 50"), "{pager}");
        page.tap_button(list::EARLIER_PAGE).await?;
        let pager = page.text("nav[aria-label]").await?;
        let kinds: u64 = pager
            .split(" of ")
            .nth(1)
            .unwrap()
            .replace(',', "")
            .split(' ')
            .next()
            .unwrap()
            .parse()
            .unwrap();
        let turn_all = "return (async (label) => {
            const pager = () => document.querySelector('nav[aria-label]');
            for (let pages = 1; ; pages += 1) {
                const next = [...pager().querySelectorAll('button')].find((b) => b.innerText === label);
                if (next === undefined) return pages;
                const before = pager().innerText;
                next.click();
                while (pager().innerText === before) await new Promise((done) => setTimeout(done, 5));
                if (document.querySelectorAll('li.entry').length > 25) return 'too many entries';
            }
        })(arguments[0])";
        let pages = page.run(turn_all, vec![list::LATER_PAGE.into()]).await?;
        assert_eq!(pages, kinds.div_ceil(25), "every page of {kinds} kinds");
        let last = page.text("nav[aria-label]").await?;
        assert!(last.contains(&list::range((kinds - 1) / 25 * 25 + 1, kinds, kinds)), "{last}");
        Ok(())
    });
}

#[test]
fn a_group_of_alike_opens_and_closes_and_the_order_can_be_chosen() {
    journey(async |page| {
        page.open(&states::long_ladder()).await?;
        page.settled().await?;
        let first = page.text("li.entry").await?;
        let alike = page.text("li.entry .entry-alike").await?;
        let count: u64 = alike
            .split(' ')
            .find_map(|word| word.replace(',', "").parse().ok())
            .expect("a group of several");
        page.tap("li.entry .entry-alike").await?;
        page.until_it_says(&list::group(count)).await?;
        is_bounded(page).await?;
        page.tap_button(list::ALL_GROUPS).await?;
        page.settled().await?;
        assert_eq!(page.text("li.entry").await?, first);
        page.to_the_top().await?;
        page.tab_to(list::ORDER).await?;
        page.press(list::BY_LOAD).await?;
        page.settled().await?;
        // All 32 Ω of eight coils of 4 Ω in series.
        assert_eq!(loads(page).await?[0], "32 Ω");
        page.until("the address holds it", async || {
            Ok(page.address().await?.contains("order=load"))
        })
        .await?;
        page.refresh().await?;
        assert_eq!(loads(page).await?[0], "32 Ω");
        let order = page.run("return document.getElementById('order').value", Vec::new()).await?;
        assert_eq!(order, "load");
        Ok(())
    });
}
