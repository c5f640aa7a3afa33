mod reader;

use super::*;
use crate::scene::check::{self, Area};
use crate::scene::{Mark, Role};
use coilwright_solver::network::{Coil, Joint};
use coilwright_solver::ohms::{Ohms, Ratio};
use proptest::prelude::*;
use reader::read;

/// Places as wide as a small phone, a panel, a table of a workshop, and one too narrow.
const ROOMS: [i32; 5] = [120, 288, 328, 700, 2000];

fn network(text: &str) -> Network {
    text.parse().unwrap()
}

fn hung(networks: &[Network]) -> Vec<Hung<'_>> {
    let names = [("1+", "1−"), ("2+", "2−"), ("3+", "4+"), ("11+", "12+")];
    let pairs = networks.iter().zip(names);
    pairs.map(|(network, (plus, minus))| Hung { network, plus, minus }).collect()
}

/// `count` written parts joined by an operator.
fn joined(count: usize, by: &str, part: impl Fn(usize) -> String) -> String {
    (1..=count).map(part).collect::<Vec<_>>().join(by)
}

fn comb(coils: usize) -> String {
    (2..=coils).fold("1a".to_owned(), |inner, n| {
        let by = if n % 2 == 0 { "+" } else { "||" };
        format!("({inner}) {by} {n}a")
    })
}

/// From one coil to 32, of every kind of form.
fn table() -> Vec<String> {
    let grid = |rows: usize, by: &str, columns: usize, inner: &str| {
        joined(rows, by, |n| {
            format!("({})", joined(columns, inner, |m| format!("{}a", columns * (n - 1) + m)))
        })
    };
    let mut all: Vec<String> = [
        "1a",
        "1a + 1b",
        "1a || 1b",
        "(1a + 1b) || (2a + 2b)",
        "(1a || 1b) + (2a || 2b)",
        "1a + 1b + 2a + 2b",
        "1a || 1b || 2a || 2b",
        "1a + (1b || 2a || 2b)",
        "1a || (1b + 2a + 2b)",
        "((1a || 1b) + (2a || 2b)) || (3a + 3b)",
        "((1a + 1b) || (2a + 2b)) + ((3a + 3b) || (4a + 4b))",
    ]
    .map(str::to_owned)
    .into();
    for coils in [3, 9, 16, 32] {
        all.push(comb(coils));
    }
    for coils in [5, 7, 12, 17, 32] {
        all.push(joined(coils, "+", |n| format!("{n}a")));
        all.push(joined(coils, "||", |n| format!("{n}a")));
    }
    for (rows, columns) in [(4, 8), (8, 4), (16, 2), (2, 16), (3, 5)] {
        all.push(grid(rows, "||", columns, "+"));
        all.push(grid(rows, "+", columns, "||"));
    }
    all
}

/// Two sorts of unlike ohms, so that a coil in the wrong place is noticed.
const OHMS: [fn(Coil) -> u128; 3] = [
    |coil| 2 + (u128::from(coil.driver) * 7 + u128::from(coil.coil) * 3) % 8,
    |coil| 1 + (u128::from(coil.driver) * 5 + u128::from(coil.coil) * 2) % 9,
    |_| 4,
];

/// The picture shows the network: read back from wires alone, it has the same load for
/// every sort of ohms, and every coil is driven in phase.
fn shows(networks: &[Network], scene: &Scene) {
    let drawn = read(scene);
    assert_eq!(drawn.outputs.len(), networks.len());
    let mut written: Vec<Coil> = networks.iter().flat_map(Network::coils).collect();
    let mut coils: Vec<Coil> = drawn.coils.iter().map(|(coil, ..)| *coil).collect();
    written.sort();
    coils.sort();
    assert_eq!(coils, written, "every coil once");
    for (network, output) in networks.iter().zip(&drawn.outputs) {
        for ohms in OHMS {
            let exact = |coil| Ohms::new(Ratio::whole(ohms(coil)).unwrap());
            let load = network.load(&exact).expect("fits 128 bits").to_f64();
            let volts = drawn.volts(*output, &|coil| ohms(coil) as f64);
            let seen = volts[output.0] - volts[output.1];
            assert!((seen - load).abs() < 1e-9 * load, "{network}: {seen} for {load}");
            for coil in network.coils() {
                let (_, plus, minus) = drawn.coils.iter().find(|(one, ..)| *one == coil).unwrap();
                assert!(volts[*plus] > volts[*minus], "{network}: {coil} against the others");
            }
        }
    }
}

