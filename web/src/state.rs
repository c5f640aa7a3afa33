//! The state of the page and the one function that changes it.
//!
//! Nothing here touches the browser: what happens is an [`Action`], and [`State::after`]
//! says what the page is then. Storage, address and the running of a listing are
//! effects of the page upon the state, in `shell`.

pub mod action;
mod choosing;
pub mod draft;
pub mod opening;
pub mod page;
mod replacing;
mod standing;
pub mod undo;

use crate::answer::{self, Answer, Asking, UnderWay};
use crate::aside::Aside;
use crate::job::{self, Job};
use crate::later::{self, Later, comes_later};
use crate::link::Saved;
use crate::question::form::Form;
use crate::question::{Edit, Question};
use crate::rooms::{Doing, Given, Remembers, Room, Rooms, Wish};
use crate::tracked::Tracked;
pub use action::Action;
pub use page::{Handed, Notice, Page};
use undo::Undo;

/// Everything the page shows.
#[derive(Clone, Debug)]
pub struct State {
    /// What stands in the fields.
    pub question: Tracked<Question>,
    /// What was answered, and what of it is chosen.
    pub answer: Tracked<Answer>,
    /// What stood in the fields when that answer came.
    pub asked: Tracked<Form>,
    /// How the answering of the present request stands.
    pub under_way: Tracked<UnderWay>,
    /// What was put aside to compare.
    pub aside: Tracked<Aside>,
    /// The job on the plan.
    pub job: Tracked<Job>,
    /// What rooms remember.
    pub rooms: Rooms,
    /// The page beside its rooms.
    pub page: Tracked<Page>,
    /// What can be undone.
    pub undo: Undo,
}

impl State {
    /// A page with these fields.
    #[must_use]
    pub fn with(saved: Saved) -> Self {
        let mut rooms = Rooms::default();
        rooms.begin(saved.rooms);
        let job = Job::of(saved.work, &saved.form, saved.key.as_ref(), saved.waits);
        let mut state = Self {
            question: Tracked::new(Question::of(saved.form)),
            answer: Tracked::new(Answer { key: saved.key, ..Answer::default() }),
            asked: Tracked::default(),
            under_way: Tracked::default(),
            aside: Tracked::new(Aside { compared: saved.compared }),
            job: Tracked::new(job),
            rooms,
            page: Tracked::new(Page { room: saved.room, ..Page::default() }),
            undo: Undo::default(),
        };
        state.keep_what_can_be_compared();
        state.ask();
        state
    }

    /// What the page is after something happened.
    #[must_use]
    pub fn after(&self, action: impl Into<Action>) -> Self {
        let mut next = self.clone();
        next.apply(action);
        next
    }

    /// Lets something happen.
    pub fn apply(&mut self, action: impl Into<Action>) {
        let action = action.into();
        self.leave_behind(&action);
        if action.is_done() {
            self.is_done();
        }
        match action {
            Action::Edit(edit) => self.edit(edit),
            Action::Answer(action) => self.take_answer(action),
            Action::Aside(action) => self.aside.act(action, &self.asked),
            Action::Job(action) => self.act_on_job(action),
            Action::Room(doing) => self.act_in_room(doing),
            Action::Page(action) => self.turn(action),
        }
        self.plan();
    }

    /// Plans, where there is something to plan and what plans is there.
    fn plan(&mut self) {
        if self.page.room.is_on_plan()
            && let Some(there) = later::there()
        {
            choosing::plan(there, self);
        }
    }

    /// The visitor did something: what was said of before is of what stood there then.
    fn is_done(&mut self) {
        if !self.page.touched || self.page.handed != Handed::No {
            self.page.touched = true;
            self.page.handed = Handed::No;
        }
        if self.rooms.rigs.said.is_some() {
            self.rooms.rigs.said = None;
        }
    }

    fn edit(&mut self, edit: Edit) {
        let (named, typed) = (edit.is_name(), matches!(edit, Edit::Set(..)));
        let changed = matches!(edit, Edit::Change(_));
        self.question.edit(edit);
        if self.page.room == Room::Wire {
            self.rooms.wire.unfold();
        }
        if named {
            // A name is no part of the question: whoever types one waits for no list.
            self.question.read();
            return self.spread_names();
        }
        // While somebody types the list stays as it is until its answer comes.
        if typed {
            self.under_way.another = true;
        } else if !changed {
            self.rooms.list.start_over();
        }
        self.ask();
    }

