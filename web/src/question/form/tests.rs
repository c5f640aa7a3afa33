use super::*;
use crate::question::fields::{Amplifier, Bridge, Group, Output, Rated};

#[test]
fn places_are_named_as_the_contract_names_them() {
    let cases = [
        (Place::Group(1, Group::Ohms), "drivers[1].ohms"),
        (Place::Group(0, Group::WattsPer), "drivers[0].watts_per"),
        (Place::Amplifier(Amplifier::Count), "amplifier.count"),
        (Place::Amplifier(Amplifier::Channels), "amplifier.channels"),
        (Place::Output(At::Channel(2), Output::Least), "amplifier.channels[2].least_ohms"),
        (Place::Rated(At::Bridge(0), 3, Rated::Watts), "amplifier.bridges[0].rated[3].watts"),
        (Place::Bridge(1, Bridge::Second), "amplifier.bridges[1].channels[1]"),
    ];
    for (place, path) in cases {
        assert_eq!(place.path().to_string(), path);
    }
}

#[test]
fn the_row_after_the_last_rated_point_comes_into_being_when_written_to() {
    let mut form = Form::default();
    let at = At::Channel(0);
    form.set(Place::Rated(at, 0, Rated::Ohms), "4".into());
    form.set(Place::Rated(at, 0, Rated::Watts), "500".into());
    form.set(Place::Rated(at, 5, Rated::Watts), "lost".into());
    let rated = &form.output(at).unwrap().rated;
    assert_eq!(rated.len(), 1);
    assert_eq!((rated[0].ohms.as_str(), rated[0].watts.as_str()), ("4", "500"));
    for i in 0..20 {
        form.set(Place::Rated(at, i, Rated::Ohms), "1".into());
    }
    assert_eq!(form.output(at).unwrap().rated.len(), 8);
}

#[test]
fn unlike_channels_start_as_copies_and_outlive_a_smaller_count() {
    let mut form = Form::default();
    form.set(Place::Output(At::Channel(0), Output::Least), "2".into());
    form.set(Place::Amplifier(Amplifier::Channels), "4".into());
    let amplifier = form.amplifier.as_mut().unwrap();
    assert_eq!((amplifier.channels.len(), amplifier.channels_shown()), (1, 1));
    amplifier.alike = false;
    form.fill_channels();
    form.set(Place::Output(At::Channel(3), Output::Least), "1".into());
    form.set(Place::Amplifier(Amplifier::Channels), "2".into());
    assert_eq!(form.amplifier.as_ref().unwrap().channels_shown(), 2);
    form.set(Place::Amplifier(Amplifier::Channels), "4".into());
    assert_eq!(form.amplifier.as_ref().unwrap().channels_shown(), 4);
    assert_eq!(form.output(At::Channel(3)).unwrap().least, "1");
    assert_eq!(form.output(At::Channel(2)).unwrap().least, "2");
}
