//! Journeys to the gate before power: a wrong reading stops the work, and words alone go on.

use super::page::{Page, journey};
use super::states;
use coilwright_solver::meter::{Known, Place, Point, foretold, last_check, points};
use coilwright_words::english::page::{rigs, wire};
use coilwright_words::english::{finding, gate as say};
use proof::wired::Case;
use thirtyfour::error::WebDriverResult;

/// Two single 2 Ω drivers in parallel behind one cup: the link without its readings, every
/// reading that its steps prescribe as a sound rig shows it, and the check of the cable.
fn pair() -> (String, Vec<(Point, String)>, Point) {
    let Case { rig, plan, .. } = states::pair();
    let closer =
        |point: &Point| !matches!(point.place, Place::Step | Place::Coil(_) | Place::Basket(_));
    let mut read = Vec::new();
    for point in points(&plan).into_iter().filter(|point| !closer(point)) {
        let text = match foretold(&rig, &plan, &Known::default(), &[point]).unwrap().pop().flatten()
        {
            Some(should) => format!("{:.1}", should.expected),
            None => "OL".to_owned(),
        };
        read.push((point, text));
    }
    let last = Point { act: last_check(&plan).unwrap(), place: Place::Step };
    let link = states::pair_at("work", 99);
    (link, read, last)
}

/// The link with these readings.
fn with(link: &str, read: &[(Point, String)]) -> String {
    let read: Vec<String> =
        read.iter().map(|(point, text)| format!("{}~{text}", point.name())).collect();
    link.replace("&box=", &format!("&meter={}&box=", read.join("~")))
}

async fn title(page: &Page) -> WebDriverResult<String> {
    page.text(".work-title").await
}

async fn until_titled(page: &Page, wanted: &str) -> WebDriverResult<()> {
    page.until(&format!("it is titled “{wanted}”"), async || Ok(title(page).await? == wanted)).await
}

/// Types into the field that has the keyboard, in place of what stands there.
async fn retype(page: &Page, text: &str) -> WebDriverResult<()> {
    let script = format!(
        "const field = document.activeElement; field.value = '{text}';
         field.dispatchEvent(new Event('input', {{ bubbles: true }}))"
    );
    page.run(&script, Vec::new()).await.map(drop)
}

/// Whether the first of what a selector finds lies on the screen as it stands, above what
/// sticks to its lower edge.
async fn is_on_screen(page: &Page, selector: &str) -> WebDriverResult<bool> {
    let script = format!(
        "const box = document.querySelector('{selector}').getBoundingClientRect();
         const acts = document.querySelector('.work-acts').getBoundingClientRect();
         return box.top >= 0 && box.bottom <= Math.min(innerHeight, acts.top)"
    );
    page.asks(&script).await
}

#[test]
fn a_wrong_reading_stops_the_work_and_is_one_tap_away() {
    let (link, read, last) = pair();
    journey(async |page| {
        page.screen(360, 640).await?;
        // As somebody comes who reads the cable alone and taps on.
        let at_check = link.replace("job=99~0", &format!("job={}~0", last.act));
        page.open(&at_check).await?;
        let field = format!("reading-{}", last.name());
        page.until_there(&format!("#{field}")).await?;
        page.run(&format!("document.getElementById('{field}').focus()"), Vec::new()).await?;
        retype(page, "0.2").await?;
        while title(page).await? != say::DO_NOT {
            page.tap_button(wire::SKIP).await?;
        }
        until_titled(page, say::DO_NOT).await?;
        assert_eq!(page.count(".work-acts .act").await?, 0, "nothing to tick off");
        assert!(page.text(".gate-stop").await?.contains("0.2"), "what was read stands first");
        // Everything that was not taken is named too, the baskets among it.
        assert_eq!(page.count(".gate-stop").await?, read.len());
        page.run("scrollTo(0, 0)", Vec::new()).await?;
        assert!(is_on_screen(page, ".work-title").await?, "the heading");
        assert!(is_on_screen(page, ".gate-stop").await?, "the first reading");
        // The sound rest is read; the gate still stands for the one.
        let mut mixed = read.clone();
        mixed.iter_mut().filter(|(point, _)| *point == last).for_each(|one| one.1 = "0.2".into());
        page.open(&with(&link, &mixed)).await?;
        page.refresh().await?;
        until_titled(page, say::DO_NOT).await?;
        assert_eq!(page.count(".gate-stop").await?, 1);
        assert!(page.text(".gate-stop").await?.ends_with("0.2, too low"));
        page.tap(".gate-stop").await?;
        let there = format!("return document.activeElement.id === '{field}'");
        page.until("the field has the keyboard", async || page.asks(&there).await).await?;
        retype(page, "1.1").await?;
        for _ in 0..3 {
            page.tap_button(wire::SKIP).await?;
        }
        until_titled(page, "Power on").await?;
        page.tap_button(wire::DONE).await
    });
}