    fn take_answer(&mut self, action: answer::Action) {
        match action {
            answer::Action::Progress(progress) => self.under_way.is_this_far(progress),
            answer::Action::Answered(answered) => self.answer_with(answered),
            answer::Action::Nearest(found) => self.answer.nearest = Some(found),
            answer::Action::Stop => self.under_way.asking = Asking::Stopped,
            answer::Action::GoOn => self.under_way.asking = Asking::BEGUN,
        }
    }

    pub(in crate::state) fn act_on_job(&mut self, action: job::Action) {
        let goes = matches!(action, job::Action::GoTo(_));
        if goes && !matches!(self.page.room, Room::Wire | Room::Work) {
            self.page.room = Room::Work;
        }
        if let Some(there) = later::there() {
            job::act(there, &mut self.job, &mut Some(action));
        }
    }

    fn act_in_room(&mut self, doing: Doing) {
        // The list is there from the start; of the others nothing is drawn before they are.
        let wish = match (doing, later::there()) {
            (Doing::List(action), _) => {
                let given = Given { question: &self.question, answer: &self.answer };
                self.rooms.list.act(action, given)
            }
            (doing, Some(there)) => {
                let mut wish = Wish::Nothing;
                act_in_other_room(there, self, &mut Some(doing), &mut wish);
                wish
            }
            (_, None) => Wish::Nothing,
        };
        match wish {
            Wish::Nothing => {}
            Wish::Touch => self.page.touched = true,
            Wish::Begin(form, load) => {
                self.start_with(*form);
                self.rooms.list.begin_at(load);
            }
        }
    }

    fn turn(&mut self, action: page::Action) {
        use page::Action;
        match action {
            Action::Choose(key) => self.choose(key),
            Action::Return(key, room) => {
                self.page.room = room;
                self.choose(key);
            }
            Action::Leave if self.page.room == Room::List => self.choose(None),
            Action::Leave => self.page.room = Room::List,
            Action::All => {
                self.page.room = Room::List;
                self.choose(None);
            }
            Action::Room(room) => {
                self.page.room = room;
                // Whoever asks for a room asks for what did not come once more.
                if self.page.later == Later::Missing {
                    self.page.later = Later::Waiting;
                }
            }
            Action::Wire(key) => {
                self.choose(Some(key));
                self.page.room = Room::Wire;
            }
            Action::Believe(key) => {
                self.choose(key);
                if let Some(there) = later::there() {
                    choosing::believe(there, self);
                }
            }
            Action::Sun => self.page.sun = !self.page.sun,
            Action::StartEmpty => self.start_with(Form::default()),
            Action::ShowExample => self.start_with(crate::question::example::marigold()),
            Action::Undo(on) => self.undo(on),
            Action::Erased(left) => self.undo.leave(left),
            Action::Exchanged(on, text) => self.exchanged(on, text),
            Action::Open(opened, mine) => self.open(*opened, mine),
            Action::NotKept(why) => self.page.notice(why),
            Action::Kept { newer: false } => self.page.kept = true,
            Action::Kept { newer: true } => self.page.newer = true,
            Action::NotNow => self.page.newer = false,
            Action::Later(later) => self.page.later = later,
            Action::Dismiss(i) => {
                if i < self.page.notices.len() {
                    self.page.notices.remove(i);
                }
            }
            Action::Handed(handed) => self.page.handed = handed,
        }
    }
}

comes_later! {
    "00000000000000000000000000000003"
    /// Does something in a room that is not the list, and tells what it wants of the page.
    fn act_in_other_room(state: &mut State, doing: &mut Option<Doing>, wish: &mut Wish) {
        if let Some(doing) = doing.take() {
            let given = Given { question: &state.question, answer: &state.answer };
            *wish = state.rooms.act(doing, given);
        }
    }
}

#[cfg(test)]
mod tests;
