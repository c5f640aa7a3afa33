use super::*;
use crate::answer::asking::Question;
use crate::link;
use crate::question::fields::Group;
use crate::question::place::Place;
use crate::state::action::acts::*;

/// The page of a link, answered.
fn opened(link: &str) -> State {
    let state = State::with(link::open(link).unwrap().saved);
    let request = state.question.read.request.clone().unwrap();
    state.after(OnAnswer::Answered(Question::answer(request)))
}

/// A tab shows the beginning alone, a list of bookmarks little more, and a screen reader
/// begins with it.
#[test]
fn the_title_names_the_room_and_then_what_is_chosen() {
    const RIG: &str = "drivers=2~2~2~500&amplifier=1~1&channel=1~1:1000";
    const KEY: &str = "key=1:(1a%2B1b)%7C%7C(2a%2B2b)";
    let cases = [
        ("", "Ways to wire it: 2 × dual 2 Ω, 500 W each; least load 1 Ω · Coilwright"),
        (KEY, "Chosen: 2 Ω, (1a + 1b) ∥ (2a + 2b) · Coilwright"),
        ("view=wire", "Wire it: 2 Ω, (1a + 1b) ∥ (2a + 2b) · Coilwright"),
        ("view=work", "Working mode: 2 Ω, (1a + 1b) ∥ (2a + 2b) · Coilwright"),
        ("view=sheet", "Job sheet: 2 Ω, (1a + 1b) ∥ (2a + 2b) · Coilwright"),
        ("view=help", "Help · Coilwright"),
        ("view=closed", "What is in my box? · Coilwright"),
        ("view=rigs", "Saved rigs · Coilwright"),
        ("view=compare", "Side by side · Coilwright"),
        ("view=compare&compare=1:1a%2B1b%2B2a%2B2b", "Side by side: 1 configuration · Coilwright"),
    ];
    for (view, want) in cases {
        let key =
            if ["wire", "work", "sheet"].iter().any(|one| view.ends_with(one)) { KEY } else { "" };
        let state = opened(&format!("v=1&{key}&{view}&{RIG}").replace("&&", "&"));
        assert_eq!(title(&state), want);
    }
}

#[test]
fn a_rig_with_a_name_is_called_by_it_and_the_example_is_the_page() {
    let state = opened("v=1&view=wire&key=1a%2B2a&drivers=2~1~4~")
        .after(InRigs::Name(" Rear doors ".into()));
    assert_eq!(title(&state), "Wire it: Rear doors, 8 Ω, 1a + 2a · Coilwright");
    let list = state.after(OnPage::Room(Room::List)).after(OnPage::Choose(None));
    assert_eq!(title(&list), "Ways to wire it: Rear doors · Coilwright");
    let first = State::with(link::Saved::of(crate::question::example::marigold()));
    assert_eq!(title(&first), crate::words::page::room::TITLE);
    let typed = first.after(Edit::Set(Place::Group(0, Group::Count), "2".into()));
    assert!(title(&typed).starts_with("Ways to wire it: 2 × dual 4 Ω"), "{}", title(&typed));
    let empty = first.after(OnPage::StartEmpty);
    assert_eq!(title(&empty), "Ways to wire it · Coilwright");
}
