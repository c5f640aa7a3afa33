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
    let list = std::env::var("COILWRIGHT_FIRST_VISIT").expect("the list that the build made");
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
    assert_eq!(requested, listed(), "what is asked for is not what is added up");
    let dist = folder("COILWRIGHT_DIST");
    let mut sum = 0;
    for name in &requested {
        let packed = dist.join(format!("{name}.br"));
        let size = std::fs::metadata(&packed).map(|file| file.len());
        sum += size.unwrap_or_else(|error| panic!("{}: {error}", packed.display()));
    }
    figures.push(Figure {
        name: format!("a first visit in brotli, {} files", requested.len()),
        value: sum as f64,
        unit: "bytes",
        bound: Some(MOST),
    });
    Ok(())
}

/// Nothing was asked of the server but the files of a first visit.
pub(crate) fn nothing_else(site: &Server) {
    let asked = site.asked();
    let later: Vec<String> =
        files(asked.iter().map(String::as_str)).difference(&listed()).cloned().collect();
    assert!(later.is_empty(), "loaded on top of a first visit: {later:?}");
}
