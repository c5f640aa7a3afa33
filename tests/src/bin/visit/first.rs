//! A first visit: the first paint, and when the list is there on a slow phone, beside an
//! empty page of the same framework.

use super::figures::Figure;
use super::host::Host;
use super::phone::{Phone, Speed};
use thirtyfour::prelude::WebDriverResult;

/// How often each is loaded, in turn.
const LOADS: usize = 7;
const SLOW_LOADS: usize = 3;

/// How many times later than the empty page's the first paint may be.
const MOST: f64 = 1.25;

/// Whether something has happened, and when, as the page's scripts know it.
const PAINTED: &str =
    "return (performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0) > 0";
const PAINT: &str = "return performance.getEntriesByName('first-contentful-paint')[0].startTime";
const LISTED: &str = "return seenByTheBench.list > 0";

/// The least of each over the least of the empty page: whatever else the machine does only
/// adds to a time.
fn over(samples: &[Vec<f64>], empty: &[f64]) -> Vec<Vec<f64>> {
    let least = |of: &[f64]| of.iter().copied().fold(f64::INFINITY, f64::min);
    samples.iter().map(|site| vec![least(site) / least(empty)]).collect()
}

/// First contentful paint as the browser gives it, of all alike: the shell of each says that
/// it is loading.
pub(crate) async fn paint(
    phone: &Phone,
    sites: &[Host],
    empty: &Host,
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let mut paints = vec![Vec::new(); sites.len() + 1];
    for _ in 0..LOADS {
        for (host, paints) in sites.iter().chain([empty]).zip(&mut paints) {
            phone.open_afresh(&host.origin(), "", Speed::Slow).await?;
            phone.until("a first paint", PAINTED).await?;
            paints.push(phone.number(PAINT).await?);
        }
    }
    let of_empty = paints.pop().unwrap_or_default();
    let ratio = over(&paints, &of_empty);
    figures.push(Figure::of("first contentful paint, processor slowed", "ms", paints));
    figures.push(Figure::of("the same of an empty page", "ms", vec![of_empty]));
    figures.push(Figure::of("least first contentful paint ÷ empty page", "", ratio).at_most(MOST));
    Ok(())
}

/// From the tap on a link until the list is on the screen, and what moves by itself.
pub(crate) async fn list(
    phone: &Phone,
    sites: &[Host],
    empty: &Host,
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let mut listed = vec![Vec::new(); sites.len()];
    let mut moved = vec![Vec::new(); sites.len()];
    let mut of_empty = Vec::new();
    for _ in 0..SLOW_LOADS {
        for (at, host) in sites.iter().enumerate() {
            phone.open_afresh(&host.origin(), "", Speed::SlowPhone).await?;
            phone.until("the list", LISTED).await?;
            listed[at].push(phone.number("return seenByTheBench.list").await?);
            phone.network_is_slow().await?;
            phone.at_rest(600.0).await?;
            let shifts = "return seenByTheBench.shifts.reduce((sum, { moved }) => sum + moved, 0)";
            moved[at].push(phone.number(shifts).await?);
        }
        phone.open_afresh(&empty.origin(), "", Speed::SlowPhone).await?;
        of_empty.push(phone.number("return seenByTheBench.heading").await?);
    }
    let ratio = over(&listed, &of_empty);
    figures.push(Figure::of("a first visit's list is there, slow phone", "ms", listed));
    figures.push(Figure::of("an empty page is there, slow phone", "ms", vec![of_empty]));
    figures.push(
        Figure::of("least of the list ÷ empty page, slow phone", "", ratio)
            .kept("page: list over the empty page, slow phone", "times"),
    );
    figures.push(Figure::of("layout shift at a first visit, slow phone", "", moved).at_most(0.0));
    Ok(())
}
