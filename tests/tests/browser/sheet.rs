//! Journeys to the job sheet: what stands on paper for whoever opens the boot next.

use super::page::{Page, journey, root};
use super::states::{self, HOSTILE, TURNED};
use super::words::sheet as say;
use base64::Engine;
use coilwright_solver::wiring::Act;
use serde_json::json;
use thirtyfour::prelude::*;

/// Sheets of paper, in inches (ISO 216; ANSI/ASME Y14.1, from memory).
pub(crate) const A4: [f64; 2] = [8.27, 11.69];
const LETTER: [f64; 2] = [8.5, 11.0];
/// What lies within the margins of each, in CSS pixels: 8 mm all round.
const WITHIN: [(&str, u32, u32); 2] = [("A4", 733, 1062), ("Letter", 755, 995)];

/// The pages of a job sheet as the browser prints it.
pub(crate) async fn printed(
    page: &Page,
    name: &str,
    [wide, high]: [f64; 2],
) -> WebDriverResult<usize> {
    let paper = json!({
        "paperWidth": wide, "paperHeight": high, "preferCSSPageSize": true,
        "marginTop": 0.4, "marginBottom": 0.4, "marginLeft": 0.4, "marginRight": 0.4,
    });
    let printed = page.command("Page.printToPDF", paper).await?;
    let text = printed["data"].as_str().unwrap_or_default();
    let pdf = base64::engine::general_purpose::STANDARD.decode(text).unwrap();
    assert!(pdf.starts_with(b"%PDF"));
    let folder = root().join("artefacts");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(name), &pdf).unwrap();
    // Each page is an object of its own; the list of pages is one of another type.
    let page = b"/Type /Page\n";
    Ok(pdf.windows(page.len()).filter(|window| window == page).count())
}

const MONO: &str = "&amplifier=1~1&channel=1~4:540~2:900~1:1300";

/// A sheet of one configuration; `rest` are box, drivers and amplifier.
fn sheet(key: &str, rest: &str) -> String {
    format!("#v=1&key={}&view=sheet{rest}", states::within(key))
}

fn each(count: u32, one: impl Fn(u32) -> String) -> Vec<String> {
    (1..=count).map(one).collect()
}

/// So many duals, each in series, all in parallel behind one cup.
fn duals(count: u32) -> String {
    let key = each(count, |n| format!("({n}a+{n}b)")).join("||");
    sheet(&format!("1:{key}"), &format!("&box=one~~~chain&drivers={count}~2~4~300{MONO}"))
}

fn quads(amplifier: &str, channels: &str) -> String {
    let key = each(4, |n| format!("(({n}a+{n}b)||({n}c+{n}d))")).join("||");
    sheet(
        &format!("{channels}:{key}"),
        &format!("&box=driver~~~chain&drivers=4~4~4~300{amplifier}"),
    )
}

/// Sixteen drivers with one coil, two in series and eight of these in parallel.
fn singles() -> String {
    let key = each(8, |n| format!("({}a+{}a)", 2 * n - 1, 2 * n)).join("||");
    sheet(&format!("1:{key}"), &format!("&box=group~2~~chain&drivers=16~1~8~100{MONO}"))
}

/// Eight drivers, each on a channel of its own.
fn apart() -> String {
    let key = each(8, |n| format!("{n}:{n}a")).join(";");
    sheet(&key, "&box=none~~~chain&drivers=8~1~4~100&amplifier=1~8&channel=2~4:100")
}

/// Whatever there is to say on it, up to four drivers are one sheet of paper and up to sixteen
/// two.
#[test]
fn up_to_four_drivers_are_one_page_and_up_to_sixteen_are_two() {
    let tied = quads("&amplifier=1~1&channel=1~1:900~tied", "1");
    let bridged = quads("&amplifier=1~2&channel=0.5~1:600&bridge=1~2~1~1:900", "1+2");
    let words = format!("meter=1~1.2~2.coil.1a~2.1&against=1~{}&box=", "W".repeat(200));
    let against = states::two_wired("sheet").replace("box=", &words);
    let mut rigs = vec![
        ("two-against-the-meter", against, 1),
        ("pair", states::pair_at("sheet", 0), 1),
        ("two", states::two_wired("sheet"), 1),
        ("three-duals", duals(3), 1),
        ("four-duals", duals(4), 1),
        ("four-quads-tied", tied, 1),
        ("four-quads-bridged", bridged, 1),
        ("eight", duals(8), 2),
        ("eight-apart", apart(), 2),
        ("sixteen-singles", singles(), 2),
        ("sixteen", states::sixteen_wired("sheet"), 2),
    ];
    for (name, link, pages) in rigs.clone() {
        rigs.push((name, states::named(&link), pages));
    }
    journey(async |page| {
        for (at, (name, link, due)) in rigs.iter().enumerate() {
            page.open_afresh(link).await?;
            page.until_there(".paper .wired").await?;
            page.until_there(".paper .code").await?;
            for (paper, size) in [("a4", A4), ("letter", LETTER)] {
                let pages = printed(page, &format!("sheet-{name}-{at}-{paper}.pdf"), size).await?;
                assert_eq!(pages, *due, "{name} on {paper}: {link}");
            }
        }
        Ok(())
    });
}

