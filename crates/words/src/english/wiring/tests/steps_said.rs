//! What each step says.

use super::*;

/// Title, text and caution of every step of a kind, by its name in the contract.
fn of_kind(wording: Wording<'_>, kind: &str) -> Vec<[String; 3]> {
    let mut said = Vec::new();
    for (at, step) in wording.plan.acts.iter().enumerate() {
        if step.name() == kind {
            let Said { title, text, caution } = wording.act(at);
            said.push([title, text, caution.unwrap_or_default()]);
        }
    }
    said
}

const NOT_ON: &str = "Never on a tweeter or through a capacitor.";

fn dual(pairs: u32, build: &Build, kind: &str) -> Vec<[String; 3]> {
    let amplifier = plain((1, 1, pairs));
    told(drivers(2, 2, 0), amplifier, build, "1:(1a+1b)||(2a+2b)", |wording| of_kind(wording, kind))
}

#[test]
fn the_leads_are_read_before_anything_and_every_coil_alone_before_polarity() {
    let order =
        told(drivers(2, 2, 0), plain(MONO), &Build::default(), "1:1a||1b||2a||2b", |wording| {
            wording.plan.acts.iter().take(3).map(|step| step.name()).collect::<Vec<_>>()
        });
    assert_eq!(order, ["leads", "coils", "polarity"]);
    let leads =
        "0.0 to 0.5 Ω is right. What they read is in every reading that follows: write it down.";
    let lift = "If a cable is on the amplifier now, its power goes off before you lift it.";
    assert_eq!(dual(1, &Build::default(), "leads"), [["Touch the probes together", leads, lift]]);
    let said = dual(1, &Build::default(), "coils");
    let text = "With nothing joined to driver 1: probes to the two terminals of each coil. It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down. Then one probe on bare metal of the basket, or of the cup's plate, and the other on every terminal: open.";
    assert_eq!(said[0], ["Read each coil of driver 1", text, ""]);
    assert_eq!(said[1][0], "Read each coil of driver 2");
    let single = told(drivers(1, 1, 0), plain(MONO), &Build::default(), "1:1a", |wording| {
        of_kind(wording, "coils")
    });
    assert!(
        single[0][1].starts_with("With nothing joined to driver 1: probes to its two terminals. ")
    );
    assert_eq!(single[0][0], "Read the coil of driver 1");
}

#[test]
fn polarity_is_proved_coil_by_coil() {
    let said = dual(1, &Build::default(), "polarity");
    let text = "Amplifier cables off: touch a 1.5 V cell to 1a, then to 1b, + to + and − to −, for under a second each. Each must move the cone the same way, which is that of every driver facing out. Without a cell: meter on DC millivolts, push the cone in gently, and every coil must swing to the same sign.";
    assert_eq!(said[0], ["Polarity of driver 1", text, NOT_ON]);
    assert_eq!((said[1][0].as_str(), said[1][2].as_str()), ("Polarity of driver 2", NOT_ON));
}

#[test]
fn the_cone_of_a_driver_facing_in_moves_the_other_way() {
    let facing_in = |driver| Build { mounted_reversed: vec![driver], ..Build::default() };
    let moves = |count, coils, driver, key: &str| {
        let group = drivers(count, coils, 0);
        let said = told(group, plain(MONO), &facing_in(driver), key, |wording| {
            of_kind(wording, "polarity")
        });
        let text = said[usize::from(driver)][1].clone();
        text.split(". ").nth(1).unwrap().to_owned()
    };
    let other_way = "Seen from outside the box the cone must move the other way than one facing out: this driver faces in on purpose";
    assert_eq!(moves(2, 1, 1, "1:1a+2a"), other_way);
    let each = "Each must move the cone the same way; seen from outside the box that is the other way than a driver facing out, on purpose";
    assert_eq!(moves(2, 2, 1, "1:(1a+1b)||(2a+2b)"), each);
    let alone =
        "Seen from outside the box the cone must move in, since the driver faces in on purpose.";
    assert_eq!(moves(1, 1, 0, "1:1a"), alone);
    // + and − are exchanged where its runs land: said to be on purpose. 1000 W into 1 Ω is
    // 250 W into 4 Ω from a voltage source: 7.91 A.
    let joined = told(drivers(2, 1, 0), plain(MONO), &facing_in(1), "1:1a+2a", |wording| {
        let steps = ["join", "lay", "land"].map(|kind| of_kind(wording, kind));
        steps.map(|steps| steps.last().unwrap().clone())
    });
    let [join, lay, land] = joined.map(|[title, text, _]| format!("{title} | {text}"));
    assert_eq!(
        join,
        "Run 1: driver 1 − to driver 2 − | Between parts in series: join driver 1 − to driver 2 − with 0.5 m of wire, which carries up to 7.91 A. Driver 2 faces in, so its + and − are exchanged on purpose."
    );
    assert_eq!(
        lay,
        "Lay run 3: driver 2 + to amplifier − | Negative: join one end to driver 2 +. Leave the other end, meant for amplifier −, open and insulated. Driver 2 faces in, so its + and − are exchanged on purpose."
    );
    assert_eq!(
        land,
        "Land run 3: driver 2 + to amplifier − | Negative: land the open end of this run, which comes from driver 2 +, on amplifier −. Driver 2 faces in, so its + and − are exchanged on purpose."
    );
}

