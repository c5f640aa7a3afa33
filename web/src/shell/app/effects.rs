//! What the state does to the page around it: choices in selects, the keyboard, the screen,
//! the listing.

use super::App;
use crate::act::Do;
use crate::answer::Asking;
use crate::later;
use crate::parts::{blank, handing, reading, verdict};
use crate::rooms::list::state as list;
use crate::rooms::{Room, already, work};
use crate::shell::drafts;
use crate::shell::listing::Listing;
use crate::shell::page;
use crate::state::{Handed, State};

impl App {
    /// Makes the choices of the form in the elements that show them, and the choice of
    /// how the page is drawn.
    pub(super) fn choose(&mut self) {
        let state = &self.state;
        let form = &state.question.form;
        for (id, value) in blank::chosen(form) {
            self.host.choose(&id, value);
        }
        let believed = state.answer.chosen.as_ref().and(state.answer.key.as_deref());
        self.host.choose(already::view::BELIEVED, believed.unwrap_or_default());
        self.host.choose("order", list::order_name(state.wanted().order));
        if self.before.sun != Some(state.page.sun) {
            self.before.sun = Some(state.page.sun);
            drafts::draw_for_sun(&*self.host, state.page.sun);
        }
    }

    /// Keeps the screen on while somebody works, and reads the step at hand aloud where
    /// that is wanted.
    pub(super) fn work_goes_on(&mut self) {
        let state = &self.state;
        let working = state.page.room == Room::Work;
        if working != self.before.working {
            self.before.working = working;
            self.host.hold(working);
        }
        let lit = state.job.lit().first().copied();
        if lit != self.before.lit {
            self.before.lit = lit;
            self.host.show_lit();
        }
        // Every step begins at its top.
        let at = working.then(|| (state.job.at(), state.job.over));
        if at != self.before.at {
            if at.is_some() && self.before.at.is_some() {
                self.host.go_to(work::view::TITLE);
            }
            self.before.at = at;
        }
        if state.job.reached.0 != self.before.reached
            && let Some(point) = state.job.reached.1
        {
            self.host.go_to(&reading::id_of(point));
        }
        self.before.reached = state.job.reached.0;
        let spoken = (working && state.rooms.work.is_aloud()).then_some(state.job.at());
        if spoken != self.before.spoken {
            self.before.spoken = spoken;
            match (spoken, state.job.wired.as_deref()) {
                (Some(step), Some(wired)) => self.host.say(&work::view::spoken(state, wired, step)),
                _ => self.host.say(""),
            }
        }
    }

    /// Names the window after the room and what it is about, and goes to the link once it is
    /// shown.
    pub(super) fn entitle(&mut self) {
        let title = page::title(&self.state);
        if title != self.before.title {
            self.host.entitle(&title);
            self.before.title = title;
        }
        let handing = self.state.page.handed == Handed::Shown;
        if handing && !self.before.handing {
            self.host.select(handing::FIELD);
        }
        self.before.handing = handing;
    }

    /// Moves the keyboard to the configuration that was chosen, and back to its entry
    /// when it is left; side by side it stays in the list. To another room it goes too, and
    /// back from one, where what was pressed is gone.
    pub(super) fn follow(&mut self) {
        let now = followed(&self.state);
        if now == self.before.followed {
            // In the place of what was on its way stands something else.
            if core::mem::take(&mut self.before.came) && self.host.is_nowhere() {
                self.host.go_to(if now.0 == Room::List { "chosen" } else { "room" });
            }
            return;
        }
        self.before.came = false;
        let in_list = now.0 == Room::List && now.1.is_none();
        self.before.waited = !in_list && later::there().is_none();
        match (now.0, &now.1, &self.before.followed.1) {
            (Room::List, ..) if self.host.is_wide() && self.before.followed.0 == Room::List => {}
            (Room::List, ..) if self.host.is_wide() => self.host.go_to("answer"),
            (Room::List, Some(_), _) => self.host.go_to("chosen"),
            (Room::List, None, Some(key)) => self.host.go_to(&verdict::id_of(key)),
            (Room::List, None, None) => self.host.go_to("answer"),
            _ => self.host.go_to("room"),
        }
        self.before.followed = now;
    }

    /// Answers the present request, in slices.
    pub(super) fn list(&mut self, act: &Do) {
        let state = &self.state;
        let stopped = matches!(state.under_way.asking, Asking::Stopped | Asking::Waiting);
        let request = state.question.read.request.as_ref().filter(|_| !stopped);
        // A rig that was opened over a like one has no answer yet, though its question is
        // that of before.
        let under_way = self.listing.as_ref().is_some_and(Listing::is_answering);
        let unanswered = state.answer.answered.is_none() && !under_way;
        if request == self.before.request.as_ref() && !(request.is_some() && unanswered) {
            return;
        }
        if self.listing.take().is_some() {
            self.at_work.note(act.host(), false);
        }
        self.before.request = request.cloned();
        // An answer that came stays, unless it was left before it was known what would fit.
        let searching = state.answer.nearest.is_none()
            && state.answer.answered.as_deref().is_some_and(|answered| answered.none_fits());
        if state.is_current() && state.under_way.asking == Asking::Idle && !searching {
            return;
        }
        if let Some(request) = request {
            let mut listing = Listing::new(request, &self.at_work, act);
            if state.answer.answered.is_some() {
                listing.wait(self.before.took, act);
            } else {
                listing.slice(act);
            }
            self.listing = Some(listing);
        }
    }
}

/// What the keyboard follows: the room, and the key of what is shown as chosen.
pub(super) fn followed(state: &State) -> (Room, Option<String>) {
    (state.page.room, state.answer.chosen.as_ref().and(state.answer.key.clone()))
}
