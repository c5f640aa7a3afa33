//! Journeys through the page in a real browser.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a proof stops at the first surprise"
)]

#[path = "browser/page.rs"]
mod page;
#[path = "browser/server.rs"]
mod server;
#[path = "browser/trouble.rs"]
mod trouble;
#[path = "browser/ways.rs"]
mod ways;

use coilwright_words::english::page as words;
use page::{Page, journey, root};
use serde_json::json;
use thirtyfour::prelude::*;
use words::{amplifier, drivers};

/// Two single 2 Ω drivers of 500 W on a mono amplifier, by keyboard from a first visit.
async fn two_drivers(page: &Page, least: &str) -> WebDriverResult<()> {
    page.open("").await?;
    page.tab_to(words::START_EMPTY).await?;
    page.press(Key::Enter + "").await?;
    page.fill(drivers::COUNT, "2").await?;
    page.tab_to(drivers::COILS).await?;
    page.press(drivers::coils(1)).await?;
    page.fill(drivers::OHMS, "2").await?;
    page.fill(drivers::WATTS, "500").await?;
    page.fill(amplifier::LEAST, least).await?;
    page.fill(&amplifier::point_watts(1), "1000").await?;
    page.fill(&amplifier::point_ohms(1), "1").await?;
    page.settled().await
}

/// The verdict that an entry shows, of the two that this rig can get.
fn verdicts(rungs: &[(String, Vec<String>)]) -> Vec<(&str, bool)> {
    let fits = |entry: &String| {
        let (fits, low) = (entry.contains("fits"), entry.contains("too low"));
        assert!(fits != low, "one verdict, not {entry}");
        fits
    };
    let rung = |rung: &'_ (String, Vec<String>)| rung.1.iter().all(fits);
    rungs.iter().map(|each| (each.0.split(':').next().unwrap(), rung(each))).collect()
}

/// Common practice, no source: two single 2 Ω drivers are 4 Ω or 1 Ω.
#[test]
fn the_two_driver_rig_is_entered_by_keyboard_alone_and_a_refresh_loses_nothing() {
    journey(async |page| {
        two_drivers(page, "1").await?;
        let rungs = page.rungs().await?;
        assert_eq!(verdicts(&rungs), [("4 Ω", true), ("1 Ω", true)]);
        let fields = page.fields().await?;
        page.until_kept().await?;
        page.refresh().await?;
        assert_eq!(page.rungs().await?, rungs);
        assert_eq!(page.fields().await?, fields);
        Ok(())
    });
}

/// The address lags a little behind the fields; what was typed last is not lost by that.
#[test]
fn a_refresh_right_after_a_keystroke_loses_nothing() {
    journey(async |page| {
        two_drivers(page, "1").await?;
        page.until_kept().await?;
        page.press(Key::Control + "a").await?;
        page.press("3.7").await?;
        let fields = page.fields().await?;
        assert!(fields.iter().any(|field| field == "3.7"), "{fields:?}");
        page.refresh().await?;
        assert_eq!(page.fields().await?, fields);
        Ok(())
    });
}

#[test]
fn a_load_below_the_least_load_is_called_too_low() {
    journey(async |page| {
        two_drivers(page, "2").await?;
        assert_eq!(verdicts(&page.rungs().await?), [("4 Ω", true), ("1 Ω", false)]);
        Ok(())
    });
}

#[test]
fn a_first_visit_shows_the_example_marked_as_one() {
    journey(async |page| {
        page.open("").await?;
        page.until_it_says(words::EXAMPLE).await?;
        // Worked by hand: two dual 2 Ω, both filters on.
        let rungs = page.rungs().await?;
        let loads: Vec<&str> = verdicts(&rungs).into_iter().map(|(load, _)| load).collect();
        assert_eq!(loads, ["8 Ω", "2 Ω", "0.5 Ω"]);
        page.until_it_says(&words::count(4, Some(16))).await?;
        page.fill(drivers::OHMS, "4").await?;
        page.settled().await?;
        assert!(
            !page.says().await?.contains(words::EXAMPLE),
            "typed over, it is the visitor's own"
        );
        Ok(())
    });
}

