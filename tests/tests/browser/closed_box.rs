//! Journeys with a closed box: one reading at its cup, and what follows from it.

use super::page::{Page, journey};
use super::words::{drivers, wire};
use coilwright_solver::closed_box::Hint;
use coilwright_words::english::{closed_box as say, judged};
use thirtyfour::prelude::*;

/// What stands in the two fields.
async fn typed(page: &Page) -> WebDriverResult<String> {
    let script = "return ['cup-reading', 'leads-reading'].map((id) =>
        document.getElementById(id).value).join(' and ')";
    Ok(page.run(script, Vec::new()).await?.as_str().unwrap_or_default().to_owned())
}

/// The answer, once it says something.
async fn until_it_answers(page: &Page, text: &str) -> WebDriverResult<()> {
    let what = format!("the answer says “{text}”");
    page.until(&what, async || Ok(page.text(".closed-says").await?.contains(text))).await
}

/// Common practice, no source: a reading a little over 3 Ω is a 4 Ω load; the example's
/// amplifier is stable at 1 Ω.
#[test]
fn by_keyboard_from_the_rig_to_the_load_of_a_box_and_a_refresh_keeps_what_was_typed() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        page.tab_to(say::TITLE).await?;
        page.press(Key::Enter + "").await?;
        page.until_there(".closed #room").await?;
        page.until("the heading has the focus", async || {
            page.asks("return document.activeElement.id === 'room'").await
        })
        .await?;
        until_it_answers(page, say::EMPTY).await?;
        page.fill(say::AT_THE_CUP, "0,9").await?;
        until_it_answers(page, say::hint(Hint::LeadsFirst)).await?;
        page.fill(say::LEADS, ".2").await?;
        until_it_answers(page, say::LOWEST).await?;
        page.run("document.getElementById('room').focus()", Vec::new()).await?;
        page.fill(say::AT_THE_CUP, "3,2").await?;
        until_it_answers(page, "2.67 Ω").await?;
        until_it_answers(page, "a least load of 2 Ω or lower").await?;
        let first = page.text(".closed-load").await?;
        assert!(first.starts_with("4 Ω likely 1 single 4 Ω driver"), "{first}");
        let hangs = page.text(".closed-outputs").await?;
        assert!(
            hangs.contains(judged::verdict(coilwright_solver::judge::Verdict::Fits)),
            "{hangs}"
        );
        assert!(hangs.contains("least load of 1 Ω"), "{hangs}");
        page.until_kept().await?;
        let (answer, address) = (page.text("main").await?, page.address().await?);
        assert!(address.contains("view=closed") && address.contains("cup=3%2C2~.2"), "{address}");
        page.refresh().await?;
        page.until_there(".closed-load").await?;
        assert_eq!(page.text("main").await?, answer);
        assert_eq!(typed(page).await?, "3,2 and .2");
        // The browser's own way back leads to the list, and forth again to the box.
        page.back().await?;
        page.until_there("#ladder").await?;
        assert_eq!(page.count(".closed").await?, 0);
        page.forward().await?;
        page.until_there(".closed-load").await?;
        assert_eq!(typed(page).await?, "3,2 and .2");
        Ok(())
    });
}

#[test]
fn what_is_no_reading_is_told_beside_its_field_and_stays_as_typed() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("#v=1&view=closed&drivers=2~2~4~300").await?;
        page.until_there("#cup-reading").await?;
        for (text, told) in [("-1", wire::NEGATIVE), ("about three", wire::NOT_A_READING)] {
            page.run("document.getElementById('room').focus()", Vec::new()).await?;
            page.fill(say::AT_THE_CUP, text).await?;
            page.until("its field tells why", async || {
                Ok(page.text("#cup-reading-trouble").await?.contains(told))
            })
            .await?;
            assert_eq!(typed(page).await?, format!("{text} and "));
            assert_eq!(page.count("#cup-reading[aria-invalid=true]").await?, 1);
            assert_eq!(page.text(".closed-says").await?, "", "nothing is answered");
        }
        page.run("document.getElementById('room').focus()", Vec::new()).await?;
        page.fill(say::AT_THE_CUP, "OL").await?;
        until_it_answers(page, say::hint(Hint::Open)).await?;
        page.fill(say::LEADS, "open").await?;
        page.until("the leads are told of", async || {
            Ok(page.text("#leads-reading-trouble").await?.contains(say::LEADS_NOT_OPEN))
        })
        .await?;
        assert_eq!(page.count(".closed-load").await?, 0);
        assert_eq!(typed(page).await?, "OL and open");
        Ok(())
    });
}

/// Two outputs of 2 Ω and their bridge, which needs 4 Ω (derived): a box that may be as low
/// as 8/3 Ω hangs on a channel and not on the bridge.
#[test]
fn each_output_of_the_amplifier_is_judged_by_the_lowest_load() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open("#v=1&view=closed&cup=3.2~0.2&drivers=~1~~&amplifier=1~2&channel=2&bridge=1~2~")
            .await?;
        page.until_there(".closed-outputs").await?;
        assert_eq!(page.count(".closed-outputs li").await?, 2, "no drivers are needed for it");
        let channels = page.text(".closed-outputs li:nth-child(1)").await?;
        assert!(channels.starts_with("Channels 1 and 2 ✓ fits"), "{channels}");
        let bridge = page.text(".closed-outputs li:nth-child(2)").await?;
        assert!(bridge.contains("bridged ✕ too low"), "{bridge}");
        Ok(())
    });
}

#[test]
fn what_may_be_in_the_box_becomes_the_rig_and_the_rig_before_is_one_tap_away() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open("#v=1&view=closed&cup=3.2~0.2&drivers=3~2~4~300&amplifier=1~1&channel=1").await?;
        page.until_there(".closed-load").await?;
        let before = page.fields().await?;
        assert!(before.contains(&"300".to_owned()));
        let mut name = say::PLAN.to_owned();
        name.push_str(": 1 dual 2 Ω driver, all coils in series");
        page.tap_button(&name).await?;
        page.until_there("#ladder").await?;
        page.settled().await?;
        let listed = page.listed().await?;
        let loads: Vec<&str> = listed.iter().map(|(load, _)| load.as_str()).collect();
        assert_eq!(loads, ["4 Ω"], "the load that it makes is looked at");
        let fields = "return ['drivers-0-count', 'drivers-0-coils', 'drivers-0-ohms'].map((id) =>
            document.getElementById(id).value).join(' ')";
        assert_eq!(page.run(fields, Vec::new()).await?, "1 2 2");
        assert_eq!(drivers::coils(2), "dual");
        page.tap("#undo").await?;
        page.until("the rig before is back", async || {
            Ok(page.run(fields, Vec::new()).await? == "3 2 4")
        })
        .await
    });
}
