//! Journeys with files of rigs: saved, taken elsewhere, and refused where they are bad.

use super::kept::{Folder, kept};
use super::page::{Page, journey};
use super::words::rigs as say;
use serde_json::{Value, json};
use thirtyfour::prelude::*;

const REAR: &str = "v=1&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~1:1200";
const FRONT: &str = "v=1&key=1:1a+2a&job=3~3&drivers=2~1~8~150&amplifier=1~1&channel=2~4:300";
/// Half typed.
const HALF: &str = "v=1&drivers=~2~4%20or%208~";

fn three() -> Vec<(String, String)> {
    let rig =
        |at: u32, name: &str, link: &str| (format!("coilwright.rig.{at}"), kept(at, name, link));
    let layout = ("coilwright.layout".to_owned(), "4".to_owned());
    vec![rig(3, "Rear", REAR), rig(2, "Front, \"left\"", FRONT), rig(1, "Δ half", HALF), layout]
}

const NAMES: [&str; 3] = ["Rear", "Front, \"left\"", "Δ half"];

/// A file of one rig by its name, with more fields of the rig.
fn file(name: &str, more: &Value) -> String {
    let mut rig = json!({ "name": name, "request": { "drivers": [{ "count": 2, "ohms": 4 }] } });
    for (field, value) in more.as_object().into_iter().flatten() {
        rig[field] = value.clone();
    }
    json!({ "contract_version": 1, "rigs": [rig] }).to_string()
}