#[test]
fn every_reading_says_where_the_probes_go_and_what_is_loose() {
    let said = dual(1, &cups(Cups::One), "check");
    assert_eq!(
        said[0],
        [
            "Check driver 1",
            "+ probe to 1a +, − probe to 1b −, with nothing else joined to driver 1. It should read about 3.8 Ω; 2.8 to 4.7 Ω is right, the leads in it. Write the reading down. Then touch the cell to the same two, its + to 1a +: the cone must jump at least as clearly as before.",
            "No movement may be a flat cell or a bad contact, else it is a reversed coil: do not power it before that is known.",
        ]
    );
    let [_, _, drivers_said, cup, cable] = said.as_slice() else { panic!("{said:?}") };
    assert_eq!(
        *drivers_said,
        [
            "Check the drivers from 1a + to 1b −",
            "+ probe to 1a +, − probe to 1b −, with no cup and no cable joined to either. It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down. Then touch the cell to the same two, + to +: every cone must move the same way as alone, in series less.",
            "",
        ]
    );
    assert_eq!(
        *cup,
        [
            "Check the cup",
            "Outside the box: + probe to cup +, − probe to cup −, with nothing joined there yet. It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down.",
            "",
        ]
    );
    assert_eq!(
        *cable,
        [
            "Check the cable of the amplifier",
            "At the amplifier's end, nothing landed: + probe to the end meant for amplifier +, − probe to the end meant for amplifier −. It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down. Then touch the cell to the same two, + to +: every cone must move the same way as alone, in series less.",
            "Read ohms and polarity only with the cables off the amplifier.",
        ]
    );
    let tied = dual(2, &cups(Cups::Driver), "check");
    assert_eq!(tied[2][0], "Check cup 1");
    let [.., last, together] = tied.as_slice() else { panic!("{tied:?}") };
    assert_eq!(last[0], "Check the cable of the amplifier, second pair");
    assert_eq!(
        last[1],
        "At the amplifier's end, nothing landed: + probe to the end meant for amplifier + (second pair), − probe to the end meant for amplifier − (second pair). It should read about 3.8 Ω; 2.8 to 4.7 Ω is right, the leads in it. Write the reading down. Then touch the cell to the same two, + to +: every cone must move the same way as alone, in series less."
    );
    assert_eq!(
        *together,
        [
            "Check the cables together",
            "At the amplifier's end, nothing landed: hold the + ends of all 2 cables together by hand, and the − ends. + probe to the first, − probe to the second. It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down. Then part them.",
            "",
        ]
    );
    let at_box = Build { joined_at: Some(JoinedAt::Box), ..cups(Cups::Driver) };
    let outside = dual(2, &at_box, "check").into_iter().nth(4).unwrap();
    assert_eq!(
        outside,
        [
            "Check the cups from cup 1 + to cup 1 −",
            "+ probe to cup 1 +, − probe to cup 1 −, with no cable joined to either. It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down.",
            "",
        ]
    );
}

#[test]
fn several_ends_of_a_cable_are_held_together() {
    // One cup for each of two drivers in parallel, each led to the amplifier: a star.
    let star = Build { fed: Fed::Star, ..Build::default() };
    let said =
        told(drivers(2, 1, 0), plain(MONO), &star, "1:1a||2a", |wording| of_kind(wording, "check"));
    let held = "At the amplifier's end, nothing landed: hold the ends meant for amplifier + together, and those meant for amplifier − together. + probe to the first, − probe to the second. It should read about 1.1 Ω; 0.7 to 1.6 Ω is right, the leads in it. Write the reading down. Then touch the cell to the same two, + to +: every cone must move the same way as alone, in series less.";
    assert_eq!(said.last().unwrap()[1], held);
}

