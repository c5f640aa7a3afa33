//! Whole jobs on one screen, from the first step to the last, with a refresh and another box in
//! the middle of each, on a phone upright and on its side and on a wide screen.

use super::page::{Page, journey};
use super::states::{self, within};
use super::words::wire as say;
use coilwright_words::english::gate;
use serde_json::{Value, json};
use thirtyfour::prelude::*;

/// Two single drivers in parallel behind a cup; two duals on tied pairs; a bridge in series.
fn rigs() -> [(&'static str, String); 3] {
    let bridge = format!(
        "#v=1&key={}&view=work&job=0~0&box=one~~~chain&drivers=2~1~4~300\
         &amplifier=1~2&channel=2~4:150~2:250&bridge=1~2~4~4:500",
        within("1+2:1a+2a")
    );
    [
        ("the pair", states::pair_at("work", 0)),
        ("tied pairs", states::two_wired("work").replace("job=6~7", "job=0~0")),
        ("a bridge in series", bridge),
    ]
}

/// Types into every field of the step that is empty; gives back the ids of those typed into.
const TYPE: &str = "const typed = [];
    for (const field of document.querySelectorAll('.working .reading input')) {
        if (field.value !== '' && !arguments[1]) continue;
        field.value = arguments[0];
        field.dispatchEvent(new Event('input', { bubbles: true }));
        typed.push(field.id);
    }
    return typed;";

/// Where a range stands beside a field its middle is typed, else that nothing is joined.
const MIDDLE: &str = "for (const id of arguments[0]) {
        const field = document.getElementById(id);
        const range = field.closest('.reading').querySelector('.reading-range')?.innerText;
        const [low, high] = (range ?? '').match(/[0-9.]+/g)?.map(Number) ?? [];
        field.value = range === undefined ? 'OL' : ((low + high) / 2).toFixed(1);
        field.dispatchEvent(new Event('input', { bubbles: true }));
    }";

/// Reads all that the step at hand asks for, as a sound rig shows it by what the page foretells.
async fn read(page: &Page) -> WebDriverResult<()> {
    // No rig of these reads 1.5 everywhere, so that ranges stand beside all fields.
    let typed = page.run(TYPE, vec![json!("1.5"), json!(false)]).await?;
    let count = typed.as_array().map_or(0, Vec::len);
    if count == 0 {
        return Ok(());
    }
    page.until("all is judged", async || Ok(page.count(".working .verdict").await? >= count))
        .await?;
    page.run(MIDDLE, vec![typed]).await?;
    page.until("all is right", async || {
        Ok(page.count(".working .reading .verdict-fits").await? >= count)
    })
    .await
}

/// How far what is on the screen reaches below it, and whether title and ways on are in view.
async fn screen(page: &Page) -> WebDriverResult<Value> {
    let script = "const acts = document.querySelector('.work-acts').getBoundingClientRect();
        const title = document.querySelector('.work-title').getBoundingClientRect();
        return [document.documentElement.scrollHeight - innerHeight,
            title.top >= 0 && acts.bottom <= innerHeight]";
    page.run(script, Vec::new()).await
}

/// What was read where, whatever was read first.
async fn readings(page: &Page) -> WebDriverResult<String> {
    let link = page.address().await?;
    let part = link.split('&').find_map(|part| part.strip_prefix("meter="));
    let all: Vec<&str> = part.unwrap_or_default().split('~').collect();
    let mut pairs: Vec<String> = all.chunks(2).map(|pair| pair.join(": ")).collect();
    pairs.sort_unstable();
    Ok(pairs.join(", "))
}

