//! Journeys with what people write: whatever it looks like, it is text.

use super::page::{Page, journey};
use super::states::{self, HOSTILE, TURNED};
use super::words::{chosen, compare, wire as say};
use coilwright_solver::bounds::Field;
use coilwright_words::english::fields;
use serde_json::json;
use std::collections::BTreeMap;
use thirtyfour::prelude::*;

/// Two groups, the second called something that runs from right to left and turns text round.
fn two_kinds() -> String {
    format!(
        "#v=1&names=~{}&drivers=2~2~4~300&drivers=1~1~8~150\
         &amplifier=1~2&channel=2~4:150~2:250&bridge=1~2~4~4:500",
        states::within(TURNED)
    )
}

/// What was written has become no element, ran nothing, and opened no dialog.
async fn is_text(page: &Page, place: &str) -> WebDriverResult<()> {
    let script =
        "return [...document.querySelectorAll('img, script:not([src]), [onerror], [onload]')]
        .map((found) => found.outerHTML)";
    assert_eq!(page.run(script, Vec::new()).await?, json!([]), "{place}");
    assert!(page.browser.get_alert_text().await.is_err(), "{place}: a dialog opened");
    Ok(())
}

/// What stands in all that a selector finds, letter by letter.
async fn texts(page: &Page, selector: &str) -> WebDriverResult<Vec<String>> {
    let script = "return [...document.querySelectorAll(arguments[0])].map((e) => e.textContent)";
    Ok(serde_json::from_value(page.run(script, vec![json!(selector)]).await?)?)
}

async fn until_texts(page: &Page, selector: &str, due: &[&str]) -> WebDriverResult<()> {
    let what = format!("{selector} say {due:?}");
    page.until(&what, async || Ok(texts(page, selector).await? == due)).await
}

/// Without the marks that turn text round.
const PLAIN: &str = "\u{5d3}\u{5dc}\u{5ea} \u{1f50a} 2";

#[test]
fn what_a_group_is_called_is_text_in_every_room_on_paper_and_in_files() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open(&two_kinds()).await?;
        page.settled().await?;
        let (count, list) = (page.text(".count").await?, page.listed().await?);
        page.fill(fields::label(Field::Name), HOSTILE).await?;
        let due = [HOSTILE, PLAIN];
        until_texts(page, ".chosen .named bdi", &due).await?;
        is_text(page, "the list").await?;
        // Nothing was listed anew.
        assert_eq!((page.text(".count").await?, page.listed().await?), (count, list));
        assert_eq!(page.count(".answer-stale").await?, 0);
        page.tap_button(compare_first(page).await?.as_str()).await?;
        page.tap_button(&compare::button(1)).await?;
        until_texts(page, ".compare .named bdi", &due).await?;
        is_text(page, "the comparison").await?;
        page.tap_button(chosen::BACK).await?;
        page.tap_button(say::WIRE_IT).await?;
        until_texts(page, ".wire-what .named bdi", &due).await?;
        // The title of what is shortened, and what is shown of it.
        let names = texts(page, ".wired .d-name").await?;
        assert_eq!(names.len(), 3, "{names:?}");
        assert!(names[0].starts_with(HOSTILE) && names[0].ends_with('…'), "{names:?}");
        assert_eq!(names[2], PLAIN);
        is_text(page, "the plan").await?;
        saved(page).await?;
        page.tap_button(say::START_WORKING).await?;
        page.until_there(".working .work-step").await?;
        page.tap_button(say::SKIP).await?;
        page.until_it_says(&HOSTILE[..24]).await?;
        is_text(page, "working mode").await?;
        page.tap_button(say::LEAVE_WORKING).await?;
        page.tap_button(say::JOB_SHEET).await?;
        until_texts(page, ".paper-head .named bdi", &due).await?;
        is_text(page, "the job sheet").await?;
        let print = json!({ "media": "print", "features": [] });
        page.command("Emulation.setEmulatedMedia", print).await?;
        assert!(page.text(".paper-head").await?.contains(HOSTILE), "on paper");
        is_text(page, "on paper").await?;
        page.until_kept().await?;
        page.refresh().await?;
        until_texts(page, ".paper-head .named bdi", &due).await?;
        let field = "return [0, 1].map((i) => document.getElementById(`drivers-${i}-name`).value)";
        assert_eq!(page.run(field, Vec::new()).await?, json!([HOSTILE, TURNED]));
        is_text(page, "after a refresh").await
    });
}

