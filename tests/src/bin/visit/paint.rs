//! The first paint, beside that of an empty page of the same framework.

use super::Figure;
use super::phone::Phone;
use thirtyfour::prelude::WebDriverResult;

/// How often each is loaded, in turn.
const LOADS: usize = 9;

/// How many times later than the empty page's the first paint may be.
const MOST: f64 = 1.25;

fn median(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    of[of.len() / 2]
}

/// First contentful paint as the browser gives it, of both alike: the shell of either says
/// that it is loading. When the heading stands is watched beside it.
pub(crate) async fn measure(
    phone: &Phone,
    site: &str,
    empty: &str,
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let mut paints = [Vec::new(), Vec::new()];
    let mut headings = [Vec::new(), Vec::new()];
    for _ in 0..LOADS {
        for (at, origin) in [site, empty].into_iter().enumerate() {
            phone.open_afresh(origin, "").await?;
            let (paint, heading) = phone.first().await?;
            paints[at].push(paint);
            headings[at].push(heading);
        }
    }
    let [paint, empty_paint] = paints.map(median);
    let [heading, empty_heading] = headings.map(median);
    let watched =
        |name: &str, value| Figure { name: name.to_owned(), value, unit: "ms", bound: None };
    figures.push(watched(&format!("first contentful paint, median of {LOADS}"), paint));
    figures.push(watched("the same of an empty page", empty_paint));
    figures.push(Figure {
        name: "÷ empty page".to_owned(),
        value: paint / empty_paint,
        unit: "",
        bound: Some(MOST),
    });
    figures.push(watched(&format!("the page's heading stands, median of {LOADS}"), heading));
    figures.push(watched("the same of an empty page", empty_heading));
    Ok(())
}