#[test]
fn rigs_go_into_a_file_and_come_out_of_it_in_a_fresh_browser() {
    let folder = Folder::new("there-and-back");
    let mut saved = Vec::new();
    journey(async |page| {
        page.download_to(&folder).await?;
        page.open_with("#v=1&view=rigs&drivers=1~1~6~75", &three()).await?;
        page.until_names(&NAMES).await?;
        page.tap_button(say::SAVE_ALL).await?;
        saved.push(folder.downloaded(page, "rigs.json").await?);
        page.tap_button(&say::about(say::SAVE, NAMES[1])).await?;
        saved.push(folder.downloaded(page, "front-left.json").await?);
        // What is not kept goes into a file too.
        page.name_it("At hand").await?;
        page.tap_button(say::SAVE_THIS).await?;
        saved.push(folder.downloaded(page, "at-hand.json").await?);
        assert_eq!(page.stored_rigs().await?.len(), 3, "to save is not to keep");
        Ok(())
    });
    let names = |text: &str| -> Vec<String> {
        let value: Value = serde_json::from_str(text).unwrap();
        assert_eq!(value["contract_version"], 1);
        let rigs = value["rigs"].as_array().unwrap();
        rigs.iter().map(|rig| rig["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names(&saved[0]), NAMES);
    assert_eq!(names(&saved[1]), NAMES[1..2]);
    assert_eq!(names(&saved[2]), ["At hand"]);
    let all = folder.write("all.json", &saved[0]);
    journey(async |page| {
        page.open("#v=1&view=rigs&drivers=1~1~6~75").await?;
        page.until_it_says(say::NONE).await?;
        page.choose_file(&all).await?;
        page.until_outcome(&say::taken(3)).await?;
        page.until_names(&NAMES).await?;
        let first = page.stored_rigs().await?;
        let links: Vec<&str> =
            first.values().rev().map(|text| text.rsplit('\n').next().unwrap()).collect();
        assert_eq!(links, [REAR, FRONT, HALF]);
        // Once more adds, and overwrites nothing; the same file can be chosen twice.
        page.choose_file(&all).await?;
        let twice = ["Rear (2)", "Front, \"left\" (2)", "Δ half (2)"];
        page.until_names(&[&twice[..], &NAMES[..]].concat()).await?;
        let both = page.stored_rigs().await?;
        assert!(first.iter().all(|rig| both.get(rig.0) == Some(rig.1)));
        Ok(())
    });
}

/// Chooses a file and waits for what comes of it; nothing that is kept may have changed.
async fn refused(
    page: &Page,
    folder: &Folder,
    bytes: impl AsRef<[u8]>,
    told: &str,
) -> WebDriverResult<()> {
    let before = page.stored().await?;
    let path = folder.write("bad.json", bytes);
    page.choose_file(&path).await?;
    page.until_outcome(told).await?;
    assert_eq!(page.stored().await?, before, "{told}");
    page.until_names(&NAMES).await?;
    // What is told next is told anew.
    page.tap_button(say::TURN).await?;
    page.until_there("#ladder").await?;
    page.to_the_rigs().await?;
    assert_eq!(page.outcome().await?, "");
    page.until_kept().await
}

async fn with_three(page: &Page) -> WebDriverResult<()> {
    page.widen(1280).await?;
    page.open_with("#v=1&view=rigs&drivers=1~1~6~75", &three()).await?;
    page.until_names(&NAMES).await?;
    page.until_kept().await
}

/// The place where a file stops being JSON is that of RFC 8259's grammar, counted by hand.
#[test]
fn what_is_not_json_changes_nothing_and_is_told_by_line_and_character() {
    let folder = Folder::new("no-json");
    let deep = |open: &str| open.repeat(1_000_000 / open.len());
    let long = format!("{{\"rigs\": [\n{}x", "1,\n".repeat(1_000));
    let cases: [(&str, Option<(u32, u32)>); 12] = [
        ("", Some((1, 1))),
        ("\n\n", Some((3, 1))),
        ("rigs", Some((1, 1))),
        ("{\n  \"rigs\": [\n    {\"name\": x}\n  ]\n}", Some((3, 14))),
        ("{\"rigs\": [1,]}", Some((1, 13))),
        ("{\"rigs\": [1 2]}", Some((1, 13))),
        ("{\"rigs\": 01}", Some((1, 11))),
        ("{\"rigs\": []", Some((1, 12))),
        ("{\"rigs\": []}}", Some((1, 13))),
        (&long, Some((1_002, 1))),
        (&deep("["), None),
        (&deep("{\"a\":"), None),
    ];
    journey(async |page| {
        with_three(page).await?;
        for (text, place) in cases {
            refused(page, &folder, text, &say::not_json(place)).await?;
        }
        // Not even text.
        refused(page, &folder, [0xff, 0xfe, 0, 0x80], &say::not_json(Some((1, 1)))).await
    });
}

#[test]
fn what_is_no_file_of_rigs_changes_nothing_and_is_told_by_its_path() {
    let folder = Folder::new("no-rigs");
    let wrong = json!({ "drivers": [{ "count": 2 }, { "ohms": { "deep": true } }] });
    let nested = format!("{}{}", "[".repeat(200_000), "]".repeat(200_000));
    let nested_at = |field: &str, end: &str| {
        let lists = format!("{}{}", "[".repeat(20_000), "]".repeat(20_000));
        format!("{{\"contract_version\":1,\"rigs\":[{{{field}:{lists}{end}}}]}}")
    };
    let many = vec![json!({ "request": {} }); 201];
    let many = json!({ "contract_version": 1, "rigs": many }).to_string();
    let proto = r#"{"contract_version":1,"rigs":[{"request":{"__proto__":{"drivers":[]}}}]}"#;
    let cases = [
        ("[]".to_owned(), ""),
        ("null".to_owned(), ""),
        ("\"rigs\"".to_owned(), ""),
        (nested.clone(), ""),
        (format!("{{\"contract_version\":1,\"rigs\":{nested}}}"), "rigs[0]"),
        // Lists within lists where numbers belong: 40 KB, 20,000 deep.
        (nested_at(r#""request":{},"done""#, ""), "rigs[0].done[0]"),
        (
            nested_at(r#""request":{"drivers":[{"dc_ohms""#, "}]}"),
            "rigs[0].request.drivers[0].dc_ohms[0]",
        ),
        ("{}".to_owned(), "contract_version"),
        (r#"{"contract_version":2,"rigs":[]}"#.to_owned(), "contract_version"),
        (many, "rigs"),
        (file("Rear", &json!({ "request": wrong })), "rigs[0].request.drivers[1].ohms"),
        (file("Rear", &json!({ "readings": [{ "reads": 1 }] })), "rigs[0].readings[0].point"),
        (file(&"m".repeat(61), &json!({})), "rigs[0].name"),
        (file("Rear", &json!({ "constructor": 1 })), "rigs[0].constructor"),
        (file("Rear", &json!({ "<b>": 1 })), "rigs[0][\"<b>\"]"),
        (proto.to_owned(), "rigs[0].request.__proto__"),
    ];
    journey(async |page| {
        with_three(page).await?;
        for (text, path) in cases {
            assert!(serde_json::from_str::<Value>(&text).is_ok() || text.len() > 9_999, "{text}");
            refused(page, &folder, text, &format!("{} {path}", say::FILE_WRONG)).await?;
        }
        assert_eq!(page.count(".rigs b b, .rigs img").await?, 0, "no text became markup");
        Ok(())
    });
}

#[test]
fn a_file_that_is_too_large_is_not_even_read() {
    let folder = Folder::new("large");
    let read =
        "Blob.prototype.text = function () { window.wasRead = true; return Promise.reject(); }";
    journey(async |page| {
        page.before_all_else(read).await?;
        with_three(page).await?;
        let mut large = file("Rear", &json!({}));
        large.push_str(&" ".repeat(1_000_001 - large.len()));
        refused(page, &folder, &large, say::FILE_TOO_LARGE).await?;
        assert!(page.asks("return window.wasRead === undefined").await?);
        // One byte less is read; this browser fails at that.
        large.pop();
        refused(page, &folder, &large, say::FILE_UNREAD).await?;
        assert!(page.asks("return window.wasRead === true").await?);
        Ok(())
    });
}

#[test]
fn a_file_that_does_not_fit_is_taken_not_at_all() {
    let folder = Folder::new("full");
    let rig = |i: usize| json!({ "name": format!("rig {i}"), "request": { "drivers": [{ "count": 2 }] } });
    let rigs: Vec<Value> = (0..198).map(rig).collect();
    let some = json!({ "contract_version": 1, "rigs": rigs[..150] }).to_string();
    let many = json!({ "contract_version": 1, "rigs": rigs }).to_string();
    journey(async |page| {
        with_three(page).await?;
        refused(page, &folder, &many, &say::too_many(200)).await?;
        // Room for some of them, not for all.
        let fill = "let size = 1 << 22, rest = 4000, text = 'x'.repeat(size), i = 0;
            while (size > 0) {
                try { localStorage.setItem(`filler ${i}`, text.slice(0, size)); i += 1; }
                catch { size >>= 1; }
            }
            const last = [...Array(i).keys()].find((i) => localStorage.getItem(`filler ${i}`)?.length <= 4096);
            localStorage.removeItem(`filler ${last}`);
            return i;";
        assert!(page.number(fill).await? > 3.0);
        refused(page, &folder, &some, say::FULL).await?;
        page.run("for (const name of Object.keys(localStorage)) if (/filler/.test(name)) localStorage.removeItem(name)", Vec::new()).await?;
        let path = folder.write("some.json", &some);
        page.choose_file(&path).await?;
        page.until_outcome(&say::taken(150)).await?;
        assert_eq!(page.stored_rigs().await?.len(), 153);
        Ok(())
    });
}

/// Names are text wherever they stand, whatever they hold.
#[test]
fn names_in_files_are_text_and_a_mark_of_byte_order_is_no_damage() {
    let folder = Folder::new("names");
    let names = [
        "__proto__",
        "constructor",
        "<img src=x onerror=alert(1)><b>bold</b>",
        "&lt;i&gt; %00 ${x} {{y}}",
        "\u{5d0}\u{5d7}\u{5d5}\u{5e8}\u{5d9} 2",
        "\u{1f50a}\u{1f468}\u{200d}\u{1f527}",
    ];
    let rigs: Vec<Value> =
        names.iter().map(|name| json!({ "name": name, "request": {} })).collect();
    let text = json!({ "contract_version": 1, "rigs": rigs }).to_string();
    let turned = file("\u{202e}raeR", &json!({}));
    journey(async |page| {
        page.open("#v=1&view=rigs&drivers=1~1~6~75").await?;
        page.until_it_says(say::NONE).await?;
        page.choose_file(&folder.write("names.json", format!("\u{feff}{text}"))).await?;
        page.until_outcome(&say::taken(names.len())).await?;
        page.until_names(&names).await?;
        assert_eq!(page.count(".rigs img, .rigs b b, .rigs i").await?, 0);
        let told = page.told_of("button").await?;
        for name in names {
            let delete = say::about(say::DELETE, name);
            assert!(told.iter().any(|(one, _)| *one == delete), "no button “{delete}”");
            page.tap_button(&say::about(say::DOUBLE, name)).await?;
            let double = format!("{name} (2)");
            page.until_outcome(&say::doubled(&double)).await?;
            page.tap_button(&say::about(say::DELETE, &double)).await?;
            page.until_outcome(&say::deleted(&double)).await?;
        }
        assert_eq!(page.count(".rigs img, .rigs b b, .rigs i").await?, 0);
        // What would turn the sentence around it is left out of a name.
        page.choose_file(&folder.write("turned.json", turned)).await?;
        page.until_outcome(&say::taken(1)).await?;
        assert_eq!(page.names().await?[0], "raeR");
        Ok(())
    });
}
