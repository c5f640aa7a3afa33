//! Links, as they were ever written.
#![cfg(not(target_arch = "wasm32"))]

use super::*;
use crate::aside::{self as compared, Compared};
use crate::question::fields::{
    AmplifierForm, BridgeForm, BuildForm, GroupForm, PointForm, TakesForm,
};
use crate::rooms::closed::state::Shown;
use crate::rooms::list::state::Kept as Looked;
use any_work::any_work;
use coilwright_solver::answer::Order;
use coilwright_solver::meter::{Place, Point, Question};
use coilwright_solver::network::Coil;
use coilwright_solver::ohms::{Ohms, Ratio};
use proptest::prelude::*;

#[path = "tests/any_work.rs"]
mod any_work;
mod names;

fn saved(form: Form) -> Saved {
    Saved::of(form)
}

/// The first rig that a link was ever written for.
fn two_duals() -> Form {
    let point = |ohms: &str, watts: &str| PointForm { ohms: ohms.into(), watts: watts.into() };
    let mut form = Form::default();
    form.groups[0] = GroupForm {
        count: "2".into(),
        coils: "2".into(),
        ohms: "2".into(),
        watts: "500".into(),
        ..GroupForm::default()
    };
    form.amplifier.as_mut().unwrap().channels[0] = OutputForm {
        least: "1".into(),
        rated: vec![point("4", "420"), point("2", "760"), point("1", "1200")],
        tied: false,
    };
    form
}

fn read(cup: &str, leads: &str) -> RoomsKept {
    RoomsKept { closed: Shown { cup: cup.into(), leads: leads.into() }, ..RoomsKept::default() }
}

fn looked(order: Option<Order>, load: Option<Ohms>) -> RoomsKept {
    RoomsKept { list: Looked { order, load }, ..RoomsKept::default() }
}

/// A comparison of two of these with one of another rig.
pub(crate) fn comparing() -> Saved {
    let mut other = two_duals();
    other.groups[0].count = "3".into();
    other.amplifier = None;
    let of = |form: Form, key: &str| Compared { form, key: key.into() };
    Saved {
        rooms: looked(None, Some(Ohms::new(Ratio::new(8, 3).unwrap()))),
        compared: vec![
            of(two_duals(), "1:(1a+1b)||(2a+2b)"),
            of(other, "1a+1b+2a+2b+3a+3b"),
            of(two_duals(), "1:1a+1b+2a+2b"),
        ],
        room: Room::Compare,
        ..Saved::of(two_duals())
    }
}

/// A box with everything about it, and work half done.
pub(crate) fn half_wired() -> Saved {
    let mut form = two_duals();
    form.groups[0].unused = "1".into();
    form.build = BuildForm {
        cups: "group".into(),
        cup_count: "2".into(),
        joined_at: "box".into(),
        fed: "star".into(),
        reversed: vec![2],
        not_in_vehicle: true,
        area: "4".into(),
        ..BuildForm::default()
    };
    form.build.takes[0] = TakesForm { largest: "2,5".into(), push_on: true, ..Default::default() };
    let step = |step| Point { step, place: Place::Step };
    let read = vec![(step(2), "2,1".into()), (step(6), "OL".into())];
    let work = Work { at: 3, done: vec![0, 1, 6], read, old: true, ..Work::default() };
    let key = Some("1:1a||2a".into());
    Saved { key, room: Room::Work, work, ..Saved::of(form) }
}

pub(crate) fn crowded() -> Saved {
    let mut form = two_duals();
    form.even_only = false;
    form.joined_only = false;
    form.groups.push(GroupForm {
        count: "1".into(),
        coils: "4".into(),
        ohms: "1,4 Ω".into(),
        watts: "75".into(),
        watts_per: "coil".into(),
        ..GroupForm::default()
    });
    let amplifier = form.amplifier.as_mut().unwrap();
    amplifier.count = "2".into();
    amplifier.channel_count = "2".into();
    amplifier.alike = false;
    amplifier.channels.push(OutputForm { least: "4/3".into(), ..OutputForm::default() });
    amplifier.bridges.push(BridgeForm {
        first: "1".into(),
        second: "2".into(),
        output: OutputForm {
            rated: vec![PointForm { ohms: "4".into(), watts: "about 900".into() }],
            ..OutputForm::default()
        },
    });
    let key = Some("1:(1a+1b)||(2a+2b)".into());
    Saved { rooms: looked(Some(Order::Load), None), key, ..Saved::of(form) }
}

