//! What the page may do is told beforehand, in headers that its example tells a host to
//! send, and it does no more than that.

use super::page::{Setting, journey, journey_from, site};
use super::server::headers;
use super::states;
use serde_json::{Value, json};
use std::collections::BTreeMap;

#[test]
fn nothing_stands_in_the_shell_that_the_policy_would_block() {
    let shell = std::fs::read_to_string(site().join("index.html")).unwrap();
    let tags: Vec<&str> = shell.split('<').skip(1).collect();
    for tag in &tags {
        let (inside, after) = tag.split_once('>').unwrap();
        assert!(!inside.starts_with("style"), "{inside}");
        for part in inside.split_whitespace() {
            assert!(!part.starts_with("style=") && !part.starts_with("on"), "{inside}");
        }
        if inside.starts_with("script") {
            assert!(inside.contains(" src=") && after.is_empty(), "{tag}");
        }
    }
    assert!(tags.iter().filter(|tag| tag.starts_with("script")).count() > 2);
}

#[test]
fn every_header_of_the_example_is_sent_and_each_file_has_what_it_needs() {
    let example = std::fs::read_to_string(site().join("headers.example.txt")).unwrap();
    let names: Vec<String> = std::fs::read_dir(site())
        .unwrap()
        .flatten()
        .filter(|entry| entry.path().is_file())
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|name| !name.ends_with(".br") && !name.ends_with(".gz"))
        .collect();
    let mut headings: Vec<&str> = example.lines().filter(|line| line.starts_with('[')).collect();
    journey_from(Setting { quiet: false, ..Setting::default() }, async |page| {
        // The page has to be asked for once, so that the record is not empty.
        page.open("").await?;
        page.clear().await?;
        let script = "return Promise.all(NAMES.map(async (name) => {
            const answer = await fetch(name, { cache: 'reload' });
            return [name, Object.fromEntries(answer.headers)];
        }));";
        let script = script.replace("NAMES", &json!(names).to_string());
        let sent: BTreeMap<String, Value> =
            serde_json::from_value::<Vec<(String, Value)>>(page.wait_for(&script).await?)?
                .into_iter()
                .collect();
        assert!(sent.len() > 15, "{:?}", sent.keys());
        for (name, sent) in &sent {
            for (header, value) in headers(&example, name) {
                assert_eq!(sent[header.to_lowercase()], value, "{header} of {name}");
            }
            let policy = sent["content-security-policy"].as_str().unwrap();
            for part in ["default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "worker-src"]
            {
                assert!(policy.contains(part), "{name}: {policy}");
            }
            assert!(!policy.contains("unsafe-inline") && !policy.contains("*"), "{policy}");
            assert!(sent["content-type"].is_string(), "{name} is sent as nothing in particular");
            let store = sent["cache-control"].as_str().unwrap();
            let stays = ["index.html", "offline.js", "manifest.webmanifest", ".txt"];
            let stays = stays.iter().any(|end| name.ends_with(end));
            assert_eq!(store == "no-cache", stays, "{name}: {store}");
        }
        let kinds = "[*.";
        headings.retain(|heading| {
            let ending = heading.strip_prefix(kinds).and_then(|kind| kind.strip_suffix(']'));
            ending.is_some_and(|ending| !sent.keys().any(|name| name.ends_with(ending)))
        });
        assert!(headings.is_empty(), "speak of no file: {headings:?}");
        Ok(())
    });
}

#[test]
fn the_policy_is_in_force() {
    journey_from(Setting { quiet: false, ..Setting::default() }, async |page| {
        page.open("").await?;
        let slip = "const script = document.createElement('script');
            script.textContent = 'window.slipped = true';
            const style = document.createElement('p');
            style.setAttribute('style', 'display: none');
            document.body.append(script, style);
            return window.slipped === undefined && getComputedStyle(style).display === 'block';";
        assert!(page.asks(slip).await?);
        let elsewhere = "await fetch('http://127.0.0.2:9/'); return 'answered'";
        let answer = page.wait_for(elsewhere).await?;
        assert!(answer.as_str().unwrap_or_default().starts_with("failed"), "{answer}");
        Ok(())
    });
}

/// That nothing else was asked for, of whomever, the end of every journey sees to.
#[test]
fn once_it_is_kept_the_page_asks_for_nothing_but_news_of_itself() {
    journey(async |page| {
        page.open("").await?;
        page.until_kept_on_device().await?;
        let before = page.server.asked().len();
        for (_, link) in states::all() {
            page.open_afresh(&link).await?;
            page.settled().await?;
        }
        let asked = page.server.asked().split_off(before);
        let more: Vec<&String> = asked
            .iter()
            .filter(|path| *path != "/offline.js" && *path != super::server::BLANK)
            .collect();
        assert!(more.is_empty(), "{more:?}");
        Ok(())
    });
}
