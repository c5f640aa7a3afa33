//! Journeys with saved rigs where the storage of the browser is not as it should be.

use super::kept::{Folder, kept};
use super::page::{Page, journey};
use super::words::{self, rigs as say};
use super::works;
use thirtyfour::prelude::*;

const RIG: &str = "v=1&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~1:1200";

fn own(texts: &[(&str, &str)]) -> Vec<(String, String)> {
    texts.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
}

/// The page works on, and its address holds the rig.
async fn works_on(page: &Page) -> WebDriverResult<()> {
    page.tap_button(say::TURN).await?;
    page.until_there("#ladder").await?;
    works(page).await?;
    page.until("the address holds it", async || Ok(page.address().await?.contains("drivers=2~1~3")))
        .await
}

#[test]
fn where_storage_is_refused_it_is_said_and_a_file_can_still_be_saved() {
    let refused = "for (const name of ['localStorage', 'sessionStorage'])
        Object.defineProperty(window, name, { get() { throw new DOMException('no', 'SecurityError'); } });";
    let folder = Folder::new("refused");
    journey(async |page| {
        page.download_to(&folder).await?;
        page.before_all_else(refused).await?;
        page.widen(1280).await?;
        page.open(&format!("#{RIG}")).await?;
        page.to_the_rigs().await?;
        page.until_outcome(say::REFUSED).await?;
        assert_eq!(
            page.count("#rig-name, #rigs-file, .rigs-one").await?,
            0,
            "nothing to keep with"
        );
        page.tap_button(say::SAVE_THIS).await?;
        let file = folder.downloaded(page, "2-dual-2-500-w-each-least-load-1.json").await;
        assert!(file?.contains("\"contract_version\": 1"));
        works_on(page).await
    });
}

/// Fills the storage until not one more character fits.
const FILL: &str = "let size = 1 << 22, i = 0;
    while (size > 0) {
        try { localStorage.setItem(`filler ${i}`, 'x'.repeat(size)); i += 1; }
        catch { size >>= 1; }
    }
    for (const name of ['', 'z', 'zz']) try { localStorage.setItem(name, ''); } catch {}
    return i;";

#[test]
fn where_storage_is_full_what_is_kept_stays_and_nothing_else_is_said_to_be() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open(&format!("#{RIG}")).await?;
        page.to_the_rigs().await?;
        page.keep_it("Rear").await?;
        page.until_kept().await?;
        assert!(page.number(FILL).await? > 3.0);
        let before = page.stored_rigs().await?;
        page.tap_button(say::KEEP_BESIDE).await?;
        page.until_outcome(say::FULL).await?;
        page.tap_button(&say::about(say::DOUBLE, "Rear")).await?;
        page.until_outcome(say::FULL).await?;
        page.name_it("Rear, but with a name that takes more than it did").await?;
        page.tap_button(say::KEEP_AGAIN).await?;
        page.until_outcome(say::FULL).await?;
        assert!(page.says_so(say::CHANGED).await?, "what is not kept is told as such");
        assert_eq!(page.stored_rigs().await?, before);
        works_on(page).await?;
        // Room again: it is kept.
        page.run("for (const name of Object.keys(localStorage)) if (/filler|^z*$/.test(name)) localStorage.removeItem(name)", Vec::new()).await?;
        page.to_the_rigs().await?;
        page.tap_button(say::KEEP_BESIDE).await?;
        page.until(&say::kept("…"), async || Ok(page.stored_rigs().await?.len() == 2)).await
    });
}