#[test]
fn the_address_rebuilds_the_rig_in_another_browser() {
    let mut address = String::new();
    let mut before = (Vec::new(), Vec::new());
    journey(async |page| {
        two_drivers(page, "2").await?;
        page.until_kept().await?;
        address = page.address().await?;
        before = (page.rungs().await?, page.fields().await?);
        Ok(())
    });
    journey(async |page| {
        page.open(address.trim_start_matches('/')).await?;
        assert_eq!((page.rungs().await?, page.fields().await?), before);
        Ok(())
    });
}

/// A configuration is opened by keyboard, and the browser's own way back leads back.
#[test]
fn a_configuration_is_chosen_and_left_again() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        let list = page.address().await?;
        let entry = "document.querySelector('main li:has(> h3) button').focus()";
        page.run(entry, Vec::new()).await?;
        page.press(Key::Enter + "").await?;
        page.until_it_says(words::chosen::CHOSEN).await?;
        page.until("the address holds the choice", async || {
            Ok(page.address().await?.contains("key="))
        })
        .await?;
        page.refresh().await?;
        page.until_it_says(words::chosen::CHOSEN).await?;
        page.back().await?;
        page.until("the choice is gone", async || {
            Ok(!page.says().await?.contains(words::chosen::CHOSEN))
        })
        .await?;
        assert_eq!(page.rungs().await?.len(), 3, "{list}");
        Ok(())
    });
}

#[test]
fn a_broken_link_gives_a_notice_and_a_working_page() {
    for link in [
        "#v=1&drivers=two~2~2~500&colour=orange",
        "#v=1&drivers=2~2~%ZZ&drivers=2~1~4~300",
        "#v=9&drivers=2~1~4~300",
        "#v=1&key=1a%2B%2B&drivers=2~1~4~300&order=sideways",
        "#v=1&amplifier=&channel=~~~:::&bridge=1&drivers=2~1~4~300",
    ] {
        journey(async |page| {
            page.open(link).await?;
            let notice = "return document.querySelector('.notice') !== null";
            page.until("there is a notice", async || page.asks(notice).await).await?;
            works(page).await
        });
    }
}

/// The page answers what is typed into it.
async fn works(page: &Page) -> WebDriverResult<()> {
    page.run("document.querySelector('main input').focus()", Vec::new()).await?;
    page.press(Key::Shift + Key::Tab).await?;
    page.fill(drivers::COUNT, "2").await?;
    page.tab_to(drivers::COILS).await?;
    page.press(drivers::coils(1)).await?;
    page.fill(drivers::OHMS, "3").await?;
    page.settled().await?;
    let rungs = page.rungs().await?;
    let loads: Vec<&str> = rungs.iter().map(|rung| rung.0.split(':').next().unwrap()).collect();
    assert_eq!(loads, ["6 Ω", "1.5 Ω"]);
    Ok(())
}

#[test]
fn broken_storage_gives_a_notice_and_a_working_page() {
    let refused = "for (const name of ['localStorage', 'sessionStorage'])
        Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError'); } });";
    let full = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };";
    for trouble in [refused, full] {
        journey(async |page| {
            let on_opening = json!({ "source": trouble });
            page.command("Page.addScriptToEvaluateOnNewDocument", on_opening).await?;
            page.open("").await?;
            works(page).await?;
            page.until_it_says(words::NOT_KEPT).await?;
            // What storage does not keep, the address does.
            page.until("the address holds it", async || Ok(page.address().await?.contains("~3~")))
                .await?;
            let rungs = page.rungs().await?;
            page.refresh().await?;
            assert_eq!(page.rungs().await?, rungs);
            Ok(())
        });
    }
}

#[test]
fn spoilt_drafts_leave_a_working_page() {
    journey(async |page| {
        two_drivers(page, "1").await?;
        let spoil = "let n = 0;
            for (const store of [localStorage, sessionStorage])
                for (const name of Object.keys(store)) { store.setItem(name, 'v=1&drivers=\\u0000%ff{'); n += 1; }
            return n;";
        let spoilt = page.run(spoil, Vec::new()).await?;
        assert!(spoilt.as_u64().unwrap() > 0, "nothing was stored");
        // A page that leaves writes its drafts once more; another one does not.
        page.run("history.replaceState(null, '', location.pathname)", Vec::new()).await?;
        page.refresh().await?;
        works(page).await
    });
}

