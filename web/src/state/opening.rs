//! What the page opens with: the link, else what this tab kept, else what was kept
//! last on this device, else the example.
//!
//! The address lags behind what is typed, and what would be written to it as the page goes
//! comes too late for a refresh, or spoils it. So on a refresh what the tab kept wins, and the link
//! only where it comes from elsewhere.

use super::draft;
use super::undo::Undo;
use super::{Notice, State};
use crate::answer::Asking;
use crate::link::{self, Opened, Saved};
use crate::question::example::marigold;
use crate::rooms::rigs::Mine;

/// What lies ready when the page opens.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// The address's fragment.
    pub fragment: String,
    /// The draft of this tab.
    pub own: Option<String>,
    /// What this tab kept to be undone.
    pub undo: Option<String>,
    /// The draft that was kept last by any tab.
    pub latest: Option<String>,
    /// Whether the address belongs to the draft of this tab: a refresh, not a new link.
    pub refreshed: bool,
    /// Whether the page was last drawn for the sun.
    pub sun: bool,
    /// Whether the page was at work on its question when it ended.
    pub was_working: bool,
}

/// Opens the page.
#[must_use]
pub fn open(found: &Found) -> State {
    let draft = |text: &Option<String>| text.as_deref().and_then(draft::open_draft);
    let own = draft(&found.own);
    let refreshed = found.refreshed && own.is_some();
    let from_link = link::open(&found.fragment).filter(|_| !refreshed);
    let linked = from_link.is_some();
    let stored = own.or_else(|| draft(&found.latest));
    let mut undo = found.undo.as_deref().map(Undo::read).unwrap_or_default();
    let mut touched = linked;
    let mut mine = Mine::default();
    let opened = match (from_link, stored) {
        (Some(link), stored) => {
            if let Some((stored, of)) = stored
                && stored.saved.is_worth_keeping()
            {
                if stored.saved.is_same(&link.saved) {
                    mine = of;
                } else {
                    undo.replaced(&stored.saved, &of);
                }
            }
            link
        }
        (None, Some((stored, of))) => {
            touched = true;
            mine = of;
            stored
        }
        (None, None) => Opened { saved: Saved::of(marigold()), left_out: Vec::new() },
    };
    let mut state = State::with(opened.saved);
    let page = &mut state.page;
    (page.touched, page.sun) = (touched, found.sun);
    state.undo = undo;
    if !opened.left_out.is_empty() {
        page.notices.insert(0, Notice::LeftOut(opened.left_out));
    }
    state.rooms.rigs.is_of(mine);
    if found.was_working && state.under_way.asking != Asking::Idle {
        state.under_way.asking = Asking::Waiting;
    } else {
        state.foresee();
    }
    state
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::action::acts::*;

    const RIG: &str = "v=1&drivers=2~2~4~500";
    const OTHER: &str = "v=1&drivers=3~1~8~";

    fn found(fragment: &str, own: &str, latest: &str) -> Found {
        let some = |text: &str| (!text.is_empty()).then(|| text.to_string());
        Found {
            fragment: fragment.into(),
            own: some(own),
            latest: some(latest),
            ..Found::default()
        }
    }

    fn count(state: &State) -> &str {
        &state.question.form.groups[0].count
    }

    #[test]
    fn a_first_visit_shows_the_example_and_saves_nothing_yet() {
        let state = open(&found("", "", ""));
        assert!(state.is_example() && !state.page.touched);
        let state = open(&found("#somewhere", "", ""));
        assert!(state.is_example());
    }

    #[test]
    fn a_link_wins_and_the_draft_is_one_tap_back() {
        let state = open(&found(RIG, OTHER, ""));
        assert_eq!(count(&state), "2");
        assert_eq!(state.undo.page().unwrap().0.form.groups[0].count, "3");
        let back = state.after(OnPage::Undo(false));
        assert_eq!(count(&back), "3");
        assert_eq!(back.after(OnPage::Undo(true)).question.form.groups[0].count, "2");
    }

    #[test]
    fn a_refresh_finds_its_own_draft_and_no_previous() {
        let state = open(&found(RIG, RIG, OTHER));
        assert_eq!(count(&state), "2");
        assert_eq!(state.undo.page(), None);
        let state = open(&Found { undo: Some(OTHER.into()), ..found(RIG, RIG, "") });
        assert_eq!(state.undo.page().unwrap().0.form.groups[0].count, "3");
    }

    #[test]
    fn a_refresh_keeps_what_the_address_had_no_time_for() {
        let state = open(&Found { refreshed: true, ..found(RIG, OTHER, "") });
        assert_eq!(count(&state), "3");
        assert_eq!(state.undo.page(), None);
        let state = open(&Found { refreshed: true, ..found(RIG, "", "") });
        assert_eq!(count(&state), "2", "without a draft there is the link");
    }

    #[test]
    fn a_new_tab_goes_on_from_the_latest_draft() {
        assert_eq!(count(&open(&found("", "", OTHER))), "3");
        assert_eq!(count(&open(&found("", RIG, OTHER))), "2");
    }

    #[test]
    fn what_nobody_typed_is_not_kept_as_previous() {
        let example = link::write(&Saved::of(marigold()));
        assert_eq!(open(&found(RIG, &example, "")).undo.page(), None);
    }

    #[test]
    fn a_broken_link_or_draft_opens_a_working_page_with_a_notice() {
        let state = open(&found("#v=1&drivers=%%%&order=sideways", "", ""));
        assert_eq!(state.question.form.groups.len(), 1);
        assert!(matches!(&state.page.notices[..], [Notice::LeftOut(parts)] if parts.len() == 2));
        let state = open(&found("", "garbage", ""));
        assert!(state.is_example());
    }

    /// Neither takes the list, so nothing moves when that comes: a plan that is opened is
    /// there from the start, and so is what is said of a key that cannot be.
    #[test]
    fn what_is_chosen_and_its_plan_are_known_before_the_list_is() {
        let answered = |state: &State| {
            let request = state.question.read.request.clone().unwrap();
            let answer = crate::answer::asking::Question::answer(request);
            state.after(OnAnswer::Answered(answer))
        };
        let plan = "v=1&view=wire&key=(1a%2B1b)%7C%7C(2a%2B2b)&drivers=2~2~4~500";
        let state = open(&found(plan, "", ""));
        assert!(state.answer.answered.is_none() && state.job.wired.is_some());
        let later = answered(&state);
        assert_eq!(later.job.wired, state.job.wired);
        assert_eq!(later.names(), state.names());
        assert_eq!(
            later.answer.chosen.as_ref().unwrap().key(),
            state.answer.chosen.as_ref().unwrap().key()
        );
        let wrong = open(&found("v=1&key=1a&drivers=2~2~4~500", "", ""));
        assert_eq!(wrong.page.notices, [Notice::KeyUnknown]);
        assert_eq!(answered(&wrong).page.notices, wrong.page.notices);
        // A question that stopped the page is not touched again.
        let stopped = open(&Found { was_working: true, ..found(plan, "", "") });
        assert!(stopped.answer.chosen.is_none() && stopped.job.wired.is_none());
    }

    #[test]
    fn a_question_that_stopped_the_page_waits_for_a_tap() {
        let state = open(&Found { was_working: true, ..found(RIG, RIG, "") });
        assert_eq!(state.under_way.asking, Asking::Waiting);
        let state = state.after(OnAnswer::GoOn);
        assert!(matches!(state.under_way.asking, Asking::Working(_)));
    }
}