async fn on_paper(page: &Page, on: bool) -> WebDriverResult<()> {
    let media = json!({ "media": if on { "print" } else { "" }, "features": [] });
    page.command("Emulation.setEmulatedMedia", media).await.map(drop)
}

/// The least letters of the drawing in points, and how many texts it has.
const LETTERS: &str = "const texts = [...document.querySelectorAll('.paper .wired text')];
    const points = texts.map((text) =>
        parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a * 0.75);
    return [Math.min(...points), texts.length];";

/// At arm's length (common practice, no source: 9 points). Four duals come near that only: there
/// are 22 readings and 17 steps on their page too.
#[test]
fn the_drawing_of_up_to_four_drivers_is_read_at_arms_length() {
    journey(async |page| {
        for (name, link, least) in [
            ("pair", states::pair_at("sheet", 0), 9.0),
            ("two", states::two_wired("sheet"), 9.0),
            ("three", duals(3), 9.0),
            ("four", duals(4), 8.0),
        ] {
            page.open_afresh(&link).await?;
            page.until_there(".paper .wired").await?;
            on_paper(page, true).await?;
            for (paper, wide, high) in WITHIN {
                page.screen(wide, high).await?;
                let told = page.run(LETTERS, Vec::new()).await?;
                let [points, texts] = [0, 1].map(|at| told[at].as_f64().unwrap());
                assert!(texts > 10.0, "{name} on {paper}: {told}");
                assert!(points >= least, "{name} on {paper}: {points} points");
            }
            on_paper(page, false).await?;
        }
        Ok(())
    });
}

/// In millimetres, of the code as it is printed (common practice, no source: 0.4 mm).
#[test]
fn every_module_of_a_printed_code_is_wide_enough_for_a_phone() {
    let module = "const code = document.querySelector('.paper .code');
        const modules = code.viewBox.baseVal.width / 2;
        return code.getBoundingClientRect().width / modules * 25.4 / 96;";
    journey(async |page| {
        for link in
            [states::two_wired("sheet"), duals(4), singles(), states::sixteen_wired("sheet")]
        {
            page.open_afresh(&link).await?;
            page.until_there(".paper .code").await?;
            on_paper(page, true).await?;
            let wide = page.run(module, Vec::new()).await?.as_f64().unwrap();
            assert!((0.399..2.0).contains(&wide), "{wide} mm: {link}");
            on_paper(page, false).await?;
        }
        Ok(())
    });
}

/// What stands at the head of the paper, line by line.
const HEAD: &str = "return [...document.querySelectorAll('.paper-title, .paper-who dd')]
    .map((line) => line.textContent)";

#[test]
fn whose_rig_it_is_is_typed_above_the_sheet_and_stands_at_its_head() {
    journey(async |page| {
        page.widen(360).await?;
        let bare = states::two_wired("sheet");
        page.open(&bare).await?;
        page.until_there(".paper .wired").await?;
        assert_eq!(page.run(HEAD, Vec::new()).await?, json!(["", "", "", "", ""]));
        // The driver of the browser types no pictures.
        let vehicle = format!("&vehicle={}&box=", states::within(TURNED));
        page.open_afresh(&bare.replace("&box=", &vehicle)).await?;
        page.until_there(".paper .wired").await?;
        page.fill(say::RIG, "Marigold").await?;
        page.fill(say::CUSTOMER, HOSTILE).await?;
        page.fill(say::DONE_BY, "Ann").await?;
        let plain = "\u{5d3}\u{5dc}\u{5ea} \u{1f50a} 2";
        let due = json!(["Marigold", HOSTILE, plain, "Ann", ""]);
        let head = async || Ok(page.run(HEAD, Vec::new()).await? == due);
        page.until("the head says so", head).await?;
        assert!(page.asks("return document.documentElement.scrollWidth <= innerWidth").await?);
        assert!(page.asks("return !document.querySelector('.paper img')").await?);
        page.until_kept().await?;
        page.refresh().await?;
        page.until("it is kept", head).await?;
        // On paper there are no fields, and cautions come before anything else.
        on_paper(page, true).await?;
        assert!(page.asks("return !document.querySelector('.job-head').checkVisibility()").await?);
        let first =
            "const [head, ...rest] = document.querySelectorAll('.paper-head, .paper section');
            return head.matches('.paper-head') && rest[0].matches('.paper-cautions')";
        assert!(page.asks(first).await?);
        on_paper(page, false).await
    });
}

