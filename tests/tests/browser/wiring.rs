//! Journeys from a chosen configuration to its plan, the work on it and the paper.

use super::page::{Page, journey};
use super::sheet::{A4, printed};
use super::states;
use super::words::wire as say;
use serde_json::json;
use thirtyfour::prelude::*;

/// What stands in an element.
async fn read(page: &Page, selector: &str) -> WebDriverResult<String> {
    page.text(selector).await
}

/// The numbers of the runs that are lit: those of a step, two at most.
async fn lit(page: &Page) -> WebDriverResult<Vec<u64>> {
    let script = "return [...document.querySelectorAll('.wired .d-lit')]
        .map((lit) => Number(lit.closest('[data-run]').dataset.run))";
    Ok(serde_json::from_value(page.run(script, Vec::new()).await?)?)
}

async fn until_lit(page: &Page, run: u64) -> WebDriverResult<()> {
    page.until(&format!("run {run} is lit"), async || {
        let lit = lit(page).await?;
        Ok(lit.contains(&run) && lit.len() <= 2)
    })
    .await
}

#[test]
fn by_keyboard_from_the_list_to_a_step_and_a_refresh_keeps_what_is_done() {
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        page.tap("li.entry .entry-main").await?;
        page.until_there("#chosen").await?;
        page.tab_to(say::WIRE_IT).await?;
        page.press(Key::Enter + "").await?;
        page.until_there(".wire #room").await?;
        page.tab_to(say::START_WORKING).await?;
        page.press(Key::Enter + "").await?;
        page.until_there(".working .work-step").await?;
        for _ in 0..3 {
            page.tab_to(say::DONE).await?;
            page.press(Key::Enter + "").await?;
        }
        page.until("the fourth step", async || {
            Ok(read(page, ".work-far").await?.starts_with("Step 4 of "))
        })
        .await?;
        let (far, title) = (read(page, ".work-far").await?, read(page, ".work-title").await?);
        let done = "return document.querySelector('.working progress').value";
        assert_eq!(page.run(done, Vec::new()).await?, 3);
        // Locked or reloaded in the middle of the job: it goes on where it was.
        page.refresh().await?;
        page.until_there(".working .work-step").await?;
        assert_eq!(read(page, ".work-far").await?, far);
        assert_eq!(read(page, ".work-title").await?, title);
        page.tab_to(say::LEAVE_WORKING).await?;
        page.press(Key::Enter + "").await?;
        page.until_there("ol.steps").await?;
        assert_eq!(page.count("ol.steps input:checked").await?, 3);
        assert_eq!(page.count("[aria-current=step]").await?, 1);
        Ok(())
    });
}

#[test]
fn a_touched_run_shows_its_step_and_a_step_lights_its_run() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open(&states::two_wired("wire")).await?;
        page.until_there(".wired [data-run]").await?;
        let runs = page.count(".wired [data-run]").await?;
        assert_eq!(runs, 10, "four inside the box more than cups, four cables");
        for run in [0_u64, 5, 9] {
            // A touch in the middle of the wire.
            let touch = format!(
                "const wire = document.querySelector('.wired [data-run=\"{run}\"] .d-hit');
                 const at = wire.getPointAtLength(wire.getTotalLength() / 2);
                 const on = new DOMPoint(at.x, at.y).matrixTransform(wire.getScreenCTM());
                 wire.scrollIntoView({{ block: 'center' }});
                 wire.dispatchEvent(new MouseEvent('click', {{ bubbles: true, clientX: on.x }}))"
            );
            page.run(&touch, Vec::new()).await?;
            until_lit(page, run).await?;
            let shown = read(page, ".at-hand").await?;
            assert!(shown.contains(&format!("{}: ", run + 1)), "{shown}");
        }
        page.tab_to(say::RUN_AFTER).await?;
        page.press(Key::Enter + "").await?;
        until_lit(page, 0).await?;
        page.run("document.querySelector('#step-2').focus()", Vec::new()).await?;
        page.press(Key::Enter + "").await?;
        page.until_there("#step-2[aria-current=step]").await?;
        Ok(())
    });
}

#[test]
fn what_a_box_does_not_allow_is_said_beside_its_field_and_the_plan_waits() {
    journey(async |page| {
        page.widen(360).await?;
        let key = states::within("1:(1a||2a)+(1b||2b)");
        page.open(&format!(
            "#v=1&key={key}&view=wire&joined_only=0&drivers=2~2~2~500&amplifier=1~1&channel=1~1:900"
        ))
        .await?;
        page.until_there("ol.steps").await?;
        let choose = |cups: &str| {
            format!(
                "const cups = document.getElementById('box-cups'); cups.value = '{cups}';
                 cups.dispatchEvent(new Event('change', {{ bubbles: true }}))"
            )
        };
        page.run(&choose("driver"), Vec::new()).await?;
        page.until_there("#box-cups-trouble").await?;
        assert!(read(page, "#box-cups-trouble").await?.contains("Driver 1"));
        assert_eq!(page.count("ol.steps").await?, 0);
        page.run(&choose("coil"), Vec::new()).await?;
        page.until_there("ol.steps").await?;
        assert_eq!(page.count("#box-cups-trouble").await?, 0);
        Ok(())
    });
}

