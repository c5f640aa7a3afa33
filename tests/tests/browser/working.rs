//! Journeys through working mode: one step at a time, on one screen.

use super::page::journey;
use super::states;
use super::words::wire as say;
use coilwright_words::english::finding;
use serde_json::json;

/// Common practice, no source: a driver of 4 Ω in all reads a little under that.
#[test]
fn a_reading_typed_in_working_mode_is_judged_and_outlives_a_refresh() {
    journey(async |page| {
        page.widen(360).await?;
        page.open(&states::two_wired("work").replace("job=6~7", "job=0~0")).await?;
        page.until_there("#reading-1").await?;
        assert!(page.text(".work-title").await?.contains("probes"), "leads are read first");
        for (text, said) in [("0,2", "right"), ("3", "too high"), ("-1", "never negative")] {
            page.fill(finding::LEADS, text).await?;
            page.until_it_says(said).await?;
        }
        page.fill(finding::LEADS, "0.2").await?;
        page.tap_button(say::DONE).await?;
        // Each coil by itself, and whether it touches the basket.
        page.until_there("#reading-2\\.coil\\.1a").await?;
        for (text, said) in [("2.0", "right"), ("4.0", "too high"), ("OL", "nothing joined")] {
            page.fill("coil 1a", text).await?;
            page.until_it_says(said).await?;
        }
        page.fill("coil 1a", "2.0").await?;
        page.fill(finding::BASKET, "3").await?;
        page.until_it_says(finding::NOT_OPEN).await?;
        page.fill(finding::BASKET, "OL").await?;
        page.tap_button(say::SKIP).await?;
        page.until("the coils are joined, and the driver is read", async || {
            Ok(page.text(".work-title").await?.starts_with("Run 1"))
        })
        .await?;
        for (text, said) in
            [("3.8", "right"), ("1.2", "too low"), ("OL", "nothing joined"), ("two", "such as 1.9")]
        {
            page.fill(say::IT_READS, text).await?;
            page.until_it_says(said).await?;
        }
        page.until_kept().await?;
        page.refresh().await?;
        page.until_there("#reading-5").await?;
        let kept = "return document.querySelector('#reading-5').value";
        assert_eq!(page.run(kept, Vec::new()).await?, "two");
        Ok(())
    });
}

/// Stand-ins for what headless browsers do not have; each notes that it was asked.
const FAKES: &str = "
    window.asked = [];
    Object.defineProperty(navigator, 'wakeLock', { configurable: true, value: {
        request: async (what) => { window.asked.push(`lock ${what}`);
            return { released: false, addEventListener() {},
                release: async () => { window.asked.push('release'); } }; } } });
    Object.defineProperty(window, 'speechSynthesis', { configurable: true, value: {
        speak: (one) => window.asked.push(`speak ${one.text}`), cancel() {}, speaking: false } });";

#[test]
fn working_mode_keeps_the_screen_awake_and_reads_aloud_where_the_browser_can() {
    journey(async |page| {
        page.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": FAKES })).await?;
        page.open(&states::two_wired("wire")).await?;
        page.until_there("ol.steps").await?;
        let asked = "return window.asked.join('\\n')";
        assert_eq!(page.run(asked, Vec::new()).await?, "");
        page.tap_button(say::GO_ON_WORKING).await?;
        page.until("the lock is asked for", async || {
            page.asks("return window.asked.includes('lock screen')").await
        })
        .await?;
        page.tap_button(say::HOW).await?;
        page.tap_button(say::READ_ALOUD).await?;
        let title = page.text(".work-title").await?;
        page.until("the step is spoken", async || {
            let asked = page.run(asked, Vec::new()).await?;
            Ok(asked.as_str().unwrap_or_default().contains(&format!("speak {title}")))
        })
        .await?;
        page.tap_button(say::LEAVE_WORKING).await?;
        page.until("the lock is given back", async || {
            page.asks("return window.asked.includes('release')").await
        })
        .await
    });
}

#[test]
fn where_the_browser_has_neither_working_mode_is_quiet_about_them() {
    journey(async |page| {
        let gone = "delete Navigator.prototype.wakeLock; delete window.speechSynthesis;
            delete Window.prototype.speechSynthesis;";
        page.command("Page.addScriptToEvaluateOnNewDocument", json!({ "source": gone })).await?;
        page.open(&states::two_wired("work")).await?;
        page.until_there(".work-step").await?;
        page.tap_button(say::HOW).await?;
        page.until_there(".work-how").await?;
        assert!(!page.says().await?.contains(say::READ_ALOUD));
        page.tap_button(say::SKIP).await?;
        page.until("the next step", async || {
            Ok(page.text(".work-far").await?.starts_with("Step 5 "))
        })
        .await
    });
}

/// Where a drawing, a field or a way on would lie below the screen, the hands lose it.
#[test]
fn working_mode_is_one_screen_at_every_step_of_a_small_rig() {
    let within = states::within;
    let rigs = [
        ("the pair", states::pair_at("work", 0)),
        ("tied pairs", states::two_wired("work").replace("job=6~7", "job=0~0")),
        (
            "a bridge in series",
            format!(
                "#v=1&key={}&view=work&job=0~0&box=one~~~chain&drivers=2~1~4~300\
                 &amplifier=1~2&channel=2~4:150~2:250&bridge=1~2~4~4:500",
                within("1+2:1a+2a")
            ),
        ),
        (
            "four quads",
            format!(
                "#v=1&key={}&view=work&job=0~0&box=one~~~chain&drivers=4~4~4~300&amplifier=1~1&channel=1~1:900",
                within(
                    "1:((1a+1b)||(1c+1d))||((2a+2b)||(2c+2d))||((3a+3b)||(3c+3d))||((4a+4b)||(4c+4d))"
                )
            ),
        ),
    ];
    journey(async |page| {
        for (width, height) in [(360, 640), (740, 360)] {
            page.screen(width, height).await?;
            for (name, link) in &rigs {
                page.open_afresh(link).await?;
                page.until_there(".working .work-step").await?;
                let (mut steps, mut below) = (0, Vec::new());
                // Up to the gate, which names what was not read and may be longer.
                while page.count(".gate, .work-over").await? == 0 {
                    let script = "const acts = document.querySelector('.work-acts');
                        const title = document.querySelector('.work-title');
                        return [document.documentElement.scrollHeight - innerHeight,
                            title.getBoundingClientRect().top >= 0
                                && acts.getBoundingClientRect().bottom <= innerHeight,
                            document.activeElement === title || arguments[0] === 0]";
                    let found = page.run(script, vec![steps.into()]).await?;
                    if found != json!([0, true, true]) {
                        below.push(format!("{} {found}", page.text(".work-title").await?));
                    }
                    let at = page.text(".work-far").await?;
                    page.tap_button(say::DONE).await?;
                    page.until("the next step", async || Ok(page.text(".work-far").await? != at))
                        .await?;
                    steps += 1;
                }
                assert!(steps > 5, "{name}: {steps} steps");
                assert!(below.is_empty(), "{name} at {width} × {height}: {below:#?}");
            }
        }
        Ok(())
    });
}