/// Storage that takes so many texts of rigs and layouts, and not one more.
#[test]
fn a_write_that_fails_leaves_all_rigs_or_the_new_one_whichever_it_is() {
    for allowed in 0..3 {
        let fails = format!(
            "let allowed = {allowed};
            const set = Storage.prototype.setItem;
            Storage.prototype.setItem = function (name, text) {{
                if (/[.]rig[.]|layout/.test(name) && allowed-- <= 0) throw new DOMException('full', 'QuotaExceededError');
                return set.call(this, name, text);
            }};"
        );
        journey(async |page| {
            page.before_all_else(&fails).await?;
            page.widen(1280).await?;
            page.open(&format!("#{RIG}&view=rigs")).await?;
            page.until_it_says(say::NONE).await?;
            page.name_it("Rear").await?;
            page.tap_button(say::KEEP).await?;
            // The first write is that of the layout, the second that of the rig.
            let expected = if allowed > 1 { say::kept("Rear") } else { say::FULL.to_owned() };
            page.until_outcome(&expected).await?;
            assert_eq!(page.names().await?.len(), usize::from(allowed > 1));
            if allowed > 1 {
                page.name_it("Rear, left").await?;
                page.tap_button(say::KEEP_AGAIN).await?;
                page.until_outcome(say::FULL).await?;
                page.until_names(&["Rear"]).await?;
                page.refresh().await?;
                page.until_names(&["Rear"]).await?;
            }
            works_on(page).await
        });
    }
}

#[test]
fn damaged_entries_are_told_as_such_harm_nothing_and_can_be_deleted() {
    let damaged = [
        "",
        "1",
        "1\n5\nRear\n",
        "1\n5\nRear\nv=1&dri",
        "9\n5\nRear\nv=1&drivers=2~2~4~500",
        "\u{0}\u{ffff}{\"json\": true}",
        "1\n99999999999999999999999\nRear\nv=1&drivers=2~2~4~500",
        "1\n5\n \u{202e}x\nv=1&drivers=2~2~4~500",
    ];
    let mut texts = own(&[
        ("coilwright.rig.9", &kept(9, "Whole", RIG)),
        ("coilwright.rig.", "no name"),
        ("coilwright.rig.__proto__", "hostile"),
        ("coilwright.layout", "two"),
        ("another.program", "its own"),
    ]);
    for (i, text) in damaged.iter().enumerate() {
        texts.push((format!("coilwright.rig.{}", 10 + i), (*text).to_owned()));
    }
    journey(async |page| {
        page.widen(1280).await?;
        page.open_with(&format!("#{RIG}&view=rigs"), &texts).await?;
        page.until("all are listed", async || Ok(page.names().await?.len() == 11)).await?;
        let names = page.names().await?;
        assert_eq!(names[0], "Whole");
        assert!(names[1..].iter().all(|name| name == say::DAMAGED), "{names:?}");
        let one = page.stored_rigs().await?;
        page.name_it("New").await?;
        page.tap_button(say::KEEP).await?;
        page.until_outcome(&say::kept("New")).await?;
        let stored = page.stored().await?;
        assert!(one.iter().all(|rig| stored.get(rig.0) == Some(rig.1)), "nothing was touched");
        assert_eq!(stored["coilwright.layout"], "4");
        assert_eq!(stored["another.program"], "its own");
        // Deleted and put back, a damaged text is what it was.
        page.tap_button(&say::about(say::DELETE, say::DAMAGED)).await?;
        page.until_at("#undo").await?;
        page.press(Key::Enter + "").await?;
        page.until("it is back", async || Ok(page.names().await?.len() == 12)).await?;
        assert!(one.iter().all(|rig| stored.get(rig.0) == Some(rig.1)));
        for left in (2..12).rev() {
            page.tap_button(&say::about(say::DELETE, say::DAMAGED)).await?;
            page.until("one less", async || Ok(page.names().await?.len() == left)).await?;
            page.until_at("#undo").await?;
        }
        page.until_names(&["New", "Whole"]).await?;
        works_on(page).await
    });
}

/// What the page wrote before it kept rigs: a draft in two slots, and how it was drawn.
#[test]
fn the_first_layout_is_taken_over_whole() {
    let first = own(&[
        ("coilwright.draft", "b"),
        ("coilwright.draft.b", "v=1&key=1a%2B2a&drivers=2~1~4~500"),
        ("coilwright.sun", "1"),
    ]);
    journey(async |page| {
        page.widen(1280).await?;
        page.open_with("", &first).await?;
        page.settled().await?;
        assert!(page.asks("return document.documentElement.className === 'sun'").await?);
        assert!(page.fields().await?.contains(&"500".to_owned()));
        page.to_the_rigs().await?;
        page.until_it_says(say::NONE).await?;
        assert!(!page.stored().await?.contains_key("coilwright.layout"), "nothing is kept yet");
        page.keep_it("Old").await?;
        assert_eq!(page.stored().await?["coilwright.layout"], "4");
        page.refresh().await?;
        page.until_names(&["Old"]).await?;
        page.until_it_says(say::AS_KEPT).await?;
        let draft = page.draft().await?;
        assert!(draft.contains("key=1a+2a"), "{draft}");
        assert_eq!(page.stored().await?["coilwright.sun"], "1");
        Ok(())
    });
}

