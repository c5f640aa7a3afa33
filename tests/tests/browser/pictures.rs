//! Pictures of the page for whoever looks at them, and for the README where asked.

use super::page::{journey, root};
use super::states;

fn picture(light: &str) {
    let artefacts = root().join("artefacts");
    std::fs::create_dir_all(&artefacts).unwrap();
    journey(async |page| {
        for (state, link) in states::all() {
            page.open_in(light, &link).await?;
            page.settled().await?;
            for width in [360, 768, 1280] {
                let picture = page.picture(width).await?;
                // Width in the head of a PNG: bytes 16 to 19.
                assert_eq!(picture[16..20], width.to_be_bytes());
                assert!(picture.len() > 20_000, "a picture of nothing");
                let name = format!("{}-{width}-{light}.png", state.replace(' ', "-"));
                std::fs::write(artefacts.join(name), &picture).unwrap();
                let wanted = std::env::var_os("COILWRIGHT_PICTURE").is_some();
                if wanted && (state, light, width) == ("a first visit", "light", 1280) {
                    std::fs::create_dir_all(root().join("docs")).unwrap();
                    std::fs::write(root().join("docs/page.png"), &picture).unwrap();
                }
            }
        }
        Ok(())
    });
}

#[test]
fn the_page_is_pictured_in_the_light() {
    picture("light");
}

#[test]
fn the_page_is_pictured_in_the_dark() {
    picture("dark");
}

#[test]
fn the_page_is_pictured_in_the_sun() {
    picture("sun");
}
