//! Work that a link brought, and what comes later.

use super::*;
use crate::job::work::Work;

/// What a link says is done was done of the plan that the link is about.
#[test]
fn what_a_link_says_is_done_is_not_done_of_another_plan() {
    let link = "v=1&key=1:1a||2a&box=one~~~chain&drivers=2~1~2~500&amplifier=1~1&channel=1~1:1000\
        &job=3~7&meter=0~0.2";
    let opened = State::with(link::open(link).unwrap().saved);
    assert_eq!(opened.job.work.done, [0, 1, 2]);
    let wired = |state: &State| state.after(OnPage::Room(Room::Wire));
    assert_eq!(wired(&answer(&opened)).job.work.done, [0, 1, 2]);
    // The watts are no part of the plan; how the coils are joined is.
    let set = |state: &State, place: Place, text: &str| state.after(Edit::Set(place, text.into()));
    let watts = answer(&set(&opened, Place::Group(0, Group::Watts), "300"));
    assert_eq!(wired(&watts).job.work.done, [0, 1, 2]);
    let joined = answer(&opened).after(OnPage::Choose(Some("1:1a+2a".into())));
    assert_eq!(wired(&joined).job.work, Work::default());
}
