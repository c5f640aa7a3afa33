//! From a key to the next paint, in every field.

use super::Figure;
use super::phone::Phone;
use serde_json::Value;
use std::time::Duration;
use thirtyfour::prelude::WebDriverResult;

/// Fields by their elements, and what is typed in place of what stands there. Each key
/// changes the question; the last one puts a whole one. `\u{8}` is the key Backspace.
const TYPED: [(&str, &str); 5] = [
    ("drivers-0-ohms", "3.5\u{8}\u{8}\u{8}4"),
    ("drivers-0-watts", "250\u{8}\u{8}\u{8}300"),
    ("amplifier-channels-0-least_ohms", "2\u{8}1"),
    ("amplifier-channels-0-rated-0-ohms", "8\u{8}4"),
    ("amplifier-channels-0-rated-0-watts", "500\u{8}\u{8}\u{8}600"),
];

/// A quick typist.
const BETWEEN: Duration = Duration::from_millis(120);

/// How often a rig is typed into at most, until it is within the bound: whatever else the
/// machine does only adds to the time, so the least counts.
const TIMES: usize = 3;

/// The most milliseconds, with the filters on and off.
const MOST: [f64; 2] = [100.0, 150.0];

/// The longest event of a rig, where it was, and the longest task.
#[derive(Default)]
struct Longest {
    event: f64,
    said: String,
    task: f64,
}

async fn one(phone: &Phone, origin: &str, link: &str, count: usize) -> WebDriverResult<Longest> {
    phone.open_afresh(origin, link).await?;
    let loading = phone.seen("tasks.length").await?.as_u64().unwrap();
    let mut keys = 0;
    let again = format!("{count}\u{8}{count}");
    for (id, text) in TYPED.into_iter().chain([("drivers-0-count", again.as_str())]) {
        phone.focus(id, "center").await?;
        for key in text.chars() {
            phone.key(key).await?;
            keys += 1;
            tokio::time::sleep(BETWEEN).await;
        }
        phone.at_rest().await?;
    }
    let counted = phone.run("return performance.eventCounts.get('keydown')").await?;
    assert_eq!(counted.as_u64(), Some(keys), "not every key has come to the page");
    let left = phone.run("return decodeURIComponent(location.hash)").await?;
    let kept = format!("drivers={count}~2~4~300");
    assert!(left.as_str().unwrap().contains(&kept), "typed, and not kept: {left}");
    let mut longest = Longest { said: "nothing from 16 ms on".to_owned(), ..Longest::default() };
    let events = phone.seen("events").await?;
    for event in events.as_array().unwrap() {
        let lasted = event["lasted"].as_f64().unwrap();
        if lasted > longest.event {
            longest.event = lasted;
            let word = |name: &str| event[name].as_str().unwrap_or_default().to_owned();
            let busy = event["busy"].as_f64().unwrap();
            longest.said =
                format!("{} at {}, {busy:.0} ms of it handling", word("what"), word("at"));
        }
    }
    let tasks = phone.seen("tasks").await?;
    let typing = tasks.as_array().unwrap().iter().skip(usize::try_from(loading).unwrap());
    longest.task = typing.filter_map(Value::as_f64).fold(0.0, f64::max);
    Ok(longest)
}

/// Types into rigs of one to four dual-coil drivers, with both filters and without.
pub(crate) async fn measure(
    phone: &Phone,
    origin: &str,
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let filters = [("filtered", ""), ("unfiltered", "joined_only=0&even_only=0&")];
    for ((name, off), most) in filters.into_iter().zip(MOST) {
        let mut worst = Longest::default();
        for count in 1..=4 {
            let link =
                format!("#v=1&{off}drivers={count}~2~4~300&amplifier=1~1&channel=1~4:600~2:1000");
            let mut longest = one(phone, origin, &link, count).await?;
            for _ in 1..TIMES {
                if longest.event > most {
                    let again = one(phone, origin, &link, count).await?;
                    if again.event < longest.event {
                        longest = again;
                    }
                }
            }
            println!(
                "{count} dual-coil drivers, {name}: event {:.0} ms ({}), task {:.0} ms",
                longest.event, longest.said, longest.task
            );
            let task = worst.task.max(longest.task);
            if longest.event >= worst.event {
                worst = longest;
            }
            worst.task = task;
        }
        figures.push(Figure {
            name: format!("longest event while typing, {name}"),
            value: worst.event,
            unit: "ms",
            bound: Some(most),
        });
        figures.push(Figure {
            name: format!("longest task while typing, {name} (0: none of 50 ms)"),
            value: worst.task,
            unit: "ms",
            bound: None,
        });
    }
    Ok(())
}
