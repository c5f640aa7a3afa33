//! The page as one file: from a disk, and in a frame without an origin of its own.

use super::page::{Page, Setting, folder, journey_from};
use super::words::{self, wire};
use std::path::PathBuf;
use thirtyfour::prelude::*;

/// The file.
pub(crate) fn file() -> PathBuf {
    folder("COILWRIGHT_SINGLE_FILE").join("coilwright.html")
}

/// All files of a disk are one place to a browser, which keeps what a journey leaves there.
pub(crate) fn from_disk() -> Setting {
    Setting { own: true, ..Setting::default() }
}

impl Page {
    /// Opens the file from the disk.
    async fn open_from_disk(&self, fragment: &str) -> WebDriverResult<()> {
        self.browser.goto(format!("file://{}{fragment}", file().display())).await?;
        self.ready().await
    }

    /// Types into a field that is tapped, in place of what stood there.
    async fn type_into(&self, selector: &str, text: &str) -> WebDriverResult<()> {
        self.tap(selector).await?;
        self.press(Key::Control + "a").await?;
        self.press(text).await
    }
}

/// The ohms of a heading, which may begin with a fraction.
fn ohms_of(load: &str) -> f64 {
    let number = load.split(' ').next().unwrap();
    let (over, under) = number.split_once('/').unwrap_or((number, "1"));
    over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap()
}

/// It lists, lists anew when something changes, chooses, and draws a plan.
async fn works(page: &Page) -> WebDriverResult<()> {
    let example = page.listed().await?;
    assert!(!example.is_empty());
    // The example's coils of 4 Ω become twice as many ohms, and so does every load.
    page.type_into("#drivers-0-ohms", "8").await?;
    let ohms = |listed: &[(String, Vec<String>)]| -> Vec<f64> {
        let mut all: Vec<f64> = listed.iter().map(|(load, _)| ohms_of(load)).collect();
        // Which is best changes with them.
        all.sort_by(f64::total_cmp);
        all
    };
    let twice: Vec<f64> = ohms(&example).iter().map(|load| load * 2.0).collect();
    // A key pressed in a frame of another process arrives when that has time for it.
    page.until(&format!("the loads are {twice:?}"), async || {
        Ok(ohms(&page.listed().await?) == twice)
    })
    .await?;
    page.tap("li.entry .entry-main").await?;
    page.until_there("#chosen").await?;
    page.tap_button(wire::WIRE_IT).await?;
    page.until_there(".wired [data-run]").await?;
    assert!(page.count("ol.steps > li").await? > 5);
    // No style came with an attribute, and all that the sheets say is in force.
    let styled = "return getComputedStyle(document.querySelector('.wired .d-hit')).fill";
    assert_eq!(page.run(styled, Vec::new()).await?, "none");
    Ok(())
}

#[test]
fn from_a_disk_it_works_keeps_what_is_typed_and_asks_nobody() {
    journey_from(from_disk(), async |page| {
        page.open_from_disk("").await?;
        works(page).await?;
        let fields = page.fields().await?;
        page.until_kept().await?;
        page.refresh().await?;
        page.until_there(".wired [data-run]").await?;
        assert_eq!(page.fields().await?, fields);
        assert!(!page.says_so(words::KEPT).await?, "a file is on the disk already");
        assert!(page.server.asked().is_empty());
        Ok(())
    });
}

#[test]
fn a_link_opens_in_the_file_too() {
    journey_from(from_disk(), async |page| {
        page.open_from_disk("#v=1&drivers=2~1~3~300").await?;
        let listed = page.listed().await?;
        let loads: Vec<&str> = listed.iter().map(|(load, _)| load.as_str()).collect();
        assert_eq!(loads, ["6 Ω", "1.5 Ω"]);
        Ok(())
    });
}

/// A site of another's, whose page shows the file in a strict frame.
pub(crate) struct Host(pub(crate) PathBuf);

impl Host {
    pub(crate) fn new(name: &str, frame: impl FnOnce(&str) -> String) -> Self {
        let name = format!("coilwright-host-{name}-{}", std::process::id());
        let host = Self(std::env::temp_dir().join(name));
        std::fs::create_dir_all(&host.0).unwrap();
        let write = |name: &str, text: &str| std::fs::write(host.0.join(name), text).unwrap();
        let page = std::fs::read_to_string(file()).unwrap();
        write("coilwright.html", &page);
        write(
            "index.html",
            &format!(
                "<!doctype html><title>host</title><link rel=icon href='data:,'>{}",
                frame(&page)
            ),
        );
        write("headers.example.txt", "[every file]\nContent-Type: text/html; charset=utf-8\n");
        host
    }
}

impl Drop for Host {
    fn drop(&mut self) {
        // The system clears the folder for what is temporary in time.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

pub(crate) const FRAME: &str = "<iframe sandbox='allow-scripts' width=1100 height=700";

#[test]
fn in_a_frame_without_an_origin_it_works_and_says_that_nothing_is_kept() {
    let whole = Host::new("whole", |page| {
        let quoted = page.replace('&', "&amp;").replace('"', "&quot;");
        format!("{FRAME} srcdoc=\"{quoted}\"></iframe>")
    });
    let named = Host::new("named", |_| format!("{FRAME} src='coilwright.html'></iframe>"));
    for (host, asked) in [(whole, 1), (named, 2)] {
        journey_from(Setting { site: host.0.clone(), ..Setting::default() }, async |page| {
            page.go().await?;
            page.browser.enter_frame(0).await?;
            page.ready().await?;
            let refused = "try { localStorage.length; return false } catch { return true }";
            assert!(page.asks(refused).await?, "a frame that may keep things");
            works(page).await?;
            page.until_it_says(words::NOT_KEPT).await?;
            let asked_for = page.server.asked();
            assert_eq!(asked_for.len(), asked, "nothing but the pages: {asked_for:?}");
            Ok(())
        });
    }
}

#[test]
fn its_policy_lets_no_other_script_run_and_connects_to_nobody() {
    journey_from(Setting { quiet: false, ..from_disk() }, async |page| {
        page.open_from_disk("").await?;
        let slip = "const script = document.createElement('script');
            script.textContent = 'window.slipped = true';
            document.body.append(script);
            return window.slipped === undefined;";
        assert!(page.asks(slip).await?);
        let home = page.server.address();
        let ask = format!("await fetch('{home}'); return 'answered'");
        let answer = page.wait_for(&ask).await?;
        assert!(answer.as_str().unwrap_or_default().starts_with("failed"), "{answer}");
        let look = format!(
            "const image = new Image(); image.src = '{home}favicon.svg';
             await image.decode(); return 'seen'"
        );
        let answer = page.wait_for(&look).await?;
        assert!(answer.as_str().unwrap_or_default().starts_with("failed"), "{answer}");
        assert!(page.server.asked().is_empty());
        Ok(())
    });
}
