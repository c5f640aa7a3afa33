use super::*;
use crate::state::asking::Question;
use crate::state::link::{self, Saved};
use crate::state::{Action, Asking, Room, example};
use coilwright_solver::problem::Code;

fn answered(state: &State) -> State {
    let request = state.read.request.clone().unwrap();
    state.after(Action::Answered(Question::answer(request)))
}

fn marigold() -> State {
    answered(&State::with(Saved::of(example::marigold())))
}

fn typed(state: &State, group: usize, name: &str) -> State {
    state.after(Action::Set(Place::Name(group), name.into()))
}

#[test]
fn a_name_that_is_typed_lists_nothing_anew() {
    let before = marigold().after(Action::Page(1));
    let after = typed(&before, 0, "Rear doors");
    assert!(after.is_current() && !after.is_busy());
    assert_eq!(after.asking, Asking::Idle);
    assert_eq!(after.read.request, before.read.request);
    let same = |a: &State, b: &State| {
        Rc::ptr_eq(a.answered.as_ref().unwrap(), b.answered.as_ref().unwrap())
    };
    assert!(same(&before, &after));
    assert_eq!(after.look.page, 1, "nor does the list turn its pages");
    assert_eq!(after.names(), ["Rear doors"]);
    assert_ne!(after.named, before.named, "what shows the name is written again");
    assert_eq!(after.stamp, before.stamp, "and the list, which does not, is kept");
    assert!(!after.is_example(), "named, it is the visitor's own");
    // A listing that somebody stopped stays stopped.
    let many = State::with(Saved::of(example::marigold())).after(Action::Stop);
    assert_eq!(typed(&many, 0, "Rear").asking, Asking::Stopped);
}

#[test]
fn what_is_no_name_is_told_beside_it_and_kept_and_stands_in_no_way() {
    for wrong in ["x".repeat(61), "two\tcolumns".to_owned(), "\u{85}".to_owned()] {
        let state = typed(&marigold(), 0, &wrong);
        assert_eq!(state.form.groups[0].name, wrong);
        let trouble = state.read.at(Place::Name(0)).unwrap();
        assert!(
            matches!(&trouble.what, What::Problem(problem) if problem.code == Code::OutOfRange)
        );
        assert!(state.is_current() && state.read.troubles.is_empty());
        assert_eq!(state.names(), [""], "shown nowhere");
        let link = link::write(&state.saved());
        assert_eq!(link::open(&link).unwrap().saved.form, state.form);
    }
    assert_eq!(typed(&marigold(), 0, &"é".repeat(60)).read.at(Place::Name(0)), None);
}

#[test]
fn a_plan_takes_a_name_without_being_another_plan() {
    let state = marigold();
    let key = state.shown().unwrap().key();
    let wiring = state.after(Action::Wire(key)).after(Action::DoneNext).after(Action::Copied(true));
    let named = typed(&wiring, 0, "Rear doors");
    assert_eq!(named.work, wiring.work);
    let (before, after) = (wiring.wired.unwrap(), named.wired.clone().unwrap());
    assert_eq!((&after.plan, &after.configuration), (&before.plan, &before.configuration));
    assert_eq!((&*before.names, &*after.names), (&["".to_owned()][..], &["Rear doors".into()][..]));
    assert!(!named.copied, "what was copied had no name");
    // And so it opens.
    let again = answered(&State::with(link::open(&link::write(&named.saved())).unwrap().saved));
    assert_eq!(again.room, Room::Wire);
    assert_eq!(again.wired.unwrap().names, ["Rear doors"]);
}

#[test]
fn a_name_typed_while_something_is_missing_is_there_once_nothing_is() {
    let state = marigold().after(Action::Set(Place::Count(0), String::new()));
    let state = typed(&state, 0, "Rear doors");
    assert_eq!(state.names(), [""], "the answer is that of the rig before");
    let again = state.after(Action::Set(Place::Count(0), "3".into()));
    assert!(again.is_current(), "the same rig needs no other answer");
    assert_eq!(again.names(), ["Rear doors"]);
    let more = answered(&state.after(Action::Set(Place::Count(0), "2".into())));
    assert_eq!(more.names(), ["Rear doors"]);
}

#[test]
fn a_rig_by_another_name_is_the_same_rig_to_compare() {
    let state = marigold();
    let key = state.shown().unwrap().key();
    let aside = state.after(Action::Compare(key.clone()));
    let named = typed(&aside, 0, "Rear doors");
    assert!(named.is_compared(&key));
    assert_eq!(named.compared[0].form.names(), ["Rear doors"]);
    let link = link::write(&named.saved());
    assert!(!link.contains("compare=v"), "its key is enough: {link}");
    // Another rig keeps the names that it had.
    let other = named.after(Action::Set(Place::Count(0), "2".into()));
    let other = typed(&answered(&other), 0, "Boot");
    assert_eq!(other.compared[0].form.names(), ["Rear doors"]);
}

#[test]
fn a_group_that_comes_back_has_its_name() {
    let state = typed(&marigold().after(Action::AddGroup), 1, "Boot");
    let gone = state.after(Action::RemoveGroup(1));
    assert_eq!(gone.form.names(), [""]);
    assert_eq!(gone.after(Action::PutBack).form.names(), ["", "Boot"]);
}