/// Laws of every schematic.
fn is_neat(scene: &Scene) {
    assert_eq!(check::problems(scene), Vec::<String>::new());
    let wires = check::lines(scene, reader::is_wire);
    let bodies: Vec<Area> = reader::bodies(scene).iter().map(|(body, ..)| *body).collect();
    let texts = check::texts(scene);
    for (i, wire) in wires.iter().enumerate() {
        assert!(wire.0.0 == wire.1.0 || wire.0.1 == wire.1.1, "aslant: {wire:?}");
        for other in wires.iter().skip(i + 1) {
            assert!(!reader::on_one_another(*wire, *other), "{wire:?} lies on {other:?}");
            assert!(!reader::crosses(*wire, *other), "{wire:?} crosses {other:?}");
        }
        for body in &bodies {
            // A wire may end at a coil but not run along its foot.
            let grown = (body.0, body.1, body.2 + 1, body.3 + 1);
            assert!(!reader::lies_in(*wire, grown), "{wire:?} through a coil {body:?}");
        }
        for (_, text, name) in &texts {
            assert!(!check::enters(*wire, *text), "{wire:?} through {name} {text:?}");
        }
    }
    for (i, body) in bodies.iter().enumerate() {
        for other in bodies.iter().skip(i + 1) {
            assert!(!check::overlap(*body, *other), "coils on one another");
        }
        for (_, text, name) in &texts {
            assert!(!check::overlap(*body, *text), "{name} on a coil");
        }
    }
    let frames: Vec<Area> = reader::areas(scene, Role::Driver);
    for (i, frame) in frames.iter().enumerate() {
        for other in frames.iter().skip(i + 1) {
            assert!(!check::overlap(*frame, *other), "drivers {frame:?} {other:?}");
        }
    }
}

#[test]
fn every_written_network_is_drawn_neatly_and_as_it_is() {
    for text in table() {
        let networks = [network(&text)];
        for room in ROOMS {
            let scene = circuit(&hung(&networks), room);
            is_neat(&scene);
            shows(&networks, &scene);
        }
    }
}

#[test]
fn several_outputs_stand_in_one_picture() {
    let several = ["1a || 1b", "2a + 2b + 3a + 3b", "(4a || 4b) + (5a || 5b)", &comb(6)];
    let renamed: Vec<Network> = several
        .iter()
        .enumerate()
        .map(|(i, text)| renumbered(&network(text), u8::try_from(10 * i).unwrap()))
        .collect();
    for count in 1..=renamed.len() {
        for room in ROOMS {
            let scene = circuit(&hung(&renamed[..count]), room);
            is_neat(&scene);
            shows(&renamed[..count], &scene);
        }
    }
    assert_eq!(circuit(&[], 300), Scene::new());
}

fn renumbered(network: &Network, by: u8) -> Network {
    match network {
        Network::Coil(coil) => Network::Coil(Coil { driver: coil.driver + by, coil: coil.coil }),
        Network::Node(joint, parts) => {
            Network::Node(*joint, parts.iter().map(|part| renumbered(part, by)).collect())
        }
    }
}

/// A phone of 360 px leaves 328 between the edges of the page.
#[test]
fn what_people_build_fits_a_phone() {
    let combs = [comb(16), comb(32)];
    for text in table() {
        let scene = circuit(&hung(&[network(&text)]), 328);
        // Deep combs are panned sideways.
        assert_eq!(scene.width > 328, combs.contains(&text), "{text}: {}", scene.width);
        assert!(scene.height <= 960 || text == combs[1], "{text}: {}", scene.height);
    }
}

#[test]
fn more_room_hardly_ever_makes_a_picture_taller() {
    for text in table() {
        let networks = [network(&text)];
        let heights = [328, 700, 2000].map(|room| {
            let scene = circuit(&hung(&networks), room);
            (scene.width <= room).then_some(scene.height)
        });
        for pair in heights.windows(2) {
            // Rows are given up for a drawing without any that is a third taller at most.
            if let [Some(narrow), Some(wide)] = pair {
                assert!(*wide <= narrow * 4 / 3 + 2, "{text}: {heights:?}");
            }
        }
    }
}