/// A reading that was not taken is a line to write on.
#[test]
fn what_was_read_stands_beside_what_was_foretold() {
    let second = Act::Coils { driver: 1 };
    let second = states::pair().plan.acts.iter().position(|act| *act == second).unwrap() + 1;
    let read = format!("&meter=1~0.2~2.coil.1a~2.1~2.basket.1~OL~{second}.coil.2a~9&box=");
    let rows = "return [...document.querySelectorAll('.paper-readings tbody tr')]
        .map((row) => [...row.cells].map((cell) => cell.textContent))";
    journey(async |page| {
        page.open(&states::pair_at("sheet", 0).replace("&box=", &read)).await?;
        page.until_there(".paper-readings").await?;
        let told = page.run(rows, Vec::new()).await?;
        assert_eq!(told[0], json!(["Probes touching", "0.0 to 0.5", "0.2", "right"]));
        assert_eq!(told[1][2], "2.1");
        assert_eq!(told[1][3], "right");
        assert_eq!(told[2], json!(["Driver 1, basket", "OL", "OL", "right"]));
        assert_eq!(told[3][2], "9");
        assert_eq!(told[3][3], "too high");
        assert_eq!(told[4], json!(["Driver 2, basket", "OL", "", ""]));
        let line = "const row = document.querySelectorAll('.paper-readings tbody tr')[4];
            return getComputedStyle(row.cells[2]).borderBottomStyle === 'solid'";
        assert!(page.asks(line).await?);
        Ok(())
    });
}

/// Two single 2 Ω drivers in parallel on 1000 W: √(1000 W × 1 Ω) = 31.6 V.
#[test]
fn each_output_says_its_load_watts_and_volts_and_the_wire_its_lengths() {
    journey(async |page| {
        page.open(&states::pair_at("sheet", 0)).await?;
        page.until_there(".paper-outputs").await?;
        let text = page.text(".paper-outputs").await?.replace('\u{a0}', " ");
        for due in ["Amplifier", "1a ∥ 2a", "1 Ω", "fits", "1000 W", "31.6 V"] {
            assert!(text.contains(due), "{due}: {text}");
        }
        let text = page.text(".paper-parts").await?.replace('\u{a0}', " ");
        for due in ["2.5 mm²", "between drivers", "2 runs, 1 m in all, up to 15.8 A"] {
            assert!(text.contains(due), "{due}: {text}");
        }
        Ok(())
    });
}

/// Whatever the page is drawn for, the paper is white and what is on it grey at most.
#[test]
fn the_paper_is_black_on_white_in_the_dark_and_in_the_sun() {
    let coloured = "const found = new Set();
        const grey = (text) => (text.match(/[\\d.]+/g) ?? ['0', '0', '0']).slice(0, 3);
        for (const e of document.querySelectorAll('.paper, .paper *')) {
            const style = getComputedStyle(e);
            for (const of of ['color', 'backgroundColor', 'borderLeftColor', 'fill', 'stroke']) {
                if (style[of] === 'none' || style[of].startsWith('url')) continue;
                const [r, g, b] = grey(style[of]);
                if (r !== g || g !== b) found.add(e.getAttribute('class') + ' ' + of + ' ' + style[of]);
            }
        }
        const text = getComputedStyle(document.querySelector('.paper')).color;
        return [text, [...found]]";
    let read = "&meter=1~1.2~2.coil.1a~2.1~2.basket.1~OL&box=";
    let link = states::two_wired("sheet").replace("&box=", read);
    journey(async |page| {
        for light in ["light", "dark", "sun"] {
            page.open_in(light, &link).await?;
            page.until_there(".paper .wired").await?;
            let scheme = if light == "dark" { "dark" } else { "light" };
            let media = json!({
                "media": "print",
                "features": [{ "name": "prefers-color-scheme", "value": scheme }],
            });
            page.command("Emulation.setEmulatedMedia", media).await?;
            let told = page.run(coloured, Vec::new()).await?;
            assert_eq!(told, json!(["rgb(0, 0, 0)", []]), "{light}");
        }
        Ok(())
    });
}

/// A step that was ticked off is ticked on paper, and whoever cannot see that hears it.
#[test]
fn steps_that_are_done_are_ticked_on_paper() {
    journey(async |page| {
        page.open(&states::two_wired("sheet")).await?;
        page.until_there(".paper-steps li").await?;
        let ticks = "return [...document.querySelectorAll('.paper-steps li')]
            .map((step) => step.querySelector('.paper-box').textContent)";
        let told = page.run(ticks, Vec::new()).await?;
        assert_eq!(told[0], format!("✓{}", say::DONE));
        assert_eq!(told[5], "");
        assert!(page.text(".paper-steps").await?.contains("Run 1: 1a − to 1b +"));
        Ok(())
    });
}
