//! What machines can check of access beside axe-core: forced colours, reduced motion.

use super::page::journey;
use super::states;
use serde_json::{Value, json};

/// How an element is drawn, as far as forced colours leave it: neither ground nor shadow.
const DRAWN: &str = "const drawn = (e) => {
        const style = getComputedStyle(e);
        const outline = style.outlineStyle === 'none' ? 'none'
            : style.outlineStyle + style.outlineWidth + style.outlineColor;
        const border = ['Top', 'Right', 'Bottom', 'Left'].map((side) =>
            style[`border${side}Width`] + style[`border${side}Style`] + style[`border${side}Color`]);
        return [outline, ...border, style.textDecorationLine, style.fontWeight].join(' ');
    };";

#[test]
fn with_forced_colours_the_chosen_rung_and_entry_are_still_marked() {
    journey(async |page| {
        page.prefers(&[("forced-colors", "active"), ("prefers-color-scheme", "dark")]).await?;
        page.open("").await?;
        page.settled().await?;
        page.tap("#ladder li:nth-child(2) label").await?;
        page.until_there("#ladder li:nth-child(2) input:checked").await?;
        page.tap("li.entry .entry-main").await?;
        page.until_there("li.entry [aria-pressed=true].entry-main").await?;
        // What has the focus has an outline of its own.
        page.run("document.activeElement.blur()", Vec::new()).await?;
        assert!(page.asks("return matchMedia('(forced-colors: active)').matches").await?);
        for (what, chosen, other) in [
            ("rung", "#ladder li:nth-child(2) label", "#ladder li:nth-child(3) label"),
            (
                "entry",
                "li.entry:has([aria-pressed=true].entry-main)",
                "li.entry:has([aria-pressed=false].entry-main)",
            ),
        ] {
            let script = format!(
                "{DRAWN} return [...arguments].map((one) => drawn(document.querySelector(one)))"
            );
            let drawn = page.run(&script, vec![json!(chosen), json!(other)]).await?;
            assert_ne!(drawn[0], drawn[1], "the chosen {what} looks like the others");
        }
        Ok(())
    });
}

/// Nothing moves without being asked, least of all where that is not wanted.
#[test]
fn nothing_moves_where_motion_is_not_wanted() {
    let moving = "const moving = document.getAnimations().length;
        const set = [...document.querySelectorAll('*')].filter((e) => {
            const style = getComputedStyle(e);
            const lasts = (times) => times.split(', ').some((time) => parseFloat(time) > 0);
            return style.animationName !== 'none' || lasts(style.transitionDuration)
                || style.scrollBehavior === 'smooth';
        });
        return [moving, ...set.map((e) => e.outerHTML.slice(0, 80))];";
    journey(async |page| {
        page.prefers(&[("prefers-reduced-motion", "reduce")]).await?;
        for (state, link) in states::all() {
            page.open_afresh(&link).await?;
            page.settled().await?;
            let found: Value = page.run(moving, Vec::new()).await?;
            assert_eq!(found, json!([0]), "{state}");
        }
        page.open_afresh("").await?;
        page.settled().await?;
        for tapped in
            ["#ladder li:nth-child(2) label", "li.entry .entry-compare", "li.entry .entry-main"]
        {
            page.tap(tapped).await?;
            let found: Value = page.run(moving, Vec::new()).await?;
            assert_eq!(found, json!([0]), "after a tap on {tapped}");
        }
        Ok(())
    });
}
