//! What holds for everything that the page may be showing, in every light and at every
//! width. Each state is opened once in a light, and all that is asked of it is asked then:
//! the laws of layout, axe-core (it cannot find everything), contrast, and a picture for
//! whoever looks at them, and for the README where asked.

use super::contrast;
use super::layout::{broken_now, is_cut};
use super::page::{Page, journey, journey_in_large_type, root};
use super::states::{self, Shown};
use serde_json::json;
use std::collections::BTreeSet;
use thirtyfour::prelude::*;

/// What is looked at, by the widths at which it is.
#[derive(Clone, Copy, Default)]
struct Look {
    light: &'static str,
    /// The laws of layout but that about text that is cut off.
    laws: &'static [u32],
    /// That one.
    cut: &'static [u32],
    axe: &'static [u32],
    contrast: &'static [u32],
    pictured: &'static [u32],
}

impl Look {
    /// What is wrong with one state.
    async fn at(self, page: &Page, (state, link): &Shown) -> WebDriverResult<Vec<String>> {
        let mut wrong = Vec::new();
        let all = [self.laws, self.cut, self.axe, self.contrast].concat();
        let widths: BTreeSet<u32> = all.into_iter().collect();
        page.widen(*widths.first().expect("a width")).await?;
        page.open_in(self.light, link).await?;
        page.settled().await?;
        for width in widths {
            page.widen(width).await?;
            let mut told = |what: String| wrong.push(format!("{state}, {width} px: {what}"));
            let asked = |of: &[u32]| of.contains(&width);
            if asked(self.laws) || asked(self.cut) {
                for found in broken_now(page).await? {
                    if asked(if is_cut(&found) { self.cut } else { self.laws }) {
                        told(found);
                    }
                }
            }
            if asked(self.contrast) {
                contrast::too_faint(page, state).await?.into_iter().for_each(&mut told);
            }
            if asked(self.axe) {
                let found = page.finds().await?;
                if found != json!([]) {
                    told(format!("{found:#}"));
                }
            }
        }
        for width in self.pictured {
            self.picture(page, state, *width).await?;
        }
        Ok(wrong)
    }

    async fn picture(self, page: &Page, state: &str, width: u32) -> WebDriverResult<()> {
        let picture = page.picture(width).await?;
        // Width in the head of a PNG: bytes 16 to 19.
        assert_eq!(picture[16..20], width.to_be_bytes());
        assert!(picture.len() > 20_000, "a picture of nothing");
        let name = format!("{}-{width}-{}.png", state.replace(' ', "-"), self.light);
        std::fs::write(root().join("artefacts").join(name), &picture).unwrap();
        let wanted = std::env::var_os("COILWRIGHT_PICTURE").is_some();
        if wanted && (state, self.light, width) == ("a first visit", "light", 1280) {
            std::fs::create_dir_all(root().join("docs")).unwrap();
            std::fs::write(root().join("docs/page.png"), &picture).unwrap();
        }
        Ok(())
    }

    /// Nothing is wrong with any state.
    async fn holds(self, page: &Page) -> WebDriverResult<()> {
        std::fs::create_dir_all(root().join("artefacts")).unwrap();
        let mut wrong = Vec::new();
        for shown in states::all() {
            wrong.extend(self.at(page, &shown).await?);
        }
        assert!(wrong.is_empty(), "{}, {}:\n{}", self.light, wrong.len(), wrong.join("\n"));
        Ok(())
    }
}

const PICTURED: &[u32] = &[360, 768, 1280];

#[test]
fn in_the_light_every_state_holds_to_the_laws_and_axe_finds_nothing() {
    let look = Look {
        light: "light",
        laws: &[320, 360, 768, 1000, 1280],
        cut: &[320, 360, 768, 1280],
        axe: &[320, 1280],
        contrast: &[],
        pictured: PICTURED,
    };
    journey(async |page| look.holds(page).await);
}

#[test]
fn in_the_dark_axe_finds_nothing() {
    let look = Look { light: "dark", axe: &[360, 1280], pictured: PICTURED, ..Look::default() };
    journey(async |page| look.holds(page).await);
}

/// Text reaches seven to one there, and lines four and a half.
#[test]
fn in_the_sun_every_state_holds_to_the_laws_and_nothing_is_faint() {
    let look = Look {
        light: "sun",
        laws: &[320, 1280],
        axe: &[360, 1280],
        contrast: &[360, 1280],
        pictured: PICTURED,
        ..Look::default()
    };
    journey(async |page| look.holds(page).await);
}

/// WCAG 2.2, 1.4.4 Resize Text: up to 200 per cent without loss.
#[test]
fn where_text_is_twice_as_large_the_laws_hold_and_axe_finds_nothing() {
    let look = Look { light: "light", laws: &[360, 768, 1280], axe: &[1280], ..Look::default() };
    journey_in_large_type(async |page| look.holds(page).await);
}
