//! Links, as they were ever written.
#![cfg(not(target_arch = "wasm32"))]

use super::*;
use crate::aside::{self as compared, Compared};
use crate::job::begun::Origin;
use crate::question::fields::{
    AmplifierForm, BridgeForm, BuildForm, GroupForm, PointForm, TakesForm,
};
use crate::rooms::closed::state::Shown;
use crate::rooms::list::state::Kept as Looked;
use crate::rooms::sheet::state::About;
pub(crate) use any_saved::any_saved;
use any_work::any_work;
use coilwright_solver::answer::Order;
use coilwright_solver::meter::{Place, Point, Question};
use coilwright_solver::network::Coil;
use coilwright_solver::ohms::{Ohms, Ratio};
use proptest::prelude::*;
use std::rc::Rc;

mod any_saved;
#[path = "tests/any_work.rs"]
mod any_work;
mod head;
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
    let step = |step| Point { act: step, place: Place::Step };
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
        (Point { act: 0, place: Place::Step }, "0,2".into()),
        (Point { act: 11, place: Place::Coil(coil(0, 0)) }, "2.1".into()),
        (Point { act: 11, place: Place::Across(coil(0, 0), coil(1, 1)) }, "OL".into()),
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

/// A reading and a tick of another plan wait beside the work on this one.
fn waiting() -> Saved {
    let group = GroupForm { count: "2".into(), ohms: "4".into(), ..GroupForm::default() };
    let form = Form { groups: vec![group], amplifier: None, ..Form::default() };
    let point = |act| Point { act, place: Place::Step };
    let read = |act, text: &str| vec![(point(act), text.to_owned())];
    let begun = Begun {
        origin: Rc::new(Origin { form, key: Some("1:1a+2a".into()) }),
        work: Work { done: vec![2], read: read(5, "7.1"), ..Work::default() },
    };
    Saved {
        key: Some("1:1a||2a".into()),
        room: Room::Wire,
        work: Work { at: 1, done: vec![0], read: read(0, "0.2"), ..Work::default() },
        waits: vec![begun],
        ..Saved::of(two_duals())
    }
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
             &wire=4~0.1~0.5~0.5~1~2&terminals=:2%2C5:tab~~&drivers=2~2~2~500~unused1\
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
            waiting(),
            "v=1&key=1:1a%7C%7C2a&view=wire&job=1~1&meter=1~0.2\
             &waits=v%3D1%26key%3D1:1a+2a%26job%3D0%7E4%26meter%3D6%7E7.1%26drivers%3D2%7E1%7E4%7E\
             &drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200",
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
        ("v=1&amplifier=1~1&channel=1~%4", vec![Impossible("channel".into())]),
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

/// Browsers keep what follows `:~:` from pages (WICG, URL Fragment Text Directives): a rig with
/// terminals stated lost its drivers on the way.
#[test]
fn no_link_holds_what_browsers_cut_it_at() {
    let mut form = two_duals();
    form.build.takes[0].largest = "2.5".into();
    form.amplifier.as_mut().unwrap().channels[0].rated =
        ["4", "", ""].map(|ohms| PointForm { ohms: ohms.into(), ..PointForm::default() }).into();
    let link = write(&Saved::of(form.clone()));
    assert!(link.contains("&terminals=:2.5~~&") && link.contains("&channel=1~4~~"), "{link}");
    assert_eq!(open(&link).unwrap().saved.form, form);
    // As it was written before, in a browser that does not cut it.
    let before = link.replace("=:2.5~~&", "=:2.5~:~:&").replace("~4~~", "~4:~:~:");
    assert_eq!(open(&before).unwrap().saved.form, form);
}

proptest! {
    #[test]
    fn what_is_written_opens_as_it_was(saved in any_saved()) {
        let link = write(&saved);
        prop_assert!(!link.contains(":~:"), "browsers cut it there: {}", link);
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