/// Somebody on the way to a fault.
pub(crate) fn searched() -> Saved {
    let coil = |driver, coil| Coil { driver, coil };
    let read = vec![
        (Point { step: 0, place: Place::Step }, "0,2".into()),
        (Point { step: 11, place: Place::Coil(coil(0, 0)) }, "2.1".into()),
        (Point { step: 11, place: Place::Across(coil(0, 0), coil(1, 1)) }, "OL".into()),
    ];
    let asked = vec![(Question::Cool, false)];
    let work = Work { at: 9, done: vec![1], read, asked, ..Work::default() };
    let key = Some("1:1a||2a".into());
    Saved { key, room: Room::Wire, work, ..Saved::of(two_duals()) }
}

fn measured() -> Form {
    let mut form = two_duals();
    form.groups[0].measured = "1.8 1,9".into();
    form.groups.push(GroupForm::default());
    form
}

fn tied() -> Form {
    let mut form = two_duals();
    form.amplifier.as_mut().unwrap().channels[0].tied = true;
    form
}

/// Links that were ever given away open for ever: never change a line, only add.
#[test]
fn golden_links_are_written_and_opened_as_ever() {
    let cases = [
        (saved(Form::default()), "v=1&drivers=~1~~&amplifier=1~1&channel="),
        (saved(two_duals()), "v=1&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200"),
        (
            half_wired(),
            "v=1&key=1:1a%7C%7C2a&view=work&work=3~34&read=2~2%2C1~6~OL&box=group~2~box~star~room&reversed=2\
             &wire=4~0.1~0.5~0.5~1~2&terminals=:2%2C5:tab~:~:&drivers=2~2~2~500~unused1\
             &amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
        (
            searched(),
            "v=1&key=1:1a%7C%7C2a&view=wire&job=9~2&meter=1~0%2C2~12.coil.1a~2.1~12.across.1a-2b~OL&asked=cool0\
             &drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
        (saved(tied()), "v=1&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200~tied"),
        (
            crowded(),
            "v=1&key=1:(1a+1b)%7C%7C(2a+2b)&order=load&joined_only=0&even_only=0\
             &drivers=2~2~2~500&drivers=1~4~1%2C4%20%CE%A9~75~coil\
             &amplifier=2~2~unlike&channel=1~4:420~2:760~1:1200&channel=4/3\
             &bridge=1~2~~4:about%20900",
        ),
        (
            comparing(),
            "v=1&view=compare&load=8/3&compare=1:(1a+1b)%7C%7C(2a+2b)\
             &compare=v%3D1%26key%3D1a+1b+2a+2b+3a+3b%26drivers%3D3%7E2%7E2%7E500\
             &compare=1:1a+1b+2a+2b\
             &drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
        (
            Saved {
                rooms: looked(Some(Order::Power), None),
                room: Room::Help,
                ..Saved::of(two_duals())
            },
            "v=1&view=help&order=power\
             &drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
        (
            Saved { rooms: read("3,2 Ω", ".2"), room: Room::Closed, ..Saved::of(two_duals()) },
            "v=1&view=closed&cup=3%2C2%20%CE%A9~.2\
             &drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
        (
            Saved { rooms: read("OL", ""), ..Saved::of(two_duals()) },
            "v=1&cup=OL~&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
        (
            saved(measured()),
            "v=1&measured=1.8%201%2C9~&drivers=2~2~2~500&drivers=1~1~~\
             &amplifier=1~1&channel=1~4:420~2:760~1:1200",
        ),
    ];
    for (saved, link) in cases {
        assert_eq!(write(&saved), link);
        let opened = open(&format!("#{link}")).unwrap();
        assert_eq!(opened.left_out, []);
        assert_eq!(opened.saved, saved, "{link}");
    }
}

#[test]
fn without_an_amplifier_none_is_opened() {
    let opened = open("v=1&drivers=2~1~4~").unwrap();
    assert_eq!(opened.saved.form.amplifier, None);
    assert_eq!(opened.left_out, []);
    let opened = open("v=1&drivers=2~1~4~&channel=2").unwrap();
    assert_eq!(opened.saved.form.amplifier, None);
    assert_eq!(opened.left_out, [LeftOut::Impossible("channel".into())]);
}

#[test]
fn what_cannot_be_opened_is_told_and_the_rest_is_opened() {
    use LeftOut::{Impossible, TooMany, Unknown, Version};
    let good = "&drivers=2~2~4~500";
    let cases = [
        ("v=1&colour=blue", vec![Unknown("colour".into())]),
        ("v=1&order=random", vec![Impossible("order".into())]),
        ("v=1&box=shed~~~chain", vec![Impossible("box".into())]),
        ("v=1&reversed=0", vec![Impossible("reversed".into())]),
        ("v=1&wire=4~1", vec![Impossible("wire".into())]),
        ("v=1&terminals=2:4:glue~:~:", vec![Impossible("terminals".into())]),
        ("v=1&read=3~", vec![Impossible("read".into())]),
        ("v=1&read=4~2~4~2", vec![Impossible("read".into())]),
        ("v=1&cup=3.2", vec![Impossible("cup".into())]),
        ("v=1&cup=%~", vec![Impossible("cup".into())]),
        ("v=1&work=one~", vec![Impossible("work".into())]),
        ("v=1&drivers=2~2~4~500~unused7", vec![Impossible("drivers".into())]),
        ("v=1&view=garage", vec![Impossible("view".into())]),
        ("v=1&load=0", vec![Impossible("load".into())]),
        ("v=1&load=4/0", vec![Impossible("load".into())]),
        ("v=1&load=four", vec![Impossible("load".into())]),
        ("v=1&compare=", vec![Impossible("compare".into())]),
        ("v=1&compare=v%3D1%26drivers%3D1%7E1%7E4%7E", vec![Impossible("compare".into())]),
        (
            "v=1&compare=a&compare=b&compare=c&compare=d&compare=e&compare=f",
            vec![TooMany("compare")],
        ),
        ("v=1&joined_only=maybe", vec![Impossible("joined_only".into())]),
        ("v=1&drivers=2~3~4~500", vec![Impossible("drivers".into())]),
        ("v=1&drivers=2~2~4", vec![Impossible("drivers".into())]),
        ("v=1&drivers=2~2~4~5~6", vec![Impossible("drivers".into())]),
        ("v=1&drivers=2~2~%4~5", vec![Impossible("drivers".into())]),
        ("v=1&drivers=2~2~%FF~5", vec![Impossible("drivers".into())]),
        ("v=1&key", vec![Impossible("key".into())]),
        ("v=2", vec![Version("2".into())]),
        ("v=1&&", vec![Unknown(String::new()), Unknown(String::new())]),
        ("v=1&amplifier=1~1&amplifier=2~2", vec![TooMany("amplifier")]),
        ("v=1&amplifier=1~1&channel=1~4", vec![Impossible("channel".into())]),
    ];
    for (link, left_out) in cases {
        let opened = open(&format!("{link}{good}")).unwrap();
        assert_eq!(opened.left_out, left_out, "{link}");
        assert_eq!(opened.saved.form.groups.len(), 1, "{link}");
        assert_eq!(opened.saved.form.groups[0].ohms, "4", "{link}");
    }
    let many = format!("v=1{}", good.repeat(20));
    let opened = open(&many).unwrap();
    assert_eq!(opened.saved.form.groups.len(), 8);
    assert_eq!(opened.left_out, [TooMany("drivers")]);
}

#[test]
fn other_fragments_are_no_links() {
    for fragment in ["", "#", "#list", "#drivers=2~2~4~500", "v", "w=1"] {
        assert_eq!(open(fragment), None, "{fragment:?}");
    }
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "[0-9]{1,3}([.,/][0-9]{1,2})?", "[ -~]{0,12}", ".{0,8}",]
}

fn any_output() -> impl Strategy<Value = OutputForm> {
    let point = (any_text(), any_text()).prop_map(|(ohms, watts)| PointForm { ohms, watts });
    (any_text(), prop::collection::vec(point, 0..8), any::<bool>())
        .prop_map(|(least, rated, tied)| OutputForm { least, rated, tied })
}

fn any_group() -> impl Strategy<Value = GroupForm> {
    let coils = prop::sample::select(vec!["1", "2", "4"]);
    let measured = prop_oneof![any_text(), Just("3.6 3,7;  3.8 Ω".to_owned())];
    (names::any_name(), any_text(), coils, any_text(), any_text(), any::<bool>(), measured)
        .prop_map(|(name, count, coils, ohms, watts, per_coil, measured)| GroupForm {
            measured,
            name,
            count,
            coils: coils.into(),
            ohms,
            watts,
            watts_per: if per_coil { "coil" } else { "driver" }.into(),
            unused: if per_coil { "1".into() } else { "0".into() },
        })
}

fn any_amplifier() -> impl Strategy<Value = AmplifierForm> {
    let bridge = (any_text(), any_text(), any_output())
        .prop_map(|(first, second, output)| BridgeForm { first, second, output });
    (
        any_text(),
        any_text(),
        any::<bool>(),
        prop::collection::vec(any_output(), 1..=8),
        prop::collection::vec(bridge, 0..=4),
    )
        .prop_map(|(count, channel_count, alike, channels, bridges)| AmplifierForm {
            count,
            channel_count,
            alike,
            channels,
            bridges,
        })
}

fn any_build() -> impl Strategy<Value = BuildForm> {
    let takes = (any_text(), any::<bool>(), any_text())
        .prop_map(|(conductors, push_on, largest)| TakesForm { conductors, push_on, largest });
    let word = |words: &[&str]| {
        prop::sample::select(words.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>())
    };
    let built = (
        word(&["none", "one", "group", "driver", "coil"]),
        any_text(),
        word(&["", "amplifier", "box"]),
        word(&["chain", "star"]),
        any::<bool>(),
        prop::collection::btree_set(1_u32..=16, 0..4),
    );
    let sizes = (any_text(), prop::array::uniform5(any_text()), prop::array::uniform3(takes));
    (built, sizes).prop_map(|(built, (area, metres, takes))| {
        let (cups, cup_count, joined_at, fed, not_in_vehicle, reversed) = built;
        let reversed = reversed.into_iter().collect();
        let build = BuildForm { cups, cup_count, joined_at, fed, reversed, ..BuildForm::default() };
        let [between_coils, between_drivers, to_cup, between_cups, to_amplifier] = metres;
        let build = BuildForm { between_coils, between_drivers, to_cup, ..build };
        BuildForm { between_cups, to_amplifier, not_in_vehicle, area, takes, ..build }
    })
}

pub(crate) fn any_saved() -> impl Strategy<Value = Saved> {
    (
        prop::collection::vec(any_group(), 1..=8),
        prop::option::of(any_amplifier()),
        any::<(bool, bool)>(),
        prop::option::of(prop::sample::select(vec![
            Order::Rank,
            Order::Load,
            Order::Power,
            Order::Runs,
        ])),
        prop::option::of(".{1,20}"),
        prop::collection::vec((any::<bool>(), "[0-9:;a-d+|()]{1,20}"), 0..=compared::MOST),
        prop::option::of((1_u32..=999, 1_u32..=99)),
        (any_build(), any_work(), any_text(), any_text()),
    )
        .prop_map(
            |(
                groups,
                amplifier,
                (joined_only, even_only),
                order,
                key,
                compared,
                load,
                (build, work, cup, leads),
            )| {
                let mut form = Form { groups, amplifier, build, joined_only, even_only };
                // As the reducer keeps it: unlike channels are as many as the count says.
                form.fill_channels();
                let compared = compared.into_iter().map(|(same, key)| {
                    let form = if same { form.clone() } else { two_duals() };
                    Compared { form, key }
                });
                let compared = compared.collect();
                let load = load.and_then(|(over, under)| Ratio::new(over.into(), under.into()));
                let room = if key.is_some() { Room::List } else { Room::Compare };
                let list = Looked { order, load: load.map(Ohms::new) };
                let rooms =
                    RoomsKept { list, closed: Shown { cup, leads }, ..RoomsKept::default() };
                Saved { compared, room, key, form, work, rooms }
            },
        )
}

proptest! {
    #[test]
    fn what_is_written_opens_as_it_was(saved in any_saved()) {
        let link = write(&saved);
        let unsafe_in_addresses = b"#<>\"`{}|^\\";
        let plain = |b: u8| b.is_ascii_graphic() && !unsafe_in_addresses.contains(&b);
        prop_assert!(link.bytes().all(plain), "{}", link);
        let opened = open(&link).unwrap();
        prop_assert_eq!(opened.left_out, []);
        prop_assert_eq!(opened.saved, saved);
    }

    #[test]
    fn no_fragment_is_too_strange_to_open(fragment in "(v=1)?[&=~:%a-z0-9#é]{0,40}") {
        if let Some(opened) = open(&fragment) {
            // What was opened is a state like any other.
            let again = open(&write(&opened.saved)).unwrap();
            prop_assert_eq!(again.left_out, []);
            prop_assert_eq!(again.saved, opened.saved);
        }
    }
}