#[test]
fn power_goes_off_before_the_first_cable_end_and_on_last() {
    let off = dual(1, &Build::default(), "power_off");
    assert_eq!(
        off,
        [[
            "Power off",
            "Fuse out or battery negative off, as the vehicle's manual says. It stays so until the last step.",
            "Two batteries: both negatives. Hybrid or electric vehicle: 12 V side only, never orange cables. A stiffening capacitor stays charged after the supply is off: discharge it as its manual says.",
        ]]
    );
    let tied = dual(2, &cups(Cups::Driver), "power_off");
    assert!(tied[0][1].ends_with("It stays so until the last step. With nothing on its terminals, and a switch between the pairs set to both: read + to + and − to − of the tied pairs. Both must read as little as the probes held together, or this plan is not for them; − to − alone proves nothing, as − is often common to several outputs."));
    let on = dual(1, &Build::default(), "power_on");
    assert_eq!(
        on,
        [[
            "Power on",
            "Only when every reading agreed: fuse in or battery negative on, then raise the level from nothing. To change anything later, power off first.",
            "Both terminals of every output are live, bridged or not: neither goes to chassis, nor to another channel's negative. Measure + to −. Above 25 V RMS (common practice, no source) hands off while it plays. No sound and a warm or smelling driver: off at once. Two coils of a driver against each other cancel its motion, and with that its cooling; nearly all power is heat anyway.",
        ]]
    );
    let mains = Build { vehicle: false, ..Build::default() };
    assert_eq!(
        dual(1, &mains, "power_off"),
        [[
            "Power off",
            "Amplifier off and its mains plug out. It stays out until the last step.",
            "Leave the amplifier's case closed: it stays charged inside.",
        ]]
    );
    assert!(
        dual(1, &mains, "power_on")[0][1]
            .starts_with("Only when every reading agreed: mains plug in,")
    );
}

#[test]
fn a_cable_is_laid_first_and_landed_last() {
    let build = cups(Cups::One);
    let lay = dual(1, &build, "lay");
    assert_eq!(
        lay,
        [
            [
                "Lay run 7: cup + to amplifier +",
                "Positive: join one end to cup +. Leave the other end, meant for amplifier +, open and insulated.",
                "The amplifier end of a cable is landed last and lifted first. The fuse goes in last, after the meter agrees.",
            ],
            [
                "Lay run 8: cup − to amplifier −",
                "Negative: join one end to cup −. Leave the other end, meant for amplifier −, open and insulated.",
                "",
            ],
        ]
    );
    let mains = Build { vehicle: false, ..build.clone() };
    assert_eq!(
        dual(1, &mains, "lay")[0][2],
        "The amplifier end of a cable is landed last and lifted first. The mains plug goes in last, after the meter agrees."
    );
    assert_eq!(
        dual(1, &build, "land")[1],
        [
            "Land run 8: cup − to amplifier −",
            "Negative: land the open end of this run, which comes from cup −, on amplifier −.",
            "No loose strands: one can short an output.",
        ]
    );
    let bridged = amplifier(1, 2, 1, &[[1, 2]]);
    let land =
        told(drivers(2, 1, 0), bridged, &build, "1+2:1a+2a", |wording| of_kind(wording, "land"));
    assert_eq!(
        land[0][1],
        "Positive: land the open end of this run, which comes from cup +, on channels 1+2 bridged +. The marks on the amplifier say which terminal that is."
    );
    assert_eq!(
        dual(1, &build, "join")[4],
        [
            "Run 5: cup + (inside) to 1a +",
            "Positive: join cup + (inside) to 1a + with 0.5 m of wire, which carries up to 15.8 A.",
            "",
        ]
    );
}

#[test]
fn a_coil_left_out_is_capped() {
    let said = told(drivers(1, 2, 1), plain(MONO), &Build::default(), "1:1a", |wording| {
        (of_kind(wording, "insulate"), wording.act(99))
    });
    assert_eq!(
        said.0,
        [[
            "Insulate coil 1b",
            "This coil is left out on purpose. Put a cap on each end by itself, 1b + and 1b −, and never short them.",
            "",
        ]]
    );
    assert_eq!(said.1, Said { title: String::new(), text: String::new(), caution: None });
}

/// No step is without its title and its sentences, and none is longer than it should be.
#[test]
fn every_step_of_every_job_is_short_sentences() {
    let jobs = [
        (drivers(2, 2, 0), plain(MONO), "1:(1a||1b)+(2a||2b)"),
        (drivers(2, 2, 0), plain(MONO), "1:(1a+2a)||(1b+2b)"),
        (drivers(2, 2, 0), plain((1, 2, 2)), "1:1a+1b;2:2a+2b"),
        (drivers(2, 4, 0), plain(MONO), "1:1a+1b+1c+1d+2a+2b+2c+2d"),
        (drivers(2, 4, 2), plain(MONO), "1:1a+1b+2a+2b"),
    ];
    for (group, amplifier, key) in jobs {
        for build in [Build::default(), Build { vehicle: false, ..cups(Cups::Driver) }] {
            let (group, amplifier) = (group.clone(), amplifier.clone());
            let told = told_where_possible(group, amplifier, &build, key, |wording| {
                for at in 0..wording.plan.acts.len() {
                    let Said { title, text, caution } = wording.act(at);
                    assert!(
                        title.starts_with(char::is_uppercase) && !title.ends_with('.'),
                        "{title}"
                    );
                    assert!(text.ends_with('.') && text.matches(". ").count() <= 3, "{text}");
                    for text in [text, caution.unwrap_or_default()] {
                        assert!(!text.contains("  ") && text.chars().count() < 400, "{text}");
                    }
                }
            });
            // Coil by coil across drivers has no cup for each driver.
            if told.is_none() {
                assert_eq!((key, build.cups), ("1:(1a+2a)||(1b+2b)", Cups::Driver));
            }
        }
    }
}