/// Loads the page anew; then changes the box and changes it back. Nothing is lost by either.
async fn disturb(page: &Page) -> WebDriverResult<()> {
    page.until_kept().await?;
    let (at, before) = (page.text(".work-far").await?, readings(page).await?);
    assert!(before.len() > 10, "something was read by then: {before}");
    page.refresh().await?;
    page.until_there(".working .work-step").await?;
    assert_eq!(page.text(".work-far").await?, at);
    page.tap_button(say::LEAVE_WORKING).await?;
    page.until_there(".box-line").await?;
    let cups = "const cups = document.querySelector('#box-cups');
        const was = cups.value; cups.value = arguments[0] ?? (was === 'none' ? 'one' : 'none');
        cups.dispatchEvent(new Event('change', { bubbles: true })); return was";
    let was = page.run(cups, vec![Value::Null]).await?;
    page.until("the box is another", async || {
        let now = page.run("return document.querySelector('.box-line summary').innerText", vec![]);
        Ok(now.await?.as_str().is_some_and(|now| !now.is_empty()))
    })
    .await?;
    page.run(cups, vec![was]).await?;
    page.until_kept().await?;
    assert_eq!(readings(page).await?, before);
    page.tap_button(say::GO_ON_WORKING).await?;
    page.until_there(".working .work-step").await?;
    assert_eq!(page.text(".work-far").await?, at);
    Ok(())
}

/// From step to step to the end.
async fn work(page: &Page, phone: bool) -> WebDriverResult<usize> {
    let (mut steps, mut below) = (0, Vec::new());
    loop {
        read(page).await?;
        assert_eq!(page.count(".gate").await?, 0, "{}", page.says().await?);
        let found = screen(page).await?;
        if phone && found != json!([0, true]) {
            below.push(format!("{} {found}", page.text(".work-title").await?));
        }
        if steps == 4 {
            disturb(page).await?;
        }
        let at = page.text(".work-far").await?;
        page.tap_button(say::DONE).await?;
        steps += 1;
        page.until("the next step", async || {
            Ok(page.text(".work-far").await? != at || page.count(".work-over").await? > 0)
        })
        .await?;
        if page.count(".work-over").await? > 0 {
            assert!(below.is_empty(), "below the screen: {below:#?}");
            return Ok(steps);
        }
    }
}

const SCREENS: [(u32, u32); 3] = [(360, 640), (740, 360), (1280, 900)];

#[test]
fn a_job_is_done_to_its_end_on_one_screen_whatever_comes_between() {
    journey(async |page| {
        for (width, height) in SCREENS {
            page.screen(width, height).await?;
            for (name, link) in rigs() {
                page.open_afresh(&link).await?;
                page.until_there(".working .work-step").await?;
                let steps = work(page, width < 1000).await?;
                assert!((8..=20).contains(&steps), "{name}: {steps} steps");
                assert!(page.says_so(say::ALL_DONE).await?, "{name}: {}", page.says().await?);
                assert_eq!(page.count(".work-over .verdict-low").await?, 0, "{name}");
            }
        }
        Ok(())
    });
}

/// A short at the first driver stops the work at the gate, which leads back to its field; found
/// and mended, read again, the work goes on to its end.
#[test]
fn a_short_is_found_mended_and_the_job_goes_on() {
    journey(async |page| {
        for (width, height) in SCREENS {
            page.screen(width, height).await?;
            page.open_afresh(&states::pair_at("work", 0)).await?;
            page.until_there(".working .work-step").await?;
            // The first step with a driver in it, shorted.
            read(page).await?;
            page.tap_button(say::DONE).await?;
            page.until_there(".working .reading input").await?;
            page.run(TYPE, vec![json!("0.2"), json!(true)]).await?;
            page.until_there(".finding").await?;
            while page.count(".gate").await? == 0 {
                page.tap_button(say::SKIP).await?;
            }
            assert!(page.says_so(gate::DO_NOT).await?);
            page.until_kept().await?;
            page.refresh().await?;
            page.until_there(".gate-stop").await?;
            page.tap(".gate-stop").await?;
            page.until_there(".working .reading input").await?;
            // Mended, and read again.
            let typed = page.run(TYPE, vec![json!("1.5"), json!(true)]).await?;
            page.run(MIDDLE, vec![typed]).await?;
            page.until("nothing reads wrong", async || {
                Ok(page.count(".working .verdict-low").await? == 0)
            })
            .await?;
            work(page, false).await?;
            let skipped = page.count(".work-list li").await?;
            assert!(skipped <= 1, "{skipped} steps are left: {}", page.says().await?);
        }
        Ok(())
    });
}