/// What the page may be showing, by its links.
const STATES: [(&str, &str); 8] = [
    ("a first visit", ""),
    ("nothing yet", "#v=1&drivers=~1~~"),
    ("wrong values", "#v=1&drivers=17~1~four~-1&amplifier=1~9&channel=0~4:x"),
    ("a long list", "#v=1&joined_only=0&even_only=0&drivers=4~2~4/3~333.3333"),
    (
        "two kinds and a bridge",
        "#v=1&drivers=2~2~4~300&drivers=1~1~8~150&amplifier=1~2&channel=2~4:150~2:250&bridge=1~2~4~4:500",
    ),
    (
        "every way of four channels",
        "#v=1&drivers=4~1~4~300&amplifier=1~4&channel=2~4:150~tied&bridge=1~2~4~4:500&bridge=3~4~~",
    ),
    (
        "a driver on two outputs",
        "#v=1&joined_only=0&drivers=1~2~4~300&amplifier=1~2&channel=2~4:150~2:250",
    ),
    ("a choice", "#v=1&key=1:1a%2B1b%2B2a%2B2b&drivers=2~2~2~500&amplifier=1~1&channel=1~1:1000"),
];

#[test]
fn nothing_scrolls_sideways_at_any_width() {
    journey(async |page| {
        for (state, link) in STATES {
            page.open_afresh(link).await?;
            page.settled().await?;
            for width in [320, 360, 768, 1000, 1280] {
                page.widen(width).await?;
                let wide = "return [document.documentElement.scrollWidth,
                    ...[...document.querySelectorAll('main *')].map((e) => e.getBoundingClientRect())
                        .filter((box) => box.width > 0).map((box) => Math.ceil(box.right - 0.5))]";
                let edges: Vec<u32> = serde_json::from_value(page.run(wide, Vec::new()).await?)?;
                assert!(edges.len() > 20, "{state}: only {} edges", edges.len());
                let most = edges.into_iter().max().unwrap();
                assert!(most <= width, "{state} at {width} px reaches {most} px");
            }
        }
        Ok(())
    });
}

/// axe-core finds nothing wrong (it cannot find everything).
#[test]
fn axe_finds_nothing_in_light_and_dark() {
    let source = root().join("node_modules/axe-core/axe.min.js");
    let axe =
        std::fs::read_to_string(source).expect("axe-core: `npm ci --ignore-scripts` brings it");
    journey(async |page| {
        for (state, link) in STATES {
            for (scheme, width) in [("light", 360), ("dark", 360), ("light", 1280), ("dark", 1280)]
            {
                page.widen(width).await?;
                page.paint(scheme).await?;
                page.open_afresh(link).await?;
                page.settled().await?;
                page.run(&axe, Vec::new()).await?;
                let found = page.finds().await?;
                assert_eq!(found, json!([]), "{state}, {scheme}, {width} px");
            }
        }
        Ok(())
    });
}

/// Pictures of the page for whoever looks at them, and for the README where asked.
#[test]
fn the_page_is_pictured() {
    let artefacts = root().join("artefacts");
    std::fs::create_dir_all(&artefacts).unwrap();
    journey(async |page| {
        for scheme in ["light", "dark"] {
            for width in [360, 768, 1280] {
                page.paint(scheme).await?;
                page.open_afresh("").await?;
                page.settled().await?;
                let picture = page.picture(width).await?;
                // Width in the head of a PNG: bytes 16 to 19.
                assert_eq!(picture[16..20], width.to_be_bytes());
                assert!(picture.len() > 20_000, "a picture of nothing");
                std::fs::write(artefacts.join(format!("page-{width}-{scheme}.png")), &picture)
                    .unwrap();
                if std::env::var_os("COILWRIGHT_PICTURE").is_some()
                    && (scheme, width) == ("light", 1280)
                {
                    std::fs::create_dir_all(root().join("docs")).unwrap();
                    std::fs::write(root().join("docs/page.png"), &picture).unwrap();
                }
            }
        }
        Ok(())
    });
}
