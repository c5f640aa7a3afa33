//! From a key to the next paint: what waits while somebody types.

use super::at;
use super::figures::Figure;
use super::host::Host;
use super::phone::{Phone, Speed};
use std::time::Duration;
use thirtyfour::prelude::WebDriverResult;

/// A place at which somebody types.
pub(crate) struct Case {
    pub(crate) name: &'static str,
    pub(crate) link: String,
    /// Fields by their elements, and what is typed in place of what stands there. Each key
    /// changes something; the last one puts a whole one. `\u{8}` is the key Backspace.
    pub(crate) typed: &'static [(&'static str, &'static str)],
    /// What the address holds in the end.
    pub(crate) kept: &'static str,
    /// What stands on the page in the end.
    pub(crate) there: &'static str,
    /// The most milliseconds of the longest event.
    most: f64,
}

/// Into the fields of the rig.
const RIG: &[(&str, &str)] = &[
    ("drivers-0-ohms", "3\u{8}4"),
    ("drivers-0-watts", "9\u{8}300"),
    ("amplifier-channels-0-least_ohms", "2\u{8}1"),
    ("drivers-0-count", "3\u{8}4"),
];

/// Into the box of a plan.
const BOX: &[(&str, &str)] =
    &[("box-conductor_mm2", "4\u{8}1.5"), ("box-to_amplifier_m", "12\u{8}3")];

/// Too high at the amplifier's end.
const WRONG: &[(&str, &str)] = &[("reading-30", "4.4\u{8}\u{8}\u{8}2.9")];

const DRIVERS: &str = "drivers=4~2~4~300&amplifier=1~1&channel=1~4:600~2:1000";
const PLAN: &str =
    "key=1:%281a%2B1b%29%7C%7C%282a%2B2b%29%7C%7C%283a%2B3b%29%7C%7C%284a%2B4b%29&view=wire";

/// Four dual-coil drivers: the list with its filters and without, the plan of four in
/// parallel, and that at its last check, with the one before it read too high as well and the
/// easy causes ruled out.
pub(crate) fn cases() -> [Case; 4] {
    let case = |name, link: String, typed, kept, there, most| Case {
        name,
        link,
        typed,
        kept,
        there,
        most,
    };
    let read = "meter=27~2.8&asked=amplifier_off1~meter_right1~cool1";
    [
        case("filtered", format!("#v=1&{DRIVERS}"), RIG, "~4:600~2:1000", ".list .entry", 48.0),
        case(
            "unfiltered",
            format!("#v=1&joined_only=0&even_only=0&{DRIVERS}"),
            RIG,
            "~4:600~2:1000",
            ".list .entry",
            96.0,
        ),
        case(
            "plan",
            format!("#v=1&{PLAN}&box=one~~~chain&{DRIVERS}"),
            BOX,
            "wire=1.5",
            ".wire .wired",
            48.0,
        ),
        case(
            "wrong reading",
            format!("#v=1&{PLAN}&job=29~0&{read}&box=one~~~chain&{DRIVERS}"),
            WRONG,
            "meter=27~2.8~30~2.9",
            ".wire .finding",
            64.0,
        ),
    ]
}

/// A quick typist.
const BETWEEN: Duration = Duration::from_millis(110);
/// Until the last answer is there.
const AFTER: Duration = Duration::from_millis(500);

/// How often each is typed into, in turn.
const RUNS: usize = 3;

/// What was seen while somebody typed.
#[derive(Clone, Copy, Debug, Default)]
struct Typed {
    /// Milliseconds of the longest event, in steps of 8.
    longest: f64,
    /// Milliseconds of it in which the page handled it.
    handling: f64,
    /// Milliseconds of processor for each key, and over a fixed loop at that time.
    work: f64,
    over_loop: f64,
    unasked: f64,
    asked: f64,
}

/// Opens a case as it begins, with nothing left to do.
pub(crate) async fn begin(phone: &Phone, host: &Host, case: &Case) -> WebDriverResult<()> {
    phone.open_afresh(&host.origin(), &case.link, Speed::Full).await?;
    // Nobody asks for it any more.
    phone.run("seenByTheBench.list = 0").await?;
    // What has to be opened to type moves the page by itself.
    let (first, _) = case.typed[0];
    phone.focus(first, "center").await?;
    phone.at_rest(600.0).await.map(drop)
}

impl Case {
    /// How many keys are pressed.
    pub(crate) fn keys(&self) -> u64 {
        self.typed.iter().map(|(_, text)| text.chars().count() as u64).sum()
    }
}