#[test]
fn a_later_layout_is_left_alone_and_said_to_be_one() {
    let later = own(&[
        ("coilwright.layout", "5"),
        ("coilwright.rig.1", "{\"rig\": []}"),
        ("coilwright.rig.2", &kept(2, "Rear", RIG)),
        ("coilwright.shelf", "what a later version may need"),
    ]);
    journey(async |page| {
        page.widen(1280).await?;
        page.open_with(&format!("#{RIG}&view=rigs"), &later).await?;
        page.until_outcome(say::NEWER).await?;
        assert_eq!(page.count(".rigs-one, #rig-name, #rigs-file").await?, 0);
        works_on(page).await?;
        page.until_kept().await?;
        let stored = page.stored().await?;
        for (name, text) in &later {
            assert_eq!(stored.get(name), Some(text), "{name}");
        }
        let others: Vec<_> = stored
            .keys()
            .filter(|name| !later.iter().any(|(own, _)| own == *name))
            .filter(|name| !name.starts_with("coilwright.draft"))
            .collect();
        assert!(others.is_empty(), "{others:?}");
        assert!(
            !page.says_so(words::NOT_KEPT).await?,
            "drafts are links, which stay what they are"
        );
        Ok(())
    });
}

#[test]
fn the_browser_is_asked_to_keep_rigs_once_one_is_kept_and_its_answer_is_told() {
    for (answer, told) in [("true", say::LASTING), ("false", say::NOT_LASTING)] {
        let stand_in = format!(
            "window.asked = [];
            Object.defineProperty(navigator, 'storage', {{ value: {{
                persist() {{ window.asked.push('persist'); return Promise.resolve({answer}); }},
                persisted() {{ window.asked.push('persisted'); return Promise.resolve(false); }},
            }} }});"
        );
        let asked = "return window.asked.filter((what) => what === 'persist').length";
        let folder = Folder::new(&format!("lasting-{answer}"));
        journey(async |page| {
            page.before_all_else(&stand_in).await?;
            page.widen(1280).await?;
            page.open(&format!("#{RIG}")).await?;
            page.to_the_rigs().await?;
            page.name_it("Rear").await?;
            assert_eq!(page.run(asked, Vec::new()).await?, 0, "nothing is kept yet");
            page.choose_file(&folder.write("bad.json", "[")).await?;
            page.until_outcome(&say::not_json(Some((1, 2)))).await?;
            assert_eq!(page.run(asked, Vec::new()).await?, 0, "nothing was taken");
            assert!(!page.says_so(say::LASTING).await? && !page.says_so(say::NOT_LASTING).await?);
            page.tap_button(say::KEEP).await?;
            page.until_it_says(told).await?;
            assert_eq!(page.run(asked, Vec::new()).await?, 1);
            page.tap_button(say::KEEP_BESIDE).await?;
            page.until_names(&["Rear (2)", "Rear"]).await?;
            assert_eq!(page.run(asked, Vec::new()).await?, 1, "once a visit");
            Ok(())
        });
        journey(async |page| {
            page.before_all_else(&stand_in).await?;
            page.open(&format!("#{RIG}&view=rigs")).await?;
            page.until_it_says(say::NONE).await?;
            let one = r#"{"contract_version":1,"rigs":[{"request":{}}]}"#;
            page.choose_file(&folder.write("one.json", one)).await?;
            page.until_outcome(&say::taken(1)).await?;
            page.until_it_says(told).await?;
            assert_eq!(page.run(asked, Vec::new()).await?, 1, "what is taken is kept too");
            Ok(())
        });
    }
}