#[test]
fn coils_of_a_driver_have_an_outline_where_they_are_side_by_side() {
    for (text, outlines) in [
        ("1a", 0),
        ("1a + 2a", 0),
        ("1a + 1b", 1),
        ("(1a + 1b) || (2a + 2b)", 2),
        ("(1a + 2a) || (1b + 2b)", 0),
        ("1a + 1b + 2a + 2b", 2),
        ("1a + 2a + 1b + 2b", 0),
        ("1a || 1b || 2a", 1),
        ("1a + (1b || 2a || 2b)", 1),
        ("(1a || 1b) + (2a || 2b)", 2),
        ("1a + 1b + 1c + 1d", 1),
    ] {
        for room in ROOMS {
            let networks = [network(text)];
            let scene = circuit(&hung(&networks), room);
            // A driver that a turn of the rows parts has none.
            let turned = scene.marks.iter().any(|mark| reader::leads_back(mark, &scene));
            let found = reader::areas(&scene, Role::Driver).len();
            assert!(found == outlines || turned && found < outlines, "{text}: {found}");
        }
    }
    // A driver with its other coil on another output is no whole.
    let split = [network("1a || 2a"), network("1b || 3a")];
    assert!(reader::areas(&circuit(&hung(&split), 328), Role::Driver).is_empty());
}

#[test]
fn thumbnails_keep_to_their_box_and_show_every_coil_apart() {
    for text in table() {
        let network = network(&text);
        let scene = thumbnail(&network);
        assert_eq!(check::problems(&scene), Vec::<String>::new(), "{text}");
        assert!(scene.width <= 96 * scene.fine && scene.height <= 56 * scene.fine, "{text}");
        let bars = reader::areas(&scene, Role::ThumbCoil);
        assert_eq!(bars.len(), network.coils().len(), "{text}");
        for (i, bar) in bars.iter().enumerate() {
            assert!(bar.2 > bar.0 && bar.3 > bar.1, "{text}: {bar:?}");
            for other in bars.iter().skip(i + 1) {
                assert!(!check::overlap(*bar, *other), "{text}: {bar:?} {other:?}");
            }
        }
    }
}

/// Reviewed by eye.
#[test]
fn a_pair_of_coils_as_svg() {
    let networks = [network("1a || 1b")];
    let scene = circuit(&hung(&networks), 328);
    assert_eq!(scene.svg("circuit", None) + "\n", include_str!("tests/pair.svg"));
}

/// A network grown by joining neighbours, as the numbers say.
fn grown(coils: usize, choices: &[(u8, u8)]) -> Network {
    let mut parts: Vec<Network> = (0..coils)
        .map(|i| {
            let driver = u8::try_from(i / 2).unwrap();
            Network::Coil(Coil { driver, coil: u8::try_from(i % 2).unwrap() })
        })
        .collect();
    let mut choices = choices.iter().cycle();
    while parts.len() > 1 {
        let (at, many) = choices.next().copied().unwrap_or((0, 0));
        let many = (2 + usize::from(many) % 4).min(parts.len());
        let from = usize::from(at / 2) % (parts.len() - many + 1);
        let joint = if at % 2 == 0 { Joint::Series } else { Joint::Parallel };
        let inner: Vec<Network> = parts.drain(from..from + many).collect();
        parts.insert(from, Network::joined(joint, inner));
    }
    parts.pop().unwrap()
}

proptest! {
    #[test]
    fn any_network_is_drawn_neatly_and_as_it_is(
        coils in 1_usize..=32,
        choices in prop::collection::vec(any::<(u8, u8)>(), 1..32),
        room in 100_i32..1600,
    ) {
        let networks = [grown(coils, &choices)];
        let scene = circuit(&hung(&networks), room);
        is_neat(&scene);
        shows(&networks, &scene);
        let small = thumbnail(&networks[0]);
        prop_assert_eq!(check::problems(&small), Vec::<String>::new());
    }
}

#[test]
fn a_wrong_picture_is_noticed() {
    let networks = [network("(1a + 1b) || 2a")];
    let scene = circuit(&hung(&networks), 328);
    let noticed = |scene: &Scene, of: &[Network]| {
        std::panic::catch_unwind(|| {
            is_neat(scene);
            shows(of, scene);
        })
        .is_err()
    };
    assert!(!noticed(&scene, &networks));
    assert!(noticed(&scene, &[network("(1a + 1b) + 2a")]));
    assert!(noticed(&scene, &[network("(1a + 2a) || 1b")]));
    // Any wire, coil or dot that is missing.
    for (i, mark) in scene.marks.iter().enumerate() {
        let needed = match mark {
            Mark::Line(role, ..) => reader::is_wire(*role),
            Mark::Shape(role, ..) => {
                matches!(role, Role::Coil | Role::CoilPlus | Role::Dot | Role::Terminal)
            }
            Mark::Text(role, ..) => *role == Role::CoilLabel,
            Mark::Rect(..) | Mark::Path(..) | Mark::Run(..) | Mark::End | Mark::Name(..) => false,
        };
        let mut without = scene.clone();
        without.marks.remove(i);
        assert!(!needed || noticed(&without, &networks), "without {mark:?}");
    }
}