/// The name of the first button that puts something aside.
async fn compare_first(page: &Page) -> WebDriverResult<String> {
    let script = "return document.querySelector('.entry-compare').getAttribute('aria-label')";
    Ok(page.run(script, Vec::new()).await?.as_str().unwrap_or_default().to_owned())
}

/// The drawing as it is saved, read by the browser's own parser for XML.
async fn saved(page: &Page) -> WebDriverResult<()> {
    let catch = "window.saved = null; const make = URL.createObjectURL;
        URL.createObjectURL = (blob) => { blob.text().then((text) => { window.saved = text; });
            return make.call(URL, blob); };
        HTMLAnchorElement.prototype.click = () => {};";
    page.run(catch, Vec::new()).await?;
    page.tap_button(say::SAVE_SVG).await?;
    page.until("a drawing is saved", async || page.asks("return window.saved !== null").await)
        .await?;
    let read = "const file = new DOMParser().parseFromString(window.saved, 'image/svg+xml');
        return [file.querySelector('parsererror')?.textContent ?? '', file.querySelectorAll('img').length,
            [...file.querySelectorAll('.d-name > title')].map((e) => e.textContent),
            [...new Set([...file.querySelectorAll('*')].map((e) => e.localName))].sort()]";
    let due =
        json!(["", 0, [HOSTILE, HOSTILE], ["desc", "g", "path", "rect", "svg", "text", "title"]]);
    assert_eq!(page.run(read, Vec::new()).await?, due);
    Ok(())
}

/// UAX 9 would let the override go on to the end of the line.
#[test]
fn a_name_that_runs_from_right_to_left_turns_nothing_round() {
    journey(async |page| {
        // Wide enough that no title takes two lines.
        page.widen(1280).await?;
        let chosen = two_kinds().replace("&names=", "&view=wire&names=");
        page.open(&chosen).await?;
        page.until_there("ol.steps").await?;
        let script = "const out = [];
            const at = (node, from) => { const range = document.createRange();
                range.setStart(node, from); range.setEnd(node, from + 1);
                return range.getBoundingClientRect().left; };
            const right = (node) => { const text = node.data;
                const [open, end, last, first] = ['(', ')', '\\u05ea', '\\u05d3'].map((c) => text.indexOf(c));
                return at(node, 0) < at(node, open) && at(node, open) < at(node, last)
                    && at(node, last) < at(node, first) && at(node, first) < at(node, end); };
            const steps = [...document.querySelectorAll('.stages b')].map((e) => e.firstChild)
                .filter((node) => node.data.includes('\\u05d3'));
            steps.forEach((node) => out.push(right(node)));
            const item = [...document.querySelectorAll('.wire-what .named li')].at(-1);
            const [drivers, name] = [item.querySelector('span'), item.querySelector('bdi')];
            out.push(drivers.getBoundingClientRect().right <= name.getBoundingClientRect().left);
            // As it would be with the name as it was written.
            steps[0].data = steps[0].data.replace(/\\(.*\\)/, `(${arguments[0]})`);
            out.push(!right(steps[0]));
            return out;";
        let found = page.run(script, vec![json!(TURNED)]).await?;
        let found: Vec<bool> = serde_json::from_value(found)?;
        assert!(found.len() > 3 && found.iter().all(|right| *right), "{found:?}");
        Ok(())
    });
}

#[test]
fn a_name_that_cannot_be_is_told_beside_it_and_kept() {
    journey(async |page| {
        page.open(&format!("#v=1&names={}&drivers=2~2~4~300", "x".repeat(61))).await?;
        page.until_there("#drivers-0-name-trouble").await?;
        assert!(page.text("#drivers-0-name-trouble").await?.contains("60 characters"));
        page.settled().await?;
        assert!(page.count("li.entry").await? > 0, "it stands in the way of nothing");
        assert_eq!(page.count(".named").await?, 0, "and is shown nowhere");
        page.fill(fields::label(Field::Name), &"y".repeat(70)).await?;
        page.until("it is told no more", async || {
            Ok(page.count("#drivers-0-name-trouble").await? == 0)
        })
        .await?;
        assert_eq!(texts(page, ".chosen .named bdi").await?, ["y".repeat(60)], "no more is taken");
        Ok(())
    });
}

