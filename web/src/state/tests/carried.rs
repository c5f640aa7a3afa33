//! What was read and done belongs to what it was read of and done to, whatever plan that is in.

use super::*;
use crate::question::fields::Built;
use coilwright_solver::meter;
use proptest::prelude::*;
use proptest::sample::select;

/// What changes the plan.
#[derive(Clone, Debug)]
enum Change {
    Cups(&'static str),
    Fed(&'static str),
    Choose(&'static str),
    Go(Room),
}

const LINK: &str = "v=1&key=1:(1a%2B1b)||(2a%2B2b)&view=wire&even_only=0&joined_only=0\
    &box=one~~~chain&drivers=2~2~2~500&amplifier=1~1&channel=1~1:1000";

fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        select(vec!["none", "one", "driver", "coil"]).prop_map(Change::Cups),
        select(vec!["chain", "star"]).prop_map(Change::Fed),
        select(vec!["1:(1a+1b)||(2a+2b)", "1:1a||1b||2a||2b", "1:(1a||1b)+(2a||2b)"])
            .prop_map(Change::Choose),
        select(vec![Room::Wire, Room::Work, Room::Sheet, Room::List]).prop_map(Change::Go),
    ]
}

fn changed(state: &State, change: &Change) -> State {
    let set = |built, text: &str| state.after(Edit::Set(Place::Box(built), text.into()));
    let state = match change {
        Change::Cups(cups) => set(Built::Cups, cups),
        Change::Fed(fed) => set(Built::Fed, fed),
        Change::Choose(key) => state.after(OnPage::Choose(Some((*key).into()))),
        Change::Go(room) => state.after(OnPage::Room(*room)),
    };
    if state.under_way.asking == Asking::BEGUN { answer(&state) } else { state }
}

/// Every text that was typed as a reading, wherever it waits.
fn texts(state: &State) -> Vec<String> {
    let read = state.job.work.read.iter().map(|(_, text)| text.clone());
    let aside = state.job.aside.readings().map(|(_, text)| text.to_owned());
    let mut all: Vec<String> = read.chain(aside).collect();
    all.sort();
    all
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// No change of box, feeding, configuration or room loses a reading, or doubles one; and
    /// back where it began, all that was read and done is as it was.
    #[test]
    fn no_change_of_the_plan_loses_a_reading(changes in prop::collection::vec(change(), 1..30)) {
        let mut state = answer(&State::with(link::open(LINK).unwrap().saved));
        state = state.after(OnPage::Room(Room::Wire));
        let points = meter::points(state.job.plan().unwrap());
        for (number, point) in points.iter().enumerate() {
            state = state.after(OnJob::Read(*point, format!("{}.{number:03}", number % 7)));
        }
        for step in 0..4 {
            state = state.after(OnJob::Done(step, true));
        }
        let (begun, all) = (state.clone(), texts(&state));
        prop_assert_eq!(all.len(), points.len());
        for change in &changes {
            state = changed(&state, change);
            prop_assert_eq!(&texts(&state), &all, "{:?}", change);
        }
        for change in [
            Change::Go(Room::Wire),
            Change::Choose("1:(1a+1b)||(2a+2b)"),
            Change::Cups("one"),
            Change::Fed("chain"),
        ] {
            state = changed(&state, &change);
        }
        state = state.after(OnPage::Room(Room::Wire));
        let sorted = |state: &State| {
            let mut read = state.job.work.read.clone();
            read.sort();
            (read, state.job.work.done.clone())
        };
        prop_assert_eq!(sorted(&state), sorted(&begun));
    }
}

/// Anything that somebody does with a rig and a meter.
#[derive(Clone, Debug)]
enum Deed {
    Plan(Change),
    Read(usize, bool),
    Tick(usize, bool),
    Stage(bool),
    Count(&'static str),
    Cup(bool),
    Page(OnPage),
    StartOver,
    Forget,
    RemoveGroup,
    AddGroup,
    Refresh,
}

fn deed() -> impl Strategy<Value = Deed> {
    let opened = || link::open("v=1&drivers=3~1~8~").unwrap();
    prop_oneof![
        4 => change().prop_map(Deed::Plan),
        6 => (0_usize..20, any::<bool>()).prop_map(|(at, empty)| Deed::Read(at, empty)),
        2 => (0_usize..9, any::<bool>()).prop_map(|(step, done)| Deed::Tick(step, done)),
        1 => any::<bool>().prop_map(Deed::Stage),
        2 => select(vec!["1", "2", "3"]).prop_map(Deed::Count),
        1 => any::<bool>().prop_map(Deed::Cup),
        1 => Just(Deed::Page(OnPage::StartEmpty)),
        1 => Just(Deed::Page(OnPage::ShowExample)),
        1 => Just(Deed::Page(OnPage::Open(Box::new(opened()), Mine::default()))),
        4 => Just(Deed::Page(OnPage::Undo(false))),
        1 => Just(Deed::Page(OnPage::Undo(true))),
        2 => Just(Deed::StartOver),
        1 => Just(Deed::Forget),
        1 => Just(Deed::RemoveGroup),
        1 => Just(Deed::AddGroup),
        2 => Just(Deed::Refresh),
    ]
}

/// The page loaded anew from what the tab keeps of it.
fn refreshed(state: &State) -> State {
    let link = link::write(&state.saved());
    let found = crate::state::opening::Found {
        own: Some(crate::state::draft::draft(&link, &state.rooms.rigs.mine)),
        undo: Some(state.undo.written()),
        refreshed: true,
        ..Default::default()
    };
    crate::state::opening::open(&found)
}

/// Readings are told from each other by the number of the deed; some are emptied.
fn done(state: &State, deed: &Deed, number: usize) -> State {
    let text = |empty: &bool| if *empty { String::new() } else { format!("2.{number:03}") };
    let state = match deed {
        Deed::Plan(change) => changed(state, change),
        Deed::Read(at, empty) => {
            let points = state.job.plan().map(meter::points).unwrap_or_default();
            match points.get(at % points.len().max(1)) {
                Some(point) => state.after(OnJob::Read(*point, text(empty))),
                None => state.clone(),
            }
        }
        Deed::Tick(step, done) => state.after(OnJob::Done(*step, *done)),
        Deed::Stage(done) => {
            state.after(OnJob::Stage(coilwright_solver::wiring::Site::Driver(0), *done))
        }
        Deed::Count(count) => {
            state.after(Edit::Set(Place::Group(0, Group::Count), (*count).into()))
        }
        Deed::Cup(empty) => {
            state.after(InClosed::Shown(crate::rooms::closed::state::Probes::Cup, text(empty)))
        }
        Deed::Page(action) => state.after(action.clone()),
        Deed::StartOver => state.after(OnJob::StartOver),
        Deed::Forget => state.after(OnJob::Forget),
        Deed::RemoveGroup => state.after(Edit::RemoveGroup(0)),
        Deed::AddGroup => state.after(Edit::AddGroup),
        Deed::Refresh => refreshed(state),
    };
    if state.under_way.asking == Asking::BEGUN { answer(&state) } else { state }
}

/// Everything that was read, as it would be kept.
fn all_read(state: &State) -> Vec<String> {
    let saved = state.saved();
    let works = saved.waits.iter().map(|begun| &begun.work).chain([&saved.work]);
    let mut all: Vec<String> =
        works.flat_map(|work| &work.read).map(|(_, text)| text.clone()).collect();
    all.extend([saved.rooms.closed.cup].into_iter().filter(|text| !text.is_empty()));
    all
}

/// What of one is not in another.
fn missing(of: &[String], from: &[String]) -> Vec<String> {
    of.iter().filter(|text| !from.contains(text)).cloned().collect()
}

/// The field that is typed into: that of a point, or that of the cup.
fn field(state: &State, deed: &Deed) -> Option<Option<meter::Point>> {
    match deed {
        Deed::Cup(_) => Some(None),
        Deed::Read(at, _) => {
            let points = meter::points(state.job.plan()?);
            Some(points.get(at % points.len().max(1)).copied())
        }
        _ => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// No sequence of deeds loses a reading that the one undo does not bring back at once: what
    /// one deed takes, one undo gives, also after a refresh; and what undo takes, its own undo.
    #[test]
    fn no_deed_loses_a_reading_that_undo_does_not_bring_back(
        deeds in prop::collection::vec(deed(), 1..30),
    ) {
        let mut state = answer(&State::with(link::open(LINK).unwrap().saved));
        state = state.after(OnPage::Room(Room::Wire));
        let typed_first = meter::points(state.job.plan().unwrap());
        for (number, point) in typed_first.iter().enumerate() {
            state = state.after(OnJob::Read(*point, format!("1.{number:03}")));
        }
        let mut typing = None;
        for (number, deed) in deeds.iter().enumerate() {
            let before = all_read(&state);
            let next = done(&state, deed, number);
            let lost = missing(&before, &all_read(&next));
            // Typing on in one field is one change: its first key left behind what was there.
            let on = field(&state, deed);
            let typed_on = on.is_some() && on == typing;
            if !lost.is_empty() && !typed_on {
                let back = |on| {
                    let undo = Deed::Page(OnPage::Undo(on));
                    missing(&before, &all_read(&done(&refreshed(&next), &undo, number)))
                };
                // What undo itself took comes back by undoing that.
                let still: Vec<String> = back(false).into_iter().filter(|text| back(true).contains(text)).collect();
                prop_assert!(still.is_empty(), "{deed:?} lost {still:?} for good");
            }
            // What is not there is not typed into.
            if !matches!(deed, Deed::Read(..)) || on.is_some() {
                typing = on;
            }
            state = next;
        }
    }
}
