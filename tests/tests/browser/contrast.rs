//! Contrast in bright sun: text at least 7:1, lines at least 4.5:1.

use super::page::{Page, journey};
use thirtyfour::prelude::*;

/// What is too faint, and how many pairs of colours were looked at.
///
/// Contrast ratio and relative luminance as in WCAG 2.2, section 8 (“contrast ratio”,
/// “relative luminance”): (L1 + 0.05) / (L2 + 0.05). 7:1 for text is its level AAA, 1.4.6;
/// 4.5:1 for lines is more than the 3:1 that 1.4.11 asks.
const FAINT: &str = "
    const faint = new Set();
    let tried = 0;
    const parse = (text) => {
        const [, r, g, b, a] = text.match(/rgba?\\(([\\d.]+), ([\\d.]+), ([\\d.]+)(?:, ([\\d.]+))?\\)/) ?? [];
        return r === undefined ? null : [+r, +g, +b, a === undefined ? 1 : +a];
    };
    const over = ([r, g, b, a], under) => [r, g, b].map((c, i) => c * a + under[i] * (1 - a));
    const luminance = (colour) => {
        const [r, g, b] = colour.map((c) => c / 255)
            .map((c) => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ratio = (a, b) => {
        const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
        return (light + 0.05) / (dark + 0.05);
    };
    // What lies under an element: every ground from the page up to it.
    const ground = (e) => {
        const grounds = [];
        for (let up = e; up !== null; up = up.parentElement) {
            const colour = parse(getComputedStyle(up).backgroundColor);
            if (colour !== null && colour[3] > 0) grounds.push(colour);
        }
        return grounds.reverse().reduce((under, colour) => over(colour, under), [255, 255, 255]);
    };
    const opacity = (e) => {
        let all = 1;
        for (let up = e; up !== null; up = up.parentElement) all *= +getComputedStyle(up).opacity;
        return all;
    };
    const look = (e, colour, under, least, what) => {
        const found = parse(colour);
        if (found === null || found[3] === 0) return;
        tried += 1;
        found[3] *= opacity(e);
        const reached = ratio(over(found, under), under);
        if (reached < least) faint.add(`${what} of ${e.localName}.${e.getAttribute('class')}: ${reached.toFixed(2)}`);
    };
    for (const e of document.querySelectorAll('body *')) {
        if (e.getClientRects().length === 0 || e.closest('.unseen') !== null) continue;
        const style = getComputedStyle(e);
        const under = ground(e);
        if ([...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim() !== '') || e.matches('input:not([type=radio], [type=checkbox])'))
            look(e, e.ownerSVGElement ? style.fill : style.color, under, 7, 'text');
        if (e.ownerSVGElement) {
            // A stripe lies on its conductor.
            const conductor = e.matches('.d-tracer') ? e.parentElement.querySelector('.d-conductor') : null;
            const beneath = conductor ? over(parse(getComputedStyle(conductor).stroke), under) : under;
            // The ground under a hop is not there to be seen.
            if (style.stroke !== 'none' && !e.matches('.d-gap')) look(e, style.stroke, beneath, 4.5, 'line');
            continue;
        }
        const around = e.parentElement === null ? under : ground(e.parentElement);
        for (const side of ['Top', 'Right', 'Bottom', 'Left'])
            if (parseFloat(style[`border${side}Width`]) > 0 && style[`border${side}Style`] !== 'none')
                look(e, style[`border${side}Color`], around, 4.5, 'border');
    }
    return [tried, [...faint]];";

/// What is too faint on the page as it stands.
pub(crate) async fn too_faint(page: &Page, state: &str) -> WebDriverResult<Vec<String>> {
    let found = page.run(FAINT, Vec::new()).await?;
    assert!(found[0].as_u64().unwrap() > 50, "{state}: only {} colours", found[0]);
    Ok(serde_json::from_value(found[1].clone())?)
}

/// The measure itself, against pairs with well-known ratios: black on white 21:1 (WCAG 2.2,
/// “contrast ratio”), #777 on white 4.48:1 (recomputed by hand from the formula).
#[test]
fn the_measure_finds_what_is_too_faint() {
    journey(async |page| {
        page.open_in("sun", "").await?;
        page.settled().await?;
        let spoil = "const sheet = new CSSStyleSheet();
            sheet.replaceSync('.count b { color: #777 !important } .d-stile { stroke: #aaa !important }');
            document.adoptedStyleSheets = [sheet];";
        page.run(spoil, Vec::new()).await?;
        let found = page.run(FAINT, Vec::new()).await?;
        let found = found[1].to_string();
        assert!(
            found.contains("text of b.null: 4.48") && found.contains("line of path.d-stile"),
            "{found}"
        );
        Ok(())
    });
}
