//! Work that a link brought, and what comes later.

use super::*;
use crate::job::work::Work;
use crate::later::{self, Later};
use coilwright_solver::meter;
use proptest::prelude::*;

/// What a link says is done was done to what its plan is of: leads and coils are the same in
/// another plan, runs and readings between what is joined otherwise are not.
#[test]
fn what_a_link_says_is_done_is_done_of_the_same_things_alone() {
    let link = "v=1&key=1:1a||2a&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000\
        &job=5~f7&meter=1~0.2~8~1.1";
    let opened = State::with(link::open(link).unwrap().saved);
    let all = [0, 1, 2, 3, 4, 5, 6];
    assert_eq!(opened.job.work.done, all);
    let wired = |state: &State| state.after(OnPage::Room(Room::Wire));
    let there = wired(&answer(&opened));
    assert_eq!(there.job.work.done, all);
    // The watts are no part of the plan; how the coils are joined is.
    let set = |state: &State, place: Place, text: &str| state.after(Edit::Set(place, text.into()));
    let watts = answer(&set(&opened, Place::Group(0, Group::Watts), "300"));
    assert_eq!(wired(&watts).job.work.done, all);
    let joined = answer(&opened).after(OnPage::Choose(Some("1:1a+2a".into())));
    let series = wired(&joined);
    assert_eq!(series.job.work.done, [0, 1, 2, 3, 4], "leads, and each driver by itself");
    let leads = meter::Point { act: 0, place: meter::Place::Step };
    assert_eq!(series.job.work.read, [(leads, "0.2".to_owned())]);
    let aside: Vec<_> = series.job.aside.readings().collect();
    assert_eq!(aside, [("Check the drivers from driver 1 + to driver 1 −", "1.1")]);
    // All of it comes back with what it is of.
    let back = wired(&series.after(OnPage::Choose(Some("1:1a||2a".into()))));
    assert_eq!(back.job.work.done, all);
    assert_eq!(back.job.work.read.len(), 2);
    assert_eq!(back.job.aside, Default::default());
}

/// What somebody may do whose page is not all there: everything but what rooms offer that are
/// not drawn.
#[derive(Clone, Debug)]
enum Early {
    Type(Place, String),
    Answered,
    Choose(Option<String>),
    Go(Room),
    Order,
    Open(String),
}

const LINKS: [&str; 4] = [
    "v=1&drivers=2~2~4~500",
    "v=1&key=1:1a||2a&view=wire&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000&job=3~7&meter=0~0.2",
    "v=1&key=1:1a%2B2a&view=sheet&box=one~~~star&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000&job=5~31",
    "v=1&view=closed&cup=3.2~0.2&drivers=2~2~4~300",
];

fn early() -> impl Strategy<Value = Early> {
    let text = prop::sample::select(vec!["", "1", "2", "2.5", "4", "x", "300"]);
    let place = prop::sample::select(vec![
        Place::Group(0, Group::Ohms),
        Place::Group(0, Group::Count),
        Place::Group(0, Group::Watts),
        Place::Output(At::Channel(0), Output::Least),
    ]);
    let key = prop::sample::select(vec!["1:1a||2a", "1:1a+2a", "(1a+1b)||(2a+2b)", "1a"]);
    prop_oneof![
        (place, text).prop_map(|(place, text)| Early::Type(place, text.to_owned())),
        Just(Early::Answered),
        prop::option::of(key).prop_map(|key| Early::Choose(key.map(str::to_owned))),
        prop::sample::select(Room::ALL.to_vec()).prop_map(Early::Go),
        Just(Early::Order),
        prop::sample::select(LINKS.to_vec()).prop_map(|link| Early::Open(link.to_owned())),
    ]
}

fn does(state: &mut State, early: &Early) {
    match early.clone() {
        Early::Type(place, text) => state.apply(Edit::Set(place, text)),
        Early::Answered => {
            if let Some(request) = state.question.read.request.clone() {
                state.apply(OnAnswer::Answered(Question::answer(request)));
            }
        }
        Early::Choose(key) => state.apply(OnPage::Choose(key)),
        Early::Go(room) => state.apply(OnPage::Room(room)),
        Early::Order => state.apply(InList::Order(coilwright_solver::answer::Order::Load)),
        Early::Open(link) => {
            state.apply(OnPage::Open(Box::new(link::open(&link).unwrap()), Mine::default()));
        }
    }
}

/// Taps that somebody may only find where a room is drawn, sent all the same.
fn too_early() -> Vec<Action> {
    let point = meter::Point { act: 0, place: meter::Place::Step };
    vec![
        OnJob::Read(point, "0.2".into()).into(),
        OnJob::DoneNext.into(),
        OnJob::GoAgainst.into(),
        InRigs::Name("Float".into()).into(),
        InClosed::Shown(crate::rooms::closed::state::Probes::Cup, "3.2".into()).into(),
    ]
}

proptest! {
    /// Whenever it comes, the page is then as if it had been there from the start; and what
    /// asks for it too early is left alone.
    #[test]
    fn what_comes_later_changes_nothing_by_when_it_comes(
        link in prop::sample::select(LINKS.to_vec()),
        steps in prop::collection::vec(early(), 0..8),
    ) {
        let opened = || State::with(link::open(link).unwrap().saved);
        let mut whole = opened();
        for step in &steps {
            does(&mut whole, step);
        }
        whole.apply(OnPage::Later(Later::There));
        let mut late = later::without(|| {
            let mut late = opened();
            for step in &steps {
                does(&mut late, step);
                for action in too_early() {
                    let before = late.saved();
                    late.apply(action);
                    prop_assert_eq!(late.saved(), before);
                }
            }
            Ok(late)
        })?;
        late.apply(OnPage::Later(Later::There));
        // Whether work is of the plan in hand or waits for its own is known once it is planned.
        let but_work = |state: &State| {
            Saved { work: Work::default(), waits: Vec::new(), ..state.saved() }
        };
        prop_assert_eq!(but_work(&late), but_work(&whole));
        // The plan of what stands in the fields: where that cannot be read the one before stays,
        // and there may be none before. A plan that was left is made when it is asked for again.
        let read = &whole.question.read;
        let planned = read.request.is_some() && read.build.is_some();
        if planned && whole.page.room.is_on_plan() && whole.answer.shown().is_some() {
            prop_assert_eq!(late.job.plan(), whole.job.plan());
            // Whoever left a plan and came back before it could be drawn finds the work on it.
            if late.job.work != whole.job.work {
                let opened = steps.iter().rev().find_map(|step| match step {
                    Early::Open(link) => Some(link.as_str()),
                    _ => None,
                });
                let opened = State::with(link::open(opened.unwrap_or(link)).unwrap().saved);
                let begun = answer(&opened).after(OnPage::Room(Room::Wire));
                let steps = |state: &State| state.job.plan().map(|plan| plan.acts.clone());
                prop_assert_eq!(steps(&late), steps(&begun));
                prop_assert_eq!(&late.job.work, &begun.job.work);
            }
        }
    }
}
