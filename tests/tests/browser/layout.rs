//! Laws of layout: they hold for everything the page may be showing, at every width.

use super::page::{Page, journey};
use super::states;
use thirtyfour::prelude::*;

/// Everything that breaks a law, in a few words each.
///
/// - Nothing is wider than the screen, but what lies in a box of its own that scrolls.
/// - No text is smaller than 12 px as it is drawn.
/// - Nothing to press is lower or narrower than 24 px: WCAG 2.2, 2.5.8 Target Size (Minimum).
/// - Nothing to press but a row of a long ladder is lower than 44 px: WCAG 2.2, 2.5.5
///   Target Size (Enhanced). A field counts with the line that it stands on.
/// - No text is cut off by its own box.
/// - No text of a drawing lies over another one.
/// - The axis of the ladder is as tall as the rows beside it, which are all alike.
const BROKEN: &str = "
    const broken = new Set();
    const width = document.documentElement.clientWidth;
    const what = (e) => {
        const text = (e.getAttribute('aria-label') ?? e.textContent ?? '').trim().slice(0, 30);
        const own = e.getAttribute('class');
        return `${e.localName}${own ? '.' + own.replace(/ /g, '.') : ''} “${text}”`;
    };
    const shown = (e) => e.getClientRects().length > 0 && e.closest('.unseen') === null
        && getComputedStyle(e).visibility !== 'hidden' && e.closest('[class=skip]') === null;
    const scrolls = (e) => {
        for (let up = e.parentElement; up !== null && up !== document.body; up = up.parentElement)
            if (getComputedStyle(up).overflowX !== 'visible') return true;
        return false;
    };
    const page = document.documentElement;
    if (page.scrollWidth > width) broken.add(`the page is ${page.scrollWidth} px wide`);
    const all = [...document.querySelectorAll('body *')].filter(shown);
    if (all.length < 40) broken.add(`only ${all.length} elements`);
    for (const e of all) {
        const box = e.getBoundingClientRect();
        // Of what reaches beyond the screen only what reaches beyond its own place too.
        const place = e.parentElement.getBoundingClientRect();
        const beyond = (by) => box.right > by.right + 0.5 || box.left < by.left - 0.5;
        if (box.width > 0 && beyond({ left: 0, right: width }) && beyond(place) && !scrolls(e))
            broken.add(`${what(e)} reaches from ${box.left} to ${box.right}`);
        const own = [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim() !== '');
        if (own || e.localName === 'input') {
            const by = e.ownerSVGElement ? e.getScreenCTM().a : 1;
            const size = parseFloat(getComputedStyle(e).fontSize) * by;
            if (size < 11.99) broken.add(`${what(e)} is ${size} px small`);
        }
        if (own && !e.ownerSVGElement && getComputedStyle(e).overflowX !== 'visible'
            && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1)
            broken.add(`${what(e)} is cut off at ${e.clientWidth} of ${e.scrollWidth} px`);
        if (e.matches('button, a[href], select, input, label:has(input, select)')) {
            const around = e.localName === 'input' && e.closest('label');
            const line = e.matches('input, select') && e.closest('.blank-line');
            const target = (around || line || e).getBoundingClientRect();
            const high = Math.min(target.height, around || line ? 1e9 : target.width);
            if (high < 23.9) broken.add(`${what(e)} is a target of ${target.width} × ${target.height}`);
            else if (target.height < 43.9 && e.closest('.rungs') === null)
                broken.add(`${what(e)} is ${target.height} px high`);
        }
    }
    for (const svg of document.querySelectorAll('svg')) {
        const texts = [...svg.querySelectorAll('text')].map((e) => [e, e.getBoundingClientRect()])
            .filter(([, box]) => box.width > 0);
        texts.forEach(([a, one], i) => texts.slice(i + 1).forEach(([b, other]) => {
            const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
            const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
            if (across > 0.5 && down > 1.5)
                broken.add(`${svg.getAttribute('class')}: “${a.textContent}” over “${b.textContent}”, ${across} × ${down}`);
        }));
    }
    const rows = document.querySelector('.rungs');
    const axis = document.querySelector('.axis');
    if (rows !== null && [axis, rows].every((e) => e.getClientRects().length > 0)) {
        const [left, right] = [axis, rows].map((e) => e.getBoundingClientRect());
        if (Math.abs(left.height - right.height) > 1 || Math.abs(left.top - right.top) > 1)
            broken.add(`the axis is ${left.height} px high at ${left.top}, its rows ${right.height} at ${right.top}`);
        const heights = [...rows.children].map((row) => row.getBoundingClientRect().height);
        if (Math.max(...heights) - Math.min(...heights) > 0.5) broken.add(`rows of ${heights}`);
    }
    return [...broken];";

/// Whether something broken is about text that is cut off: told apart from the rest.
pub(crate) fn is_cut(found: &str) -> bool {
    found.contains("is cut off at")
}

/// What is broken on the page as it stands.
pub(crate) async fn broken_now(page: &Page) -> WebDriverResult<Vec<String>> {
    Ok(serde_json::from_value(page.run(BROKEN, Vec::new()).await?)?)
}

/// The laws themselves: each is broken on purpose, and found broken.
#[test]
fn the_measure_finds_every_law_broken() {
    let broken = [
        (".count { width: 2000px }", "reaches from"),
        (".count { width: 2000px }", "the page is"),
        (".hints { font-size: 11px }", "px small"),
        (".axis { transform: scale(0.9) }", "px small"),
        (
            ".count b { display: block; width: 20px; overflow: hidden; white-space: nowrap }",
            "cut off",
        ),
        (".quiet { max-height: 20px; min-height: 0 }", "is a target of"),
        (".quiet { max-height: 40px; min-height: 0 }", "px high"),
        (".rungs li { height: 50px }", "the axis is"),
        (".rungs li:first-child { height: 50px }", "rows of"),
    ];
    journey(async |page| {
        page.widen(360).await?;
        page.open("").await?;
        page.settled().await?;
        for (rule, found) in broken {
            // Declarations that win whatever the page's own say.
            let spoil = "const sheet = new CSSStyleSheet();
                sheet.replaceSync(arguments[0]);
                const { style } = sheet.cssRules[0];
                for (const name of [...style]) style.setProperty(name, style.getPropertyValue(name), 'important');
                document.adoptedStyleSheets = [sheet];";
            page.run(spoil, vec![rule.into()]).await?;
            let all = page.run(BROKEN, Vec::new()).await?.to_string();
            assert!(all.contains(found), "{rule}: {all}");
        }
        let over = "document.adoptedStyleSheets = [];
            const [one, other] = document.querySelectorAll('.axis text');
            for (const at of ['x', 'y']) other.setAttribute(at, one.getAttribute(at));";
        page.run(over, Vec::new()).await?;
        let all = page.run(BROKEN, Vec::new()).await?.to_string();
        assert!(all.contains(" over "), "{all}");
        Ok(())
    });
}

/// A thumb finds the way back and on in one row, on a narrow phone too.
#[test]
fn the_ways_from_step_to_step_stand_in_one_row_on_a_phone() {
    journey(async |page| {
        page.screen(360, 740).await?;
        page.open(&states::two_wired("work")).await?;
        page.settled().await?;
        let tops = "return [...document.querySelectorAll('.work-acts button')]
            .map((button) => button.offsetTop)";
        let tops = page.run(tops, Vec::new()).await?;
        let tops = tops.as_array().unwrap();
        assert_eq!(tops.len(), 3);
        assert!(tops.iter().all(|top| *top == tops[0]), "{tops:?}");
        Ok(())
    });
}