/// Every text field that is shown, by its element, with what stands in it.
type Fields = BTreeMap<String, String>;

async fn fields_of(page: &Page) -> WebDriverResult<Fields> {
    let script = "document.querySelectorAll('details').forEach((e) => { e.open = true; });
        return Object.fromEntries([...document.querySelectorAll('input[type=text]')].map((e) => [e.id, e.value]))";
    Ok(serde_json::from_value(page.run(script, Vec::new()).await?)?)
}

/// Writes markup into every text field that there is, as somebody pastes it.
async fn paste_everywhere(page: &Page) -> WebDriverResult<Fields> {
    for id in fields_of(page).await?.keys() {
        let script = "const field = document.getElementById(arguments[0]);
            if (field === null) return;
            field.focus(); field.value = arguments[1];
            field.dispatchEvent(new Event('input', { bubbles: true }))";
        page.run(script, vec![json!(id), json!(HOSTILE)]).await?;
    }
    let pasted = fields_of(page).await?;
    // Rated points bring an empty row after the last.
    let empty = pasted.values().filter(|text| *text != HOSTILE).count();
    assert!(empty <= 4, "{pasted:?}");
    Ok(pasted)
}

#[test]
fn markup_in_any_field_is_text_and_is_still_there_after_a_refresh() {
    let boxed = states::two_wired("wire").replace("box=driver~~~", "box=group~2~~");
    let bridged = two_kinds().replace("amplifier=1~2", "amplifier=1~2~unlike");
    for (link, needed) in [
        (
            bridged,
            &[
                "drivers-1-name",
                "drivers-0-count",
                "drivers-0-ohms",
                "drivers-0-watts",
                "amplifier-count",
                "amplifier-channels",
                "amplifier-channels-0-least_ohms",
                "amplifier-channels-0-rated-0-ohms",
                "amplifier-channels-1-rated-0-watts",
                "amplifier-bridges-0-channels-0",
                "amplifier-bridges-0-least_ohms",
            ][..],
        ),
        (
            boxed,
            &[
                "box-cup_count",
                "box-conductor_mm2",
                "box-to_cup_m",
                "box-to_amplifier_m",
                "box-driver_terminals-conductors",
                "box-cup_terminals-largest_mm2",
                "short-1",
                "short-2.coil.1a",
            ],
        ),
        (
            states::two_wired("work").replace("job=6~7", "job=1~0"),
            &["reading-2.coil.1a", "reading-2.basket.1"],
        ),
        ("#v=1&view=rigs&drivers=2~2~4~300".to_owned(), &["rig-name"]),
        (
            "#v=1&view=closed&cup=3.2~0.2&drivers=2~2~4~300".to_owned(),
            &["cup-reading", "leads-reading"],
        ),
    ] {
        journey(async |page| {
            page.widen(360).await?;
            page.open(&link).await?;
            page.settled().await?;
            let fields = fields_of(page).await?;
            for id in needed {
                assert!(fields.contains_key(*id), "no {id} among {:?}", fields.keys());
            }
            let pasted = paste_everywhere(page).await?;
            is_text(page, &link).await?;
            page.until_kept().await?;
            is_text(page, &link).await?;
            page.refresh().await?;
            page.settled().await?;
            let again = fields_of(page).await?;
            // What depends on a plan is gone with it; the fields of the rig are always there.
            for (id, text) in &again {
                if let Some(before) = pasted.get(id) {
                    assert_eq!(text, before, "{id}");
                }
            }
            let kept = again.values().filter(|text| *text == HOSTILE).count();
            assert!(kept >= needed.len(), "{kept} of {}: {again:?}", pasted.len());
            is_text(page, "after a refresh").await
        });
    }
}

/// Readings stand in the list of steps and on paper as they were typed.
#[test]
fn markup_for_a_reading_is_text_among_the_steps_and_on_paper() {
    journey(async |page| {
        let read = format!("&meter=1~{}&box=", states::within(HOSTILE));
        for (room, place) in [("wire", ".step-read"), ("sheet", ".paper-read")] {
            page.open_afresh(&states::two_wired(room).replace("&box=", &read)).await?;
            page.until_there(place).await?;
            let said: Vec<String> = texts(page, place).await?;
            assert!(said.iter().any(|text| text.contains(HOSTILE)), "{room}: {said:?}");
            is_text(page, room).await?;
        }
        Ok(())
    });
}
