//! What moves on the page when an answer comes long after the key that asked for it.

use super::Figure;
use super::phone::Phone;
use thirtyfour::prelude::WebDriverResult;

/// Half a second after a key the browser counts every shift as one that was not asked for.
const RECENT: f64 = 500.0;

/// Questions that a slowed browser works on for longer than that.
const LONG: [(&str, &str); 2] = [
    (
        "seven different drivers",
        "#v=1&joined_only=0&even_only=0&drivers=1~1~1~300&drivers=1~1~2~300&drivers=1~1~3~300\
         &drivers=1~1~4~300&drivers=1~1~6~300&drivers=1~1~8~300&drivers=1~1~16~300\
         &amplifier=1~1&channel=1~4:600~2:1000",
    ),
    (
        "sixteen drivers on eight unlike channels",
        "#v=1&drivers=16~1~4~300&amplifier=1~8~unlike&channel=1~4:100&channel=1~4:101\
         &channel=1~4:102&channel=1~4:103&channel=1~4:104&channel=1~4:105&channel=1~4:106\
         &channel=1~4:107",
    ),
];

/// Where the field is on the screen while it is typed into.
const PLACES: [&str; 3] = ["start", "center", "end"];

/// Adds up the shifts while answers come late, with the field at several heights.
pub(crate) async fn measure(
    phone: &Phone,
    origin: &str,
    figures: &mut Vec<Figure>,
) -> WebDriverResult<()> {
    let (mut unasked, mut asked) = (0.0, 0.0);
    for (name, link) in LONG {
        let mut late = 0;
        for place in PLACES {
            phone.open_afresh(origin, link).await?;
            let before = phone.seen("shifts.length").await?.as_u64().unwrap();
            for ohms in ['3', '1'] {
                // Other ohms are another question, with another list.
                phone.focus("drivers-0-ohms", place).await?;
                phone.key(ohms).await?;
                let typed = phone.now().await?;
                let changed = phone.at_rest().await?;
                late += u32::from(changed > typed + RECENT);
            }
            let shifts = phone.seen("shifts").await?;
            let before = usize::try_from(before).unwrap();
            for shift in shifts.as_array().unwrap().iter().skip(before) {
                let moved = shift["moved"].as_f64().unwrap();
                if shift["after_input"].as_bool().unwrap() {
                    asked += moved;
                } else {
                    unasked += moved;
                    println!("{name}, field at the {place}: {moved:.3} by {}", shift["what"]);
                }
            }
        }
        assert!(late > 0, "{name}: no answer came late, so nothing was measured");
    }
    figures.push(Figure {
        name: "layout shifts when an answer comes late".to_owned(),
        value: unasked,
        unit: "",
        bound: Some(0.0),
    });
    figures.push(Figure {
        name: "layout shifts within 500 ms of a key".to_owned(),
        value: asked,
        unit: "",
        bound: None,
    });
    Ok(())
}
