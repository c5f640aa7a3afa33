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