#[test]
fn a_sound_rig_is_not_stopped() {
    let (link, read, last) = pair();
    journey(async |page| {
        page.screen(360, 640).await?;
        let at_check = link.replace("job=99~0", &format!("job={}~0", last.act));
        page.open(&with(&at_check, &read)).await?;
        page.until_there(".working .work-step").await?;
        // From the check on, a tap for each step that is left.
        for _ in 0..3 {
            page.tap_button(wire::DONE).await?;
        }
        until_titled(page, "Power on").await?;
        assert_eq!(page.count(".gate").await?, 0);
        page.tap_button(wire::DONE).await?;
        // What was not ticked off is told at the end, one tap away.
        page.until_there(".work-over").await?;
        assert_eq!(page.count(".work-list li").await?, 5);
        assert_eq!(page.count(".work-read dd").await?, read.len());
        page.tap(".work-list button").await?;
        until_titled(page, "Touch the probes together").await
    });
}

#[test]
fn going_on_against_the_meter_takes_words_which_stand_on_the_sheet_and_at_the_saved_rig() {
    let (link, mut read, last) = pair();
    read.iter_mut().filter(|(point, _)| *point == last).for_each(|one| one.1 = "0.2".into());
    journey(async |page| {
        page.screen(360, 640).await?;
        page.open(&with(&link, &read)).await?;
        until_titled(page, say::DO_NOT).await?;
        let shut = "return document.querySelector('.gate-against button').disabled";
        page.run("document.getElementById('against').focus()", Vec::new()).await?;
        for few in ["", "no", "- - -"] {
            retype(page, few).await?;
            page.until("it says too little", async || page.asks(shut).await).await?;
        }
        retype(page, "Ann answers for it").await?;
        page.until_kept().await?;
        page.refresh().await?;
        until_titled(page, say::DO_NOT).await?;
        page.tap_button(say::GO_ON).await?;
        until_titled(page, "Power on").await?;
        let said = say::went("Ann answers for it");
        page.until_it_says(&said).await?;
        page.tap_button(wire::DONE).await?;
        page.tap_button(wire::LEAVE_WORKING).await?;
        page.until_there("ol.steps").await?;
        page.tap_button(wire::JOB_SHEET).await?;
        page.until_there(".paper-gate").await?;
        assert!(page.text(".paper-gate").await?.contains(&said));
        assert!(page.text(".paper-gate").await?.contains("too low"));
        page.until_kept().await?;
        let address = page.address().await?;
        let address = address.trim_start_matches('/').replace("view=sheet", "view=rigs");
        page.open(&address).await?;
        page.refresh().await?;
        page.tap_button(rigs::KEEP).await?;
        page.until_there(".rigs-one").await?;
        page.until("it stands at the saved rig", async || {
            Ok(page.text(".rigs-one").await?.contains(&said))
        })
        .await
    });
}

#[test]
fn a_key_types_ol_and_a_lone_1_is_asked_about() {
    let (link, _, _) = pair();
    journey(async |page| {
        page.screen(360, 640).await?;
        page.open(&link.replace("job=99~0", "job=1~0")).await?;
        page.until_there("#reading-2\\.basket\\.1").await?;
        let key = say::ol_for(finding::BASKET);
        page.tap(&format!("button[aria-label='{key}']")).await?;
        let value = |id: &str| format!("return document.getElementById('{id}').value");
        let basket = value("reading-2.basket.1");
        page.until("OL is typed", async || {
            Ok(page.run(&basket, Vec::new()).await?.as_str() == Some("OL"))
        })
        .await?;
        let large = "const key = document.querySelector('.ol').getBoundingClientRect();
            return key.width >= 44 && key.height >= 44";
        assert!(page.asks(large).await?);
        for (answer, wanted) in [(say::IS_ONE, "1.0"), (say::IS_OPEN, "OL")] {
            let coil = "document.getElementById('reading-2.coil.1a').focus()";
            page.run(coil, Vec::new()).await?;
            retype(page, "1").await?;
            page.until_it_says(say::ASK_ONE).await?;
            page.tap_button(answer).await?;
            let coil = value("reading-2.coil.1a");
            page.until(wanted, async || {
                Ok(page.run(&coil, Vec::new()).await?.as_str() == Some(wanted))
            })
            .await?;
            assert!(!page.says_so(say::ASK_ONE).await?);
        }
        Ok(())
    });
}
