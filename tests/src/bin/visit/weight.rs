//! The bytes of a first visit.

use super::figures::Figure;
use super::host::{Host, file};
use super::phone::{Phone, Speed};
use std::collections::BTreeSet;
use std::path::Path;
use thirtyfour::prelude::WebDriverResult;

/// The most bytes of brotli that a first visit may transfer.
const MOST: f64 = 105_000.0;

/// The files of a first visit as the build lists them, one a line.
fn listed() -> BTreeSet<String> {
    lines("COILWRIGHT_FIRST_VISIT")
}

/// What is loaded after that: what comes later, and what keeps the page.
fn later() -> BTreeSet<String> {
    lines("COILWRIGHT_LATER")
}

fn lines(variable: &str) -> BTreeSet<String> {
    let list = std::env::var(variable).expect("the list that the build made");
    list.lines().map(str::to_owned).collect()
}

/// The same of a site whose build has not told.
fn is_later(name: &str) -> bool {
    let kept = name == "offline.js" || name.ends_with(".png") || name.ends_with(".webmanifest");
    kept || name.contains("later")
}

/// Adds up what the browser asks for when nobody has been there before, which must be
/// what the build says that it asks for.
pub(crate) async fn measure(
    phone: &Phone,
    sites: &[Host],
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let mut samples = Vec::new();
    let mut files = 0;
    for (at, host) in sites.iter().enumerate() {
        phone.requested().await?;
        phone.open_afresh(&host.origin(), "", Speed::Full).await?;
        phone.at_rest(900.0).await?;
        let origin = host.origin();
        let requested = phone.requested().await?;
        let paths = requested.iter().filter_map(|url| url.strip_prefix(&origin));
        let mut requested: BTreeSet<String> = paths.map(file).collect();
        requested.retain(|name| if at == 0 { !later().contains(name) } else { !is_later(name) });
        // The icon of a tab is fetched outside of the page, so the page's log may not have it.
        requested.extend(icon(&host.folder));
        if at == 0 {
            assert_eq!(requested, listed(), "what is asked for is not what is added up");
            files = requested.len();
        }
        samples.push(vec![bytes(&host.folder, &requested)]);
    }
    let first = &sites[0];
    let name = format!("a first visit in brotli, {files} files");
    figures.push(Figure::of(name, "bytes", samples).at_most(MOST));
    let kept = vec![vec![bytes(&first.folder, &later())]];
    figures.push(Figure::of("what comes later, to be kept", "bytes", kept));
    Ok(())
}

/// The icon of a tab.
fn icon(folder: &Path) -> Option<String> {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let mut names = entries.flatten().filter_map(|entry| entry.file_name().into_string().ok());
    names.find(|name| name.starts_with("favicon") && name.ends_with(".svg"))
}

/// What files weigh as they are sent.
fn bytes(folder: &Path, files: &BTreeSet<String>) -> f64 {
    let size = |name: &String| {
        let packed = folder.join(format!("{name}.br"));
        let size = std::fs::metadata(&packed).map(|file| file.len());
        size.unwrap_or_else(|error| panic!("{}: {error}", packed.display()))
    };
    files.iter().map(size).sum::<u64>() as f64
}

/// Nothing was asked of the server but the files of a first visit, and those kept later.
pub(crate) fn nothing_else(host: &Host) {
    let asked: BTreeSet<String> = host.asked().iter().map(|path| file(path)).collect();
    let known: BTreeSet<String> = listed().union(&later()).cloned().collect();
    let more: Vec<&String> = asked.difference(&known).collect();
    assert!(more.is_empty(), "loaded on top of a first visit: {more:?}");
}
