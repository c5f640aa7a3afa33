//! What a key changes on the page and how much it calls, as counts that repeat.

use super::at;
use super::figures::Figure;
use super::host::Host;
use super::phone::Phone;
use super::typing::{Case, begin, cases, end};
use thirtyfour::prelude::WebDriverResult;

/// How long nothing must happen after a key: the address is written within less, so it is
/// written once a key.
const REST: f64 = 500.0;

/// Nodes changed and calls from the page's wasm to the browser, for each key.
async fn one(phone: &Phone, host: &Host, case: &Case) -> WebDriverResult<[f64; 2]> {
    begin(phone, host, case).await?;
    phone.count_calls().await?;
    let origin = host.origin();
    // What was counted so far is of no key.
    phone.calls(&origin).await?;
    phone.run("seenByTheBench.count()").await?;
    for (id, text) in case.typed {
        phone.focus(id, "center").await?;
        for key in text.chars() {
            phone.key(key).await?;
            phone.at_rest(REST).await?;
        }
    }
    let nodes = phone.number("return seenByTheBench.nodes").await?;
    let calls = phone.calls(&origin).await?;
    phone.stop_counting().await?;
    end(phone, case, 1).await?;
    let keys = case.keys() as f64;
    assert!(nodes > 0.0 && calls > 0, "nothing was counted");
    Ok([nodes / keys, calls as f64 / keys])
}

/// Counts in every case on each site.
pub(crate) async fn measure(
    phone: &Phone,
    sites: &[Host],
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    for case in &cases() {
        at(&format!("counting, {}", case.name));
        let (mut nodes, mut calls) = (Vec::new(), Vec::new());
        for host in sites {
            let [changed, called] = one(phone, host, case).await?;
            nodes.push(vec![changed]);
            calls.push(vec![called]);
        }
        for (what, unit, samples) in
            [("nodes changed", "nodes", nodes), ("calls to the browser", "calls", calls)]
        {
            let name = format!("{what} a key, {}", case.name);
            figures.push(Figure::of(&name, unit, samples).kept(format!("page: {name}"), unit));
        }
    }
    Ok(())
}
