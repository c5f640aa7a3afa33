//! The bytes of a first visit.

use super::phone::Phone;
use super::server::Server;
use super::{Figure, folder};
use std::collections::BTreeSet;
use thirtyfour::prelude::WebDriverResult;

/// The most bytes of brotli that a first visit may transfer.
const MOST: f64 = 105_000.0;

/// The files of a first visit as the build lists them, one a line.
fn listed() -> BTreeSet<String> {
    lines("COILWRIGHT_FIRST_VISIT")
}

/// What is loaded after that, by the worker that keeps the page.
fn later() -> BTreeSet<String> {
    lines("COILWRIGHT_LATER")
}

fn lines(variable: &str) -> BTreeSet<String> {
    let list = std::env::var(variable).expect("the list that the build made");
    list.lines().map(str::to_owned).collect()
}

/// The files behind what was asked for.
fn files<'a>(paths: impl Iterator<Item = &'a str>) -> BTreeSet<String> {
    let file = |path: &str| match path.trim_start_matches('/') {
        "" => "index.html".to_owned(),
        name => name.to_owned(),
    };
    paths.map(file).collect()
}

/// Adds up what the browser asks for when nobody has been there before, which must be
/// what the build says that it asks for.
pub(crate) async fn measure(
    phone: &Phone,
    site: &Server,
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    phone.requested().await?;
    phone.open_afresh(&site.origin(), "").await?;
    let origin = site.origin();
    let requested = phone.requested().await?;
    let mut requested = files(requested.iter().filter_map(|url| url.strip_prefix(&origin)));
    // The icon of a tab is fetched outside of the page, so the page's log does not have it.
    let icon = |name: &&String| name.starts_with("favicon");
    requested.extend(listed().iter().filter(icon).cloned());
    requested.retain(|name| !later().contains(name));
    assert_eq!(requested, listed(), "what is asked for is not what is added up");
    for (name, files, bound) in
        [("a first visit", requested, Some(MOST)), ("what is kept on top of it", later(), None)]
    {
        figures.push(Figure {
            name: format!("{name} in brotli, {} files", files.len()),
            value: bytes(&files) as f64,
            unit: "bytes",
            bound,
        });
    }
    Ok(())
}

/// What files weigh as they are sent.
fn bytes(files: &BTreeSet<String>) -> u64 {
    let dist = folder("COILWRIGHT_DIST");
    let size = |name: &String| {
        let packed = dist.join(format!("{name}.br"));
        let size = std::fs::metadata(&packed).map(|file| file.len());
        size.unwrap_or_else(|error| panic!("{}: {error}", packed.display()))
    };
    files.iter().map(size).sum()
}

/// Nothing was asked of the server but the files of a first visit, and those kept later.
pub(crate) fn nothing_else(site: &Server) {
    let asked = site.asked();
    let known: BTreeSet<String> = listed().union(&later()).cloned().collect();
    let more: Vec<String> =
        files(asked.iter().map(String::as_str)).difference(&known).cloned().collect();
    assert!(more.is_empty(), "loaded on top of a first visit: {more:?}");
}
