//! A verdict, a rank and a caution that stand together say one thing.

use super::page::{Page, journey};
use super::states;
use super::words;
use coilwright_solver::judge::{Overheats, Verdict};
use coilwright_words::english::judged::{self, AMPLIFIER_NOT_COILS};
use thirtyfour::prelude::*;

/// Two dual 2 Ω drivers of 500 W: 2 Ω fits, and 1200 W can overheat them at any time.
const RIG: &str = "drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:1500~1:3000";

/// What a selector finds, each on one line.
async fn texts(page: &Page, selector: &str) -> WebDriverResult<Vec<String>> {
    let script = "return [...document.querySelectorAll(arguments[0])].map((e) =>
        e.innerText.replace(/\\s+/g, ' ').trim())";
    Ok(serde_json::from_value(page.run(script, vec![selector.into()]).await?)?)
}

/// A text that says that it fits, and that it can overheat, joins the two.
fn is_joined(text: &str) -> bool {
    let low = text.to_lowercase();
    let fits = low.contains(judged::verdict(Verdict::Fits));
    let hot = low.contains(judged::overheats(Overheats::AnyTime));
    !(fits && hot) || low.contains(AMPLIFIER_NOT_COILS)
}

#[test]
fn a_fit_over_a_coil_that_can_overheat_is_joined_by_one_sentence_wherever_both_stand() {
    journey(async |page| {
        for width in [360, 1280] {
            page.widen(width).await?;
            page.open_afresh(&format!("#v=1&{RIG}")).await?;
            page.settled().await?;
            let entries = texts(page, "li.entry").await?;
            let hot = judged::overheats(Overheats::AnyTime);
            let both = |text: &&String| text.contains("fits") && text.contains(hot);
            assert!(entries.iter().any(|text| both(&text)), "{entries:?}");
            assert!(entries.iter().all(|text| is_joined(text)), "{entries:?}");
            let key = states::within("1:(1a+1b)||(2a+2b)");
            page.open_afresh(&format!("#v=1&key={key}&{RIG}")).await?;
            page.settled().await?;
            let panel = page.text(".chosen").await?;
            assert!(both(&&panel.to_lowercase()), "{panel}");
            assert!(is_joined(&panel), "{panel}");
            let aside = format!("#v=1&view=compare&compare={key}&{RIG}");
            page.open_afresh(&aside).await?;
            page.settled().await?;
            let table = page.text("table.compare").await?;
            assert!(both(&&table) && is_joined(&table), "{table}");
            // In the plan and on the sheet the verdict stands alone, and says all of it.
            for room in ["wire", "sheet"] {
                page.open_afresh(&format!("#v=1&view={room}&key={key}&{RIG}")).await?;
                page.settled().await?;
                let what = page.text(".wire-what").await?.to_lowercase();
                assert!(what.contains("fits") && what.contains(AMPLIFIER_NOT_COILS), "{what}");
            }
        }
        Ok(())
    });
}

#[test]
fn what_is_too_low_is_never_ranked_first() {
    journey(async |page| {
        page.widen(1280).await?;
        page.open_afresh(&states::nothing_fits()).await?;
        page.settled().await?;
        page.until_there("li.entry").await?;
        let said = page.says().await?.to_lowercase();
        assert!(!said.contains(words::RANKED_FIRST), "{said}");
        let title = page.text("#chosen").await?.to_lowercase();
        assert_eq!(title, words::chosen::FIRST_OF_NONE.to_lowercase());
        // One that fits is.
        page.open_afresh(&format!("#v=1&{RIG}")).await?;
        page.settled().await?;
        let entries = texts(page, "li.entry").await?;
        let ranked = entries.iter().filter(|text| text.contains(words::RANKED_FIRST));
        assert_eq!(ranked.count(), 1, "{entries:?}");
        assert_eq!(page.text("#chosen").await?.to_lowercase(), words::RANKED_FIRST);
        Ok(())
    });
}