/// What is wrong in a part of the form that is folded away is a tap away all the same.
#[test]
fn a_wrong_field_in_a_folded_part_is_unfolded_from_what_tells_of_it() {
    for (fragment, field) in [
        ("#v=1&view=wire&wire=4~far~0.5~0.5~1~2&drivers=2~1~4~100", "box-between_coils_m"),
        ("#v=1&measured=3.6&drivers=2~1~4~100", "drivers-0-dc_ohms"),
    ] {
        journey(async |page| {
            page.open(fragment).await?;
            page.until_there(".troubles .to-field").await?;
            let shown = format!("return document.getElementById('{field}').checkVisibility()");
            assert!(!page.asks(&shown).await?, "{field} is folded away");
            page.tap(".troubles .to-field").await?;
            let there = format!("return document.activeElement.id === '{field}'");
            page.until("the field has the keyboard", async || page.asks(&there).await).await?;
            assert!(page.asks(&shown).await?);
            Ok(())
        });
    }
}

/// On the way to 0.8 stands 0, of which no plan can be made.
#[test]
fn a_length_on_the_way_to_what_is_meant_keeps_the_keyboard() {
    journey(async |page| {
        page.widen(360).await?;
        page.open(&states::two_wired("wire")).await?;
        page.until_there(".wired [data-run]").await?;
        let open = "const field = document.getElementById('box-between_drivers_m');
            for (let e = field; e; e = e.parentElement) if (e.nodeName === 'DETAILS') e.open = true;
            field.focus();
            field.select()";
        page.run(open, Vec::new()).await?;
        page.press("0").await?;
        page.until("there is no plan", async || {
            page.asks("return document.querySelector('.wired [data-run]') === null").await
        })
        .await?;
        page.press(".8").await?;
        page.until_there(".wired [data-run]").await?;
        let typed = "const field = document.getElementById('box-between_drivers_m');
            return [field.value, field === document.activeElement, field.closest('details').open]";
        assert_eq!(page.run(typed, Vec::new()).await?, json!(["0.8", true, true]));
        Ok(())
    });
}

#[test]
fn whoever_prints_the_plan_gets_the_job_sheet() {
    journey(async |page| {
        page.open(&states::two_wired("wire")).await?;
        page.until_there("ol.steps").await?;
        let pages = printed(page, "sheet-from-the-plan.pdf", A4).await?;
        page.until_there(".paper .wired").await?;
        assert_eq!(pages, 1);
        Ok(())
    });
}

#[test]
fn steps_are_copied_and_the_drawing_is_saved_as_svg_and_png() {
    let folder = std::env::temp_dir().join(format!("wiring-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    journey(async |page| {
        let clipboard = json!({ "permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"] });
        page.command("Browser.grantPermissions", clipboard).await?;
        let down = json!({ "behavior": "allow", "downloadPath": folder.to_string_lossy() });
        page.command("Browser.setDownloadBehavior", down).await?;
        page.open(&states::two_wired("wire")).await?;
        page.until_there("ol.steps").await?;
        page.tap_button(say::COPY_STEPS).await?;
        page.until_it_says(say::COPIED).await?;
        let script = "const done = arguments[arguments.length - 1];
            navigator.clipboard.readText().then(done, (error) => done(String(error)))";
        let copied = page.browser.execute_async(script.to_owned(), Vec::new()).await?;
        let copied = copied.json().as_str().unwrap_or_default().to_owned();
        assert!(copied.contains("(1a + 1b) ∥ (2a + 2b)") && copied.contains("1."), "{copied}");
        page.tap_button(say::SAVE_SVG).await?;
        page.tap_button(say::SAVE_PNG).await?;
        let (svg, png) = (folder.join("wiring.svg"), folder.join("wiring.png"));
        page.until("both files are saved", async || Ok(svg.exists() && png.exists())).await?;
        let drawing = std::fs::read_to_string(&svg).unwrap();
        assert!(drawing.starts_with("<svg") && drawing.contains("http://www.w3.org/2000/svg"));
        let picture = std::fs::read(&png).unwrap();
        assert!(picture.starts_with(b"\x89PNG") && picture.len() > 5_000, "{}", picture.len());
        Ok(())
    });
    std::fs::remove_dir_all(&folder).unwrap();
}
