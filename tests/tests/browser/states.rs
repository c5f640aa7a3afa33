//! What the page may be showing, by its links: what holds for the page holds for all.

use crate::kept::kept;
use coilwright_solver::answer::one;
use coilwright_solver::meter::last_check;
use coilwright_solver::rig::{BuildDraft, Cups};
use coilwright_solver::wiring::Plan;
use proof::rigs::{Filters, Stated, drivers, request};
use proof::wired::Case;

/// A name and a link.
pub(crate) type Shown = (&'static str, String);

/// The amplifier of the example.
const MONO: &str = "&amplifier=1~1&channel=1~4:540~2:900~1:1300";

/// What looks like markup in every language that there is on the page.
pub(crate) const HOSTILE: &str = "<img src=x onerror=alert(1)>\"'&]]>";
/// Letters that run from right to left and a picture, with marks that turn round all that
/// comes after them and that end whatever holds them together.
pub(crate) const TURNED: &str = "\u{2069}\u{202e}\u{5d3}\u{5dc}\u{5ea} \u{1f50a} 2";

/// Two single 2 Ω drivers in parallel behind one cup, on an amplifier stable at 1 Ω.
pub(crate) fn pair() -> Case {
    let amplifier = Stated { least: Some("1"), rated: &[("1", 1000.0)] }.mono();
    let drivers = vec![drivers(2, 1, "2").rated(500.0)];
    let rig = request(&drivers, Some(amplifier), Filters::ON).rig;
    let build = BuildDraft { cups: Cups::One, ..BuildDraft::default() }.check(&rig).unwrap();
    let configuration = one(&rig, "1:1a||2a").unwrap();
    let plan = Plan::of(&rig, &build, &configuration).unwrap();
    Case { drivers, rig, build, configuration, plan }
}

/// The link to that pair in a room, at a step counted from 0.
pub(crate) fn pair_at(room: &str, step: u16) -> String {
    format!(
        "#v=1&key={}&view={room}&job={step}~0&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000",
        within("1:1a||2a")
    )
}

/// A link as it stands within another: everything but letters, digits and some marks
/// in hexadecimal.
pub(crate) fn within(link: &str) -> String {
    let mut text = String::new();
    for byte in link.bytes() {
        if byte.is_ascii_alphanumeric() || b".-_/".contains(&byte) {
            text.push(char::from(byte));
        } else {
            text.push_str(&format!("%{byte:02X}"));
        }
    }
    text
}

/// Sixteen dual-coil drivers, four in parallel and four of these in series: the coils of
/// each in series, so that all 32 get the same.
fn sixteen() -> String {
    let driver = |number: u32| format!("({number}a+{number}b)");
    let four = |first: u32| {
        let drivers: Vec<String> = (first..first + 4).map(driver).collect();
        format!("({})", drivers.join("||"))
    };
    let all: Vec<String> = (0..4).map(|i| four(4 * i + 1)).collect();
    format!("#v=1&key={}&drivers=16~2~4~100{MONO}", within(&format!("1:{}", all.join("+"))))
}

/// Two configurations of three dual 4 Ω drivers and one of two dual 2 Ω drivers.
pub(crate) fn side_by_side() -> String {
    let series = within("1:1a+1b+2a+2b+3a+3b");
    let parallel = within("1:(1a+1b)||(2a+2b)||(3a+3b)");
    let other =
        within("v=1&key=1:1a%2B1b%2B2a%2B2b&drivers=2~2~2~500&amplifier=1~1&channel=1~1:1000");
    format!(
        "#v=1&view=compare&compare={series}&compare={parallel}&compare={other}\
         &drivers=3~2~4~400{MONO}"
    )
}

/// Four dual-coil drivers, no filter: 337 loads (OEIS A048211, eight equal coils).
pub(crate) fn long_ladder() -> String {
    format!("#v=1&joined_only=0&even_only=0&drivers=4~2~4~300{MONO}")
}

/// Two dual 2 Ω drivers make 8 Ω at most, and this amplifier wants 16 Ω.
pub(crate) fn nothing_fits() -> String {
    "#v=1&drivers=2~2~2~500&amplifier=1~1&channel=16".to_owned()
}

/// Two dual 2 Ω drivers in one box, each with a cup, on an amplifier with tied pairs.
pub(crate) fn two_wired(room: &str) -> String {
    let key = within("1:(1a+1b)||(2a+2b)");
    format!(
        "#v=1&key={key}&view={room}&job=6~7&box=driver~~~chain&drivers=2~2~2~500\
         &amplifier=1~1&channel=1~4:420~2:760~1:1200~tied"
    )
}

/// Sixteen dual-coil drivers, wired.
pub(crate) fn sixteen_wired(room: &str) -> String {
    sixteen().replace("&drivers", &format!("&view={room}&box=one~~~chain&drivers"))
}

/// The same with drivers that are called something as wide as can be.
pub(crate) fn named(link: &str) -> String {
    link.replace("&drivers", &format!("&names={}&drivers", "W".repeat(60)))
}

/// Thirty rigs are kept, one of them at hand.
pub(crate) const MANY_RIGS: &str = "#v=1&view=rigs&drivers=2~2~2~500";

/// What is in the storage where a link is shown: with [`MANY_RIGS`] rigs with short names,
/// long ones, some without a place to break and some from the right to the left, rigs that
/// are not finished and entries that are damaged.
pub(crate) fn stored(link: &str) -> Vec<(String, String)> {
    if link != MANY_RIGS {
        return Vec::new();
    }
    let mut texts = vec![("coilwright.layout".to_owned(), "4".to_owned())];
    for i in 0..30_u32 {
        let name = match i % 6 {
            0 => format!("Float {i}, rear left, spare box for the second evening"),
            1 => "W".repeat(60),
            2 => "\u{1f50a}".repeat(60),
            3 => "\u{5d4}\u{5de}\u{5e8}\u{5db}\u{5d1}\u{5d4} \u{5d4}\u{5d0}\u{5d7}\u{5d5}\u{5e8}\u{5d9}\u{5ea} 2".to_owned(),
            4 => "<b>x</b>&amp;".to_owned(),
            _ => i.to_string(),
        };
        let link = match i % 4 {
            0 => format!(
                "v=1&against=1~{}&drivers=16~2~4~100&drivers=3~4~8~250{MONO}",
                "W".repeat(200)
            ),
            1 => "v=1&drivers=~2~4%20or%208~".to_owned(),
            2 if i > 20 => "damaged".to_owned(),
            _ => format!("v=1&drivers=2~2~2~500{MONO}"),
        };
        texts.push((format!("coilwright.rig.{i}"), kept(i, &name, &link)));
    }
    // The draft that is gone on with belongs to one of them.
    texts.push(("coilwright.draft".to_owned(), "a".to_owned()));
    let draft = format!("{}&mine=15~15~15", MANY_RIGS.trim_start_matches('#'));
    texts.push(("coilwright.draft.a".to_owned(), draft));
    texts
}

/// Everything.
pub(crate) fn all() -> Vec<Shown> {
    let plain = [
        ("a first visit", ""),
        ("nothing yet", "#v=1&drivers=~1~~"),
        ("wrong values", "#v=1&drivers=17~1~four~-1&amplifier=1~9&channel=0~4:x"),
        ("a load that was tapped", "#v=1&load=6&drivers=3~2~4~400&amplifier=1~1&channel=1~4:540"),
        ("long fractions", "#v=1&joined_only=0&even_only=0&drivers=4~2~4/3~333.3333"),
        (
            "two kinds and a bridge",
            "#v=1&drivers=2~2~4~300&drivers=1~1~8~150&amplifier=1~2&channel=2~4:150~2:250&bridge=1~2~4~4:500",
        ),
        (
            "every way of four channels",
            "#v=1&drivers=4~1~4~300&amplifier=1~4&channel=2~4:150~tied&bridge=1~2~4~4:500&bridge=3~4~",
        ),
        (
            "a driver on two outputs",
            "#v=1&joined_only=0&drivers=1~2~4~300&amplifier=1~2&channel=2~4:150~2:250",
        ),
        (
            "a choice",
            "#v=1&key=1:1a%2B1b%2B2a%2B2b&drivers=2~2~2~500&amplifier=1~1&channel=1~1:1000",
        ),
        ("help", "#v=1&view=help&drivers=3~2~4~400"),
        (
            "a closed box",
            "#v=1&view=closed&cup=3.2~0.2&drivers=2~2~4~300&amplifier=1~2&channel=2~4:150~2:250&bridge=1~2~",
        ),
        (
            "a rig that is wired already",
            "#v=1&view=already&reads=1.1&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000",
        ),
        ("a closed box of few ohms", "#v=1&view=closed&cup=0.6~0.2&drivers=~1~~"),
        // Little is shown then, so that the link brings two notices too.
        (
            "a closed box read wrongly",
            "#v=1&view=closed&cup=about%203~OL&key=1a&colour=orange&compare=1a+1b+2a+2b&drivers=2~2~4~300",
        ),
    ];
    let mut all: Vec<Shown> = plain.map(|(name, link)| (name, link.to_owned())).into();
    let already = pair_at("already", 0);
    let wrong = format!("job=0~0&meter=1~0.2~{}~2.4&", last_check(&pair().plan).unwrap() + 1);
    all.push(("a rig wired already that reads wrong", already.replace("job=0~0&", &wrong)));
    all.push(("side by side", side_by_side()));
    all.push(("a long ladder", long_ladder()));
    all.push(("nothing fits", nothing_fits()));
    all.push(("sixteen drivers", sixteen()));
    for (name, room) in [("a plan", "wire"), ("working mode", "work"), ("a job sheet", "sheet")] {
        all.push((name, two_wired(room)));
    }
    for (name, room) in [("a shut gate", "work"), ("a shut gate in a plan", "wire")] {
        all.push((name, two_wired(room).replace("job=6~7", "job=99~7&meter=1~1.2~10~about")));
    }
    for (name, room) in [("a gate gone through", "work"), ("a sheet against the meter", "sheet")] {
        let words = format!("1~{}", "W".repeat(200));
        let against = format!("job=99~7&meter=1~1.2&against={words}");
        all.push((name, two_wired(room).replace("job=6~7", &against)));
    }
    all.push(("a long plan", sixteen_wired("wire")));
    for (name, room) in [
        ("a plan with names", "wire"),
        ("work with names", "work"),
        ("a job sheet with names", "sheet"),
    ] {
        all.push((name, named(&two_wired(room))));
    }
    all.push((
        "two kinds with names",
        format!(
            "#v=1&names=Rear%20doors~{}~%09&drivers=2~2~4~300&drivers=1~1~8~150&drivers=2~1~4~",
            within(TURNED)
        ),
    ));
    all.push(("no saved rigs", MANY_RIGS.replace("drivers=2", "drivers=3")));
    all.push(("many saved rigs", MANY_RIGS.to_owned()));
    all
}
