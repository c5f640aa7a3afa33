//! Anything that a link may hold.

use super::*;

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

/// Work on other plans: a link holds none where nothing was done.
fn any_waiting() -> impl Strategy<Value = Vec<Begun>> {
    let key = prop::option::of("[0-9:;a-d+|()]{1,20}");
    let of = (any_group().boxed(), any_build().boxed(), key, any_work().boxed());
    let begun = of.prop_map(|(group, build, key, work)| {
        let form = Form { groups: vec![group], build, ..Form::default() };
        Begun { origin: Rc::new(Origin { form, key }), work }
    });
    let begun = begun.prop_filter("something was done", |begun| begun.work != Work::default());
    // Boxed: every strategy lies on the stack.
    prop::collection::vec(begun.boxed(), 0..3).boxed()
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
        (
            any_build().boxed(),
            any_work().boxed(),
            any_waiting(),
            any_text(),
            any_text(),
            prop::array::uniform3(names::any_name()),
        ),
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
                (build, work, waits, cup, leads, head),
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
                let [customer, vehicle, done_by] = &head;
                let sheet = About::of([customer, vehicle, done_by]);
                let closed = Shown { cup, leads };
                let rooms = RoomsKept { list, closed, sheet, ..RoomsKept::default() };
                Saved { compared, room, key, form, work, waits, rooms }
            },
        )
}
