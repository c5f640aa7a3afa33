use crate::answer::Asking;
use crate::answer::asking::Question;
use crate::link::{self, Saved};
use crate::question::example;
use crate::question::fields::Group;
use crate::question::place::Place;
use crate::question::trouble::What;
use crate::rooms::Room;
use crate::state::State;
use crate::state::action::acts::*;
use coilwright_solver::problem::Code;
use std::rc::Rc;

fn answered(state: &State) -> State {
    let request = state.question.read.request.clone().unwrap();
    state.after(OnAnswer::Answered(Question::answer(request)))
}

fn marigold() -> State {
    answered(&State::with(Saved::of(example::marigold())))
}

fn typed(state: &State, group: usize, name: &str) -> State {
    state.after(Edit::Set(Place::Group(group, Group::Name), name.into()))
}

#[test]
fn a_name_that_is_typed_lists_nothing_anew() {
    let before = marigold().after(InList::Page(1));
    let after = typed(&before, 0, "Rear doors");
    assert!(after.is_current() && !after.is_busy());
    assert_eq!(after.under_way.asking, Asking::Idle);
    assert_eq!(after.question.read.request, before.question.read.request);
    let same = |a: &State, b: &State| {
        Rc::ptr_eq(a.answer.answered.as_ref().unwrap(), b.answer.answered.as_ref().unwrap())
    };
    assert!(same(&before, &after));
    assert_eq!(after.rooms.list.page, 1, "nor does the list turn its pages");
    assert_eq!(after.names(), ["Rear doors"]);
    let shown = |state: &State| state.asked.version();
    assert_ne!(shown(&after), shown(&before), "what shows the name is written again");
    let list =
        |state: &State| [state.answer.version(), state.rooms.list.version(), state.aside.version()];
    assert_eq!(list(&after), list(&before), "and the list, which does not, is kept");
    assert!(!after.is_example(), "named, it is the visitor's own");
    // A listing that somebody stopped stays stopped.
    let many = State::with(Saved::of(example::marigold())).after(OnAnswer::Stop);
    assert_eq!(typed(&many, 0, "Rear").under_way.asking, Asking::Stopped);
}

#[test]
fn what_is_no_name_is_told_beside_it_and_kept_and_stands_in_no_way() {
    for wrong in ["x".repeat(61), "two\tcolumns".to_owned(), "\u{85}".to_owned()] {
        let state = typed(&marigold(), 0, &wrong);
        assert_eq!(state.question.form.groups[0].name, wrong);
        let trouble = state.question.read.at(Place::Group(0, Group::Name)).unwrap();
        assert!(
            matches!(&trouble.what, What::Problem(problem) if problem.code == Code::OutOfRange)
        );
        assert!(state.is_current() && state.question.read.troubles.is_empty());
        assert_eq!(state.names(), [""], "shown nowhere");
        let link = link::write(&state.saved());
        assert_eq!(link::open(&link).unwrap().saved.form, state.question.form);
    }
    assert_eq!(
        typed(&marigold(), 0, &"é".repeat(60)).question.read.at(Place::Group(0, Group::Name)),
        None
    );
}

#[test]
fn a_plan_takes_a_name_without_being_another_plan() {
    let state = marigold();
    let key = state.shown().unwrap().key();
    let wiring = state.after(OnPage::Wire(key)).after(OnJob::DoneNext).after(InWire::Copied(true));
    let named = typed(&wiring, 0, "Rear doors");
    assert_eq!(named.job.work, wiring.job.work);
    let (before, after) = (wiring.job.wired.clone().unwrap(), named.job.wired.clone().unwrap());
    assert_eq!((&after.plan, &after.configuration), (&before.plan, &before.configuration));
    assert_eq!((&*before.names, &*after.names), (&["".to_owned()][..], &["Rear doors".into()][..]));
    assert!(!named.rooms.wire.is_copied(), "what was copied had no name");
    // And so it opens.
    let again = answered(&State::with(link::open(&link::write(&named.saved())).unwrap().saved));
    assert_eq!(again.page.room, Room::Wire);
    assert_eq!(again.job.wired.as_ref().unwrap().names, ["Rear doors"]);
}

#[test]
fn a_name_typed_while_something_is_missing_is_there_once_nothing_is() {
    let four = answered(&marigold().after(Edit::Set(Place::Group(0, Group::Count), "4".into())));
    let state = four.after(Edit::Set(Place::Group(0, Group::Count), String::new()));
    let state = typed(&state, 0, "Rear doors");
    assert_eq!(state.names(), [""], "the answer is that of the rig before");
    let again = state.after(Edit::Set(Place::Group(0, Group::Count), "4".into()));
    assert!(again.is_current(), "the same rig needs no other answer");
    assert_eq!(again.names(), ["Rear doors"]);
    let more = answered(&state.after(Edit::Set(Place::Group(0, Group::Count), "2".into())));
    assert_eq!(more.names(), ["Rear doors"]);
}

#[test]
fn a_rig_by_another_name_is_the_same_rig_to_compare() {
    let state = marigold();
    let key = state.shown().unwrap().key();
    let aside = state.after(OnAside::Compare(key.clone()));
    let named = typed(&aside, 0, "Rear doors");
    assert!(named.is_compared(&key));
    assert_eq!(named.aside.compared[0].form.names(), ["Rear doors"]);
    let link = link::write(&named.saved());
    assert!(!link.contains("compare=v"), "its key is enough: {link}");
    // Another rig keeps the names that it had.
    let other = named.after(Edit::Set(Place::Group(0, Group::Count), "2".into()));
    let other = typed(&answered(&other), 0, "Boot");
    assert_eq!(other.aside.compared[0].form.names(), ["Rear doors"]);
}

#[test]
fn a_group_that_comes_back_has_its_name() {
    let state = typed(&marigold().after(Edit::AddGroup), 1, "Boot");
    let gone = state.after(Edit::RemoveGroup(1));
    assert_eq!(gone.question.form.names(), [""]);
    assert_eq!(gone.after(OnPage::Undo(false)).question.form.names(), ["", "Boot"]);
}
