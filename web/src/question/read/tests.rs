use super::super::example::marigold;
use super::super::fields::{AmplifierForm, BridgeForm, GroupForm, PointForm};
use super::*;
use crate::question::fields::{Amplifier, Group, Output, Rated};

fn paths(form: &Form) -> Vec<(String, Option<Code>)> {
    let troubles = read(form).troubles.into_iter();
    troubles
        .map(|trouble| match trouble.what {
            What::Problem(problem) => (trouble.path, Some(problem.code)),
            What::CommaOrThousands => (trouble.path, None),
        })
        .collect()
}

#[test]
fn the_example_can_be_read() {
    let read = read(&marigold());
    assert_eq!(read.troubles, Vec::new());
    let rig = read.request.unwrap().rig;
    assert_eq!((rig.drivers(), rig.coils()), (3, 6));
    assert_eq!(rig.amplifier().unwrap().channels[0].rated.len(), 3);
    assert_eq!(read.numbers, [Some((1, 3))]);
}

#[test]
fn an_empty_form_is_only_missing_things() {
    let read = read(&Form::default());
    assert!(read.request.is_none());
    assert!(read.troubles.iter().all(Trouble::is_missing));
    let paths: Vec<&str> = read.troubles.iter().map(|t| t.path.as_str()).collect();
    assert_eq!(paths, ["drivers[0].count", "drivers[0].ohms"]);
}

#[test]
fn every_problem_stands_beside_its_field() {
    let mut form = marigold();
    form.set(Place::Group(0, Group::Count), "two".into());
    form.set(Place::Group(0, Group::Watts), "1,200".into());
    form.set(Place::Output(At::Channel(0), Output::Least), "0".into());
    form.set(Place::Rated(At::Channel(0), 1, Rated::Ohms), "4".into());
    assert_eq!(
        paths(&form),
        [
            ("drivers[0].count".into(), Some(Code::NotANumberText)),
            ("drivers[0].watts".into(), None),
            ("amplifier.channels[0].least_ohms".into(), Some(Code::OutOfRange)),
            ("amplifier.channels[0].rated[1].ohms".into(), Some(Code::Repeated)),
        ]
    );
    let read = read(&form);
    assert!(read.at(Place::Group(0, Group::Count)).is_some());
    assert!(read.at(Place::Group(0, Group::Ohms)).is_none());
}

#[test]
fn blank_rows_of_rated_points_are_passed_over() {
    let mut form = marigold();
    let rated = &mut form.output_mut(At::Channel(0)).unwrap().rated;
    rated.insert(1, PointForm::default());
    rated.push(PointForm::default());
    assert_eq!(paths(&form), []);
    let rated = &mut form.output_mut(At::Channel(0)).unwrap().rated;
    rated[2].ohms = "4".into();
    rated[3].watts = String::new();
    assert_eq!(
        paths(&form),
        [
            ("amplifier.channels[0].rated[2].ohms".into(), Some(Code::Repeated)),
            ("amplifier.channels[0].rated[3].watts".into(), Some(Code::Missing)),
        ]
    );
}

#[test]
fn alike_channels_tell_a_problem_once() {
    let mut form = marigold();
    form.set(Place::Amplifier(Amplifier::Channels), "4".into());
    form.set(Place::Rated(At::Channel(0), 1, Rated::Ohms), "4".into());
    assert_eq!(paths(&form).len(), 1);
    form.set(Place::Rated(At::Channel(0), 1, Rated::Ohms), "3".into());
    let rig = read(&form).request.unwrap().rig;
    assert_eq!(rig.amplifier().unwrap().channels.len(), 4);
}

#[test]
fn counts_of_channels_and_bridges_are_bounded() {
    let mut form = marigold();
    form.set(Place::Amplifier(Amplifier::Channels), "9".into());
    assert_eq!(paths(&form), [("amplifier.channels".into(), Some(Code::OutOfRange))]);
    form.set(Place::Amplifier(Amplifier::Channels), "".into());
    assert_eq!(paths(&form), [("amplifier.channels".into(), Some(Code::Missing))]);
    form.set(Place::Amplifier(Amplifier::Channels), "2".into());
    form.amplifier.as_mut().unwrap().bridges.push(BridgeForm {
        first: "1".into(),
        second: "3".into(),
        ..BridgeForm::default()
    });
    assert_eq!(
        paths(&form),
        [("amplifier.bridges[0].channels[1]".into(), Some(Code::NotPossibleHere))]
    );
}

#[test]
fn groups_are_numbered_through_as_far_as_counts_can_be_read() {
    let group =
        |count: &str| GroupForm { count: count.into(), ohms: "4".into(), ..GroupForm::default() };
    let form = Form {
        groups: vec![group("2"), group("3"), group("x"), group("1")],
        amplifier: Some(AmplifierForm::default()),
        ..Form::default()
    };
    let numbers = read(&form).numbers;
    assert_eq!(numbers, [Some((1, 2)), Some((3, 5)), None, None]);
}