/// Checks that all keys came to the page, typed so many times, and what was typed is there.
pub(crate) async fn end(phone: &Phone, case: &Case, times: u64) -> WebDriverResult<()> {
    let counted = phone.run("return performance.eventCounts.get('keydown')").await?;
    assert_eq!(counted.as_u64(), Some(times * case.keys()), "not every key has come to the page");
    let kept = case.kept;
    let script = format!("return decodeURIComponent(location.hash).includes('{kept}')");
    phone.until(&format!("{kept} in the address"), &script).await?;
    let there = format!("return document.querySelector('{}') !== null", case.there);
    phone.until(case.there, &there).await
}

/// The shifts since the first so many, as they were asked for or not.
async fn shifts(phone: &Phone, since: u64) -> WebDriverResult<[f64; 2]> {
    let shifts = phone.seen("shifts").await?;
    let mut sums = [0.0, 0.0];
    let since = usize::try_from(since).unwrap();
    for shift in shifts.as_array().unwrap().iter().skip(since) {
        let moved = shift["moved"].as_f64().unwrap();
        let asked = shift["after_input"].as_bool().unwrap();
        sums[usize::from(asked)] += moved;
        if !asked {
            println!("    moved {moved:.3} by itself: {}", shift["what"]);
        }
    }
    Ok(sums)
}

/// Types all keys of a case, as a quick typist does.
async fn keys(phone: &Phone, case: &Case) -> WebDriverResult<()> {
    for (id, text) in case.typed {
        phone.focus(id, "center").await?;
        for key in text.chars() {
            phone.key(key).await?;
            tokio::time::sleep(BETWEEN).await;
        }
    }
    tokio::time::sleep(AFTER).await;
    Ok(())
}

/// Types twice. The longest event may be any; the processor is measured the second time,
/// since the first is mostly of code that the browser has not made fast yet, and how soon
/// it has depends on what else the machine does.
async fn one(phone: &Phone, host: &Host, case: &Case) -> WebDriverResult<Typed> {
    begin(phone, host, case).await?;
    let moved = phone.seen("shifts.length").await?.as_u64().unwrap();
    keys(phone, case).await?;
    let fixed = phone.fixed_loop().await?;
    let before = phone.worked().await?;
    keys(phone, case).await?;
    let work = (phone.worked().await? - before) / case.keys() as f64;
    let fixed = f64::midpoint(fixed, phone.fixed_loop().await?);
    end(phone, case, 2).await?;
    let mut typed = Typed { work, over_loop: work / fixed, ..Typed::default() };
    [typed.unasked, typed.asked] = shifts(phone, moved).await?;
    for event in phone.seen("events").await?.as_array().unwrap() {
        let number = |name: &str| event[name].as_f64().unwrap();
        typed.longest = typed.longest.max(number("lasted"));
        typed.handling = typed.handling.max(number("busy"));
    }
    Ok(typed)
}

/// Types into every case, in turn on each site.
pub(crate) async fn measure(
    phone: &Phone,
    sites: &[Host],
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let mut all = vec![Vec::new(); sites.len()];
    for case in &cases() {
        at(&format!("typing, {}", case.name));
        let mut typed = vec![Vec::new(); sites.len()];
        for run in 0..RUNS {
            for turn in 0..sites.len() {
                let site = (run + turn) % sites.len();
                typed[site].push(one(phone, &sites[site], case).await?);
            }
        }
        let told = |of: fn(&Typed) -> f64| -> Vec<Vec<f64>> {
            typed.iter().map(|site| site.iter().map(of).collect()).collect()
        };
        let name = case.name;
        let longest = told(|typed| typed.longest);
        figures.push(
            Figure::of(format!("longest event while typing, {name}"), "ms", longest)
                .at_most(case.most),
        );
        let handling = told(|typed| typed.handling);
        figures.push(Figure::of("of an event, handling at most", "ms", handling));
        figures.push(Figure::of("processor for a key", "ms", told(|typed| typed.work)));
        figures.push(
            Figure::of("processor for a key ÷ fixed loop", "", told(|typed| typed.over_loop))
                .kept(format!("page: processor for a key over a fixed loop, {name}"), "times"),
        );
        for (all, typed) in all.iter_mut().zip(typed) {
            all.extend(typed);
        }
    }
    let most = |of: fn(&Typed) -> f64| -> Vec<Vec<f64>> {
        all.iter().map(|site| vec![site.iter().map(of).fold(0.0, f64::max)]).collect()
    };
    let unasked = most(|typed| typed.unasked);
    figures.push(Figure::of("most layout shift while typing", "", unasked).at_most(0.0));
    let asked = most(|typed| typed.asked);
    figures.push(Figure::of("the same within 500 ms of a key", "", asked));
    Ok(())
}
