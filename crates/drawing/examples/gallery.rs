//! Writes two pages with drawings to look at: `cargo run --example gallery -- FOLDER [ROOM]`.

use coilwright_drawing::circuit::{Hung, circuit, thumbnail};
use coilwright_drawing::ladder::{Ladder, Rung, Stated, ladder};
use coilwright_drawing::shares::{Row, Share, shares};
use coilwright_solver::network::Network;
use std::error::Error;
use std::fmt::Write;

/// Parts joined by an operator, each made from its number.
fn joined(count: usize, by: &str, part: impl Fn(usize) -> String) -> String {
    (1..=count).map(part).collect::<Vec<_>>().join(by)
}

fn written() -> Vec<String> {
    let comb = (2..=9).fold("1a".to_owned(), |inner, n| {
        let by = if n % 2 == 0 { "+" } else { "∥" };
        format!("({inner}) {by} {n}a")
    });
    vec![
        "1a".into(),
        "1a + 1b".into(),
        "1a ∥ 1b".into(),
        "(1a + 1b) ∥ (2a + 2b)".into(),
        "(1a ∥ 1b) + (2a ∥ 2b)".into(),
        "1a + 1b + 2a + 2b".into(),
        "1a ∥ 1b ∥ 2a ∥ 2b".into(),
        "1a + (1b ∥ 2a ∥ 2b)".into(),
        "((1a + 1b) ∥ (2a + 2b)) + ((3a + 3b) ∥ (4a + 4b))".into(),
        "(1a + 1b + 2a + 2b) ∥ (3a + 3b + 4a + 4b)".into(),
        "((1a ∥ 1b) + (2a ∥ 2b)) ∥ (3a + 3b)".into(),
        comb,
        joined(4, " ∥ ", |n| format!("({})", joined(8, "+", |m| format!("{}a", 8 * n + m - 8)))),
        joined(8, " ∥ ", |n| format!("({})", joined(4, "+", |m| format!("{}a", 4 * n + m - 4)))),
        joined(16, " ∥ ", |n| format!("({n}a + {n}b)")),
        joined(32, " + ", |n| format!("{n}a")),
        joined(32, " ∥ ", |n| format!("{n}a")),
    ]
}

const HEAD: &str =
    "<!doctype html><meta charset=utf-8><link rel=stylesheet href=gallery.css><body>";

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("which folder?")?;
    let room = std::env::args().nth(2).map_or(Ok(328), |text| text.parse())?;
    let mut page = String::from(
        "<!doctype html><meta charset=utf-8><link rel=stylesheet href=gallery.css><body>",
    );
    let mut networks: Vec<(String, Network)> = Vec::new();
    for text in written() {
        let network = text.parse().map_err(|_| text.clone())?;
        networks.push((text, network));
    }
    page.push_str("<h2>thumbnails</h2>");
    for (_, network) in &networks {
        page.push_str(&thumbnail(network).svg("thumb", None));
    }
    for (text, network) in &networks {
        let scene = circuit(&[Hung { network, plus: "+", minus: "−" }], room);
        write!(page, "<h2>{text}</h2>{}", scene.svg("circuit", Some(text)))?;
    }
    let two: Vec<Hung> = networks
        .get(3..7)
        .unwrap_or_default()
        .iter()
        .zip([("1+", "1−"), ("2+", "2−"), ("3+", "4+"), ("11+", "11−")])
        .map(|((_, network), (plus, minus))| Hung { network, plus, minus })
        .collect();
    write!(page, "<h2>several</h2>{}", circuit(&two, room).svg("circuit", None))?;
    let rest = format!("{HEAD}{}{}", bars(room), ladders());
    std::fs::write(format!("{folder}/circuits.html"), page)?;
    std::fs::write(format!("{folder}/ladders.html"), rest)?;
    std::fs::write(format!("{folder}/gallery.css"), include_str!("gallery.css"))?;
    Ok(())
}

fn ladders() -> String {
    let mut page = String::from("<h2>ladders</h2>");
    let tick = |upper: u32, lower: u32| match lower {
        1 => upper.to_string(),
        _ => format!("{upper}/{lower}"),
    };
    let rated = [
        Stated { ohms: 4.0, label: "500 W" },
        Stated { ohms: 2.0, label: "760 W" },
        Stated { ohms: 1.0, label: "1,200 W" },
    ];
    let near = [Stated { ohms: 4.0, label: "500 W" }, Stated { ohms: 3.7, label: "510 W" }];
    for (loads, pitch, least, rated) in [
        (&[8.0, 5.0, 3.2, 2.0, 1.25, 0.5][..], 56, Some(1.0), &rated[..]),
        (&[2.0], 88, Some(1.0), &rated[..]),
        (&[4.0, 3.5, 3.0], 60, None, &[]),
        (&[4.0, 3.9, 3.8, 3.7, 1.0, 0.99], 48, Some(2.0), &near),
        (&[128.0, 64.0, 32.0], 48, Some(2.0), &rated[..]),
        (&[64.0, 16.0, 9.0, 8.0, 7.0, 4.0, 1.0, 0.25, 0.0625], 48, Some(2.0), &rated[..2]),
    ] {
        let rungs: Vec<Rung> = loads
            .iter()
            .enumerate()
            .map(|(i, ohms)| Rung {
                ohms: *ohms,
                to: if i == 3 { ohms * 0.8 } else { *ohms },
                even: i % 2 == 0,
                low: least.is_some_and(|least| *ohms < least),
            })
            .collect();
        let scene = ladder(&Ladder {
            rungs: &rungs,
            pitch,
            least: least.map(|ohms| Stated { ohms, label: "least" }),
            rated,
            chosen: Some(2),
            unit: "Ω",
            tick: &tick,
        });
        page.push_str(&scene.svg("ladder", None));
    }
    page
}

fn bars(room: i32) -> String {
    let share = |label: &str, fraction: f64, figure: &str| Share {
        label: label.to_owned(),
        fraction,
        figure: figure.to_owned(),
    };
    let rows = [
        Row {
            label: "Driver 1".into(),
            name: String::new(),
            coils: vec![share("1a", 1.0, "250 W"), share("1b", 1.0, "250 W")],
        },
        Row {
            label: "Driver 2".into(),
            name: String::new(),
            coils: vec![share("2a", 0.25, "63 W")],
        },
        Row {
            label: "Driver 3".into(),
            name: String::new(),
            coils: vec![share("3a", 1.3, "325 W")],
        },
    ];
    let wide = shares(&rows, "all of its rating", room).svg("shares", None);
    let narrow = shares(&rows, "all of its rating", 220).svg("shares", None);
    format!("<h2>shares</h2>{wide} {narrow}")
}
